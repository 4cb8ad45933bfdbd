package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.prediction.Curve;
import gelwright.prediction.Predictor;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.review.Verdict;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;

/**
 * Compares formulas. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: two predictions, two reviews, and the outcomes of all rules for both.
 */
public final class Comparer {
  // Doubts are told apart by name, and some carry the name of the formula: what was read on it, the
  // pH its adjustment ended at, its raw materials' own pH. For the comparison the two formulas go
  // by two names of their own, whatever their sheets call them: readings of two batches never
  // cancel, though both sheets may say "Wind-shelter gel-cream". The raw materials' own pH is the
  // same doubt where both are made of the same materials.

  private static final String FIRST = "the first formula";
  private static final String SECOND = "the second formula";

  /** Kinds whose items have the same name in both formulas only by chance, or are no property. */
  private static final Set<String> NOT_COMPARED = Set.of("step", "line");

  /** Numbers nearer than this, relative to the larger, differ by the solvers' rounding alone. */
  private static final double ROUNDING = 1e-7;

  /** Doubts that explain less of a difference than this part of its variance are not told. */
  private static final double LEAST_SHARE = 0.01;

  /** Doubts told of a difference. */
  private static final int MOST_DOUBTS = 3;

  /** Odds that differ by less than this are told alike: half of what a percentage shows. */
  private static final double ODDS_STEP = 0.005;

  private final Knowledge knowledge;
  private final Reviewer reviewer;
  private final Predictor predictor;

  private Comparer(Knowledge knowledge) {
    this.knowledge = knowledge;
    this.reviewer = Reviewer.using(knowledge);
    this.predictor = Predictor.using(knowledge);
  }

  /**
   * A comparer with this knowledge.
   *
   * @throws IllegalArgumentException when there is no rule
   */
  public static Comparer using(Knowledge knowledge) {
    return new Comparer(requireNonNull(knowledge, "knowledge"));
  }

  /**
   * Compares two formulas for a date.
   *
   * @param first the one that is compared with
   * @param second the one that is compared
   * @param on the day; laws and acceptances begin and end
   */
  public FormulaComparison compare(Formula first, Formula second, LocalDate on) {
    requireNonNull(first, "first");
    requireNonNull(second, "second");
    requireNonNull(on, "on");
    return new Pair(first, second, on).compare();
  }

  /** Two formulas being compared. */
  private final class Pair {
    private final Formula first;
    private final Formula second;
    private final LocalDate on;
    private final boolean equal;
    private final Profile before;
    private final Profile after;
    private final Map<String, String> shared;

    Pair(Formula first, Formula second, LocalDate on) {
      this.first = first;
      this.second = second;
      this.on = on;
      this.equal = named(first, FIRST).equals(named(second, FIRST));
      this.before = Profile.of(named(first, FIRST), knowledge.catalogue());
      this.after = Profile.of(named(second, equal ? FIRST : SECOND), knowledge.catalogue());
      this.shared = sharedDoubts();
    }

    FormulaComparison compare() {
      Review reviewOfFirst = reviewer.review(first, on);
      Review reviewOfSecond = reviewer.review(second, on);
      List<StepChange> method = Sheets.method(first.method(), second.method());
      Labels labels = Labels.of(first, second);
      Findings findings = new Findings(method, first, second);
      return new FormulaComparison(
          side(labels.first(), first, reviewOfFirst),
          side(labels.second(), second, reviewOfSecond),
          Sheets.brief(first, second),
          Sheets.recipe(before, after, knowledge.catalogue()),
          method,
          properties(),
          findings.changes(reviewOfFirst, reviewOfSecond),
          findings.duties(reviewOfFirst, reviewOfSecond),
          findings.unchecked(reviewOfFirst, reviewOfSecond),
          curves(labels));
    }

