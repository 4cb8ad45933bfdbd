package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.rule.RuleSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A rule set as read, with the examples of its rules.
 *
 * @param ruleSet its rules, tables and changes
 * @param examples in the order written: of each rule, then of the rows of each table
 * @param unshowable by the id of a rule within its set, the kinds of example that its sheet says no
 *     sheet can show ({@code breaks: none})
 */
public record RuleSheet(
    RuleSet ruleSet, List<Example> examples, Map<String, Set<String>> unshowable) {
  public RuleSheet {
    requireNonNull(ruleSet, "ruleSet");
    examples = List.copyOf(examples);
    unshowable = Map.copyOf(unshowable);
  }
}
