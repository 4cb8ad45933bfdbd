package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import gelwright.review.Include;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Entities;
import org.jsoup.nodes.TextNode;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A report in a real browser: printed on A4, and on a narrow screen. Skipped where there is none.
 */
@DisplayName("a report in a browser")
final class ReportPrintTest {
  private static final List<String> BROWSERS =
      List.of("chromium", "chromium-browser", "google-chrome", "chrome");

  private static final Pattern HYPHEN =
      Pattern.compile("(?<=[\\p{L}\\p{N}])-\\s*(?=[\\p{L}\\p{N}])");
  private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{N}]+");

  @TempDir private Path folder;

  private static Optional<Path> program(List<String> names) {
    for (String name : names) {
      for (String place : System.getenv().getOrDefault("PATH", "").split(":", -1)) {
        Path program = Path.of(place, name);
        if (Files.isExecutable(program)) {
          return Optional.of(program);
        }
      }
    }
    return Optional.empty();
  }

  private static Path browser() {
    Optional<Path> browser = program(BROWSERS);
    assumeTrue(browser.isPresent(), "no browser here (" + String.join(", ", BROWSERS) + ")");
    return browser.get();
  }

  private String run(List<String> call) throws IOException, InterruptedException {
    Path out = Files.createTempFile(folder, "out", ".txt");
    Process process =
        new ProcessBuilder(call)
            .redirectOutput(out.toFile())
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    if (!process.waitFor(60, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new AssertionError("did not end: " + call);
    }
    assertEquals(0, process.exitValue(), () -> "failed: " + call);
    return Files.readString(out);
  }

  private List<String> headless(String... more) {
    List<String> call =
        new ArrayList<>(
            List.of(
                browser().toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                "--user-data-dir=" + folder.resolve("profile")));
    call.addAll(List.of(more));
    return call;
  }

  /**
   * Letters and digits only, as often as each word stands there. Parts of a word with a hyphen are
   * one: at the end of a line the reader of the paper leaves it out.
   */
  private static Map<String, Integer> words(String text) {
    Map<String, Integer> words = new TreeMap<>();
    String joined = HYPHEN.matcher(text.toLowerCase(Locale.ROOT)).replaceAll("");
    Matcher matcher = WORD.matcher(joined);
    while (matcher.find()) {
      words.merge(matcher.group(), 1, Integer::sum);
    }
    return words;
  }

  static Stream<Arguments> printed() {
    return Stream.of(
        Arguments.of("nettle-calm gel", Examples.drawn("nettle-calm-gel.yaml"), 12),
        // With other letters than ours it may take some lines more.
        Arguments.of("a name that nobody knows", Examples.stranger(), 9));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource
  @DisplayName("on A4 nothing is cut off: every word of the page is on the paper as often")
  void printed(String name, Reports.Reviewed reviewed, int most)
      throws IOException, InterruptedException {
    Optional<Path> reader = program(List.of("pdftotext"));
    browser();
    assumeTrue(reader.isPresent(), "no pdftotext here");
    String html = Pages.of(Reports.of(reviewed));
    Path page = Files.writeString(folder.resolve("report.html"), html);
    Path pdf = folder.resolve("report.pdf");
    run(headless("--no-pdf-header-footer", "--print-to-pdf=" + pdf, page.toUri().toString()));
    String printed = run(List.of(reader.get().toString(), "-enc", "UTF-8", pdf.toString(), "-"));
    long pages = printed.chars().filter(c -> c == '\f').count();
    assertTrue(pages >= 6 && pages <= most, () -> pages + " pages");
    Document told = Jsoup.parse(html);
    // Words for those who do not see a picture are not printed.
    told.select("svg > title, svg > desc").remove();
    // This browser prints what is folded, so that it need not say that it does not.
    told.select(".unfold").remove();
    Map<String, Integer> there = words(printed);
    String whole = printed.replaceAll("\\s", "").toLowerCase(Locale.ROOT);
    List<String> missing = new ArrayList<>();
    StringBuilder texts = new StringBuilder();
    told.body()
        .forEachNode(
            node -> {
              if (node instanceof TextNode text) {
                texts.append(text.getWholeText()).append(' ');
              }
            });
    words(texts.toString())
        .forEach(
            (word, times) -> {
              int found = there.getOrDefault(word, 0);
              // A long word, such as a hash, may be broken over two lines.
              if (found < times && !(word.length() > 12 && whole.contains(word))) {
                missing.add(word + " " + found + " of " + times);
              }
            });
    assertEquals(List.of(), missing);
  }

  @Test
  @DisplayName("on a screen 360 pixels wide nothing reaches over the edge")
  void narrow() throws IOException, InterruptedException {
    String bench =
        """
        formula: Bench gel
        ingredients:
          - { name: Aqua, share: rest }
          - { name: Xanthan Gum, share: 4 % }
        """;
    Report report =
        Reports.of(
            List.of(
                Examples.drawn("nettle-calm-gel.yaml"),
                Examples.reviewed(bench, "bench.yaml", true, Include.REMEDIES, Include.HEADROOM)),
            List.of());
    String inside = Entities.escape(Pages.of(report)).replace("\"", "&quot;");
    String frame =
        "<!doctype html><body><iframe id=f width=360 height=800 srcdoc=\""
            + inside
            + "\"></iframe><script>document.getElementById('f').onload = e => { let d ="
            + " e.target.contentDocument.documentElement; let p = document.createElement('p');"
            + " p.id = 'wide'; p.textContent = d.scrollWidth + ' in ' + d.clientWidth;"
            + " document.body.replaceChildren(p); }</script></body>";
    Path page = Files.writeString(folder.resolve("frame.html"), frame, StandardCharsets.UTF_8);
    String shown =
        run(headless("--virtual-time-budget=5000", "--dump-dom", page.toUri().toString()));
    String wide = Jsoup.parse(shown).select("#wide").text();
    List<String> both = List.of(wide.split(" in ", -1));
    assertEquals(2, both.size(), shown);
    assertTrue(Integer.parseInt(both.get(0)) <= Integer.parseInt(both.get(1)), wide);
  }
}
