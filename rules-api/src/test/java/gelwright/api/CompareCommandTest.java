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
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("compare")
final class CompareCommandTest {
  private static final Path ROOT = Path.of("..");
  private static final Path GUIDE = ROOT.resolve("docs/guide/compare.md");
  private static final Path PICTURES = ROOT.resolve("docs/guide/pictures");
  private static final boolean UPDATE = Boolean.getBoolean("golden.update");
  private static final String WARM =
      ROOT.resolve("docs/examples/compare/wind-shelter-warm.yaml").toString();
  private static final String COLD =
      ROOT.resolve("docs/examples/compare/wind-shelter-cold.yaml").toString();
  private static final Engine ENGINE = new BundledEngine();
  private static final Engine.Loaded LOADED =
      ENGINE.load(List.of(), List.of()).value().orElseThrow();

  @TempDir Path folder;

  private record Ran(int status, String out, String err) {}

  private static Ran run(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status =
        new Program(
                new LoadedOnce(),
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

  private static final class LoadedOnce implements Engine {
    @Override
    public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
      return ruleFolders.isEmpty() && ingredientFolders.isEmpty()
          ? Attempt.of(LOADED)
          : ENGINE.load(ruleFolders, ingredientFolders);
    }

    @Override
    public Checked check(List<Path> ruleFolders, List<Path> ingredientFolders, LocalDate on) {
      return ENGINE.check(ruleFolders, ingredientFolders, on);
    }
  }

  @Test
  @DisplayName("as text -> recipe, procedure, numbers, findings, what is open, 84 wide")
  void text() {
    Ran ran = run("compare", WARM, COLD);
    assertEquals(0, ran.status(), ran.err());
    assertEquals("", ran.err());
    for (String words :
        new String[] {
          "First:  Wind-shelter gel-cream, hydrated warm\n",
          "  All 15 lines the same.\n",
          "  ~ 3  2   hydrate A: temperature 38 °C → 22 °C\n",
          "  gel.yield-stress                  probably lower (",
          "\nNumbers that cannot be told apart\n",
          "\nNumbers not known well enough to compare\n",
          "    holds → borderline, ",
          "\nNOT CHECKED\n",
          "Compared for 2026-11-25 with engine ",
          "not a safety assessment"
        }) {
      assertTrue(ran.out().contains(words), words + "\n" + ran.out());
    }
    ran.out()
        .lines()
        .forEach(
            line ->
                assertTrue(
                    Plain.length(line) <= TextPage.WIDTH || line.contains("wind-shelter"), line));
    assertEquals(ran, run("compare", WARM, COLD));
  }

  @Test
  @DisplayName("a sheet with itself -> all the same, and that is said")
  void itself() {
    Ran ran = run("compare", WARM, WARM);
    assertEquals(0, ran.status(), ran.err());
    for (String words :
        new String[] {
          "hydrated warm (first)\n",
          "hydrated warm (second)\n",
          "  All 8 steps the same.\n",
          "\nNumbers that differ\n  None for sure.\n",
        }) {
      assertTrue(ran.out().contains(words), words + "\n" + ran.out());
    }
    assertFalse(ran.out().contains("cannot be told apart"), ran.out());
  }

  @ParameterizedTest(name = "as SVG, {0} -> one picture of both")
  @ValueSource(strings = {"flow", "flow-ratio", "temperature", "water-activity", "preservatives"})
  void svg(String curve) {
    Ran ran = run("compare", "--format", "svg", "--curve", curve, WARM, COLD);
    assertEquals(0, ran.status(), ran.err());
    assertTrue(ran.out().startsWith("<svg ") && ran.out().endsWith("</svg>\n"));
    assertTrue(
        ran.out()
            .contains(
                " – Wind-shelter gel-cream, hydrated warm and Wind-shelter gel-cream, hydrated"
                    + " cold</title>"),
        ran.out());
  }

  @Test
  @DisplayName("--out -> the file has what standard output would have had")
  void out() throws IOException {
    Path file = folder.resolve("c.json");
    Ran ran = run("compare", "--format", "json", "--out", file.toString(), WARM, COLD);
    assertEquals(new Ran(0, "", ""), ran);
    assertEquals(run("compare", "--format", "json", WARM, COLD).out(), Files.readString(file));
  }

  @ParameterizedTest(name = "{0} -> status 2 and a line that says: {1}")
  @CsvSource({
    "--format svg --curve flo, Did you mean flow?",
    "--curve flow, --curve goes with --format svg",
    "--format html, html",
    "--on tomorrow, tomorrow",
    "--out /no/such/folder/x, could not be written"
  })
  void wrong(String options, String says) {
    Ran ran = run(("compare " + options + " " + WARM + " " + COLD).split(" "));
    assertEquals(2, ran.status());
    assertTrue(ran.err().contains(says), ran.err());
    assertEquals("", ran.out());
  }

  @Test
  @DisplayName("one file, or three -> status 2")
  void arity() {
    assertEquals(2, run("compare", WARM).status());
    assertTrue(run("compare", WARM).err().contains("SECOND is missing"));
    assertEquals(2, run("compare", WARM, COLD, WARM).status());
  }

  @Test
  @DisplayName("two sheets that cannot be read -> status 2 and the problems of both at once")
  void unreadable() throws IOException {
    Path first = folder.resolve("first.yaml");
    Path second = folder.resolve("second.yaml");
    Files.writeString(first, "formula: x\ningredients:\n  - { nmae: Aqua, share: 1 % }\n");
    Files.writeString(second, "formula: x\ningredients: [");
    Ran ran = run("compare", first.toString(), second.toString());
    assertEquals(2, ran.status());
    assertTrue(ran.err().contains("first.yaml:3:"), ran.err());
    assertTrue(ran.err().contains("second.yaml:"), ran.err());
    assertFalse(ran.err().contains("Exception"), ran.err());
    assertEquals(2, run("compare", WARM, folder.resolve("none.yaml").toString()).status());
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
            + "  - { phase: \"\\e[1m\", name: \"</text><script>\\e]0;x\\a\", share: 1 % }\n"
            + "method: [{ do: mix, phase: \"\\e[1m\", with: \"\\e]0;x\\a\" }]\n");
    Ran text = run("compare", WARM, file.toString());
    assertEquals(0, text.status(), text.err());
    assertFalse(text.out().contains("\u001b"), text.out());
    String svg = run("compare", "--format", "svg", WARM, file.toString()).out();
    assertFalse(svg.contains("<script") || svg.contains("\u001b"), svg);
  }

