package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import gelwright.problem.Place;
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
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the command line, over a stand-in engine")
final class CommandLineTest {
  @TempDir Path folder;

  private final FakeEngine engine = new FakeEngine();

  private record Ran(int status, String out, String err) {}

  private Ran run(String... arguments) {
    return run(false, Map.of(), arguments);
  }

  private Ran run(boolean interactive, Map<String, String> environment, String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status =
        new Program(
                engine,
                new Terminal(
                    out,
                    StandardCharsets.UTF_8,
                    new PrintStream(err, true, StandardCharsets.UTF_8),
                    interactive,
                    environment,
                    () -> LocalDate.of(2026, 11, 25)))
            .run(arguments);
    return new Ran(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  private String sheet(String name, String content) throws IOException {
    Path file = folder.resolve(name);
    Files.createDirectories(file.getParent());
    Files.writeString(file, content);
    return file.toString();
  }

  @ParameterizedTest(name = "a sheet that finds \"{0}\" with {1} ends with {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "fine | --fail-on=error | 0",
        "breaks | --fail-on=error | 1",
        "breaks | --fail-on=never | 0",
        "warning | --fail-on=error | 0",
        "warning | --fail-on=warning | 1",
        "unlikely | --fail-on=error | 0",
        "unlikely | --fail-on=warning | 1",
        "likely | --fail-on=note | 0",
        "unknown | --fail-on=note | 0",
        "unknown | --require-checked=oil-load | 1",
        "must | --fail-on=error | 1",
        "must | --fail-on=never | 0",
        "accepted | --fail-on=note | 0",
        "duty | --fail-on=note | 0",
        "norules | --fail-on=error | 2",
        "bad | --fail-on=never | 2",
        "crash | --fail-on=never | 2",
        "fine | --require-checked=oil-laod | 2",
        "fine | --fail-on=sometimes | 2",
        "fine | --on=yesterday | 2",
        "fine | --include=everything | 2",
        "fine | --nonsense | 2",
      })
  void status(String content, String option, int status) throws IOException {
    Ran ran = run("review", option, sheet("gel.yaml", content));
    assertEquals(status, ran.status(), ran.err());
    assertEquals(status == 2, !ran.err().isEmpty());
    assertFalse(ran.err().contains("\tat "), ran.err());
  }

  @Test
  @DisplayName("one unreadable file of many: status 2, the rest still reported")
  void oneOfMany() throws IOException {
    String good = sheet("a.yaml", "breaks");
    String bad = sheet("b.yaml", "bad");
    Ran text = run("review", good, bad, folder.resolve("none.yaml").toString());
    assertEquals(2, text.status());
    assertTrue(text.out().contains("Breaks 1 rule."), text.out());
    assertTrue(text.err().contains("b.yaml:3:1: Key nmae? Did you mean name? [unknown-key]"));
    assertTrue(text.err().contains("none.yaml: There is no such file. [no-such-file]"));
    Ran json = run("review", "--format", "json", good, bad);
    assertTrue(json.out().contains("\"unreadable\""), json.out());
    assertTrue(json.out().startsWith("{\n  \"reviews\""), json.out());
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource({"json, '{'", "sarif, '{'", "junit, '<?xml'", "text, breaks"})
  void formats(String format, String start) throws IOException {
    String file = sheet("a.yaml", "breaks unknown");
    Ran first = run("review", "--format", format, file);
    assertTrue(first.out().startsWith(start), first.out());
    assertEquals(first, run("review", "--format", format, file));
    Path out = folder.resolve("report");
    Ran filed = run("review", "--format", format, "--out", out.toString(), file);
    assertEquals("", filed.out());
    assertEquals(first.out(), Files.readString(out));
    assertTrue(
        first.out().contains(format.equals("text") ? "Squalane: density" : "density of Squalane"),
        "names what is missing");
  }

  @Test
  @DisplayName("--on is written into the review, today otherwise; the trace comes when asked for")
  void dayAndTrace() throws IOException {
    String file = sheet("a.yaml", "breaks");
    assertTrue(run("review", file).out().contains("Reviewed for 2026-11-25"));
    Ran other = run("review", "--on", "2027-01-31", "--format", "json", file);
    assertTrue(other.out().contains("\"on\" : \"2027-01-31\""));
    assertFalse(other.out().contains("\"trace\""));
    assertTrue(
        run("review", "--include", "trace", "--format", "json", file).out().contains("\"trace\""));
  }

  @Test
  @DisplayName("the report says what, how much, why, on what grounds, where, and what it is not")
  void report() throws IOException {
    Ran ran = run("review", sheet("a.yaml", "breaks unlikely unknown must accepted duty"));
    List<String> order =
        List.of(
            "Breaks 1 rule; 1 is borderline; 2 could not be checked, 1 of which must be known; 1\nis accepted.",
            "\nBreaks\n",
            "error    More oil than this gel carries – Squalane",
            "14 % of oil; this gel carries about 9.6 % with no emulsifier.\n",
            "Why: A gum does not lower",
            "Sources: common practice [1]\n",
            "sheet.yaml:4 [oil-load.breaks]\n",
            "\nBorderline\n",
            "fails: 1 chance in 4 that it holds.",
            "\nNOT CHECKED\n",
            "Missing: Squalane: density",
            "counts as broken until it is",
            "\nAccepted\n",
            "Accepted until 2027-03-01 because: held",
            "\nTake care\n",
            "Try it on a small patch",
            "The vessel is hot.",
            "\nWhat to measure or state next\n",
            "\nSources\n",
            "[1] common practice – Rule of thumb\n",
            "rules run, ",
            "and 1 rule set of edition 2026.1",
            "Formula SHA-256 00ff",
            "not a safety assessment");
    int from = 0;
    String flat = ran.out();
    for (String part : order) {
      int at = flat.indexOf(part, from);
      assertTrue(at >= 0, "after position " + from + ": " + part + "\n" + flat);
      from = at;
    }
    assertTrue(flat.contains("ISO 11930"));
    assertTrue(
        flat.lines().allMatch(line -> line.length() <= TextPage.WIDTH || line.contains("/a.yaml")),
        flat);
    assertFalse(flat.contains("\u001b"));
    for (String once : List.of("ISO 11930", "Rule of thumb", "Try it on a small patch")) {
      assertEquals(flat.indexOf(once), flat.lastIndexOf(once), once);
    }
  }

  @Test
  @DisplayName("findings of one rule stand together: the lesson once, a line for each")
  void together() throws IOException {
    String out = run("review", sheet("a.yaml", "breaks breaks")).out();
    assertEquals(out.indexOf("Why: "), out.lastIndexOf("Why: "), out);
    assertTrue(out.contains("- 14 % of oil"), out);
    assertTrue(out.contains("(line 4)"), out);
  }

  @Test
  @DisplayName("colour on a terminal only, and not where NO_COLOR is set")
  void colour() throws IOException {
    String file = sheet("a.yaml", "breaks");
    assertTrue(run(true, Map.of(), "review", file).out().contains("\u001b["));
    assertFalse(run(true, Map.of("NO_COLOR", "1"), "review", file).out().contains("\u001b"));
    assertFalse(run(false, Map.of(), "review", file).out().contains("\u001b"));
  }

  @Test
  @DisplayName("a formula's name cannot steer the terminal")
  void hostileName() throws IOException {
    Ran ran = run("review", sheet("a.yaml", "red\u001b[31m \u202eback \u0007bell 🌿"));
    assertTrue(ran.out().startsWith("red[31m back bell 🌿\n"), ran.out());
  }

  @Test
  @DisplayName("lint goes through folders in order, leaves hidden and other files, gives a table")
  void lint() throws IOException {
    sheet("lib/b.yaml", "fine");
    sheet("lib/a/z.yml", "breaks");
    sheet("lib/c.json", "unknown");
    sheet("lib/d.csv", "likely");
    sheet("lib/notes.md", "bad");
    sheet("lib/.hidden/x.yaml", "bad");
    Ran ran = run("lint", folder.resolve("lib").toString());
    assertEquals(1, ran.status(), ran.err());
    List<Integer> at = new ArrayList<>();
    String table = ran.out();
    for (String name : List.of("z.yml", "b.yaml", "c.json", "d.csv")) {
      at.add(table.indexOf(name));
    }
    assertEquals(at.stream().sorted().toList(), at);
    assertTrue(at.get(0) > 0, table);
    assertTrue(ran.out().contains("sheet.yaml:4: error: 14 % of oil"), ran.out());
    assertEquals(ran, run("lint", folder.resolve("lib").toString()));
  }

  @Test
  @DisplayName("lint keeps the order of the files when many are reviewed at once")
  void lintMany() throws IOException {
    for (int i = 100; i < 160; i++) {
      sheet("many/gel-" + i + ".yaml", "Gel number " + i);
    }
    String out = run("lint", "--format", "json", folder.resolve("many").toString()).out();
    int from = 0;
    for (int i = 100; i < 160; i++) {
      int at = out.indexOf("\"formula\" : \"Gel number " + i + "\"", from);
      assertTrue(at >= from, "number " + i);
      from = at;
    }
    Ran shown = run(true, Map.of(), "lint", folder.resolve("many").toString());
    assertTrue(shown.err().contains("60 of 60"));
    assertEquals("", run("lint", folder.resolve("many").toString()).err());
  }

  @Test
  @DisplayName("lint takes patterns; a pattern or a folder without sheets is a wrong call")
  void patterns() throws IOException {
    sheet("lib/a/one.yaml", "fine");
    sheet("lib/a/two.json", "fine");
    Ran ran = run("lint", folder + "/lib/**/*.yaml");
    assertEquals(0, ran.status(), ran.err());
    assertTrue(ran.out().contains("one.yaml"));
    assertFalse(ran.out().contains("two.json"));
    assertEquals(2, run("lint", folder + "/lib/*.xyz").status());
    Files.createDirectories(folder.resolve("empty"));
    Ran empty = run("lint", folder.resolve("empty").toString());
    assertEquals(2, empty.status());
    assertTrue(empty.err().contains("There is no sheet in this folder"));
    assertEquals(2, run("lint", folder.resolve("missing").toString()).status());
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "folder | This is a folder; the command lint goes through folders. [is-a-folder]",
        "none.yaml | There is no such file. [no-such-file]",
        "dangling.yaml | There is no such file. [no-such-file]",
        "huge.yaml | This file is too large for a formula sheet. [too-large]",
        "closed.yaml | This file could not be read; is it yours to read? [unreadable]",
      })
  void badFiles(String name, String message) throws IOException {
    Path file = folder.resolve(name);
    switch (name) {
      case "folder" -> Files.createDirectories(file);
      case "dangling.yaml" -> Files.createSymbolicLink(file, folder.resolve("gone.yaml"));
      case "huge.yaml" -> Files.write(file, new byte[17 * 1024 * 1024]);
      case "closed.yaml" -> {
        Files.writeString(file, "fine");
        assertTrue(file.toFile().setReadable(false, false));
        assumeFalse(Files.isReadable(file), "this user may read every file");
      }
      default -> assertFalse(Files.exists(file));
    }
    Ran ran = run("review", file.toString());
    assertEquals(2, ran.status());
    assertEquals(file + ": " + message + "\n", ran.err());
  }

  @Test
  @DisplayName("a file that vanishes after lint has found it is told, the rest is reported")
  void vanishes() throws IOException {
    sheet("lib/a.yaml", "fine");
    Path link = folder.resolve("lib/b.yaml");
    Files.createSymbolicLink(link, folder.resolve("gone.yaml"));
    // A link is not followed in a folder; named, it is a file that is not there.
    assertEquals(0, run("lint", folder.resolve("lib").toString()).status());
    Ran ran = run("lint", folder.resolve("lib").toString(), link.toString());
    assertEquals(2, ran.status());
    assertEquals(link + ": There is no such file or folder. [no-such-file]\n", ran.err());
    assertTrue(ran.out().contains("a.yaml"), ran.out());
  }

  @Test
  @DisplayName("lint skips sheets that are no formulas and says so; alone they are no library")
  void mixed() throws IOException {
    sheet("lib/a.yaml", "formula: fine");
    sheet("lib/house/rules.yaml", "rule-set: house\ntitle: x\n");
    sheet("lib/house/own.yaml", "# ours\ningredients: {}\n");
    sheet("lib/house/sources.json", "{ \"sources\": {} }");
    Ran ran = run("lint", folder.resolve("lib").toString());
    assertEquals(0, ran.status(), ran.err());
    String flat = ran.out().replaceAll("\\s+", " ");
    for (String name : List.of("rules.yaml", "own.yaml", "sources.json")) {
      assertTrue(flat.indexOf(name) > flat.indexOf("Skipped, no formulas:"), flat);
    }
    assertTrue(flat.contains("1 formula (holds 1)"), flat);
    Ran json = run("lint", "--format", "json", folder.resolve("lib").toString());
    assertTrue(json.err().contains("Skipped, no formulas:"), json.err());
    Ran none = run("lint", folder.resolve("lib/house").toString());
    assertEquals(2, none.status());
    assertTrue(none.err().contains("No formula sheet was found"), none.err());
  }

  @Test
  @DisplayName("a table is read with the brief beside it, and the brief is no sheet of its own")
  void brief() throws IOException {
    String table = sheet("lib/mist.csv", "phase,name,share");
    sheet("lib/mist.brief.yaml", "breaks");
    sheet("lib/other.brief.yaml", "fine");
    assertEquals(1, run("review", table).status());
    Ran ran = run("lint", folder.resolve("lib").toString());
    assertEquals(1, ran.status(), ran.err());
    assertTrue(ran.out().contains("mist.brief.yaml"), ran.out());
    assertTrue(ran.out().contains("2 formulas"), ran.out());
  }

  @ParameterizedTest(name = "wrong call: {0}")
  @ValueSource(
      strings = {
        "",
        "revew",
        "rules",
        "ingredients",
        "review",
        "rules show",
        "rules show oil-load.x",
        "review --nonsense x.yaml",
        "review --format pdf x.yaml",
        "review --on 2026-02-30 x.yaml",
        "review --on 2026-11-25 --on 2026-11-26 x.yaml",
        "review x.yaml ./x.yaml",
        "rules list oil"
      })
  void wrongCalls(String line) {
    Ran ran = run(line.isEmpty() ? new String[0] : line.split(" "));
    assertEquals(2, ran.status());
    assertEquals("", ran.out());
    assertTrue(ran.err().contains("--help"), ran.err());
    assertEquals(1, ran.err().lines().count(), ran.err());
    assertFalse(ran.err().contains("java."), ran.err());
  }

  @ParameterizedTest(name = "{0} --help")
  @ValueSource(
      strings = {
        "review",
        "lint",
        "rules",
        "rules list",
        "rules show",
        "rules check",
        "ingredients",
        "ingredients find",
        "ingredients show"
      })
  void help(String command) {
    Ran ran = run((command + " --help").split(" "));
    assertEquals(0, ran.status(), ran.err());
    assertTrue(ran.out().contains("Usage: gelwright " + command), ran.out());
  }

  @Test
  @DisplayName("rule sets that cannot be read: status 2 and where the mistake is")
  void brokenRules() throws IOException {
    Ran ran = run("review", "--rules", "broken", sheet("a.yaml", "fine"));
    assertEquals(2, ran.status());
    assertEquals(
        "broken/a.yaml:2:3: The key requir is not known. Did you mean require? [unknown-key]\n",
        ran.err());
    assertEquals("", ran.out());
  }

  @Test
  @DisplayName("rules list and show")
  void rules() {
    assertTrue(run("rules", "list").out().contains("oil-load.above-gel-capacity  error"));
    for (String id : List.of("oil-load.above-gel-capacity", "oil-load.too-much")) {
      String page = run("rules", "show", id).out();
      for (String part :
          List.of(
              "More oil than this gel carries",
              "oil.share <= gel.oil-capacity",
              "A gum only holds drops in place.",
              "Rule of thumb [common practice, no source]",
              "Examples          0")) {
        assertTrue(page.contains(part), page);
      }
    }
  }

  @Test
  @DisplayName("rules check: missing and untrue examples end with 1, all well with 0")
  void check() {
    Ran none = run("rules", "check");
    assertEquals(1, none.status());
    assertTrue(none.out().contains("no example that holds, none that breaks"), none.out());
    for (String kind : List.of("holds", "breaks", "unknown")) {
      engine.examples.add(
          new Engine.ExampleOutcome(
              "oil-load.above-gel-capacity", kind, kind, true, Place.NOWHERE));
    }
    assertEquals(0, run("rules", "check").status());
    engine.examples.add(
        new Engine.ExampleOutcome(
            "oil-load.above-gel-capacity",
            "breaks",
            "holds",
            false,
            new Place("oil-load.yaml", 20, 7, "")));
    Ran untrue = run("rules", "check");
    assertEquals(1, untrue.status());
    assertTrue(untrue.out().contains("oil-load.yaml:20:7: "), untrue.out());
    assertEquals(2, run("rules", "check", "broken").status());
  }
}
