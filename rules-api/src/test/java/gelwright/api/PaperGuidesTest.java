package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
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
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the guides to papers")
final class PaperGuidesTest {
  private static final Path ROOT = Path.of("..");
  private static final Pattern COMMAND =
      Pattern.compile("(?m)^```sh\\Rjava -jar rules-api/target/gelwright.jar (.*)\\R```");
  private static final Pattern OUTPUT = Pattern.compile("(?ms)^```\\R(.*?)^```");
  private static final Pattern YAML = Pattern.compile("(?ms)^```yaml\\R(.*?)^```");
  private static final Pattern PICTURE = Pattern.compile("!\\[([^\\]]+)\\]\\(([^)]+)\\)");

  /** A picture is to be read on a slow line. */
  private static final long MOST_BYTES = 150_000;

  @ParameterizedTest(name = "docs/guide/{0}.md: the command gives the lines it shows, in order")
  @ValueSource(strings = {"batch-sheet", "label-draft", "stability-plan"})
  void output(String page) throws IOException {
    String guide = Files.readString(ROOT.resolve("docs/guide/" + page + ".md"));
    Matcher command = COMMAND.matcher(guide);
    assertTrue(command.find(), "a command");
    List<String> words = new ArrayList<>();
    for (String word : command.group(1).split(" ", -1)) {
      words.add(word.startsWith("docs/") ? ROOT.resolve(word).toString() : word);
    }
    String out = run(words);
    Matcher shown = OUTPUT.matcher(guide);
    assertTrue(shown.find(command.end()), "its output");
    int at = 0;
    int lines = 0;
    for (String line : shown.group(1).lines().toList()) {
      if (line.equals("…") || line.isEmpty()) {
        continue;
      }
      int found = ("\n" + out).indexOf("\n" + line + "\n", at);
      assertTrue(found >= 0, () -> "not in the output, or not in this order: " + line);
      at = found + 1;
      lines++;
    }
    assertTrue(lines > 8, "an excerpt");
  }

  @ParameterizedTest(
      name = "docs/guide/{0}.md: a picture with a text, and the script that draws it")
  @ValueSource(strings = {"batch-sheet", "label-draft", "stability-plan"})
  void picture(String page) throws IOException {
    Path guides = ROOT.resolve("docs/guide");
    Matcher picture = PICTURE.matcher(Files.readString(guides.resolve(page + ".md")));
    assertTrue(picture.find(), "a picture");
    assertTrue(picture.group(1).length() > 40, "a text that tells what is to be seen");
    Path file = guides.resolve(picture.group(2));
    assertTrue(Files.size(file) < MOST_BYTES, file + " is too large");
    assertTrue(Files.readString(guides.resolve("papers/draw.sh")).contains("draw " + page + " "));
  }

  @ParameterizedTest(name = "docs/guide/{0}.md: the house's table is taken")
  @ValueSource(strings = "stability-plan")
  void house(String page, @TempDir Path folder) throws IOException {
    Matcher yaml = YAML.matcher(Files.readString(ROOT.resolve("docs/guide/" + page + ".md")));
    assertTrue(yaml.find());
    Files.writeString(folder.resolve("house.yaml"), yaml.group(1));
    String out =
        run(
            List.of(
                "stability",
                "--rules",
                folder.toString(),
                ROOT.resolve("docs/examples/shade-mist.yaml").toString()));
    assertTrue(out.contains("In the greenhouse"), out);
  }

  private static String run(List<String> words) {
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
            .run(words.toArray(String[]::new));
    assertEquals(0, status, err.toString(StandardCharsets.UTF_8));
    return out.toString(StandardCharsets.UTF_8);
  }
}
