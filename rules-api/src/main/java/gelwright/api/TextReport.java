package gelwright.api;

import gelwright.ingredient.Source;
import gelwright.problem.Problem;
import gelwright.reports.Gravity;
import gelwright.reports.Unreadable;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.rule.Severity;
import gelwright.rule.Trace;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.function.Predicate;

/** A review as a formulator reads it. The same review gives the same text. */
final class TextReport {
  private static final int WIDTH = 92;
  private static final int INDENT = 9;

  private static final String CLOSING =
      "This is a prediction with its sources, not a certificate, and not a safety assessment. What"
          + " could not be checked is not passed. A qualified safety assessor, a preservative"
          + " challenge test (ISO 11930), stability tests and the law of the place decide.";

  private final Ink ink;
  private final StringBuilder text = new StringBuilder();

  private TextReport(Ink ink) {
    this.ink = ink;
  }

  /** One review in full. */
  static String of(Review review, Ink ink) {
    TextReport report = new TextReport(ink);
    report.review(review);
    return report.text.toString();
  }

  private void review(Review review) {
    line(ink.strong(Plain.line(review.formula())));
    if (!review.place().file().isEmpty()) {
      line(ink.quiet(Plain.line(review.place().file())));
    }
    paragraph("", Words.verdict(review), 0);
    section("Breaks", review, finding -> finding.outcome() == Outcome.BREAKS);
    section("Borderline", review, finding -> finding.outcome() == Outcome.BORDERLINE);
    section("NOT CHECKED", review, finding -> finding.outcome() == Outcome.UNKNOWN);
    unlisted(review);
    accepted(review);
    duties(review);
    bullets("Take care", review.cautions());
    next(review);
    if (!review.switchedOff().isEmpty()) {
      heading("Switched off by the house");
      for (Map.Entry<String, String> rule : review.switchedOff().entrySet()) {
        paragraph("- ", rule.getKey() + ": " + rule.getValue(), 2);
      }
    }
    foot(review);
  }

  private void section(String title, Review review, Predicate<Finding> filter) {
    List<Finding> findings =
        review.findings().stream()
            .filter(finding -> !finding.isAccepted() && filter.test(finding))
            .toList();
    if (findings.isEmpty()) {
      return;
    }
    heading(title);
    for (int i = 0; i < findings.size(); i++) {
      if (i > 0) {
        line("");
      }
      finding(findings.get(i));
    }
  }

  private void finding(Finding finding) {
    String subject = Words.subject(finding.subject());
    String title = finding.title() + (subject.isEmpty() ? "" : " – " + subject);
    List<String> lines = Plain.wrap(title, WIDTH - INDENT);
    for (int i = 0; i < lines.size(); i++) {
      String label = i == 0 ? finding.level().word() : "";
      line(ink.level(finding.level(), Plain.pad(label, INDENT)) + ink.strong(lines.get(i)));
    }
    paragraph("", finding.message(), INDENT);
    if (finding.observed().isPresent()) {
      StringBuilder numbers = new StringBuilder("Observed: ");
      numbers
          .append(finding.observed().get().name())
          .append(' ')
          .append(Words.range(finding.observed().get()))
          .append('.');
      if (finding.limit().isPresent()) {
        numbers
            .append(" Limit: ")
            .append(finding.limit().get().name())
            .append(' ')
            .append(Words.range(finding.limit().get()))
            .append('.');
      }
      paragraph("", numbers.toString(), INDENT);
    }
    if (finding.outcome() == Outcome.BORDERLINE) {
      paragraph("", sentence(Words.odds(finding.odds())), INDENT);
    }
    if (finding.outcome() == Outcome.UNKNOWN) {
      paragraph(
          "Missing: ",
          finding.missing().isEmpty() ? "not stated" : String.join("; ", finding.missing()),
          INDENT);
      if (finding.mustBeKnown()) {
        paragraph("", "This has to be known: it counts as broken until it is.", INDENT);
      }
    }
    if (!finding.settledBy().isEmpty()) {
      paragraph("To settle it: ", String.join("; ", finding.settledBy()), INDENT);
    }
    if (!finding.lesson().isBlank()) {
      paragraph("Why: ", finding.lesson(), INDENT);
    }
    sources(finding.sources());
    String where = finding.where().toString();
    paragraph("", (where.isEmpty() ? "Rule " : where + ", rule ") + finding.rule(), INDENT);
    finding.trace().ifPresent(trace -> trace(trace, INDENT));
  }

