package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("docs/guide/command-line.md")
final class GuideTest {
  private static final Path ROOT = Path.of("..");
  private static final Path GUIDE = ROOT.resolve("docs/guide/command-line.md");
  private static final String PROGRAM = "java -jar rules-api/target/gelwright.jar ";
  private static final Pattern BLOCK = Pattern.compile("(?ms)^```sh\\R(.*?)^```");
  private static final Pattern WORD = Pattern.compile("'([^']*)'|(\\S+)");
  private static final Engine ENGINE = new Ran.LoadedOnce();

  @TempDir Path folder;

  static List<String> lines() throws IOException {
    List<String> lines = new ArrayList<>();
    Matcher block = BLOCK.matcher(Files.readString(GUIDE));
    while (block.find()) {
      block.group(1).lines().forEach(lines::add);
    }
    assertTrue(lines.size() > 15, "the guide has command lines");
    return lines;
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("lines")
  void runs(String line) {
    assertTrue(line.startsWith(PROGRAM), line);
    String[] parts = line.substring(PROGRAM.length()).split(" # status ", -1);
    int status = parts.length == 1 ? 0 : Integer.parseInt(parts[1]);
    Ran ran = run(words(parts[0]));
    assertEquals(status, ran.status(), ran.err() + ran.out());
    assertEquals(status == 2, !ran.err().replaceFirst("Skipped, no formulas.*", "").isBlank());
    assertFalse(ran.err().contains("\tat "), ran.err());
  }

  @Test
  @DisplayName("names every option of the commands that report, and of rules check")
  void options() throws IOException {
    String guide = Files.readString(GUIDE);
    for (String command :
        List.of(
            "review",
            "lint",
            "predict",
            "headroom",
            "compare",
            "calibrate",
            "batch",
            "label",
            "stability",
            "rules check")) {
      Matcher option = Pattern.compile("--[a-z-]+").matcher(help(command));
      while (option.find()) {
        assertTrue(
            guide.contains("`" + option.group()) || guide.contains(option.group() + " "),
            option.group());
      }
    }
  }

  @Test
  @DisplayName("a real table is reviewed with its brief beside it")
  void table() throws IOException {
    Path table = folder.resolve("shade.csv");
    Files.writeString(table, "phase;name;share\nA;Aqua;q.s.\nA;Glycerin;4,5\nA;Xanthan Gum;0,3\n");
    Ran alone = run("review", "--format", "json", table.toString());
    assertTrue(alone.out().contains("\"formula\" : \"shade\""), alone.err() + alone.out());
    Files.writeString(
        folder.resolve("shade.brief.yaml"),
        "formula: Shade serum\nproduct: { kind: serum, use: leave-on, dispensing: pump }\n");
    Ran both = run("review", "--format", "json", table.toString());
    assertTrue(both.out().contains("\"formula\" : \"Shade serum\""), both.err() + both.out());
    Files.writeString(folder.resolve("shade.brief.yaml"), "formula: [\n");
    Ran broken = run("review", table.toString());
    assertEquals(2, broken.status());
    assertTrue(broken.err().contains("shade.brief.yaml:2:1: "), broken.err());
  }

  @ParameterizedTest(name = "{0} ends with a line a problem that names it, and no stack trace")
  @MethodSource("oddities")
  void odd(String name, String content) throws IOException {
    Path file = folder.resolve(name);
    Files.writeString(file, content);
    for (String command : List.of("review", "lint")) {
      Ran ran = run(command, file.toString());
      assertTrue(ran.status() <= 2);
      assertFalse(ran.err().contains("\tat ") || ran.err().contains("Exception"), ran.err());
      assertFalse(ran.err().contains("Something went wrong"), ran.err());
      if (ran.status() == 2) {
        assertTrue(ran.err().contains(file.toString()), ran.err());
      }
    }
  }

  static Stream<Arguments> oddities() {
    return Stream.of(
            Map.entry("empty.yaml", ""),
            Map.entry("nul.yaml", "formula: \u0000"),
            Map.entry("list.yaml", "- a\n- b\n"),
            Map.entry("scalar.yaml", "formula"),
            Map.entry("open.yaml", "formula: x\ningredients: ["),
            Map.entry("deep.yaml", "formula: " + "[".repeat(5000)),
            Map.entry("alias.yaml", "formula: &a x\nversion: *a\n"),
            Map.entry("two.yaml", "formula: x\n---\nformula: y\n"),
            Map.entry("none.yaml", "formula: x\ningredients: []\n"),
            Map.entry("rules.yaml", "rule-set: x\n"),
            Map.entry("open.json", "{\"formula\": "),
            Map.entry("twice.json", "{\"formula\": \"x\", \"formula\": \"y\"}"),
            Map.entry("empty.csv", ""),
            Map.entry("header.csv", "phase,name,share\n"),
            Map.entry("quote.csv", "phase,name,share\nA,\"Aqua,rest\n"),
            Map.entry(
                "huge-number.yaml",
                "formula: x\ningredients:\n  - { name: Aqua, share: 1e400 % }\n"),
            Map.entry(
                "negative.yaml", "formula: x\ningredients:\n  - { name: Aqua, share: -4 % }\n"))
        .map(entry -> Arguments.of(entry.getKey(), entry.getValue()));
  }

  private static String help(String command) {
    return run((command + " --help").split(" ")).out();
  }

  private String[] words(String line) {
    List<String> words = new ArrayList<>();
    Matcher word = WORD.matcher(line);
    while (word.find()) {
      String text = Optional.ofNullable(word.group(1)).orElseGet(() -> word.group(2));
      boolean out =
          !words.isEmpty() && List.of("--out", "--sheet").contains(words.get(words.size() - 1));
      words.add(
          out
              ? folder.resolve(text).toString()
              : text.startsWith("docs/") ? ROOT.resolve(text).toString() : text);
    }
    return words.toArray(String[]::new);
  }

  private static Ran run(String... arguments) {
    return Ran.of(ENGINE, arguments);
  }
}
