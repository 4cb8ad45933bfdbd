package gelwright.api;

import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Concern;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Remedies;
import gelwright.review.Remedy;
import gelwright.review.Review;
import gelwright.review.Subject;
import gelwright.rule.Severity;
import gelwright.rule.Trace;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * A review as a formulator reads it. The same review gives the same text.
 *
 * <p>Findings of one rule stand together, its lesson said once. What could not be checked stands
 * together by what it is about. Sources are numbered and listed at the end; how far a source can be
 * looked up stands beside its number wherever it is cited.
 */
final class TextReport {
  private static final int INDENT = 9;

  /** Set whose duties say what can hurt. */
  private static final String CAUTION = "caution.";

  /** Part of the statement that every review carries among its cautions; the closing says it. */
  private static final String STANDING = "not a safety assessment";

  private final Ink ink;
  private final TextPage page;
  private final Map<Concern, Remedies> remedies = new HashMap<>();
  private final Map<Remedy, Integer> remedyNumbers = new IdentityHashMap<>();

  private TextReport(Ink ink) {
    this.ink = ink;
    this.page = new TextPage(ink);
  }

  /** One review in full. */
  static String of(Review review, Ink ink) {
    TextReport report = new TextReport(ink);
    report.review(review);
    return report.page.text();
  }

  private void review(Review review) {
    page.line(ink.strong(Plain.line(review.formula())));
    if (!review.place().file().isEmpty()) {
      page.line(ink.quiet(Plain.line(review.place().file())));
    }
    page.paragraph("", Words.verdict(review), 0);
    for (Remedies each : review.remedies().orElse(List.of())) {
      remedies.put(new Concern(each.rule(), each.subject()), each);
      each.offers().forEach(offer -> remedyNumbers.put(offer, remedyNumbers.size() + 1));
    }
    section("Breaks", review, finding -> finding.outcome() == Outcome.BREAKS);
    section("Borderline", review, finding -> finding.outcome() == Outcome.BORDERLINE);
    unchecked(review);
    accepted(review);
    duties("To do and to declare", review, duty -> !duty.rule().startsWith(CAUTION), List.of());
    duties("Take care", review, duty -> duty.rule().startsWith(CAUTION), otherCautions(review));
    next(review);
    if (!review.switchedOff().isEmpty()) {
      page.heading("Switched off by the house");
      for (Map.Entry<String, String> rule : review.switchedOff().entrySet()) {
        page.paragraph("- ", rule.getKey() + ": " + rule.getValue(), 2);
      }
    }
    page.sourceList();
    foot(review);
  }

  private void section(String title, Review review, Predicate<Finding> filter) {
    Map<String, List<Finding>> byRule = new LinkedHashMap<>();
    for (Finding finding : review.findings()) {
      if (!finding.isAccepted() && filter.test(finding)) {
        byRule
            .computeIfAbsent(finding.level() + " " + finding.rule(), key -> new ArrayList<>())
            .add(finding);
      }
    }
    if (byRule.isEmpty()) {
      return;
    }
    page.heading(title);
    boolean first = true;
    for (List<Finding> findings : byRule.values()) {
      if (!first) {
        page.line("");
      }
      first = false;
      findings(findings);
    }
  }

  /** Findings of one rule. */
  private void findings(List<Finding> findings) {
    Finding first = findings.get(0);
    boolean one = findings.size() == 1;
    String subject = Words.subject(first.subject());
    // The row of a table is told by the message where it means something to a reader.
    boolean told = Words.isRow(first.subject()) && first.message().contains(first.subject().name());
    title(
        first.level(), first.title() + (one && !told && !subject.isEmpty() ? " – " + subject : ""));
    List<String> messages = findings.stream().map(Finding::message).toList();
    String shared = one ? "" : sharedEnd(messages);
    Set<String> numbers = new LinkedHashSet<>();
    findings.forEach(finding -> Words.numbers(finding).ifPresent(numbers::add));
    boolean numbersOnce = !one && numbers.size() == 1;
    for (Finding finding : findings) {
      String message = finding.message();
      StringBuilder words =
          new StringBuilder(message.substring(0, message.length() - shared.length()).strip());
      if (!numbersOnce) {
        Words.numbers(finding).ifPresent(more -> words.append(' ').append(more));
      }
      if (finding.outcome() == Outcome.BORDERLINE) {
        words.append(' ').append(Words.odds(finding.odds()));
      }
      if (!one && finding.where().line() > 0 && !isWhole(finding)) {
        words.append(" (line ").append(finding.where().line()).append(')');
      }
      page.paragraph(one ? "" : "- ", words.toString(), INDENT);
    }
    if (!one) {
      String once = numbersOnce ? shared + " " + numbers.iterator().next() : shared;
      page.paragraph("", once.strip(), INDENT);
    }
    Set<String> settling = new LinkedHashSet<>();
    findings.forEach(finding -> finding.settledBy().stream().limit(1).forEach(settling::add));
    if (!settling.isEmpty()) {
      page.paragraph("To settle it: ", String.join("; ", settling) + ".", INDENT);
    }
    remedies(findings);
    lesson(first);
    last(findings);
  }

