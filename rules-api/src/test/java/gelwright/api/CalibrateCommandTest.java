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

@DisplayName("calibrate")
final class CalibrateCommandTest {
  private static final Path DOCS = Path.of("..", "docs");
  private static final String READINGS =
      DOCS.resolve("examples/readings/sclerotium-gum-bench-3.yaml").toString();
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
  @DisplayName("the output on the page of the guide is what the program prints")
  void text() throws IOException {
    Ran ran = run("calibrate", READINGS);
    assertEquals(0, ran.status(), ran.err());
    assertEquals("", ran.err());
    String shown = ran.out().replace("../docs", "docs");
    assertTrue(
        Files.readString(DOCS.resolve("guide/calibrate.md")).contains("```\n" + shown + "```"),
        shown);
  }

  @Test
  @DisplayName(
      "--sheet -> a sheet with which a line that names the lot is predicted as the page says")
  void sheet() throws IOException {
    Path sheet = folder.resolve("bench-3.yaml");
    Ran ran = run("calibrate", "--sheet", sheet.toString(), READINGS);
    assertEquals(0, ran.status(), ran.err());
    Path formula = Files.createDirectory(folder.resolve("formulas")).resolve("gel.yaml");
    String usual = Files.readString(DOCS.resolve("examples/nettle-calm-gel.yaml"));
    Files.writeString(
        formula,
        usual.replace(
            "name: Sclerotium Gum, share: 0.9 %",
            "name: Sclerotium Gum, share: 0.9 %, lot: bench 3"));
    String page = Files.readString(DOCS.resolve("guide/calibrate.md"));
    for (String file :
        new String[] {
          DOCS.resolve("examples/nettle-calm-gel.yaml").toString(), formula.toString()
        }) {
      Ran predicted = run("predict", "--ingredients", sheet.toString(), file);
      String line =
          predicted
              .out()
              .lines()
              .filter(each -> each.startsWith("  gel.yield-stress "))
              .findFirst()
              .orElseThrow();
      assertTrue(page.contains(line), line);
    }
    Ran shown = run("ingredients", "show", "--ingredients", sheet.toString(), "Sclerotium Gum");
    assertTrue(shown.out().contains("\nLot bench 3 "), shown.out());
    assertTrue(
        shown.out().replaceAll("\\s+", " ").contains("[measured in one's own workshop]"),
        shown.out());
    Ran review = run("review", "--ingredients", sheet.toString(), formula.toString());
    assertTrue(review.status() < 2, review.err());
    assertTrue(review.out().contains("measured"), review.out());
  }

  @Test
  @DisplayName("as JSON and SVG, into a file or not -> the same bytes")
  void out() throws IOException {
    for (String format : new String[] {"json", "svg"}) {
      Path file = folder.resolve("x." + format);
      Ran printed = run("calibrate", "--format", format, READINGS);
      assertEquals(0, printed.status(), printed.err());
      assertEquals(
          new Ran(0, "", ""),
          run("calibrate", "--format", format, "--out", file.toString(), READINGS));
      assertEquals(printed.out(), Files.readString(file));
    }
    assertEquals(
        Files.readString(DOCS.resolve("guide/calibrate.svg")),
        run("calibrate", "--format", "svg", READINGS).out());
  }

  @Test
  @DisplayName("readings that make no sense -> status 2, every place, nothing written")
  void refused() throws IOException {
    Path file = folder.resolve("slip.yaml");
    Files.writeString(
        file,
        """
        readings-of: Sclerotum Gum
        lot: bench 3
        series:
          - share: 1 %
            points:
              - { shear-rate: 0 /s, stress: 7 Pa }
              - { shear-rate: 1 /s, stress: -8 Pa }
        """);
    Path sheet = folder.resolve("lot.yaml");
    Ran ran = run("calibrate", "--sheet", sheet.toString(), file.toString());
    assertEquals(2, ran.status());
    assertEquals("", ran.out());
    assertTrue(ran.err().contains("slip.yaml:1:1: "), ran.err());
    assertTrue(
        ran.err().contains("slip.yaml:6:9: A shear rate must be more than 0 /s."), ran.err());
    assertTrue(ran.err().contains("slip.yaml:7:9: A stress must be more than 0 Pa."), ran.err());
    assertTrue(ran.err().contains("Sclerotium Gum"), ran.err());
    assertFalse(Files.exists(sheet));
  }

  @Test
  @DisplayName("no such file, an unknown key, a folder that is not there -> status 2 and a line")
  void wrong() throws IOException {
    assertEquals(2, run("calibrate", folder.resolve("none.yaml").toString()).status());
    Path file = folder.resolve("key.yaml");
    Files.writeString(file, "readings-of: Xanthan Gum\nlto: 1\nseries: []\n");
    Ran key = run("calibrate", file.toString());
    assertTrue(key.err().contains("Did you mean lot?"), key.err());
    Ran out = run("calibrate", "--sheet", "/no/such/folder/x", READINGS);
    assertEquals(2, out.status());
    assertTrue(out.err().contains("--sheet: "), out.err());
  }

  @Test
  @DisplayName("readings and sheets of lots beside formulas are no formulas to lint")
  void lint() throws IOException {
    Files.copy(Path.of(READINGS), folder.resolve("readings.yaml"));
    run("calibrate", "--sheet", folder.resolve("lot.yaml").toString(), READINGS);
    Files.copy(DOCS.resolve("examples/nettle-calm-gel.yaml"), folder.resolve("gel.yaml"));
    Ran ran = run("lint", folder.toString());
    assertTrue(ran.status() < 2, ran.err());
    assertTrue(ran.out().contains("\n1 formula "), ran.out());
    assertTrue(ran.out().contains("Skipped, no formulas: "), ran.out());
  }
}
