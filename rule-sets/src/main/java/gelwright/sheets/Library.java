package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Catalogue;
import gelwright.rule.RuleSet;
import gelwright.sheets.tree.Document;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * All that sheets say: ingredients with their sources, rule sets with their examples, and the base
 * formulas that the examples start from.
 *
 * @param catalogue ingredients and sources
 * @param ruleSheets in the order read
 * @param bases by the name of the formula
 */
public record Library(
    Catalogue catalogue, List<RuleSheet> ruleSheets, Map<String, Document> bases) {
  public Library {
    requireNonNull(catalogue, "catalogue");
    ruleSheets = List.copyOf(ruleSheets);
    bases = Collections.unmodifiableMap(new TreeMap<>(bases));
  }

  /** The rule sets without their examples. */
  public List<RuleSet> ruleSets() {
    return ruleSheets.stream().map(RuleSheet::ruleSet).toList();
  }
}
