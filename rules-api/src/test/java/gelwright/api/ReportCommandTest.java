package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Reports as pages from the command line, with the real engine. */
@DisplayName("review and lint --format html")
final class ReportCommandTest {
  private static final String MIST = "../docs/examples/shade-mist.yaml";
  private static final String CREAM = "../docs/examples/wind-shelter-gel-cream.yaml";

  private static final Engine ENGINE = new BundledEngine();

  @TempDir private Path folder;

  private record Ran(int status, String out, String err) {}

  private static Ran run(String... call) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status =
        new Program(
                ENGINE,
                new Terminal(
                    out,
                    StandardCharsets.UTF_8,
                    new PrintStream(err, true, StandardCharsets.UTF_8),
                    false,
                    Map.of(),
                    () -> LocalDate.of(2026, 11, 25)))
            .run(call);
    return new Ran(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  @Test
  @DisplayName("one file -> its report, the same in a file; the status is that of the review")
  void one() throws IOException {
    Ran ran = run("review", "--format", "html", MIST);
    assertEquals(1, ran.status(), ran.err());
    assertEquals("", ran.err());
    assertTrue(ran.out().startsWith("<!doctype html>"), ran.out());
    assertEquals("Shade mist", Jsoup.parse(ran.out()).select("h1").text());
    Path file = folder.resolve("report.html");
    assertEquals(
        new Ran(1, "", ""), run("review", "--format", "html", "--out", file.toString(), MIST));
    assertEquals(ran.out(), Files.readString(file));
  }

  @Test
  @DisplayName("several files, one of which cannot be read -> one document that says so, status 2")
  void several() throws IOException {
    Path bad = Files.writeString(folder.resolve("bad.yaml"), "formula: Bad\ningredient: []\n");
    Ran ran = run("review", "--format", "html", MIST, CREAM, bad.toString());
    assertEquals(2, ran.status());
    Document page = Jsoup.parse(ran.out());
    assertEquals("2 formulas", page.select("h1").text());
    assertEquals(
        List.of("Shade mist", "Wind-shelter gel-cream"),
        page.select("article.formula > .title h2").eachText());
    assertTrue(
        page.select(".unread").text().contains("bad.yaml could not be read: line "), ran.err());
  }

  @Test
  @DisplayName("lint -> a table with a report below for each, without curves")
  void lint() {
    Ran ran = run("lint", "--format", "html", "--fail-on", "never", MIST, CREAM);
    assertEquals(0, ran.status(), ran.err());
    Document page = Jsoup.parse(ran.out());
    assertEquals(2, page.select("article.formula").size());
    assertTrue(page.select("figure").isEmpty());
    assertFalse(page.select("section > table, .wide table").isEmpty());
  }

  @Test
  @DisplayName(
      "the guide's lines run with the status they name, and the numbers it quotes are on the page")
  void guide() throws IOException {
    String guide = Files.readString(Path.of("../docs/guide/report.md"));
    String program = "java -jar rules-api/target/gelwright.jar ";
    int lines = 0;
    String nettle = "";
    for (String line : guide.lines().filter(each -> each.startsWith(program)).toList()) {
      lines++;
      List<String> parts = List.of(line.substring(program.length()).split(" # status ", -1));
      List<String> call = new ArrayList<>();
      for (String word : parts.get(0).split(" ", -1)) {
        call.add(
            word.startsWith("docs/")
                ? "../" + word
                : word.endsWith(".html") ? folder.resolve(word).toString() : word);
      }
      Ran ran = run(call.toArray(String[]::new));
      assertEquals(parts.size() == 1 ? 0 : Integer.parseInt(parts.get(1)), ran.status(), line);
      nettle = lines == 1 ? Files.readString(folder.resolve("nettle.html")) : nettle;
    }
    assertEquals(4, lines);
    int open = guide.indexOf("```text\n") + 8;
    String quoted = guide.substring(open, guide.indexOf("\n```", open)).replace(" · ", " ");
    String told =
        String.join("\n", Jsoup.parse(nettle).select(".numbers").eachText()).replace('\u00a0', ' ');
    assertTrue(told.replaceAll("\\)\\s*limit", ") limit").contains(quoted), told);
  }
}