    /** By the doubt of the second formula the one of the first that it is the same as. */
    private Map<String, String> sharedDoubts() {
      if (!materials(first).equals(materials(second))) {
        return Map.of();
      }
      Map<String, String> same = new HashMap<>();
      for (String doubt : after.doubtsOfMaterials()) {
        same.put(doubt, doubt.replace(SECOND, FIRST));
      }
      return same;
    }

    private Set<List<Object>> materials(Formula formula) {
      Set<List<Object>> all = new HashSet<>();
      for (Line line : formula.lines()) {
        all.add(
            List.of(
                nameOf(line, knowledge.catalogue()),
                line.strength(),
                line.hydrate(),
                line.grade(),
                line.lot()));
      }
      return all;
    }

    // --- Properties

    private List<PropertyComparison> properties() {
      Map<List<String>, Predictor.Property> ofFirst = new LinkedHashMap<>();
      for (Predictor.Property number : Predictor.properties(before)) {
        ofFirst.put(key(number), number);
      }
      List<PropertyComparison> all = new ArrayList<>();
      for (Predictor.Property number : Predictor.properties(after)) {
        Predictor.Property partner = ofFirst.get(key(number));
        if (partner != null && !NOT_COMPARED.contains(number.subject().kind())) {
          all.add(property(partner, number));
        }
      }
      return all;
    }

    private List<String> key(Predictor.Property number) {
      return List.of(number.subject().kind(), number.subject().name(), number.name());
    }

    private PropertyComparison property(Predictor.Property one, Predictor.Property other) {
      Bounded a = one.value().value();
      Bounded b = renamed(other.value().value());
      boolean same = equal || isSame(a, b);
      Odds higher = same ? Odds.IMPOSSIBLE : a.lessThan(b);
      Odds lower = same ? Odds.IMPOSSIBLE : b.lessThan(a);
      return new PropertyComparison(
          other.subject(),
          other.meaning(),
          Shown.of(one.name(), a, one.value().unit()),
          origin(one),
          Shown.of(other.name(), b, other.value().unit()),
          origin(other),
          Difference.of(a, b, other.value().unit()),
          higher,
          lower,
          same
              ? PropertyComparison.Verdict.SAME
              : PropertyComparison.Verdict.of(higher, lower, a.isKnown() && b.isKnown()),
          same ? List.of() : undecided(a, b));
    }

    private String origin(Predictor.Property number) {
      return number.value().origin().name().toLowerCase(Locale.ROOT);
    }

    private Bounded renamed(Bounded value) {
      return shared.isEmpty()
          ? value
          : new Bounded(renamed(value.atLeast()), renamed(value.atMost()), value.missing());
    }

    private Estimate renamed(Estimate estimate) {
      List<Estimate.Contribution> contributions = estimate.contributions();
      if (contributions.stream().noneMatch(each -> shared.containsKey(each.doubt().name()))) {
        return estimate;
      }
      Map<Doubt, Double> moves = new LinkedHashMap<>();
      for (Estimate.Contribution each : contributions) {
        String name = each.doubt().name();
        moves.merge(
            new Doubt(shared.getOrDefault(name, name), each.doubt().settledBy()),
            each.move(),
            Double::sum);
      }
      return Estimate.of(estimate.likely(), estimate.scale(), moves);
    }

    private List<PropertyComparison.OpenDoubt> undecided(Bounded a, Bounded b) {
      if (!a.isKnown() || !b.isKnown()) {
        return List.of();
      }
      List<Estimate.Contribution> open = a.atLeast().undecidedBy(b.atLeast());
      double variance = 0;
      for (Estimate.Contribution each : open) {
        variance += each.move() * each.move();
      }
      double least = LEAST_SHARE * variance;
      return open.stream()
          .filter(each -> each.move() * each.move() >= least)
          .limit(MOST_DOUBTS)
          .map(
              each ->
                  new PropertyComparison.OpenDoubt(each.doubt().name(), each.doubt().settledBy()))
          .toList();
    }

    // --- Curves

