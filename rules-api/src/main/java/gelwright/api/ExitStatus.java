package gelwright.api;

import gelwright.reports.Gravity;
import gelwright.reports.Unreadable;
import gelwright.review.Finding;
import gelwright.review.Review;
import gelwright.review.Subject;
import gelwright.rule.Severity;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * What a run ends with. What was not checked is never a success by itself: nothing read and no rule
 * run are wrong calls, and a rule that must be known fails the run until it is.
 *
 * @param failOn findings from this level on fail the run; none does when empty
 * @param requireChecked ids of rule sets of which every rule has to be checked
 */
record ExitStatus(Optional<Severity> failOn, Set<String> requireChecked) {
  static final int FINE = 0;
  static final int FINDINGS = 1;
  static final int WRONG = 2;

  ExitStatus {
    requireChecked = Set.copyOf(requireChecked);
  }

  int of(List<Review> reviews, List<Unreadable> unreadable) {
    if (reviews.isEmpty()
        || !unreadable.isEmpty()
        || reviews.stream().anyMatch(review -> review.rules().isEmpty())) {
      return WRONG;
    }
    return reviews.stream().anyMatch(this::fails) ? FINDINGS : FINE;
  }

  private boolean fails(Review review) {
    for (Finding finding : review.findings()) {
      if (finding.isAccepted()) {
        continue;
      }
      boolean open = finding.outcome() == gelwright.review.Outcome.UNKNOWN;
      if (open && requireChecked.contains(set(finding.rule()))) {
        return true;
      }
      if (failOn.isPresent()
          && Gravity.of(finding) == Gravity.FAILED
          && (open || finding.level().compareTo(failOn.get()) >= 0)) {
        return true;
      }
    }
    for (Review.Unchecked unchecked : review.unchecked()) {
      if (requireChecked.contains(set(unchecked.rule()))
          && !isAccepted(review, unchecked.rule(), unchecked.subject())) {
        return true;
      }
    }
    return false;
  }

  private static boolean isAccepted(Review review, String rule, Subject subject) {
    return review.findings().stream()
        .anyMatch(
            finding ->
                finding.isAccepted()
                    && finding.rule().equals(rule)
                    && finding.subject().equals(subject));
  }

  private static String set(String rule) {
    int dot = rule.indexOf('.');
    return dot < 0 ? rule : rule.substring(0, dot);
  }
}
