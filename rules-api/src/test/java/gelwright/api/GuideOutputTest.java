package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Pages of the guide that show what a command prints: each block of text stands, line by line, in
 * the output of the command before it. A line with an ellipsis stands for lines left out.
 */
@DisplayName("what pages of the guide show")
final class GuideOutputTest {
  private static final Path GUIDE = Path.of("..", "docs", "guide");
  private static final String PROGRAM = "java -jar rules-api/target/gelwright.jar ";
  private static final Engine ENGINE = new Ran.LoadedOnce();
  private static final Pattern BLOCK = Pattern.compile("(?ms)^```(sh|text)\\R(.*?)^```");

  @TempDir private Path folder;

  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"remedies.md", "headroom.md", "from-broken-to-batch.md"})
  void isWhatIsPrinted(String page) throws IOException {
    Matcher block = BLOCK.matcher(Files.readString(GUIDE.resolve(page)));
    List<String> printed = List.of();
    int shown = 0;
    while (block.find()) {
      if (block.group(1).equals("sh")) {
        printed = List.of();
        for (String line : block.group(2).lines().toList()) {
          printed = run(line);
        }
        continue;
      }
      List<String> piece = new ArrayList<>();
      for (String line : (block.group(2) + "…").lines().toList()) {
        if (!line.equals("…")) {
          piece.add(line);
          continue;
        }
        assertTrue(
            Collections.indexOfSubList(printed, piece) >= 0,
            page
                + " shows\n"
                + String.join("\n", piece)
                + "\n\nprinted was\n"
                + String.join("\n", printed));
        shown += piece.size();
        piece.clear();
      }
    }
    assertTrue(shown > 5, "lines shown: " + shown);
  }

  // Sheets without a folder are written and read beside the test.
  private List<String> run(String line) {
    assertTrue(line.startsWith(PROGRAM), line);
    String call = line.substring(PROGRAM.length()).replace("docs/", "../docs/");
    String[] arguments = call.strip().split(" +", -1);
    for (int i = 0; i < arguments.length; i++) {
      if (arguments[i].endsWith(".yaml") && arguments[i].indexOf('/') < 0) {
        arguments[i] = folder.resolve(arguments[i]).toString();
      }
    }
    Ran ran = Ran.of(ENGINE, arguments);
    assertTrue(ran.status() < 2, line + "\n" + ran.err());
    assertEquals("", ran.err(), line);
    return ran.out().replace("../docs/", "docs/").lines().toList();
  }
}
