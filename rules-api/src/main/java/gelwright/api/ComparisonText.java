package gelwright.api;

import gelwright.api.html.Words;
import gelwright.comparison.Change;
import gelwright.comparison.Difference;
import gelwright.comparison.DutyChange;
import gelwright.comparison.FieldChange;
import gelwright.comparison.FindingChange;
import gelwright.comparison.FormulaComparison;
import gelwright.comparison.FormulaSide;
import gelwright.comparison.LineChange;
import gelwright.comparison.OpenCheck;
import gelwright.comparison.PropertyComparison;
import gelwright.comparison.PropertyComparison.Verdict;
import gelwright.comparison.StepChange;
import gelwright.formula.Step;
import gelwright.prediction.Curve;
import gelwright.quantity.Dimension;
import gelwright.quantity.Numbers;
import gelwright.quantity.Odds;
import gelwright.quantity.Unit;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Subject;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Predicate;

/**
 * A comparison as a formulator reads it: what is stated differently, then the numbers that differ,
 * then what the rules say of it. The same comparison gives the same text.
 */
final class ComparisonText {
  private static final int NAME = 34;

  /** Where the words of a step begin, behind its mark and its two numbers. */
  private static final int STEP = 11;

  private final FormulaComparison comparison;
  private final Ink ink;
  private final TextPage page;

  private ComparisonText(FormulaComparison comparison, Ink ink) {
    this.comparison = comparison;
    this.ink = ink;
    this.page = new TextPage(ink);
  }

  static String of(FormulaComparison comparison, Ink ink) {
    ComparisonText report = new ComparisonText(comparison, ink);
    report.write();
    return report.page.text();
  }

  private void write() {
    side("First:  ", comparison.first());
    side("Second: ", comparison.second());
    page.line("");
    page.paragraph(
        "Both as made side by side: of the same lots, in the same room, by the same hand. What is"
            + " not known exactly of both alike cancels; so a difference may be sure although"
            + " neither number is.",
        0);
    brief();
    recipe();
    method();
    differing();
    alike();
    unknown();
    findings("Findings that come", FindingChange.Kind.GAINED);
    findings("Findings that go", FindingChange.Kind.LOST);
    findings("Findings that change", FindingChange.Kind.CHANGED);
    findings("Findings of both", FindingChange.Kind.KEPT);
    if (comparison.findings().isEmpty()) {
      page.heading("Findings");
      page.paragraph("None of either.", 2);
    }
    duties();
    unchecked();
    curves();
    page.sourceList();
    page.line("");
    page.paragraph(
        "Compared for "
            + comparison.second().editions().on()
            + " with engine "
            + comparison.second().editions().engine()
            + Words.editions(comparison.second().editions().ruleSets())
            + ".",
        0);
    page.paragraph(
        "Formula SHA-256 "
            + comparison.first().editions().formulaSha256()
            + " and "
            + comparison.second().editions().formulaSha256(),
        0);
    page.line("");
    page.paragraph(Words.CLOSING, 0);
  }

  private void side(String which, FormulaSide side) {
    page.line(which + ink.strong(Plain.line(side.label())));
    if (!side.place().file().isEmpty()) {
      page.line(" ".repeat(which.length()) + ink.quiet(Plain.line(side.place().file())));
    }
  }

  // --- What is stated

  private void brief() {
    page.bullets(
        "Brief, equipment, label and readings",
        comparison.brief().stream().map(ComparisonText::words).toList());
  }

  private static String words(FieldChange field) {
    return field.field()
        + " "
        + field.first().orElse("not stated")
        + " → "
        + field.second().orElse("not stated");
  }

  private void recipe() {
    page.heading("Recipe");
    List<LineChange> changes =
        comparison.recipe().stream().filter(line -> line.change() != Change.SAME).toList();
    int same = comparison.recipe().size() - changes.size();
    for (LineChange line : changes) {
      page.row(
          "  " + mark(line.change()) + " " + Plain.pad(name(line), NAME - 4) + "  " + told(line),
          NAME);
    }
    page.paragraph(same(same, changes.isEmpty(), "line"), 2);
  }

  private static String same(int count, boolean all, String noun) {
    return all
        ? "All " + Plain.count(count, noun) + " the same."
        : Plain.count(count, noun) + " the same.";
  }

  private static String mark(Change change) {
    return switch (change) {
      case ADDED -> "+";
      case REMOVED -> "-";
      case CHANGED -> "~";
      case SAME -> " ";
    };
  }

  private static String name(LineChange line) {
    LineChange.RecipeLine told = line.second().or(line::first).orElseThrow();
    String phase = told.line().phase();
    return Plain.line((phase.isEmpty() ? "" : phase + "  ") + line.ingredient());
  }

