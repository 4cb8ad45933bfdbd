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
import java.util.Map;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("predict")
final class PredictCommandTest {
  private static final String SHEET =
      Path.of("..", "docs", "examples", "wind-shelter-gel-cream.yaml").toString();
  private static final Engine ENGINE = new BundledEngine();

  @TempDir Path folder;

  private record Ran(int status, String out, String err) {}

  private static Ran run(String... arguments) {
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
            .run(arguments);
    return new Ran(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  @Test
  @DisplayName(
      "as text -> values with ranges, doubts, what is missing, sources with standing, curves")
  void text() {
    Ran ran = run("predict", SHEET);
    assertEquals(0, ran.status(), ran.err());
    assertEquals("", ran.err());
    for (String words :
        new String[] {
          "Wind-shelter gel-cream\n",
          "  gel.yield-stress ",
          " % yield of Sclerotium Gum: ",
          "settled by a flow curve, or",
          "\npreservative Sodium Benzoate\n",
          "    missing: Tocopherol: interfacial tension, viscosity\n",
          "\nCurves\n",
          " published – ",
          " from memory – ",
          "Predicted for 2026-11-25 with engine ",
          "not a safety assessment"
        }) {
      assertTrue(ran.out().contains(words), words);
    }
    ran.out()
        .lines()
        .forEach(
            line -> assertTrue(Plain.length(line) <= TextPage.WIDTH || !line.contains(" "), line));
  }

  @ParameterizedTest(name = "as SVG, {0} -> one picture, the same bytes twice")
  @ValueSource(strings = {"flow", "preservatives", "temperature", "water-activity", "composition"})
  void svg(String curve) {
    Ran ran = run("predict", "--format", "svg", "--curve", curve, SHEET);
    assertEquals(0, ran.status(), ran.err());
    assertEquals("", ran.err());
    assertTrue(ran.out().startsWith("<svg ") && ran.out().endsWith("</svg>\n"));
    assertTrue(ran.out().contains(" – Wind-shelter gel-cream</title>"));
    assertEquals(ran.out(), run("predict", "--format", "svg", "--curve", curve, SHEET).out());
  }

  @Test
  @DisplayName("--out -> the file has what standard output would have had")
  void out() throws IOException {
    Path file = folder.resolve("p.json");
    Ran ran = run("predict", "--format", "json", "--out", file.toString(), SHEET);
    assertEquals(new Ran(0, "", ""), ran);
    assertEquals(run("predict", "--format", "json", SHEET).out(), Files.readString(file));
  }

  @ParameterizedTest(name = "{0} -> status 2 and a line that says: {1}")
  @CsvSource({
    "--format svg, --format svg draws one picture",
    "--format svg --curve flo, Did you mean flow?",
    "--curve flow, --curve goes with --format svg",
    "--format html, html",
    "--on tomorrow, tomorrow",
    "--out /no/such/folder/x, could not be written"
  })
  void wrong(String options, String says) {
    Ran ran = run(("predict " + options + " " + SHEET).split(" "));
    assertEquals(2, ran.status());
    assertTrue(ran.err().contains(says), ran.err());
    assertEquals("", ran.out());
  }

  @Test
  @DisplayName("a sheet that cannot be read -> status 2, with its place")
  void unreadable() throws IOException {
    Path file = folder.resolve("x.yaml");
    Files.writeString(file, "formula: x\ningredients: [");
    Ran ran = run("predict", file.toString());
    assertEquals(2, ran.status());
    assertTrue(ran.err().contains("x.yaml:"), ran.err());
    assertEquals(2, run("predict", folder.resolve("none.yaml").toString()).status());
  }

  @Test
  @DisplayName("names that would be markup or steer a terminal -> text")
  void hostile() throws IOException {
    Path file = folder.resolve("x.yaml");
    Files.writeString(
        file,
        "formula: \"</title><script>alert(1)</script>\\e[31m\"\n"
            + "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + "  - { phase: \"<style>\", name: \"</text><script>\\e]0;x\\a\", share: 1 % }\n");
    Ran text = run("predict", file.toString());
    assertEquals(0, text.status(), text.err());
    assertFalse(text.out().contains("\u001b"), text.out());
    for (String curve : new String[] {"flow", "temperature", "water-activity", "preservatives"}) {
      String svg = run("predict", "--format", "svg", "--curve", curve, file.toString()).out();
      assertFalse(svg.contains("<script") || svg.contains("<style") || svg.contains("\u001b"), svg);
      assertTrue(svg.contains("&lt;/title&gt;&lt;script&gt;"), svg);
    }
  }
}
