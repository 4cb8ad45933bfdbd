package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Catalogue;
import gelwright.problem.Problem;
import gelwright.rule.RuleBook;
import java.util.List;

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

  /**
   * What is wrong between the two: rows of the tables {@code pH-adjusters} and {@code
   * replaceable-functions} that name an ingredient or a function that there is not.
   */
  public List<Problem> problems() {
    return RemedyTables.problems(this);
  }
}
