package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.profile.Profile;
import gelwright.rule.Rule;
import gelwright.rule.RuleBook;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import gelwright.rule.Text;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * Every indented line of the guide that is a condition or a message is one the checker accepts,
 * with the properties, functions and tables there really are.
 */
@DisplayName("docs/guide/rule-language.md")
final class RuleLanguageGuideTest {
  private static final Path GUIDE = Path.of("..", "docs", "guide", "rule-language.md");

  private final List<Rule> rules = new ArrayList<>();

  @Test
  @DisplayName("has only conditions and messages that compile")
  void everyLineCompiles() throws IOException {
    Optional<Text> forEach = Optional.empty();
    for (String line : Files.readString(GUIDE).lines().toList()) {
      String written = line.strip();
      if (line.startsWith("## ")) {
        forEach = Optional.empty();
      } else if (!line.startsWith("    ") || written.endsWith("…")) {
        continue;
      } else if (written.startsWith("for each: ")) {
        forEach = Optional.of(text(written.substring("for each: ".length())));
      } else if (written.startsWith("message: ")) {
        add(forEach, "total.share > 0 %", written.replaceAll("^message: \"|\"$", ""));
      } else if (written.startsWith("when: ") || written.startsWith("require: ")) {
        add(forEach, written.replaceFirst("^(when|require): ", ""), "Wrong.");
      } else if (!written.contains(": ")) {
        add(forEach, written, "Wrong.");
      }
    }
    assertTrue(rules.size() > 35, "lines found in the guide: " + rules.size());
    Library library = Bundled.load();
    List<RuleSet> sets = new ArrayList<>(library.ruleSets());
    sets.add(new RuleSet("guide", "Guide", "1", rules, List.of(), List.of(), Place.NOWHERE));
    String problems =
        RuleBook.compile(
                sets,
                Profile.vocabulary(),
                library.catalogue().sources().stream().map(Source::id).collect(Collectors.toSet()))
            .problems()
            .stream()
            .map(problem -> problem.place().file() + ": " + problem.message())
            .collect(Collectors.joining("\n"));
    assertEquals("", problems);
  }

  private void add(Optional<Text> forEach, String require, String message) {
    rules.add(
        new Rule(
            "line-" + rules.size(),
            text("A line of the guide"),
            Rule.Kind.REQUIREMENT,
            Severity.NOTE,
            forEach,
            Optional.empty(),
            Optional.of(text(require)),
            text(message),
            "A lesson.",
            List.of(),
            List.of(text("trade-practice")),
            false,
            false,
            false,
            true,
            List.of(),
            Place.NOWHERE));
  }

  /** A text whose place names the text itself, so that a problem tells which line is wrong. */
  private static Text text(String written) {
    return new Text(written, new Place(written, 1, 1, ""));
  }
}
