package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.review.Duty;
import java.util.Optional;

/**
 * A duty of one or both formulas, by its rule and subject.
 *
 * @param kind gained, lost, changed or kept
 * @param first the duty of the first formula, if it has it
 * @param second the duty of the second formula, if it has it
 */
public record DutyChange(FindingChange.Kind kind, Optional<Duty> first, Optional<Duty> second) {
  public DutyChange {
    requireNonNull(kind, "kind");
    if (kind.inFirst() != first.isPresent() || kind.inSecond() != second.isPresent()) {
      throw new IllegalArgumentException("a duty that is " + kind + " is on the other side");
    }
  }

  /** The duty, of the second formula where both have it. */
  public Duty duty() {
    return second.or(() -> first).orElseThrow();
  }
}