  private static String told(LineChange line) {
    return switch (line.change()) {
      case ADDED -> Words.range(line.second().orElseThrow().share()) + " added";
      case REMOVED -> Words.range(line.first().orElseThrow().share()) + " removed";
      case CHANGED, SAME ->
          String.join("; ", line.fields().stream().map(ComparisonText::words).toList());
    };
  }

  private void method() {
    page.heading("Procedure");
    if (comparison.method().isEmpty()) {
      page.paragraph("Neither sheet has one, so nothing that depends on it is known.", 2);
      return;
    }
    if (comparison.method().stream().allMatch(step -> step.change() == Change.SAME)) {
      page.paragraph(same(comparison.method().size(), true, "step"), 2);
      return;
    }
    for (StepChange step : comparison.method()) {
      page.row("  " + mark(step.change()) + " " + number(step) + Plain.line(told(step)), STEP);
    }
  }

  private static String number(StepChange step) {
    String first = step.firstNumber().isPresent() ? "" + step.firstNumber().getAsInt() : "–";
    String second = step.secondNumber().isPresent() ? "" + step.secondNumber().getAsInt() : "–";
    return Plain.pad(first, 3) + Plain.pad(second, 4);
  }

  private static String told(StepChange step) {
    Step told = step.second().or(step::first).orElseThrow();
    return step.change() == Change.CHANGED
        ? start(told)
            + ": "
            + String.join("; ", step.fields().stream().map(ComparisonText::words).toList())
        : whole(told);
  }

  private static String start(Step step) {
    return step.action().word() + step.phase().map(phase -> " " + phase).orElse("");
  }

  private static String whole(Step step) {
    StringBuilder words = new StringBuilder(start(step));
    step.into().ifPresent(into -> words.append(" into ").append(into));
    if (!step.with().isEmpty()) {
      words.append(" with ").append(String.join(", ", step.with()));
    }
    step.temperature().ifPresent(value -> words.append(", ").append(value));
    step.pH().ifPresent(value -> words.append(", pH ").append(Numbers.plain(value)));
    step.over().ifPresent(value -> words.append(", over ").append(value));
    step.lasting().ifPresent(value -> words.append(", for ").append(value));
    step.stir().ifPresent(value -> words.append(", ").append(value));
    return words.toString();
  }

  // --- Numbers

  private void differing() {
    List<PropertyComparison> differing =
        properties(
            verdict ->
                verdict != Verdict.SAME
                    && verdict != Verdict.UNKNOWN
                    && verdict != Verdict.CANNOT_BE_TOLD_APART);
    page.heading("Numbers that differ");
    if (differing.isEmpty()) {
      page.paragraph("None for sure.", 2);
    }
    // Ingredients that go through the same procedure have the same numbers: told once.
    Map<List<String>, Set<String>> subjects = new LinkedHashMap<>();
    Map<List<String>, Set<String>> missing = new LinkedHashMap<>();
    for (PropertyComparison property : differing) {
      List<String> told =
          List.of(
              shortName(property),
              verdict(property) + amount(property.difference()),
              values(property),
              isProbable(property) ? "open: " + open(property) : "");
      subjects.computeIfAbsent(told, key -> new LinkedHashSet<>()).add(of(property.subject()));
      missing.computeIfAbsent(told, key -> new TreeSet<>()).addAll(missing(property));
    }
    subjects.forEach(
        (told, names) -> {
          row(told.get(0), told.get(1));
          page.paragraph(told.get(2), 4);
          names.remove("");
          page.paragraph(names.isEmpty() ? "" : "of " + String.join(", ", names), 4);
          page.paragraph(told.get(3), 4);
          missing(missing.getOrDefault(told, new TreeSet<>()));
        });
  }

  private static boolean isProbable(PropertyComparison property) {
    return !property.undecidedBy().isEmpty()
        && (property.verdict() == Verdict.PROBABLY_HIGHER
            || property.verdict() == Verdict.PROBABLY_LOWER);
  }

  /** Of a procedure the numbers count steps, which stand above; the others are told. */
  private List<PropertyComparison> properties(Predicate<Verdict> wanted) {
    return comparison.properties().stream()
        .filter(property -> wanted.test(property.verdict()))
        .filter(property -> !property.name().startsWith("method."))
        .toList();
  }

  private void row(String name, String value) {
    page.row("  " + Plain.pad(name, NAME - 2) + "  " + value, NAME + 2);
  }

  private static String of(Subject subject) {
    return Plain.line(Words.subject(subject));
  }

