package gelwright.sheets;

import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** The keys and closed words of a rule set. */
final class RuleWords {
  static final List<String> SHEET =
      List.of("rule-set", "title", "edition", "tables", "rules", "changes");
  static final List<String> RULE =
      List.of(
          "title",
          "kind",
          "severity",
          "for each",
          "when",
          "require",
          "message",
          "lesson",
          "levers",
          "sources",
          "always-known",
          "must-be-known",
          "when-borderline",
          "may-be-accepted",
          "aliases",
          "examples");
  static final List<String> TABLE = List.of("columns", "source", "rows");
  static final List<String> CHANGE =
      List.of("tighten", "relax", "switch-off", "require", "when", "severity", "because");
  static final List<String> DIRECTIONS = List.of("tighten", "relax", "switch-off");
  static final List<String> KINDS = List.of("requirement", "duty");
  static final List<String> SEVERITIES =
      Arrays.stream(Severity.values()).map(Severity::word).toList();

  /** What an example may expect. */
  static final List<String> EXPECTED =
      List.of(
          "holds",
          "breaks",
          "borderline",
          "unknown",
          "applies",
          "may-apply",
          "does-not-apply",
          "not-applicable");

  static final List<String> EXAMPLES = examples();

  private RuleWords() {}

  private static List<String> examples() {
    List<String> keys = new ArrayList<>(List.of("base"));
    keys.addAll(EXPECTED);
    return List.copyOf(keys);
  }
}
