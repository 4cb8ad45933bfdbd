package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gelwright.formula.Formula;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.tree.Document;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the files of the review page")
final class ReviewPageFilesTest {
  private static final Path SOURCES = Path.of("src/main/resources/gelwright/page");
  private static final Pattern IMPORT =
      Pattern.compile("(?m)^(?:import|export)\\b[^;]*?from\\s+['\"]([^'\"]+)['\"]");
  private static final Pattern OPTION =
      Pattern.compile("<option value=\"([^\"]+\\.yaml)\">([^<]+)<");

  /** Bytes that the page may have, compressed; see docs/guide/review-page.md. */
  private static final int MOST_BYTES = 250_000;

  private static Rig rig;

  @BeforeAll
  static void start() {
    rig = Rig.start();
  }

  @AfterAll
  static void stop() {
    rig.close();
  }

  private static String text(String name) {
    return new String(ReviewPage.load().file(name).bytes(), StandardCharsets.UTF_8);
  }

  @Test
  @DisplayName(
      "are listed: all that lie in the sources, all that a script imports, and nothing else")
  void listed() throws IOException {
    TreeSet<String> needed = new TreeSet<>();
    try (Stream<Path> files = Files.list(SOURCES)) {
      files
          .map(path -> path.getFileName().toString())
          .filter(name -> !name.equals(ReviewPage.LIST))
          .forEach(needed::add);
    }
    try (Stream<Path> files = Files.list(Rig.EXAMPLES)) {
      files
          .map(path -> path.getFileName().toString())
          .filter(name -> name.endsWith(".yaml"))
          .forEach(name -> needed.add("examples/" + name));
    }
    Deque<String> scripts = new ArrayDeque<>(List.of("main.js"));
    TreeSet<String> imported = new TreeSet<>();
    while (!scripts.isEmpty()) {
      String name = scripts.pop();
      if (imported.add(name)) {
        Matcher matcher = IMPORT.matcher(text(name));
        while (matcher.find()) {
          scripts.push(Path.of(name).resolveSibling(matcher.group(1)).normalize().toString());
        }
      }
    }
    needed.addAll(imported);
    assertTrue(imported.size() > 60, "the scripts import one another");
    assertEquals(needed, new TreeSet<>(ReviewPage.names()));
    assertEquals(ReviewPage.names().size(), new TreeSet<>(ReviewPage.names()).size());
  }

  @Test
  @DisplayName("have no inline script, no inline style and no address elsewhere")
  void strict() {
    String page = text(ReviewPage.PAGE);
    assertFalse(Pattern.compile("<script(?![^>]*\\ssrc=)").matcher(page).find());
    assertFalse(Pattern.compile("<style|\\sstyle=|\\son[a-z]+=|<base|<form").matcher(page).find());
    for (String name : ReviewPage.names()) {
      if (name.startsWith("yaml-") || name.startsWith("examples/")) {
        continue;
      }
      String text = text(name).replace("http://www.w3.org/2000/svg", "");
      for (String not :
          List.of(
              "http://",
              "https://",
              "//cdn",
              "innerHTML",
              "insertAdjacentHTML",
              "document.write",
              "eval(",
              "new Function",
              "url(",
              "@import")) {
        assertFalse(text.contains(not), () -> name + " has " + not);
      }
    }
  }

  @Test
  @DisplayName("the page is sent with its own policy, its tag, and as HTML")
  void page() {
    Response page = rig.ask().get("/");
    assertEquals(200, page.statusCode());
    assertEquals(ReviewPage.POLICY, page.header("Content-Security-Policy"));
    assertEquals("text/html; charset=utf-8", page.contentType().replace(";c", "; c"));
    assertEquals("no-cache", page.header("Cache-Control"));
    assertEquals(406, rig.ask().accept("application/json").get("/").statusCode());
    assertEquals(400, rig.ask().queryParam("x", "1").get("/").statusCode());
  }

  @ParameterizedTest(name = "{0} is not reached")
  @ValueSource(
      strings = {
        "page.html",
        "files.txt",
        "nothing.js",
        "../api/http/openapi.yaml",
        "%2e%2e/api/http/openapi.yaml",
        "..%2fapi%2fhttp%2fopenapi.yaml",
        "examples/../page.css",
        "examples/%2e%2e/page.css",
        "yaml-2.3.1/../../package.json",
        "yaml-2.3.0/index.js",
        "page.css/",
        "page.css%00"
      })
  void notReached(String name) throws IOException {
    try (Rig.Raw raw = rig.raw()) {
      String answer =
          raw.send(
                  "GET /page/"
                      + name
                      + " HTTP/1.1\r\nHost: 127.0.0.1:"
                      + rig.port()
                      + "\r\nConnection: close\r\n\r\n")
              .rest();
      // An address that is folded before it is looked up may lead to a file of the page, never out.
      assertTrue(
          answer.startsWith("HTTP/1.1 4")
              || (answer.startsWith("HTTP/1.1 200") && answer.contains("Quiet paper")),
          answer);
      assertFalse(answer.contains("openapi: 3"), answer);
    }
  }