  private static String shortName(PropertyComparison property) {
    String kind = property.subject().kind();
    return kind.isEmpty() ? property.name() : property.name().substring(kind.length() + 1);
  }

  private static String values(PropertyComparison property) {
    return Words.range(property.first()) + " → " + Words.range(property.second());
  }

  private static boolean isPrintedAlike(PropertyComparison property) {
    return Words.range(property.first()).equals(Words.range(property.second()));
  }

  private static Set<String> missing(PropertyComparison property) {
    Set<String> missing = new TreeSet<>(property.first().missing());
    missing.addAll(property.second().missing());
    return missing;
  }

  private void missing(Set<String> missing) {
    if (!missing.isEmpty()) {
      page.paragraph("missing: " + String.join("; ", Words.missing(missing)), 4);
    }
  }

  private static String verdict(PropertyComparison property) {
    String words = property.verdict().word().replace('-', ' ');
    if (property.verdict() == Verdict.CERTAINLY_HIGHER
        || property.verdict() == Verdict.CERTAINLY_LOWER) {
      return words;
    }
    Odds odds =
        property.higher().low() >= property.lower().low() ? property.higher() : property.lower();
    long percent = Math.round(100 * odds.low());
    return words
        + " ("
        + (odds.low() == odds.high() ? "" : "at least ")
        + (percent == 100 ? "more than 99" : percent)
        + " %)";
  }

  private static String amount(Difference difference) {
    if (!difference.isKnown() || !Double.isFinite(difference.likely())) {
      return "";
    }
    boolean ratio = difference.kind() == Difference.Kind.RATIO;
    String likely = number(difference.likely(), ratio);
    String low = number(difference.low(), ratio);
    String high = number(difference.high(), ratio);
    String range =
        low.equals(likely) && high.equals(likely) ? "" : " (" + low + " to " + high + ")";
    return (ratio ? ", times " : ", by ") + likely + range + unit(difference);
  }

  private static String number(double value, boolean ratio) {
    String number = Numbers.plain(value);
    return !ratio && value > 0 ? "+" + number : number;
  }

  private static String unit(Difference difference) {
    Unit unit = difference.unit();
    return unit.dimension().equals(Dimension.SHARE)
        ? " points"
        : unit == Unit.PH || unit == Unit.NONE ? "" : " " + unit.symbol();
  }

  private void alike() {
    List<PropertyComparison> alike = properties(verdict -> verdict == Verdict.CANNOT_BE_TOLD_APART);
    if (!alike.isEmpty()) {
      page.heading("Numbers that cannot be told apart");
    }
    for (PropertyComparison property : alike) {
      if (!isPrintedAlike(property)) {
        row(named(property), values(property));
        page.paragraph("open: " + open(property), 4);
      }
    }
    byName(alike, ComparisonText::isPrintedAlike)
        .forEach(
            (open, names) ->
                page.paragraph(
                    "Alike but for what is open (" + open + "): " + String.join("; ", names), 2));
    int same = properties(verdict -> verdict == Verdict.SAME).size();
    page.line("");
    page.paragraph(Plain.count(same, "number") + " the same on both sides.", 0);
  }

  /** Names of properties with their subjects, by what leaves them open. */
  private static Map<String, List<String>> byName(
      List<PropertyComparison> properties, Predicate<PropertyComparison> wanted) {
    Map<String, Map<String, Set<String>>> subjects = new LinkedHashMap<>();
    for (PropertyComparison property : properties) {
      if (wanted.test(property)) {
        subjects
            .computeIfAbsent(open(property), key -> new LinkedHashMap<>())
            .computeIfAbsent(shortName(property), key -> new LinkedHashSet<>())
            .add(of(property.subject()));
      }
    }
    Map<String, List<String>> named = new LinkedHashMap<>();
    subjects.forEach(
        (open, names) -> {
          List<String> all = new ArrayList<>();
          names.forEach(
              (name, of) -> {
                of.remove("");
                all.add(of.isEmpty() ? name : name + " of " + String.join(", ", of));
              });
          named.put(open, all);
        });
    return named;
  }

  private static String named(PropertyComparison property) {
    String subject = of(property.subject());
    return subject.isEmpty() ? property.name() : subject + ": " + shortName(property);
  }

  private static String open(PropertyComparison property) {
    return String.join(
        "; ",
        property.undecidedBy().stream()
            .map(
                doubt ->
                    doubt.doubt()
                        + (doubt.settledBy().isEmpty() || doubt.settledBy().equals(doubt.doubt())
                            ? ""
                            : ", settled by " + doubt.settledBy()))
            .toList());
  }

