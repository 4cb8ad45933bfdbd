package gelwright.api.html;

import gelwright.reports.Gravity;
import gelwright.review.Finding;
import gelwright.review.Review;
import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;

/** What of a review is told together: findings of one rule, rules of many reviews. */
public final class Gathered {
  /** So many of the rules that speak most often are told. */
  private static final int RULES_TOLD = 5;

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

  /**
   * A rule that speaks in many formulas.
   *
   * @param first of its findings
   * @param formulas how many formulas fail it
   * @param times how many findings there are
   */
  public record Common(Finding first, int formulas, int times) {
    /** Where and how often. */
    public String words() {
      return "in " + Told.count(formulas, "formula") + ", " + Told.count(times, "time");
    }
  }

  /** The rules that most formulas fail, most first; none for a single formula. */
  public static List<Common> commonest(List<Review> reviews) {
    Map<String, Finding> first = new TreeMap<>();
    Map<String, Integer> times = new TreeMap<>();
    Map<String, Set<Integer>> where = new TreeMap<>();
    for (int i = 0; i < reviews.size(); i++) {
      for (Finding finding : reviews.get(i).findings()) {
        if (!finding.isAccepted() && Gravity.of(finding) == Gravity.FAILED) {
          first.putIfAbsent(finding.rule(), finding);
          times.merge(finding.rule(), 1, Integer::sum);
          where.computeIfAbsent(finding.rule(), key -> new TreeSet<>()).add(i);
        }
      }
    }
    if (reviews.size() < 2) {
      return List.of();
    }
    List<Common> all = new ArrayList<>();
    first.forEach(
        (rule, finding) ->
            all.add(
                new Common(
                    finding,
                    where.getOrDefault(rule, Set.of()).size(),
                    times.getOrDefault(rule, 0))));
    return all.stream()
        .sorted(
            Comparator.comparingInt((Common each) -> -each.formulas())
                .thenComparing(each -> -each.times())
                .thenComparing(each -> each.first().rule()))
        .limit(RULES_TOLD)
        .toList();
  }

  /** Many reviews in one sentence. */
  public static String totals(List<Review> reviews, int unreadable) {
    Map<String, Integer> outcomes = new TreeMap<>();
    int[] levels = new int[3];
    int open = 0;
    for (Review review : reviews) {
      outcomes.merge(Words.outcome(review), 1, Integer::sum);
      levels[0] += Words.count(review, Severity.ERROR);
      levels[1] += Words.count(review, Severity.WARNING);
      levels[2] += Words.count(review, Severity.NOTE);
      open += review.unchecked().size();
    }
    List<String> parts = new ArrayList<>();
    outcomes.forEach((outcome, count) -> parts.add(outcome + " " + count));
    return Told.count(reviews.size(), "formula")
        + (parts.isEmpty() ? "" : " (" + String.join(", ", parts) + ")")
        + ": "
        + Told.count(levels[0], "error")
        + ", "
        + Told.count(levels[1], "warning")
        + ", "
        + Told.count(levels[2], "note")
        + ", "
        + open
        + " not checked."
        + (unreadable == 0 ? "" : " Not read: " + unreadable + ".");
  }
}
