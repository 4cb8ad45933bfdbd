package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.review.Subject;
import java.util.List;
import java.util.Optional;

/**
 * A rule that could not be checked on at least one side.
 *
 * @param rule full id
 * @param subject what could not be checked, as the second formula calls it where both have it
 * @param first what is missing in the first formula; absent where it was checked there or does not
 *     arise
 * @param second the same of the second formula
 */
public record OpenCheck(
    String rule, Subject subject, Optional<List<String>> first, Optional<List<String>> second) {
  public OpenCheck {
    requireNonNull(rule, "rule");
    requireNonNull(subject, "subject");
    first = first.map(List::copyOf);
    second = second.map(List::copyOf);
    if (first.isEmpty() && second.isEmpty()) {
      throw new IllegalArgumentException("checked on both sides: " + rule);
    }
  }
}
