package gelwright.api;

import gelwright.api.html.Gathered;
import gelwright.api.html.Words;
import gelwright.ingredient.Source;
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
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
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

  private final Ink ink;
  private final TextPage page;
  private final Map<Concern, Remedies> remedies = new HashMap<>();
  private final IdentityHashMap<Remedy, Integer> remedyNumbers = new IdentityHashMap<>();

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
    duties(
        "Take care", review, duty -> duty.rule().startsWith(CAUTION), Words.otherCautions(review));
    page.bullets("What to measure or state next", Words.next(review));
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
    List<List<Finding>> byRule = Gathered.byRule(review, filter);
    if (byRule.isEmpty()) {
      return;
    }
    page.heading(title);
    boolean first = true;
    for (List<Finding> findings : byRule) {
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
    String shared = one ? "" : Gathered.sharedEnd(messages);
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
      if (!one && finding.where().line() > 0 && !Words.isWhole(finding)) {
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
    page.line(" ".repeat(INDENT) + Plain.line(Words.place(first) + " [" + first.rule() + "]"));
    for (Finding finding : findings) {
      finding.trace().ifPresent(trace -> trace(trace, INDENT));
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
    List<List<Finding>> together = Gathered.open(review);
    List<String> unlisted = Gathered.unlisted(review);
    if (together.isEmpty() && unlisted.isEmpty()) {
      return;
    }
    page.heading("NOT CHECKED");
    boolean first = true;
    for (List<Finding> findings : together) {
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
    page.paragraph("", Words.place(first), INDENT);
  }

  private void accepted(Review review) {
    List<String> lines = new ArrayList<>();
    for (Finding finding : review.findings()) {
      finding
          .acceptance()
          .ifPresent(
              acceptance ->
                  lines.add(Words.accepted(finding, acceptance) + " (" + finding.rule() + ")"));
    }
    page.bullets("Accepted", lines);
  }

  private void duties(String title, Review review, Predicate<Duty> filter, List<String> more) {
    Set<String> lines = new LinkedHashSet<>();
    for (Duty duty : review.duties()) {
      if (filter.test(duty) && Words.isTold(duty)) {
        lines.add(duty(duty));
      }
    }
    lines.addAll(more);
    page.bullets(title, List.copyOf(lines));
  }

  private String duty(Duty duty) {
    StringBuilder words = new StringBuilder(Words.duty(duty));
    if (!duty.sources().isEmpty()) {
      words.append(" Source: ").append(page.cite(duty.sources())).append('.');
    }
    return words.append(" (").append(duty.rule()).append(')').toString();
  }

  private void foot(Review review) {
    page.line("");
    page.paragraph("", Words.counts(review), 0);
    page.paragraph("", Words.rests(review.editions()), 0);
    page.paragraph("", "Formula SHA-256 " + review.editions().formulaSha256(), 0);
    page.line("");
    page.paragraph("", Words.CLOSING, 0);
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