  private static String sentence(String words) {
    return words.isEmpty() ? "" : Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
  }

  private void sources(List<Source> sources) {
    for (Source source : sources) {
      paragraph(
          "Source: ", source.citation() + " [" + Words.standing(source.standing()) + "]", INDENT);
    }
  }

  private void trace(Trace trace, int indent) {
    StringBuilder words = new StringBuilder(trace.text()).append("  =  ").append(trace.value());
    if (!trace.missing().isEmpty()) {
      words
          .append("  (missing: ")
          .append(String.join("; ", new TreeSet<>(trace.missing())))
          .append(')');
    }
    paragraph("| ", words.toString(), Math.min(indent, WIDTH / 2));
    for (Trace part : trace.parts()) {
      trace(part, indent + 2);
    }
  }

  /**
   * What is unchecked and is no finding, such as a duty of which it is not known whether it
   * applies.
   */
  private void unlisted(Review review) {
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
                + String.join("; ", unchecked.missing()));
      }
    }
    bullets("NOT CHECKED either", lines);
  }

  private void accepted(Review review) {
    List<String> lines = new ArrayList<>();
    for (Finding finding : review.findings()) {
      finding
          .acceptance()
          .ifPresent(
              acceptance -> {
                String subject = Words.subject(finding.subject());
                lines.add(
                    finding.title()
                        + (subject.isEmpty() ? "" : " – " + subject)
                        + ": "
                        + finding.message()
                        + " Accepted until "
                        + acceptance.until()
                        + " because: "
                        + acceptance.because()
                        + " ("
                        + finding.rule()
                        + ")");
              });
    }
    bullets("Accepted", lines);
  }

  private void duties(Review review) {
    List<Duty> duties =
        review.duties().stream()
            .filter(
                duty ->
                    duty.applies() != Outcome.DOES_NOT_APPLY
                        && duty.applies() != Outcome.NOT_APPLICABLE)
            .toList();
    if (duties.isEmpty()) {
      return;
    }
    heading("To do and to declare");
    for (Duty duty : duties) {
      String subject = Words.subject(duty.subject());
      StringBuilder words = new StringBuilder();
      if (duty.applies() == Outcome.MAY_APPLY) {
        words.append("May apply: ");
      } else if (duty.applies() == Outcome.HOLDS) {
        words.append("Done: ");
      } else if (duty.applies() == Outcome.BREAKS) {
        words.append("Not done: ");
      }
      words.append(duty.message());
      if (!subject.isEmpty()) {
        words.append(" (").append(subject).append(')');
      }
      if (!duty.missing().isEmpty()) {
        words.append(" To be sure, state: ").append(String.join("; ", duty.missing())).append('.');
      }
      for (Source source : duty.sources()) {
        words
            .append(" Source: ")
            .append(source.citation())
            .append(" [")
            .append(Words.standing(source.standing()))
            .append("].");
      }
      paragraph("- ", words.append(" Rule ").append(duty.rule()).append('.').toString(), 2);
    }
  }

  private void next(Review review) {
    List<String> lines = new ArrayList<>();
    for (Review.MeasureNext next : review.measureNext()) {
      lines.add(
          next.what()
              + (next.decides().isEmpty()
                  ? ""
                  : ": would settle " + String.join(", ", next.decides())));
    }
    bullets("What to measure or state next", lines);
  }

  private void foot(Review review) {
    line("");
    paragraph(
        "",
        Plain.count(review.rules().size(), "rule")
            + " run. Outcomes: "
            + count(review, Outcome.HOLDS)
            + " hold, "
            + count(review, Outcome.BREAKS)
            + " break, "
            + count(review, Outcome.BORDERLINE)
            + " borderline, "
            + count(review, Outcome.UNKNOWN)
            + " not checked, "
            + count(review, Outcome.NOT_APPLICABLE)
            + " not applicable; "
            + Plain.count(count(review, Outcome.APPLIES), "duty").replace("dutys", "duties")
            + ", "
            + count(review, Outcome.MAY_APPLY)
            + " that may apply; "
            + review.accepted()
            + " accepted.",
        0);
    StringBuilder editions = new StringBuilder("Reviewed for ").append(review.editions().on());
    editions.append(" with engine ").append(review.editions().engine());
    if (!review.editions().ruleSets().isEmpty()) {
      editions.append(" and rule sets ");
      List<String> sets = new ArrayList<>();
      review.editions().ruleSets().forEach((id, edition) -> sets.add(id + " " + edition));
      editions.append(String.join(", ", sets));
    }
    paragraph("", editions.append('.').toString(), 0);
    paragraph("", "Formula SHA-256 " + review.editions().formulaSha256(), 0);
    line("");
    paragraph("", CLOSING, 0);
  }

  private static int count(Review review, Outcome outcome) {
    return review.counts().getOrDefault(outcome, 0);
  }

  private void bullets(String title, List<String> lines) {
    if (lines.isEmpty()) {
      return;
    }
    heading(title);
    for (String one : lines) {
      paragraph("- ", one, 2);
    }
  }

  private void heading(String title) {
    line("");
    line(ink.strong(title));
  }

  /** A text wrapped beneath its first words, all of it so far from the edge. */
  private void paragraph(String first, String words, int indent) {
    if (words.isEmpty()) {
      return;
    }
    int hang = first.equals("- ") || first.equals("| ") ? 2 : 0;
    List<String> lines = Plain.wrap(hang > 0 ? words : first + words, WIDTH - indent - hang);
    for (int i = 0; i < lines.size(); i++) {
      String before = hang == 0 ? "" : i == 0 ? first : "  ";
      line(" ".repeat(indent) + before + lines.get(i));
    }
  }

  private void line(String line) {
    text.append(line.stripTrailing()).append('\n');
  }

  /** Many reviews at a glance: what failed, line by line, and a table. */
  static String summary(List<Review> reviews, List<Unreadable> unreadable, Ink ink) {
    StringBuilder out = new StringBuilder();
    for (Review review : reviews) {
      for (Finding finding : review.findings()) {
        if (!finding.isAccepted() && Gravity.of(finding) == Gravity.FAILED) {
          String where =
              finding.where().line() > 0 ? finding.where().toString() : review.place().file();
          String subject = Words.subject(finding.subject());
          out.append(Plain.line(where))
              .append(where.isEmpty() ? "" : ": ")
              .append(ink.level(finding.level(), finding.level().word()))
              .append(": ")
              .append(Plain.line(finding.message()))
              .append(
                  finding.missing().isEmpty()
                      ? ""
                      : " Missing: " + Plain.line(String.join("; ", finding.missing())) + ".")
              .append(Plain.line(subject).isEmpty() ? "" : " (" + Plain.line(subject) + ")")
              .append(" [")
              .append(finding.rule())
              .append("]\n");
        }
      }
    }
    if (out.length() > 0) {
      out.append('\n');
    }
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
    table(out, rows, 3, ink);
    out.append('\n');
    for (String words : Plain.wrap(CLOSING, WIDTH)) {
      out.append(words).append('\n');
    }
    return out.toString();
  }

  /** Columns as wide as they need; from {@code numbers} on flush right. */
  static void table(StringBuilder out, List<List<String>> rows, int numbers, Ink ink) {
    int columns = rows.get(0).size();
    int[] widths = new int[columns];
    for (List<String> row : rows) {
      for (int i = 0; i < columns; i++) {
        widths[i] = Math.max(widths[i], Plain.length(row.get(i)));
      }
    }
    for (int r = 0; r < rows.size(); r++) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < columns; i++) {
        String cell = rows.get(r).get(i);
        String space = " ".repeat(widths[i] - Plain.length(cell));
        line.append(i == 0 ? "" : "  ").append(i >= numbers ? space + cell : cell + space);
      }
      String whole = line.toString().stripTrailing();
      out.append(r == 0 ? ink.strong(whole) : whole).append('\n');
    }
  }

  /** What is wrong with files that could not be read, for standard error. */
  static String problems(List<Problem> problems) {
    StringBuilder out = new StringBuilder();
    for (Problem problem : problems) {
      String place = problem.place().toString();
      out.append(Plain.line((place.isEmpty() ? "" : place + ": ") + problem.message()));
      if (!problem.hint().isEmpty()) {
        out.append(' ').append(Plain.line(problem.hint()));
      }
      out.append(" [").append(problem.code()).append("]\n");
    }
    return out.toString();
  }
}
