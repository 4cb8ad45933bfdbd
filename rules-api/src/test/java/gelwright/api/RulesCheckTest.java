package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("rules check, over the bundled knowledge")
final class RulesCheckTest {
  private static final Pattern PROBLEM =
      Pattern.compile("(?m)^.*\\.yaml:(\\d+:\\d+): .*\\[([a-z-]+)]$");

  /** Every fault of the planted sheet: line, column, kind. */
  private static final List<String> FAULTS =
      List.of(
          "11:9 duplicate-row",
          "12:35 wrong-dimension",
          "17:5 unknown-key",
          "18:14 unknown-name",
          "27:14 dimension",
          "32:3 missing-source",
          "36:36 unknown-name",
          "45:15 unknown-source",
          "49:15 unknown-word",
          "51:48 unknown-name",
          "57:5 missing-key",
          "59:22 unknown-table",
          "67:24 syntax",
          "70:14 lever",
          "86:3 duplicate-key",
          "94:16 unknown-rule",
          "95:5 missing-key",
          "95:41 unknown-key");

  @TempDir Path folder;

  private record Ran(int status, String out, String err) {}

  private static Ran run(String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status =
        new Program(
                new BundledEngine(),
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

  private String planted(String name) throws IOException {
    try (InputStream in = RulesCheckTest.class.getResourceAsStream("/" + name)) {
      Files.write(folder.resolve(Path.of(name).getFileName()), in.readAllBytes());
    }
    return folder.toString();
  }

  private static List<String> problems(String text) {
    return PROBLEM
        .matcher(text)
        .results()
        .map(found -> found.group(1) + " " + found.group(2))
        .collect(Collectors.toList());
  }

  @Test
  @DisplayName("bundled rule sets: every example as said, every rule with its examples, status 0")
  void bundled() {
    Ran ran = run("rules", "check");
    assertEquals(0, ran.status(), ran.out() + ran.err());
    assertEquals("", ran.err());
    assertTrue(
        ran.out().contains("; 0 of them not as said; 0 rules without all examples."), ran.out());
  }

  @Test
  @DisplayName("typos, dimensions, sources, properties, tables and a lying example: all at once")
  void allAtOnce() throws IOException {
    Ran ran = run("rules", "check", planted("rule-faults/faults.yaml"));
    assertEquals(2, ran.status());
    assertEquals(FAULTS, problems(ran.err()), ran.err());
    assertEquals(FAULTS.size(), ran.err().lines().count(), ran.err());
    assertTrue(
        ran.out()
            .contains(
                "faults.yaml:82:34: glasshouse.honest-but-wrong: this example should be 'holds'"
                    + " and is: breaks\n"),
        ran.out());
    assertTrue(ran.out().contains(", 4 examples; 1 of them not as said; 0 rules"), ran.out());
  }

  @ParameterizedTest(name = "{0} refuses the planted rule set with the same problems")
  @ValueSource(strings = {"review", "lint"})
  void refused(String command) throws IOException {
    String rules = planted("rule-faults/faults.yaml");
    Ran ran = run(command, "--rules", rules, "../docs/examples/morning-frost-serum.yaml");
    assertEquals(2, ran.status());
    assertEquals("", ran.out());
    assertEquals(FAULTS, problems(ran.err()), ran.err());
  }

  @Test
  @DisplayName("a sound sheet with a lying example and a missing one: status 1 and both places")
  void lying() throws IOException {
    Ran ran = run("rules", "check", planted("lying-example/glasshouse.yaml"));
    assertEquals(1, ran.status(), ran.out() + ran.err());
    assertEquals("", ran.err());
    assertEquals(
        List.of(
            "glasshouse.yaml:18:34: glasshouse.cool-bench: this example should be 'holds' and is:"
                + " breaks",
            "glasshouse.yaml:22:3: glasshouse.sun-on-the-bench: no example where it does not apply",
            "2 rules, 5 examples; 1 of them not as said; 1 rule without all examples."),
        ran.out().lines().map(line -> line.replace(folder + "/", "")).toList());
  }

  @Test
  @DisplayName("an own ingredient that cannot be read: examples wait, and that is said")
  void examplesWait() throws IOException {
    Files.writeString(
        folder.resolve("own.yaml"),
        "ingredients: { Garden Water: { densty: 1 g/mL, functions: [solvent] } }\n");
    Ran ran = run("rules", "check", planted("lying-example/glasshouse.yaml"));
    assertEquals(2, ran.status());
    assertEquals(List.of("1:32 unknown-key"), problems(ran.err()), ran.err());
    assertTrue(ran.out().contains("Examples were not run"), ran.out());
    assertFalse(ran.out().contains("this example"), ran.out());
  }

  @ParameterizedTest(name = "{0} -> {1} and nothing that follows from it")
  @CsvSource(
      delimiter = '|',
      value = {
        "sources: [safety-practice] | sources: { x: y } | 11:14 wrong-type",
        "severity: note | kind: dutty | 7:11 unknown-word",
        "require: gum.share <= 2 % | requires: gum.share <= 2 % | 6:5 missing-key, 8:5 unknown-key",
        "title: Gum | title: [Gum] | 6:12 wrong-type",
        "examples: | exmaples: | 12:5 unknown-key",
      })
  void nothingFollows(String right, String wrong, String problems) throws IOException {
    String sheet =
        """
        rule-set: bench
        title: The bench
        edition: "1"
        rules:
          little:
            title: Gum
            severity: note
            require: gum.share <= 2 %
            message: Gum.
            lesson: Gum is stiff.
            sources: [safety-practice]
            examples: { base: plain sclerotium gel, holds: [{ Xanthan Gum: 5 % }] }
        """;
    assertTrue(sheet.contains(right));
    Files.writeString(folder.resolve("bench.yaml"), sheet.replace(right, wrong));
    Ran ran = run("rules", "check", folder.toString());
    assertEquals(2, ran.status());
    assertEquals(problems, String.join(", ", problems(ran.err())), ran.err());
    assertFalse(ran.out().contains("bench.little"), ran.out());
  }
}