  private void remedies(List<Finding> findings) {
    for (Finding finding : findings) {
      Remedies found = remedies.get(new Concern(finding.rule(), finding.subject()));
      if (found == null) {
        continue;
      }
      String about = findings.size() == 1 ? "" : " – " + Words.subject(finding.subject());
      for (Remedy remedy : found.offers()) {
        page.paragraph(
            "Remedy " + remedyNumbers.get(remedy) + about + ": ", Words.remedy(remedy), INDENT);
      }
      found.none().ifPresent(none -> page.paragraph("Remedy" + about + ": ", none, INDENT));
    }
  }

  /** The sentences with which all messages end, if each says something before them. */
  private static String sharedEnd(List<String> messages) {
    String first = messages.get(0);
    for (int at = first.indexOf(". "); at >= 0; at = first.indexOf(". ", at + 1)) {
      String end = first.substring(at + 2);
      if (messages.stream().allMatch(message -> message.endsWith(". " + end))) {
        return end;
      }
    }
    return "";
  }

  private void title(Severity level, String title) {
    List<String> lines = Plain.wrap(title, TextPage.WIDTH - INDENT);
    for (int i = 0; i < lines.size(); i++) {
      String label = i == 0 ? level.word() : "";
      page.line(ink.level(level, Plain.pad(label, INDENT)) + ink.strong(lines.get(i)));
    }
  }

  private void lesson(Finding finding) {
    if (!finding.lesson().isBlank()) {
      page.paragraph("Why: ", finding.lesson(), INDENT);
    }
  }

  /** Grounds, place and rule of findings of one rule, and their traces. */
  private void last(List<Finding> findings) {
    Set<Source> cited = new LinkedHashSet<>();
    findings.forEach(finding -> cited.addAll(finding.sources()));
    if (!cited.isEmpty()) {
      page.paragraph("Sources: ", page.cite(cited), INDENT);
    }
    Finding first = findings.get(0);
    // Never wrapped, so that a terminal can open the place and a search finds both on one line.
    page.line(" ".repeat(INDENT) + Plain.line(place(first) + "[" + first.rule() + "]"));
    for (Finding finding : findings) {
      finding.trace().ifPresent(trace -> trace(trace, INDENT));
    }
  }

  /** The sheet and the line; of a finding about the whole formula the sheet only. */
  private static String place(Finding finding) {
    Place where = finding.where();
    if (where.file().isEmpty() && where.line() == 0) {
      return "";
    }
    boolean line = where.line() > 0 && !isWhole(finding);
    return (line ? new Place(where.file(), where.line(), 0, "").toString() : where.file()) + " ";
  }

  private static boolean isWhole(Finding finding) {
    return finding.where().pointer().isEmpty();
  }

  private void trace(Trace trace, int indent) {
    StringBuilder words = new StringBuilder(trace.text()).append("  =  ").append(trace.value());
    if (!trace.missing().isEmpty()) {
      words
          .append("  (missing: ")
          .append(String.join("; ", new TreeSet<>(trace.missing())))
          .append(')');
    }
    page.paragraph("| ", words.toString(), Math.min(indent, TextPage.WIDTH / 2));
    for (Trace part : trace.parts()) {
      trace(part, indent + 2);
    }
  }

  /**
   * What could not be checked. A message says what is wrong, which is not known here, so titles
   * only, gathered by what they are about: one ingredient of which nothing is known can leave many
   * checks open.
   */
  private void unchecked(Review review) {
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
    List<String> unlisted = unlisted(review);
    if (together.isEmpty() && unlisted.isEmpty()) {
      return;
    }
    page.heading("NOT CHECKED");
    boolean first = true;
    for (List<Finding> findings : together.values()) {
      if (!first) {
        page.line("");
      }
      first = false;
      open(findings);
    }
    if (!unlisted.isEmpty()) {
      if (!first) {
        page.line("");
      }
      unlisted.forEach(words -> page.paragraph("- ", words, 2));
    }
  }

  /** What could not be checked of one thing. */
  private void open(List<Finding> findings) {
    Finding first = findings.get(0);
    Subject subject = first.subject();
    if (findings.size() == 1) {
      String words = Words.subject(subject);
      title(first.level(), first.title() + (words.isEmpty() ? "?" : "? – " + words));
    } else {
      title(
          first.level(),
          Plain.count(findings.size(), "check")
              + " open"
              + (subject.isFormula() ? "" : " – " + Words.name(subject)));
    }
    Set<String> missing = new LinkedHashSet<>();
    findings.forEach(finding -> missing.addAll(finding.missing()));
    page.paragraph(
        "Missing: ",
        missing.isEmpty() ? "not stated" : String.join("; ", Words.missing(missing)),
        INDENT);
    if (findings.stream().anyMatch(Finding::mustBeKnown)) {
      page.paragraph("", "This has to be known: it counts as broken until it is.", INDENT);
    }
    if (findings.size() == 1) {
      lesson(first);
      last(findings);
      return;
    }
    for (Finding finding : findings) {
      page.paragraph(
          "- ",
          finding.title()
              + "? ("
              + finding.rule()
              + (finding.mustBeKnown() ? ", has to be known" : "")
              + ")",
          INDENT);
      finding.trace().ifPresent(trace -> trace(trace, INDENT));
    }
    page.paragraph("", place(first).strip(), INDENT);
  }

