package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.problem.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Every indented line of the guide that is a condition is one the checker accepts. */
class GuideTest {
  private static final Path GUIDE = Path.of("..", "docs", "guide", "rule-language.md");

  @Test
  void theExamplesOfTheGuideAreRight() throws IOException {
    int checked = 0;
    Checker.Context context = Checker.Context.NOTHING;
    for (String line : Files.readString(GUIDE).lines().toList()) {
      if (line.startsWith("## ")) {
        context = Checker.Context.NOTHING;
      }
      if (!line.startsWith("    ") || line.contains("message: ") || line.endsWith("…")) {
        continue;
      }
      String written = line.strip();
      if (written.startsWith("for each: row of ")) {
        context = new Checker.Context.Rows(Workshop.WINDOWS);
      } else if (written.startsWith("for each: ")) {
        context = Workshop.items(written.substring("for each: ".length()));
      } else if (written.startsWith("when: ")
          || written.startsWith("require: ")
          || !written.contains(": ")) {
        List<Problem> problems = new ArrayList<>();
        Workshop.check(written.replaceFirst("^(when|require): ", ""), context, problems);
        assertEquals("", Workshop.print(problems), written);
        checked++;
      }
    }
    assertTrue(checked > 35, "conditions found in the guide: " + checked);
  }
}