  @Test
  @DisplayName("a library may be kept by the browser, what is our own is asked for anew")
  void kept() {
    assertEquals(
        "public, max-age=31536000, immutable",
        rig.ask().get("/page/yaml-2.3.1/index.js").header("Cache-Control"));
    assertEquals("no-cache", rig.ask().get("/page/main.js").header("Cache-Control"));
    assertEquals("text/javascript", Contract.bare(rig.ask().get("/page/main.js").contentType()));
    assertEquals("text/css", Contract.bare(rig.ask().get("/page/page.css").contentType()));
  }

  @Test
  @DisplayName("weigh less than 250 kB compressed, with all that the page asks for at first")
  void weight() {
    int bytes = 0;
    ReviewPage page = ReviewPage.load();
    for (String name : ReviewPage.names()) {
      if (!name.startsWith("examples/")) {
        Representation file = page.file(name);
        bytes += Math.min(file.bytes().length, file.compressed().length);
      }
    }
    for (String asked : List.of("/openapi.json", "/v1/rules", "/v1/ingredients")) {
      bytes += Representation.gzip(rig.ask().get(asked).asByteArray()).length;
    }
    assertTrue(bytes < MOST_BYTES, bytes + " bytes");
    assertTrue(bytes > 50_000, "everything was counted");
  }

  static Stream<String> examples() {
    return OPTION.matcher(text(ReviewPage.PAGE)).results().map(found -> found.group(1));
  }

  @Test
  @DisplayName("offer all example formulas under their names")
  void offered() {
    Map<String, String> offered = new TreeMap<>();
    OPTION
        .matcher(text(ReviewPage.PAGE))
        .results()
        .forEach(one -> offered.put(one.group(1), one.group(2)));
    Map<String, String> there = new TreeMap<>();
    for (String name : ReviewPage.names()) {
      if (name.startsWith("examples/")) {
        String file = name.substring("examples/".length());
        Formula formula =
            new FormulaReader().read(Rig.example(file), file, Document.Format.YAML).orThrow();
        there.put(file, formula.name());
      }
    }
    assertEquals(there, offered);
    assertEquals(8, offered.size());
  }

  @Test
  @DisplayName("are shown in the guide: each example at two widths, in less than 2 MB")
  void pictured() throws IOException {
    long bytes = 0;
    TreeSet<String> pictures = new TreeSet<>();
    try (Stream<Path> files = Files.list(Rig.ROOT.resolve("docs/guide/review-page"))) {
      for (Path picture : files.toList()) {
        pictures.add(picture.getFileName().toString());
        bytes += Files.size(picture);
      }
    }
    TreeSet<String> expected = new TreeSet<>();
    examples()
        .map(file -> file.replace(".yaml", ""))
        .forEach(name -> expected.addAll(List.of(name + "-1600.png", name + "-360.png")));
    assertEquals(expected, pictures);
    assertTrue(bytes < 2_000_000, bytes + " bytes");
  }

  @ParameterizedTest(name = "the example {0} is sent as it stands in the docs")
  @MethodSource("examples")
  void example(String file) {
    Response sent = rig.ask().get("/page/examples/" + file);
    assertEquals(
        new String(Rig.example(file), StandardCharsets.UTF_8),
        new String(sent.asByteArray(), StandardCharsets.UTF_8));
    assertEquals("application/yaml", Contract.bare(sent.contentType()));
  }

  @Test
  @DisplayName("know every rule set that there is")
  void groups() throws IOException {
    String words = text("words.js");
    List<String> strange = new ArrayList<>();
    ObjectNode rules =
        (ObjectNode) new ObjectMapper().readTree(rig.ask().get("/v1/rules").asString());
    rules
        .get("rule-sets")
        .forEach(
            set -> {
              // A set of tables alone has nothing to find.
              if (!set.get("rules").isEmpty()
                  && !words.contains("\"" + set.get("id").asText() + "\"")) {
                strange.add(set.get("id").asText());
              }
            });
    assertEquals(List.of(), strange);
  }

  @Test
  @DisplayName("are open to all where the service has a token; the knowledge is not")
  void open() {
    try (Rig closed =
        Rig.start(settings -> Rig.withToken(settings, "0123456789abcdef-aster", List.of()))) {
      assertEquals(200, closed.ask().get("/").statusCode());
      assertEquals(200, closed.ask().get("/page/main.js").statusCode());
      assertEquals(401, closed.ask().get("/page").statusCode());
      assertEquals(401, closed.ask().get("/v1/ingredients").statusCode());
    }
  }
}
