package gelwright.rule;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.Set;

/**
 * What a requirement comes to.
 *
 * @param truth odds that it is met, and what is missing where that could still matter
 * @param comparison the comparison that counts, if the part that counts compares numbers
 * @param decidedWithout what is missing and does not matter: the requirement is decided all the
 *     same
 */
public record Assessment(Truth truth, Optional<Comparison> comparison, Set<String> decidedWithout) {
  public Assessment {
    requireNonNull(truth, "truth");
    requireNonNull(comparison, "comparison");
    decidedWithout = Sets.copy(decidedWithout);
  }
}