    private List<Curve> curves(Labels labels) {
      Overlay overlay = new Overlay(labels.first(), labels.second());
      List<Curve> ofFirst = predictor.curves(before);
      List<Curve> ofSecond = predictor.curves(after);
      List<Curve> all = new ArrayList<>();
      for (int i = 0; i < ofFirst.size(); i++) {
        all.add(overlay.of(ofFirst.get(i), ofSecond.get(i)));
      }
      all.add(
          overlay.flowRatio(
              ofFirst.get(0),
              ofSecond.get(0),
              rate -> renamed(after.viscosity(rate)).dividedBy(before.viscosity(rate))));
      return all;
    }
  }

  private static FormulaSide side(String label, Formula formula, Review review) {
    return new FormulaSide(
        label,
        formula.name(),
        formula.version(),
        review.editions(),
        review.outcome(),
        review.level(),
        formula.place(""));
  }

  private static String nameOf(Line line, Catalogue catalogue) {
    return catalogue.find(line.name()).map(Ingredient::name).orElse(line.name());
  }

  /** Under another name, and without version and places. */
  private static Formula named(Formula formula, String name) {
    return new Formula(
        name,
        "",
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        formula.lines(),
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        Map.of());
  }

  private static boolean isSame(Bounded a, Bounded b) {
    if (!a.isKnown() || !b.isKnown()) {
      return false;
    }
    Estimate one = a.atLeast();
    Estimate other = b.atLeast();
    if (one.equals(other)) {
      return true;
    }
    double size = Math.max(Math.abs(one.likely()), Math.abs(other.likely()));
    if (Double.isInfinite(size)) {
      return one.likely() == other.likely();
    }
    double tolerance = ROUNDING * size;
    Estimate difference = other.subtract(one);
    return Math.abs(difference.likely()) <= tolerance && difference.deviation() <= tolerance;
  }

  /**
   * What the formulas are called.
   *
   * @param first differs from {@code second}
   */
  private record Labels(String first, String second) {
    static Labels of(Formula a, Formula b) {
      if (!a.name().equals(b.name())) {
        return new Labels(a.name(), b.name());
      }
      return a.version().isBlank() || b.version().isBlank() || a.version().equals(b.version())
          ? new Labels(a.name() + " (first)", b.name() + " (second)")
          : new Labels(
              a.name() + ", version " + a.version(), b.name() + ", version " + b.version());
    }
  }

  /** What the rules say of both. */
  private final class Findings {
    private final Map<Subject, Subject> inFirst = new HashMap<>();
    private final Map<Subject, Subject> inSecond = new HashMap<>();
    private final Formula first;
    private final Formula second;

    /** A rule and its subject, as the second formula calls it. */
    private record Key(String rule, Subject subject) {}

    Findings(List<StepChange> method, Formula first, Formula second) {
      this.first = first;
      this.second = second;
      for (StepChange step : method) {
        if (step.firstNumber().isPresent() && step.secondNumber().isPresent()) {
          Subject one = step(step.firstNumber().getAsInt());
          Subject other = step(step.secondNumber().getAsInt());
          inSecond.put(one, other);
          inFirst.put(other, one);
        }
      }
    }

    private static Subject step(int number) {
      return new Subject("step", "step " + number);
    }

    /** A subject of the first formula; a step that was removed is no step of the second. */
    private Key ofFirst(String rule, Subject subject) {
      Subject other = inSecond.get(subject);
      if (other != null) {
        return new Key(rule, other);
      }
      return new Key(
          rule,
          subject.kind().equals("step")
              ? new Subject("step", subject.name() + " of the first")
              : subject);
    }

