package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Catalogue;
import gelwright.rule.RuleBook;

/**
 * What a reviewer knows: ingredients with their sources, and compiled rules. Immutable.
 *
 * @param catalogue ingredients and sources
 * @param rules compiled rules
 */
public record Knowledge(Catalogue catalogue, RuleBook rules) {
  public Knowledge {
    requireNonNull(catalogue, "catalogue");
    requireNonNull(rules, "rules");
  }
}
