package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.rule.RuleSet;
import java.util.List;

/**
 * A rule set as read, with the examples of its rules.
 *
 * @param ruleSet its rules, tables and changes
 * @param examples in the order written: of each rule, then of the rows of each table
 */
public record RuleSheet(RuleSet ruleSet, List<Example> examples) {
  public RuleSheet {
    requireNonNull(ruleSet, "ruleSet");
    examples = List.copyOf(examples);
  }
}