    List<FindingChange> changes(Review a, Review b) {
      Map<Key, Finding> before = new LinkedHashMap<>();
      a.findings().forEach(each -> before.put(ofFirst(each.rule(), each.subject()), each));
      Map<Key, Finding> after = new LinkedHashMap<>();
      b.findings().forEach(each -> after.put(new Key(each.rule(), each.subject()), each));
      SortedMap<String, Map<Subject, Verdict>> verdictsOfFirst = reviewer.verdicts(first, on(a));
      SortedMap<String, Map<Subject, Verdict>> verdictsOfSecond = reviewer.verdicts(second, on(b));
      List<FindingChange> all = new ArrayList<>();
      Set<Key> keys = new LinkedHashSet<>(after.keySet());
      keys.addAll(before.keySet());
      for (Key key : keys) {
        Optional<Finding> one = Optional.ofNullable(before.get(key));
        Optional<Finding> other = Optional.ofNullable(after.get(key));
        boolean alike = one.isPresent() && other.isPresent() && alike(one.get(), other.get());
        all.add(
            new FindingChange(
                FindingChange.Kind.of(one.isPresent(), other.isPresent(), alike),
                one,
                one.map(Finding::outcome)
                    .or(
                        () ->
                            outcome(
                                verdictsOfFirst,
                                key.rule(),
                                inFirst.getOrDefault(
                                    key.subject(), notAStep(key.subject(), " of the second")))),
                other,
                other
                    .map(Finding::outcome)
                    .or(() -> outcome(verdictsOfSecond, key.rule(), key.subject()))));
      }
      return all;
    }

    private static Subject notAStep(Subject subject, String suffix) {
      return subject.kind().equals("step") ? new Subject("step", subject.name() + suffix) : subject;
    }

    private static LocalDate on(Review review) {
      return review.editions().on();
    }

    private static Optional<Outcome> outcome(
        SortedMap<String, Map<Subject, Verdict>> verdicts, String rule, Subject subject) {
      return Optional.ofNullable(verdicts.get(rule))
          .map(bySubject -> bySubject.get(subject))
          .map(Verdict::outcome);
    }

    private static boolean alike(Finding a, Finding b) {
      return a.outcome() == b.outcome()
          && a.level() == b.level()
          && a.isAccepted() == b.isAccepted()
          && Math.abs(a.odds().low() - b.odds().low()) < ODDS_STEP
          && Math.abs(a.odds().high() - b.odds().high()) < ODDS_STEP;
    }

    List<DutyChange> duties(Review a, Review b) {
      Map<Key, Duty> before = new LinkedHashMap<>();
      a.duties().forEach(each -> before.put(ofFirst(each.rule(), each.subject()), each));
      Map<Key, Duty> after = new LinkedHashMap<>();
      b.duties().forEach(each -> after.put(new Key(each.rule(), each.subject()), each));
      Set<Key> keys = new LinkedHashSet<>(after.keySet());
      keys.addAll(before.keySet());
      List<DutyChange> all = new ArrayList<>();
      for (Key key : keys) {
        Optional<Duty> one = Optional.ofNullable(before.get(key));
        Optional<Duty> other = Optional.ofNullable(after.get(key));
        boolean alike =
            one.isPresent()
                && other.isPresent()
                && one.get().applies() == other.get().applies()
                && one.get().severity() == other.get().severity();
        all.add(
            new DutyChange(
                FindingChange.Kind.of(one.isPresent(), other.isPresent(), alike), one, other));
      }
      return all;
    }

    List<OpenCheck> unchecked(Review a, Review b) {
      Map<Key, List<String>> before = new LinkedHashMap<>();
      a.unchecked()
          .forEach(each -> before.put(ofFirst(each.rule(), each.subject()), each.missing()));
      Map<Key, List<String>> after = new LinkedHashMap<>();
      b.unchecked()
          .forEach(each -> after.put(new Key(each.rule(), each.subject()), each.missing()));
      Set<Key> keys = new LinkedHashSet<>(after.keySet());
      keys.addAll(before.keySet());
      List<OpenCheck> all = new ArrayList<>();
      for (Key key : keys) {
        all.add(
            new OpenCheck(
                key.rule(),
                key.subject(),
                Optional.ofNullable(before.get(key)),
                Optional.ofNullable(after.get(key))));
      }
      return all;
    }
  }
}
