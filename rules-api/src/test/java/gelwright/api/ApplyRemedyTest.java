package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import gelwright.formula.Edit;
import gelwright.sheets.EditReader;
import gelwright.sheets.SheetEditor;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
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
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("review --apply")
final class ApplyRemedyTest {
  private static final Path SHEET = Path.of("..", "docs", "examples", "nettle-calm-gel.yaml");

  /** The bundled knowledge, read once for all runs. */
  private static final Engine ENGINE =
      new Engine() {
        private final Engine bundled = new BundledEngine();
        private final Attempt<Loaded> loaded = bundled.load(List.of(), List.of());

        @Override
        public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
          return loaded;
        }

        @Override
        public Checked check(List<Path> rules, List<Path> ingredients, LocalDate on) {
          return bundled.check(rules, ingredients, on);
        }
      };

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

  /** The remedies as the JSON report numbers them. */
  private static List<JsonNode> remedies(Path sheet) throws IOException {
    Ran ran = run("review", "--include", "remedies", "--format", "json", sheet.toString());
    List<JsonNode> remedies = new ArrayList<>();
    new ObjectMapper()
        .readTree(ran.out())
        .get("findings")
        .forEach(finding -> finding.path("remedies").forEach(remedies::add));
    return remedies;
  }

  private static List<Edit> edits(JsonNode remedy) {
    return Document.read(
            remedy.get("edits").toString().getBytes(StandardCharsets.UTF_8),
            "",
            Document.Format.JSON,
            Limits.USUAL)
        .then(EditReader::read)
        .orThrow();
  }

  @Test
  @DisplayName("writes the sheet with the remedy of that number in the reports, and nothing else")
  void applies() throws IOException {
    String text =
        run("review", "--include", "remedies", SHEET.toString()).out().replaceAll("\\s+", " ");
    String sheet = Files.readString(SHEET);
    List<JsonNode> remedies = remedies(SHEET);
    assertTrue(remedies.size() > 2);
    for (JsonNode remedy : List.of(remedies.get(0), remedies.get(remedies.size() - 1))) {
      int number = remedy.get("number").intValue();
      assertTrue(text.matches(".*Remedy " + number + "[:–\\s].*"), text);
      Ran ran = run("review", "--include", "remedies", "--apply", "" + number, SHEET.toString());
      assertEquals("", ran.err());
      assertEquals(0, ran.status());
      assertEquals(new SheetEditor().apply(edits(remedy), sheet, "a.yaml").orThrow(), ran.out());
      assertNotEquals(sheet, ran.out());
    }
  }

  @Test
  @DisplayName("--out may name the sheet itself; a byte order mark and CRLF stay")
  void inPlace() throws IOException {
    Path file = folder.resolve("mine.yaml");
    String sheet = "\uFEFF" + Files.readString(SHEET).replace("\n", "\r\n");
    Files.writeString(file, sheet);
    Ran shown = run("review", "--apply", "1", file.toString());
    Ran written = run("review", "--apply", "1", "--out", file.toString(), file.toString());
    assertEquals("", written.out() + written.err());
    assertEquals(0, written.status());
    assertArrayEquals(shown.out().getBytes(StandardCharsets.UTF_8), Files.readAllBytes(file));
    assertTrue(shown.out().startsWith("\uFEFFformula: Nettle-calm gel\r\n"));
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "--apply 0 SHEET | there is no remedy 0; this sheet has remedies 1 to ",
        "--apply 999 SHEET | there is no remedy 999; this sheet has remedies 1 to ",
        "--apply one SHEET | --apply does not take \"one\"",
        "--apply 1 SHEET OTHER | --apply takes one file; 2 are named.",
        "--apply 1 --format json SHEET | --apply writes a sheet, not a report",
        "--apply 1 --include trace SHEET | --apply writes a sheet, not a report",
        "--apply 1 none.yaml | There is no such file.",
      })
  void refuses(String call, String said) {
    List<String> words = new ArrayList<>(List.of("review"));
    for (String word : call.strip().split(" ", -1)) {
      words.add(
          word.replace("SHEET", SHEET.toString())
              .replace("OTHER", SHEET.resolveSibling("shade-mist.yaml").toString()));
    }
    Ran ran = run(words.toArray(String[]::new));
    assertEquals(2, ran.status());
    assertEquals("", ran.out());
    assertTrue(ran.err().contains(said.strip()), ran.err());
  }

  @Test
  @DisplayName("a table with its brief beside it: the recipe is changed there, the rest is told")
  void table() throws IOException {
    List<String> rows = new ArrayList<>(List.of("phase;name;share"));
    List<String> brief = new ArrayList<>();
    for (String line : Files.readString(SHEET).lines().toList()) {
      if (line.contains("name:")) {
        rows.add(line.replaceAll(".*phase: (.*), name: (.*), share: (.*) }", "$1;$2;$3"));
      } else if (!line.startsWith("ingredients")) {
        brief.add(line);
      }
    }
    Path file = folder.resolve("nettle.csv");
    Files.write(file, rows);
    Files.write(folder.resolve("nettle.brief.yaml"), brief);
    int inRecipe = 0;
    int beside = 0;
    for (JsonNode remedy : remedies(file)) {
      boolean recipe = edits(remedy).stream().allMatch(edit -> edit instanceof Edit.OfAmount);
      if (recipe ? inRecipe > 0 : beside > 0) {
        continue;
      }
      Ran ran = run("review", "--apply", remedy.get("number").asText(), file.toString());
      if (recipe) {
        inRecipe++;
        assertEquals(0, ran.status(), ran.err());
        assertTrue(ran.out().startsWith("phase;name;share\n"), ran.out());
      } else if (ran.status() != 0) {
        beside++;
        assertEquals(2, ran.status());
        assertEquals("", ran.out());
        assertTrue(ran.err().contains("nettle.brief.yaml"), ran.err());
      }
    }
    assertTrue(inRecipe > 0 && beside > 0, inRecipe + " and " + beside);
  }
}
