package gelwright.review;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * What can be done about one finding.
 *
 * @param rule full id of the rule
 * @param subject what the finding is about
 * @param offers the best first: fewest new errors, then fewest new findings and duties, then the
 *     smallest change
 * @param none why there is no offer; empty where there is one
 */
public record Remedies(String rule, Subject subject, List<Remedy> offers, Optional<String> none) {
  public Remedies {
    requireNonNull(rule, "rule");
    requireNonNull(subject, "subject");
    offers = List.copyOf(offers);
    if (offers.isEmpty() != none.isPresent()) {
      throw new IllegalArgumentException("none says why there are no offers, and only then");
    }
  }
}