  // --- The guide

  @ParameterizedTest(name = "docs/guide/compare.md: the picture of {0} is what the program draws")
  @CsvSource({"flow", "flow-ratio"})
  void picture(String curve) throws IOException {
    String drawn =
        run("compare", "--on", "2026-11-25", "--format", "svg", "--curve", curve, WARM, COLD).out();
    Path kept = PICTURES.resolve("compare-" + curve + ".svg");
    if (UPDATE) {
      Files.createDirectories(PICTURES);
      Files.writeString(kept, drawn);
    }
    assertEquals(Files.readString(kept), drawn);
    assertTrue(
        Files.readString(GUIDE).contains("](pictures/compare-" + curve + ".svg)"), "not shown");
  }

  @Test
  @DisplayName("docs/guide/compare.md: what it prints is what the program prints, to the letter")
  void printed() throws IOException {
    String out = run("compare", "--on", "2026-11-25", WARM, COLD).out();
    List<String> blocks = new ArrayList<>();
    Matcher block = Pattern.compile("(?ms)^```\\R(.*?)^```").matcher(Files.readString(GUIDE));
    while (block.find()) {
      if (!block.group(1).startsWith("java -jar ")) {
        blocks.add(block.group(1));
      }
    }
    assertTrue(blocks.size() >= 3, "the guide shows what is printed");
    for (String printed : blocks) {
      for (String part : printed.split("…\n", -1)) {
        assertTrue(out.contains(part), part + "\n" + out);
      }
    }
  }
}