  /**
   * What is unchecked and is no finding, such as a duty of which it is not known whether it
   * applies.
   */
  private static List<String> unlisted(Review review) {
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
    page.bullets("Accepted", lines);
  }

  /** Cautions that no duty says already. */
  private static List<String> otherCautions(Review review) {
    Set<String> said = new TreeSet<>();
    review.duties().forEach(duty -> said.add(duty.message()));
    return review.cautions().stream()
        .filter(caution -> !said.contains(caution) && !caution.contains(STANDING))
        .toList();
  }

  private void duties(String title, Review review, Predicate<Duty> filter, List<String> more) {
    Set<String> lines = new LinkedHashSet<>();
    for (Duty duty : review.duties()) {
      if (filter.test(duty)
          && duty.applies() != Outcome.DOES_NOT_APPLY
          && duty.applies() != Outcome.NOT_APPLICABLE) {
        lines.add(duty(duty));
      }
    }
    lines.addAll(more);
    page.bullets(title, List.copyOf(lines));
  }

  private String duty(Duty duty) {
    StringBuilder words = new StringBuilder();
    if (duty.applies() == Outcome.MAY_APPLY) {
      words.append("May apply: ");
    } else if (duty.applies() == Outcome.HOLDS) {
      words.append("Done: ");
    } else if (duty.applies() == Outcome.BREAKS) {
      words.append("Not done: ");
    }
    words.append(duty.message());
    if (!duty.subject().isFormula() && !duty.message().contains(duty.subject().name())) {
      words.append(" (").append(Words.subject(duty.subject())).append(')');
    }
    if (!duty.missing().isEmpty()) {
      words
          .append(" To be sure, state: ")
          .append(String.join("; ", Words.missing(duty.missing())))
          .append('.');
    }
    if (!duty.sources().isEmpty()) {
      words.append(" Source: ").append(page.cite(duty.sources())).append('.');
    }
    return words.append(" (").append(duty.rule()).append(')').toString();
  }

  private void next(Review review) {
    Map<String, String> titles = new TreeMap<>();
    review.findings().forEach(finding -> titles.putIfAbsent(finding.rule(), finding.title()));
    review.duties().forEach(duty -> titles.putIfAbsent(duty.rule(), duty.title()));
    List<String> lines = new ArrayList<>();
    for (Review.MeasureNext next : review.measureNext()) {
      List<String> decides =
          next.decides().stream().map(rule -> titles.getOrDefault(rule, rule)).toList();
      String what = String.join("; ", Words.missing(List.of(next.what())));
      lines.add(what + (decides.isEmpty() ? "" : " – would settle: " + String.join("; ", decides)));
    }
    page.bullets("What to measure or state next", lines);
  }

  private void foot(Review review) {
    page.line("");
    int times = 0;
    for (int count : review.counts().values()) {
      times += count;
    }
    int duties =
        count(review, Outcome.APPLIES)
            + count(review, Outcome.MAY_APPLY)
            + count(review, Outcome.DOES_NOT_APPLY);
    page.paragraph(
        "",
        Plain.count(review.rules().size(), "rule")
            + " run, "
            + Plain.count(times, "outcome")
            + ": "
            + count(review, Outcome.HOLDS)
            + " hold, "
            + count(review, Outcome.BREAKS)
            + " break, "
            + count(review, Outcome.BORDERLINE)
            + " borderline, "
            + count(review, Outcome.UNKNOWN)
            + " not checked, "
            + count(review, Outcome.NOT_APPLICABLE)
            + " not applicable"
            + (duties == 0
                ? ""
                : "; of the duties "
                    + count(review, Outcome.APPLIES)
                    + " apply, "
                    + count(review, Outcome.MAY_APPLY)
                    + " may apply, "
                    + count(review, Outcome.DOES_NOT_APPLY)
                    + " do not")
            + ". "
            + review.accepted()
            + " accepted.",
        0);
    page.paragraph(
        "",
        "Reviewed for "
            + review.editions().on()
            + " with engine "
            + review.editions().engine()
            + Words.editions(review.editions().ruleSets())
            + ".",
        0);
    page.paragraph("", "Formula SHA-256 " + review.editions().formulaSha256(), 0);
    page.line("");
    page.paragraph("", TextPage.CLOSING, 0);
  }

  private static int count(Review review, Outcome outcome) {
    return review.counts().getOrDefault(outcome, 0);
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
