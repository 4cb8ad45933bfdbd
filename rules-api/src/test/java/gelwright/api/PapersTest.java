package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import gelwright.api.html.Pages;
import gelwright.api.html.Paper;
import gelwright.api.html.Papers;
import gelwright.formula.Formula;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jsoup.parser.Parser;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("papers as pages and as text")
final class PapersTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Engine.Loaded KNOWLEDGE =
      new BundledEngine().load(List.of(), List.of()).value().orElseThrow();

  /** A4 in points, and the least margin of the style sheet (16 mm), less what rounding takes. */
  private static final double WIDTH = 595.3;

  private static final double HEIGHT = 841.9;
  private static final double MARGIN = 44;

  private static final String WORST =
      "<script>alert(1)</script>\"'><img src=x onerror=alert(1)></style></title>\\u202e";

  private static List<Paper> papers(Formula formula) {
    return List.of(
        Papers.of(KNOWLEDGE.batch(formula, Quantity.of(2, Unit.KILOGRAM), DAY)),
        Papers.of(KNOWLEDGE.label(formula, DAY)),
        Papers.of(KNOWLEDGE.stability(formula, DAY)));
  }

  private static Formula read(byte[] sheet) {
    Attempt<Formula> read = KNOWLEDGE.read(sheet, "sheet.yaml");
    return read.value().orElseThrow(() -> new AssertionError(read.problems().toString()));
  }

  private static Formula hostile() {
    String json = WORST.replace("\"", "\\\"");
    return read(
        """
        formula: "NAME"
        version: "NAME"
        product: { markets: [EU], pH: 4 to 5 }
        equipment: { balance: 0.01 g }
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: "NAME", name: "NAME", share: 3 % }
          - { phase: A, name: Sodium Benzoate, share: 0.4 % }
          - { phase: A, name: Citric Acid, share: to-pH }
        method:
          - { do: mix, phase: "NAME", for: 5 min }
          - { do: adjust-pH, with: "NAME", to: 4.5 }
        """
            .replace("NAME", json)
            .getBytes(StandardCharsets.UTF_8));
  }

  static Stream<Path> examples() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      return files.filter(path -> path.toString().endsWith(".yaml")).sorted().toList().stream();
    }
  }

  @ParameterizedTest(name = "{0}: sound HTML, and the text says what the page says")
  @MethodSource("examples")
  void pages(Path example) throws IOException {
    for (Paper paper : papers(read(Files.readAllBytes(example)))) {
      Parser parser = Parser.htmlParser().setTrackErrors(20);
      Document page = parser.parseInput(Pages.of(paper), "");
      assertTrue(parser.getErrors().isEmpty(), () -> parser.getErrors().toString());
      String text = PaperText.of(paper, Ink.PLAIN).replaceAll("\\s+", " ");
      for (Element item : page.select("main p, main li, main td, main dd, footer p")) {
        String own = item.ownText().strip();
        boolean toFillIn = !item.select(".fill").isEmpty() || item.is(".number, .word");
        if (!toFillIn) {
          assertTrue(text.contains(own), () -> "not in the text: " + own);
        }
      }
      assertFalse(page.body().text().contains("null"), page.title());
      assertTrue(page.select("h2").stream().noneMatch(heading -> heading.text().isBlank()));
    }
  }

  @Test
  @DisplayName("a sheet full of markup gives pages and text without any")
  void hostileSheet() {
    for (Paper paper : papers(hostile())) {
      Document page = Jsoup.parse(Pages.of(paper));
      assertTrue(page.select("script, img, iframe, object, link").isEmpty());
      assertEquals(1, page.select("style").size());
      for (Element element : page.getAllElements()) {
        element
            .attributes()
            .forEach(
                attribute ->
                    assertTrue(
                        List.of(
                                "lang",
                                "role",
                                "charset",
                                "http-equiv",
                                "content",
                                "name",
                                "class",
                                "scope")
                            .contains(attribute.getKey()),
                        attribute.getKey()));
      }
      assertTrue(page.select("h1").text().startsWith("<script>alert(1)</script>"));
      for (String written : List.of(page.wholeText(), PaperText.of(paper, Ink.PLAIN))) {
        assertFalse(written.contains("\u202e"), "turns the order of reading");
        assertFalse(written.contains("\u001b"), "steers a terminal");
      }
    }
  }

  @ParameterizedTest(name = "{0} keeps within 84 characters a line")
  @ValueSource(strings = {"wind-shelter-gel-cream.yaml", "greenhouse-cool-down-spray.yaml"})
  void width(String example) throws IOException {
    for (Paper paper : papers(read(Files.readAllBytes(EXAMPLES.resolve(example))))) {
      PaperText.of(paper, Ink.PLAIN)
          .lines()
          .forEach(line -> assertTrue(line.length() <= TextPage.WIDTH, line));
    }
  }

  // --- print ---

  private static boolean has(String program) {
    try {
      Process process = new ProcessBuilder(program, "--version").start();
      process.getInputStream().readAllBytes();
      return process.waitFor(30, TimeUnit.SECONDS);
    } catch (IOException none) {
      return false;
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      return false;
    }
  }

  private static String run(Path log, String... command) throws Exception {
    Process process =
        new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile()).start();
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      process.destroyForcibly();
    }
    return Files.readString(log);
  }

  private record Word(int page, double left, double top, double right, double bottom) {}

  @Test
  @DisplayName("a batch sheet prints on A4: all its words are there, none beyond the margin")
  void prints(@TempDir Path folder) throws Exception {
    assumeTrue(has("chromium"), "no chromium here: not printed");
    assumeTrue(has("pdftotext"), "no pdftotext here: not printed");
    // Names without a place to break at, too.
    String sheet =
        Files.readString(EXAMPLES.resolve("wind-shelter-gel-cream.yaml"))
            .replace("formula: ", "formula: " + "Gel".repeat(60) + " ")
            .replace(
                "method:\n",
                "  - { phase: "
                    + "P".repeat(50)
                    + ", name: "
                    + "Fern".repeat(50)
                    + ", share: 1 % }\nmethod:\n");
    Formula formula = read(sheet.getBytes(StandardCharsets.UTF_8));
    String html = Pages.of(papers(formula).get(0));
    Path page = folder.resolve("page.html");
    Path pdf = folder.resolve("page.pdf");
    Files.writeString(page, html);
    run(
        folder.resolve("log"),
        "chromium",
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--no-pdf-header-footer",
        "--user-data-dir=" + folder.resolve("profile"),
        "--print-to-pdf=" + pdf,
        page.toUri().toString());
    assumeTrue(Files.exists(pdf), "chromium did not print here");
    Path boxes = folder.resolve("boxes.html");
    run(folder.resolve("log"), "pdftotext", "-bbox", pdf.toString(), boxes.toString());
    List<Word> words = new ArrayList<>();
    StringBuilder printed = new StringBuilder();
    int pages = 0;
    for (String line : Files.readAllLines(boxes)) {
      Matcher size =
          Pattern.compile("<page width=\"([0-9.]+)\" height=\"([0-9.]+)\">").matcher(line);
      if (size.find()) {
        pages++;
        assertEquals(WIDTH, Double.parseDouble(size.group(1)), 1);
        assertEquals(HEIGHT, Double.parseDouble(size.group(2)), 1);
      }
      Matcher word =
          Pattern.compile(
                  "<word xMin=\"([0-9.-]+)\" yMin=\"([0-9.-]+)\" xMax=\"([0-9.-]+)\""
                      + " yMax=\"([0-9.-]+)\">(.*)</word>")
              .matcher(line);
      if (word.find()) {
        words.add(
            new Word(
                pages,
                Double.parseDouble(word.group(1)),
                Double.parseDouble(word.group(2)),
                Double.parseDouble(word.group(3)),
                Double.parseDouble(word.group(4))));
        printed.append(Jsoup.parse(word.group(5)).text());
      }
    }
    assertTrue(pages >= 3 && pages <= 8, "pages: " + pages);
    for (Word word : words) {
      assertTrue(
          word.left() >= MARGIN && word.right() <= WIDTH - MARGIN && word.bottom() <= HEIGHT,
          () -> "beyond the margin: " + word);
    }
    String all = printed.toString().replaceAll("\\s", "");
    List<String> own =
        Jsoup.parse(html).body().getAllElements().stream()
            .flatMap(element -> Stream.of(element.ownText().split("\\s+", -1)))
            .toList();
    assertTrue(own.size() > 200, "the page has words");
    for (String word : own) {
      // A word too long for its line is broken, perhaps with another cell between its parts.
      String start = word.substring(0, Math.min(word.length(), 8));
      assertTrue(all.contains(start), () -> "not printed: " + word);
    }
  }
}
