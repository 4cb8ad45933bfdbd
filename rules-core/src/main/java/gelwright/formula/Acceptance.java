package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A finding somebody has taken responsibility for, up to an observed value and a date.
 *
 * @param rule full id of the rule
 * @param subject what the finding is about; empty for a rule without subjects
 * @param observed the value accepted: if the formula gets worse, the acceptance no longer covers it
 * @param because the reason; never blank
 * @param until the last day it is good for
 */
public record Acceptance(
    String rule, String subject, Optional<Quantity> observed, String because, LocalDate until) {
  public Acceptance {
    requireNonNull(rule, "rule");
    requireNonNull(subject, "subject");
    requireNonNull(until, "until");
    if (because.isBlank()) {
      throw new IllegalArgumentException("because is blank");
    }
  }
}
