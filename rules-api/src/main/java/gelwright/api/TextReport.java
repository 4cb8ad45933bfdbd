package gelwright.api;

import gelwright.api.html.Gap;
import gelwright.api.html.Gaps;
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
import gelwright.rule.Severity;
import gelwright.rule.Trace;
import java.util.ArrayList;
import java.util.Comparator;
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
    Gaps gaps = Gaps.of(review);
    page.paragraph("", Words.verdict(review), 0);
    gaps.strangers()
        .filter(gap -> !gap.findings().isEmpty())
        .ifPresent(gap -> page.paragraph("", gap.title() + ". " + gap.because(), 0));
    for (Remedies each : review.remedies().orElse(List.of())) {
      remedies.put(new Concern(each.rule(), each.subject()), each);
      each.offers().forEach(offer -> remedyNumbers.put(offer, remedyNumbers.size() + 1));
    }
    section("Breaks", review, finding -> finding.outcome() == Outcome.BREAKS);
    section("Borderline", review, finding -> finding.outcome() == Outcome.BORDERLINE);
    unchecked(review, gaps);
    accepted(review);
    duties(gaps);
    cautions(review, gaps);
    page.bullets("What to measure or state next", gaps.next());
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
   * What could not be checked, by what is missing. A message says what is wrong, which is not known
   * here, so titles only; where they are many, the ids of the rules.
   */
  private void unchecked(Review review, Gaps gaps) {
    List<String> unlisted = Gathered.unlisted(review);
    boolean first = true;
    for (Gap gap : gaps.all()) {
      if (gap.findings().isEmpty()) {
        continue;
      }
      if (first) {
        page.heading("NOT CHECKED");
      } else {
        page.line("");
      }
      first = false;
      open(gap, gaps);
    }
    if (!unlisted.isEmpty()) {
      if (first) {
        page.heading("NOT CHECKED");
      } else {
        page.line("");
      }
      unlisted.forEach(words -> page.paragraph("- ", words, 2));
    }
  }

  /** What one missing thing leaves open. */
  private void open(Gap gap, Gaps gaps) {
    Finding first = gap.findings().get(0);
    Severity level =
        gap.findings().stream().map(Finding::level).max(Comparator.naturalOrder()).orElseThrow();
    String subject = Words.subject(first.subject());
    title(
        level,
        gap.isOne() ? first.title() + (subject.isEmpty() ? "?" : "? – " + subject) : gap.title());
    String missing = String.join("; ", gaps.missing(gap));
    boolean said = !gap.isOne() && !missing.isEmpty() && missing.equals(gap.about());
    if (!gap.isStrange() && !said) {
      page.paragraph("Missing: ", missing.isEmpty() ? "not stated" : missing, INDENT);
    }
    if (gap.isOne()) {
      page.paragraph("", gap.known(), INDENT);
      lesson(first);
      last(gap.findings());
      return;
    }
    page.paragraph("", gap.because(), INDENT);
    page.paragraph("", gap.known(), INDENT);
    page.paragraph("What to do: ", gap.advice(), INDENT);
    gap.asked().forEach(asked -> page.paragraph("Asked of it: ", asked, INDENT));
    page.paragraph("Missing, too, for some: ", String.join("; ", gaps.more(gap)), INDENT);
    if (gap.byRule().size() > Gap.FEW) {
      bySet(gap);
    } else {
      gap.byRule().forEach((rule, findings) -> rule(gap, rule, findings));
    }
    gap.findings().forEach(finding -> finding.trace().ifPresent(trace -> trace(trace, INDENT)));
    Set<String> places = new LinkedHashSet<>();
    gap.findings().forEach(finding -> places.add(Words.place(finding)));
    page.paragraph(
        "", places.size() == 1 ? places.iterator().next() : first.where().file(), INDENT);
  }

  /** Findings of one rule, in one line. */
  private void rule(Gap gap, String rule, List<Finding> findings) {
    Finding first = findings.get(0);
    Set<String> subjects = gap.subjects(findings);
    page.paragraph(
        "- ",
        first.title()
            + "?"
            + (subjects.isEmpty() ? "" : " – " + String.join("; ", subjects))
            + " ("
            + (first.mustBeKnown() ? "has to be known; " : "")
            + rule
            + ")",
        INDENT);
  }

  /** The ids of rules, a line for each rule set; behind each how many checks, if not one. */
  private void bySet(Gap gap) {
    Map<String, List<String>> bySet = new TreeMap<>();
    Map<String, Integer> checks = new HashMap<>();
    gap.byRule()
        .forEach(
            (rule, findings) -> {
              int dot = rule.indexOf('.');
              String set = dot < 0 ? rule : rule.substring(0, dot);
              int times = findings.size();
              bySet
                  .computeIfAbsent(set, key -> new ArrayList<>())
                  .add(rule.substring(dot + 1) + (times == 1 ? "" : " ×" + times));
              checks.merge(set, times, Integer::sum);
            });
    bySet.forEach(
        (set, rules) -> {
          int times = checks.getOrDefault(set, 0);
          page.paragraph(
              "- ",
              set
                  + " ("
                  + Plain.count(rules.size(), "rule")
                  + (times == rules.size() ? "" : ", " + Plain.count(times, "check"))
                  + "): "
                  + String.join(", ", rules),
              INDENT);
        });
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

  private List<String> duties(Gaps gaps, boolean cautions) {
    Set<String> lines = new LinkedHashSet<>();
    for (Duty duty : gaps.duties()) {
      if (duty.rule().startsWith(CAUTION) == cautions && Words.isTold(duty)) {
        lines.add(duty(duty));
      }
    }
    return List.copyOf(lines);
  }

  private void duties(Gaps gaps) {
    List<String> lines = new ArrayList<>(duties(gaps, false));
    Map<String, List<Duty>> hanging = hanging(gaps, false);
    if (!hanging.isEmpty()) {
      Gap gap = gaps.strangers().orElseThrow();
      List<String> parts = new ArrayList<>();
      hanging.forEach(
          (rule, duties) ->
              parts.add(
                  duties.get(0).title()
                      + " ("
                      + rule
                      + (duties.size() == 1 ? "" : " ×" + duties.size())
                      + ")"));
      lines.add("May apply, " + gap.hanging() + ": " + String.join("; ", parts) + ".");
    }
    page.bullets("To do and to declare", lines);
  }

  /** Each caution in full, those that may apply behind the others. */
  private void cautions(Review review, Gaps gaps) {
    List<String> lines = new ArrayList<>(duties(gaps, true));
    lines.addAll(Words.otherCautions(review));
    page.bullets("Take care", lines);
    Map<String, List<Duty>> hanging = hanging(gaps, true);
    if (!hanging.isEmpty()) {
      Gap gap = gaps.strangers().orElseThrow();
      if (lines.isEmpty()) {
        page.heading("Take care");
      } else {
        page.line("");
      }
      page.paragraph("", "May apply, " + gap.hanging() + ":", 2);
      Set<String> messages = new LinkedHashSet<>();
      hanging.forEach(
          (rule, duties) ->
              duties.forEach(duty -> messages.add(duty.message() + " (" + rule + ")")));
      messages.forEach(message -> page.paragraph("- ", message, 2));
    }
  }

  /** Duties of each rule that may apply because of a name that nobody knows. */
  private static Map<String, List<Duty>> hanging(Gaps gaps, boolean cautions) {
    Map<String, List<Duty>> byRule = new LinkedHashMap<>();
    gaps.strangers().stream()
        .flatMap(gap -> gap.duties().stream())
        .filter(duty -> duty.rule().startsWith(CAUTION) == cautions)
        .forEach(duty -> byRule.computeIfAbsent(duty.rule(), key -> new ArrayList<>()).add(duty));
    return byRule;
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