  private void unknown() {
    List<PropertyComparison> unknown = properties(verdict -> verdict == Verdict.UNKNOWN);
    if (unknown.isEmpty()) {
      return;
    }
    page.heading("Numbers not known well enough to compare");
    Set<String> missing = new TreeSet<>();
    for (PropertyComparison property : unknown) {
      if (isPrintedAlike(property)) {
        missing.addAll(missing(property));
      } else {
        row(named(property), values(property));
        missing(missing(property));
      }
    }
    byName(unknown, ComparisonText::isPrintedAlike)
        .forEach(
            (open, names) ->
                page.paragraph("As little known on both sides: " + String.join("; ", names), 2));
    missing(missing);
  }

  // --- Rules

  private void findings(String title, FindingChange.Kind kind) {
    List<FindingChange> some =
        comparison.findings().stream().filter(change -> change.kind() == kind).toList();
    if (some.isEmpty()) {
      return;
    }
    page.heading(title);
    for (FindingChange change : some) {
      Finding finding = change.finding();
      String subject = Words.subject(finding.subject());
      page.paragraph("- ", finding.title() + (subject.isEmpty() ? "" : " – " + subject), 2);
      page.paragraph(
          outcome(change.first(), change.firstOutcome())
              + " → "
              + outcome(change.second(), change.secondOutcome()),
          4);
      page.paragraph(
          finding.message()
              + (finding.sources().isEmpty() ? "" : " Sources: " + page.cite(finding.sources())),
          4);
      page.line("    [" + finding.rule() + "]");
    }
  }

  private static String outcome(Optional<Finding> finding, Optional<Outcome> outcome) {
    if (outcome.isEmpty()) {
      return "does not arise";
    }
    String words =
        outcome.get() == Outcome.UNKNOWN ? "not checked" : outcome.get().word().replace('-', ' ');
    if (finding.isEmpty()) {
      return words;
    }
    Odds odds = finding.get().odds();
    return words
        + ", "
        + finding.get().level().word()
        + (outcome.get() == Outcome.BORDERLINE && odds.low() == odds.high()
            ? ", holds with " + Math.round(100 * odds.low()) + " %"
            : "")
        + (finding.get().isAccepted() ? ", accepted" : "");
  }

  private void duties() {
    List<String> lines = new ArrayList<>();
    int kept = 0;
    for (DutyChange change : comparison.duties()) {
      if (change.kind() == FindingChange.Kind.KEPT) {
        kept++;
        continue;
      }
      String subject = Words.subject(change.duty().subject());
      lines.add(
          change.kind().word()
              + ": "
              + change.duty().message()
              + (subject.isEmpty() || change.duty().message().contains(subject)
                  ? ""
                  : " (" + subject + ")")
              + (change.kind() == FindingChange.Kind.CHANGED
                  ? " "
                      + change.first().orElseThrow().applies().word().replace('-', ' ')
                      + " → "
                      + change.second().orElseThrow().applies().word().replace('-', ' ')
                  : "")
              + " ("
              + change.duty().rule()
              + ")");
    }
    if (lines.isEmpty() && kept == 0) {
      return;
    }
    page.heading("Cautions and duties");
    lines.forEach(line -> page.paragraph("- ", line, 2));
    page.paragraph(
        lines.isEmpty()
            ? "The same " + kept + " on both sides."
            : kept + " the same on both sides.",
        2);
  }

  private void unchecked() {
    List<String> lines = new ArrayList<>();
    for (OpenCheck open : comparison.unchecked()) {
      String subject = Words.subject(open.subject());
      lines.add(
          open.rule()
              + (subject.isEmpty() ? "" : " for " + subject)
              + (open.first().equals(open.second())
                  ? ", on both sides: missing " + missing(open.first())
                  : open.first().map(what -> ", in the first: missing " + joined(what)).orElse("")
                      + open.second()
                          .map(what -> ", in the second: missing " + joined(what))
                          .orElse("")));
    }
    page.bullets("NOT CHECKED", lines);
  }

  private static String missing(Optional<List<String>> what) {
    return joined(what.orElse(List.of()));
  }

  private static String joined(List<String> what) {
    return what.isEmpty() ? "not stated" : String.join("; ", Words.missing(what));
  }

  private void curves() {
    page.heading("Curves");
    for (Curve curve : comparison.curves()) {
      page.row(
          "  "
              + Plain.pad(curve.name(), NAME - 2)
              + "  "
              + (curve.isKnown() ? Plain.count(curve.series().size(), "line") : "not known"),
          NAME);
      if (!curve.missing().isEmpty()) {
        page.paragraph("missing: " + String.join("; ", Words.missing(curve.missing())), 4);
      }
    }
  }
}
