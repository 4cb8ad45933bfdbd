package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.review.Finding;
import gelwright.review.Outcome;
import java.util.Locale;
import java.util.Optional;

/**
 * A finding of one or both formulas, by its rule and subject. Findings about a step are the same
 * where the step is the same or a changed one.
 *
 * @param kind gained, lost, changed or kept
 * @param first the finding of the first formula, if it has it
 * @param firstOutcome what became of the rule for this subject in the first formula; absent where
 *     it has no such subject
 * @param second the finding of the second formula, if it has it
 * @param secondOutcome the same of the second formula
 */
public record FindingChange(
    Kind kind,
    Optional<Finding> first,
    Optional<Outcome> firstOutcome,
    Optional<Finding> second,
    Optional<Outcome> secondOutcome) {
  public FindingChange {
    requireNonNull(kind, "kind");
    if (kind.inFirst() != first.isPresent() || kind.inSecond() != second.isPresent()) {
      throw new IllegalArgumentException("a finding that is " + kind + " is on the other side");
    }
  }

  /** The finding, of the second formula where both have it. */
  public Finding finding() {
    return second.or(() -> first).orElseThrow();
  }

  /** What became of a finding or a duty of the first formula in the second one. */
  public enum Kind {
    /** Of the second formula only. */
    GAINED,
    /** Of the first formula only. */
    LOST,
    /** Of both, with another outcome, level or odds, or accepted on one side only. */
    CHANGED,
    /** Of both, alike. */
    KEPT;

    /** As written in reports. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    boolean inFirst() {
      return this != GAINED;
    }

    boolean inSecond() {
      return this != LOST;
    }

    static Kind of(boolean inFirst, boolean inSecond, boolean alike) {
      return inFirst ? inSecond ? alike ? KEPT : CHANGED : LOST : GAINED;
    }
  }
}
