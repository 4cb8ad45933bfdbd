package gelwright.api.html;

import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;

/** What of a review is told together: findings of one rule, checks that one thing leaves open. */
public final class Gathered {
  private Gathered() {}

  /**
   * Findings that are not accepted, those of one rule and level together, in the order of the
   * review.
   */
  public static List<List<Finding>> byRule(Review review, Predicate<Finding> filter) {
    Map<String, List<Finding>> byRule = new LinkedHashMap<>();
    for (Finding finding : review.findings()) {
      if (!finding.isAccepted() && filter.test(finding)) {
        byRule
            .computeIfAbsent(finding.level() + " " + finding.rule(), key -> new ArrayList<>())
            .add(finding);
      }
    }
    return List.copyOf(byRule.values());
  }

  /** The sentences with which all messages end, if each says something before them. */
  public static String sharedEnd(List<String> messages) {
    String first = messages.get(0);
    for (int at = first.indexOf(". "); at >= 0; at = first.indexOf(". ", at + 1)) {
      String end = first.substring(at + 2);
      if (messages.stream().allMatch(message -> message.endsWith(". " + end))) {
        return end;
      }
    }
    return "";
  }

  /**
   * Findings that could not be checked, gathered by what they are about: one ingredient of which
   * nothing is known can leave many checks open.
   */
  public static List<List<Finding>> open(Review review) {
    Map<String, List<Finding>> together = new LinkedHashMap<>();
    for (Finding finding : review.findings()) {
      if (!finding.isAccepted() && finding.outcome() == Outcome.UNKNOWN) {
        String about =
            finding.subject().isFormula()
                ? Words.onlyNameIn(finding.missing())
                    .orElseGet(() -> String.join("; ", finding.missing()))
                : Words.name(finding.subject());
        together
            .computeIfAbsent(finding.level() + " " + about, key -> new ArrayList<>())
            .add(finding);
      }
    }
    return List.copyOf(together.values());
  }

  /**
   * What is unchecked and is no finding, such as a duty of which it is not known whether it
   * applies.
   */
  public static List<String> unlisted(Review review) {
    List<String> lines = new ArrayList<>();
    for (Review.Unchecked unchecked : review.unchecked()) {
      boolean told =
          review.findings().stream()
                  .anyMatch(
                      finding ->
                          finding.rule().equals(unchecked.rule())
                              && finding.subject().equals(unchecked.subject()))
              || review.duties().stream()
                  .anyMatch(
                      duty ->
                          duty.rule().equals(unchecked.rule())
                              && duty.subject().equals(unchecked.subject()));
      if (!told) {
        String subject = Words.subject(unchecked.subject());
        lines.add(
            unchecked.rule()
                + (subject.isEmpty() ? "" : " for " + subject)
                + ": missing "
                + String.join("; ", Words.missing(unchecked.missing())));
      }
    }
    return lines;
  }
}
