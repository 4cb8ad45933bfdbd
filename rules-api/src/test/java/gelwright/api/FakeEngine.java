package gelwright.api;

import gelwright.batch.BatchSheet;
import gelwright.calibration.Calibrated;
import gelwright.calibration.Readings;
import gelwright.comparison.FormulaComparison;
import gelwright.formula.Acceptance;
import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Source;
import gelwright.labelling.LabelDraft;
import gelwright.prediction.Prediction;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Include;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import gelwright.rule.Text;
import gelwright.rule.Trace;
import gelwright.stability.StabilityPlan;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * A stand-in for the engine: what a sheet says is what its review finds. A word per line: breaks,
 * warning, unlikely, likely, unknown, must, accepted, duty, norules, bad (a sheet that cannot be
 * read), crash (the engine fails). Anything else holds.
 */
final class FakeEngine implements Engine, Engine.Loaded {
  static final Source PRACTICE =
      new Source("practice", "Rule of thumb", Source.Standing.COMMON_PRACTICE);

  final List<ExampleOutcome> examples = new ArrayList<>();

  @Override
  public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
    for (Path folder : ruleFolders) {
      if (folder.toString().contains("broken")) {
        return Attempt.failed(
            List.of(
                new Problem(
                    new Place("broken/a.yaml", 2, 3, ""),
                    "unknown-key",
                    "The key requir is not known.",
                    "Did you mean require?")));
      }
    }
    return Attempt.of(this);
  }

  @Override
  public List<RuleSet> ruleSets() {
    Rule rule =
        new Rule(
            "above-gel-capacity",
            new Text("More oil than this gel carries", Place.NOWHERE),
            Rule.Kind.REQUIREMENT,
            Severity.ERROR,
            Optional.empty(),
            Optional.of(new Text("oil.share > 0 %", Place.NOWHERE)),
            Optional.of(new Text("oil.share <= gel.oil-capacity", Place.NOWHERE)),
            new Text("{oil.share} of oil.", Place.NOWHERE),
            "A gum only holds drops in place.",
            List.of(),
            List.of(new Text("practice", Place.NOWHERE)),
            false,
            false,
            false,
            true,
            List.of("oil-load.too-much"),
            new Place("oil-load.yaml", 5, 3, ""));
    return List.of(
        new RuleSet(
            "oil-load", "Oil load", "2026.1", List.of(rule), List.of(), List.of(), Place.NOWHERE));
  }

  @Override
  public Catalogue catalogue() {
    return Catalogue.of(List.of(), List.of(PRACTICE));
  }

  @Override
  public Attempt<Formula> read(byte[] content, String file) {
    String text = new String(content, StandardCharsets.UTF_8).strip();
    if (text.equals("bad")) {
      return Attempt.failed(
          List.of(
              new Problem(
                  new Place(file, 3, 1, "/nmae"),
                  "unknown-key",
                  "Key nmae?",
                  "Did you mean name?")));
    }
    return Attempt.of(
        new Formula(
            text.isEmpty() ? "Shade mist" : text,
            "",
            Brief.NONE,
            Optional.empty(),
            Equipment.NONE,
            List.of(),
            List.of(),
            Optional.empty(),
            List.of(),
            List.of(),
            Map.of("", new Place(file, 1, 1, ""))));
  }

  @Override
  public Attempt<Formula> read(byte[] content, String file, byte[] brief, String briefFile) {
    return read(brief, briefFile);
  }

  @Override
  public Review review(Formula formula, LocalDate on, Set<Include> include) {
    boolean trace = include.contains(Include.TRACE);
    List<Finding> findings = new ArrayList<>();
    List<Duty> duties = new ArrayList<>();
    TreeMap<String, Outcome> rules = new TreeMap<>();
    rules.put("composition.sum", Outcome.HOLDS);
    for (String word : formula.name().split("\\s+", -1)) {
      switch (word) {
        case "crash" -> throw new IllegalStateException("made to fail");
        case "breaks" -> findings.add(finding(word, Outcome.BREAKS, 0.01, Severity.ERROR, trace));
        case "warning" ->
            findings.add(finding(word, Outcome.BREAKS, 0.01, Severity.WARNING, trace));
        case "unlikely" ->
            findings.add(finding(word, Outcome.BORDERLINE, 0.25, Severity.WARNING, trace));
        case "likely" -> findings.add(finding(word, Outcome.BORDERLINE, 0.8, Severity.NOTE, trace));
        case "unknown", "must", "accepted" ->
            findings.add(
                finding(
                    word,
                    word.equals("accepted") ? Outcome.BREAKS : Outcome.UNKNOWN,
                    0.01,
                    word.equals("unknown") ? Severity.NOTE : Severity.ERROR,
                    trace));
        case "duty" ->
            duties.add(
                new Duty(
                    "caution.patch-test",
                    "Patch test",
                    Outcome.APPLIES,
                    Severity.NOTE,
                    Subject.FORMULA,
                    "Try it on a small patch of skin first.",
                    "Skin differs.",
                    List.of(),
                    List.of(PRACTICE)));
        default -> rules.put("composition.sum", Outcome.HOLDS);
      }
    }
    findings.forEach(finding -> rules.put(finding.rule(), finding.outcome()));
    duties.forEach(duty -> rules.put(duty.rule(), duty.applies()));
    if (formula.name().contains("norules")) {
      rules.clear();
    }
    Map<Outcome, Integer> counts = new EnumMap<>(Outcome.class);
    rules.values().forEach(outcome -> counts.merge(outcome, 1, Integer::sum));
    return new Review(
        formula.name(),
        new Editions("0.1.0", new TreeMap<>(Map.of("oil-load", "2026.1")), on, "00ff"),
        findings.isEmpty() ? Outcome.HOLDS : findings.get(0).outcome(),
        findings.isEmpty() ? Severity.NOTE : findings.get(0).level(),
        counts,
        (int) findings.stream().filter(Finding::isAccepted).count(),
        findings,
        duties,
        List.of(new Review.MeasureNext("viscosity at 10 /s", List.of("texture.level"))),
        findings.stream()
            .filter(finding -> finding.outcome() == Outcome.UNKNOWN)
            .map(f -> new Review.Unchecked(f.rule(), f.subject(), f.missing()))
            .toList(),
        new TreeMap<>(),
        rules,
        new TreeMap<>(),
        List.of("The vessel is hot."),
        formula.place(""),
        java.util.Optional.empty(),
        java.util.Optional.empty());
  }

  private static Finding finding(
      String word, Outcome outcome, double odds, Severity level, boolean trace) {
    boolean accepted = word.equals("accepted");
    return new Finding(
        "oil-load." + word,
        "More oil than this gel carries",
        Severity.ERROR,
        outcome,
        outcome == Outcome.UNKNOWN ? Odds.OPEN : Odds.of(odds),
        level,
        new Subject("ingredient", "Squalane"),
        Optional.of(new Shown("oil.share", 14, 14, 14, Unit.PERCENT, Set.of())),
        Optional.of(new Shown("gel.oil-capacity", 7.9, 9.6, 11.5, Unit.PERCENT, Set.of())),
        "14 % of oil; this gel carries about 9.6 % with no emulsifier.",
        "A gum does not lower the tension between oil and water. It only holds drops in place, so a"
            + " gel carries no more oil than its yield stress can hold.",
        List.of(PRACTICE),
        outcome == Outcome.UNKNOWN ? List.of("density of Squalane") : List.of(),
        List.of(),
        new Place("sheet.yaml", 4, 5, "/ingredients/1"),
        word.equals("must"),
        accepted
            ? Optional.of(
                new Acceptance(
                    "oil-load." + word,
                    "Squalane",
                    Optional.empty(),
                    "held 12 weeks",
                    LocalDate.of(2027, 3, 1)))
            : Optional.empty(),
        trace
            ? Optional.of(new Trace("require", Place.NOWHERE, "no", Set.of(), List.of()))
            : Optional.empty());
  }

  @Override
  public Checked check(List<Path> ruleFolders, List<Path> ingredientFolders, LocalDate on) {
    Rule rule = ruleSets().get(0).rules().get(0);
    List<String> kinds = new ArrayList<>(List.of("holds", "breaks", "unknown"));
    examples.forEach(example -> kinds.remove(example.expected()));
    return new Checked(
        load(ruleFolders, ingredientFolders).problems(),
        1,
        0,
        examples,
        kinds.isEmpty()
            ? List.of()
            : List.of(new Lacking("oil-load." + rule.id(), kinds, rule.place())),
        0,
        true);
  }

  @Override
  public FormulaComparison compare(Formula first, Formula second, LocalDate on) {
    throw new UnsupportedOperationException("nothing to compare with");
  }

  @Override
  public Prediction predict(Formula formula, LocalDate on) {
    return new Prediction(
        formula.name(),
        new Editions("0.1.0", new TreeMap<>(), on, "00"),
        List.of(),
        List.of(),
        formula.place(""));
  }

  @Override
  public Attempt<Readings> readReadings(byte[] content, String file) {
    throw new UnsupportedOperationException("the stand-in reads no readings");
  }

  @Override
  public Calibrated calibrate(Readings readings) {
    throw new UnsupportedOperationException("the stand-in calibrates nothing");
  }

  @Override
  public BatchSheet batch(Formula formula, Quantity make, LocalDate on) {
    throw new UnsupportedOperationException("papers are tested with the real engine");
  }

  @Override
  public LabelDraft label(Formula formula, LocalDate on) {
    throw new UnsupportedOperationException("papers are tested with the real engine");
  }

  @Override
  public StabilityPlan stability(Formula formula, LocalDate on) {
    throw new UnsupportedOperationException("papers are tested with the real engine");
  }

  @Override
  public int examplesOf(String rule) {
    return examples.size();
  }
}
