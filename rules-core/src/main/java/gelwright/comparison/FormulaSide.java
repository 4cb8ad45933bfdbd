package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.review.Editions;
import gelwright.review.Outcome;
import gelwright.rule.Severity;

/**
 * One of the two formulas.
 *
 * @param label what it is called in the comparison: its name, with its version or place where both
 *     have one name
 * @param formula its name
 * @param version of its sheet, or empty
 * @param editions what is told of it rests on
 * @param outcome of its review
 * @param level of its worst finding
 * @param place of its sheet
 */
public record FormulaSide(
    String label,
    String formula,
    String version,
    Editions editions,
    Outcome outcome,
    Severity level,
    Place place) {
  public FormulaSide {
    requireNonNull(label, "label");
    requireNonNull(formula, "formula");
    requireNonNull(version, "version");
    requireNonNull(editions, "editions");
    requireNonNull(outcome, "outcome");
    requireNonNull(level, "level");
    requireNonNull(place, "place");
  }
}
