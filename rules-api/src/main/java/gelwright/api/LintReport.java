package gelwright.api;

import gelwright.api.html.Gathered;
import gelwright.api.html.Words;
import gelwright.reports.Gravity;
import gelwright.reports.Unreadable;
import gelwright.review.Finding;
import gelwright.review.Review;
import gelwright.rule.Severity;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Many reviews at a glance: a table, then what failed file by file, a line for each rule, then the
 * rules that speak most often. What is borderline and probably holds, and what could not be
 * checked, is counted in the table and told by {@code review}.
 */
final class LintReport {
  /** A sentence longer than this is cut at a word. */
  private static final int SENTENCE = 110;

  private LintReport() {}

  /**
   * Writes the summary.
   *
   * @param skipped sheets that are no formulas
   */
  static String of(List<Review> reviews, List<Unreadable> unreadable, List<Path> skipped, Ink ink) {
    StringBuilder out = new StringBuilder();
    table(out, reviews, unreadable, ink);
    for (Review review : reviews) {
      file(out, review, ink);
    }
    out.append('\n');
    paragraph(out, Gathered.totals(reviews, unreadable.size()));
    rules(out, reviews);
    if (!skipped.isEmpty()) {
      paragraph(out, skipped(skipped));
    }
    out.append('\n');
    paragraph(out, Words.CLOSING);
    return out.toString();
  }

  /** One sentence about sheets that were found and are no formulas. */
  static String skipped(List<Path> skipped) {
    return "Skipped, no "
        + (skipped.size() == 1 ? "formula: " : "formulas: ")
        + String.join(", ", skipped.stream().map(Path::toString).map(Plain::line).toList())
        + " (--rules or --ingredients makes use of rules, ingredients and sources).";
  }

  private static void table(
      StringBuilder out, List<Review> reviews, List<Unreadable> unreadable, Ink ink) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("file", "formula", "outcome", "errors", "warnings", "notes", "not checked"));
    for (Review review : reviews) {
      rows.add(
          List.of(
              Plain.line(review.place().file()),
              Plain.line(review.formula()),
              Words.outcome(review),
              Integer.toString(Words.count(review, Severity.ERROR)),
              Integer.toString(Words.count(review, Severity.WARNING)),
              Integer.toString(Words.count(review, Severity.NOTE)),
              Integer.toString(review.unchecked().size())));
    }
    for (Unreadable file : unreadable) {
      rows.add(List.of(Plain.line(file.file()), "–", "could not be read", "–", "–", "–", "–"));
    }
    TextReport.table(out, rows, 3, ink);
  }

  private static void file(StringBuilder out, Review review, Ink ink) {
    Map<String, List<Finding>> byRule = new LinkedHashMap<>();
    for (Finding finding : review.findings()) {
      if (!finding.isAccepted() && Gravity.of(finding) == Gravity.FAILED) {
        byRule
            .computeIfAbsent(finding.level() + " " + finding.rule(), key -> new ArrayList<>())
            .add(finding);
      }
    }
    if (byRule.isEmpty()) {
      return;
    }
    out.append('\n');
    for (List<Finding> findings : byRule.values()) {
      Finding first = findings.get(0);
      String file = first.where().file().isEmpty() ? review.place().file() : first.where().file();
      out.append(Plain.line(file));
      if (first.where().line() > 0 && !first.where().pointer().isEmpty()) {
        out.append(':').append(first.where().line());
      }
      out.append(file.isEmpty() ? "" : ": ")
          .append(ink.level(first.level(), first.level().word()))
          .append(": ")
          .append(sentence(first))
          .append(" [")
          .append(first.rule())
          .append(']')
          .append(findings.size() == 1 ? "" : " and " + (findings.size() - 1) + " more like it")
          .append('\n');
    }
  }

  /** What is wrong, in the first sentence of the message; of what is not known, what is missing. */
  private static String sentence(Finding finding) {
    if (!finding.missing().isEmpty()) {
      return Plain.line(
          finding.title()
              + "? Missing: "
              + String.join("; ", Words.missing(finding.missing()))
              + ".");
    }
    String message = Plain.line(finding.message());
    int end = message.indexOf(". ");
    String first = end < 0 ? message : message.substring(0, end + 1);
    if (Plain.length(first) <= SENTENCE) {
      return first;
    }
    return Plain.wrap(first, SENTENCE).get(0) + " …";
  }

  private static void rules(StringBuilder out, List<Review> reviews) {
    List<String> most =
        Gathered.commonest(reviews).stream()
            .map(common -> common.first().rule() + " " + common.words())
            .toList();
    if (!most.isEmpty()) {
      paragraph(out, "Rules that speak most often: " + String.join("; ", most) + ".");
    }
  }

  private static void paragraph(StringBuilder out, String words) {
    for (String line : Plain.wrap(words, TextPage.WIDTH)) {
      out.append(line).append('\n');
    }
  }
}
