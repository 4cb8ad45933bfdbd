package gelwright.reports;

import gelwright.formula.Acceptance;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Severity;
import gelwright.rule.Trace;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** Made-up reviews that have one of everything. */
final class Samples {
  static final LocalDate DAY = LocalDate.of(2026, 11, 25);

  /** Quotes, markup, controls, an escape sequence, emoji, right-to-left, overrides, half a pair. */
  static final List<String> HOSTILE =
      List.of(
          "\"quoted\" and 'quoted'",
          "<script>alert(1)</script> & ]]> <!-- -->",
          "tab\tline\nreturn\rnull\0bell\7",
          "\u001b[31mred\u001b[0m and \u009b31m",
          "emoji 🧴🌿 and 👩‍🌾",
          "עברית العربية \u202eesrever\u202c \u2066x\u2069",
          "half \ud83e pair",
          "\udd34 other half",
          "\ufffe\uffff\ufeff",
          "{formula} ${x} %s %n \\u0041 \\");

  private static final Source PAPER =
      new Source("a-paper", "A. Author, J. Made Up 1 (2001) 2", Source.Standing.PUBLISHED);
  private static final Source PRACTICE =
      new Source("oil-per-gum-practice", "common practice", Source.Standing.COMMON_PRACTICE);

  private Samples() {}

  static Finding breaks() {
    return new Finding(
        "oil-load.above-gel-capacity",
        "More oil than this gel carries on its own",
        Severity.ERROR,
        Outcome.BREAKS,
        Odds.of(0.01),
        Severity.ERROR,
        new Subject("ingredient", "Squalane"),
        Optional.of(new Shown("oil.share", 14, 14, 14, Unit.PERCENT, Set.of())),
        Optional.of(new Shown("gel.oil-capacity", 7.94328, 9.6, 11.54781, Unit.PERCENT, Set.of())),
        "14 % of oil; this gel carries about 9.6 % with no emulsifier.",
        "A gum does not lower the tension between oil and water. It only holds drops in place.",
        List.of(PRACTICE, PAPER),
        List.of(),
        List.of("yield stress"),
        new Place("recipes/wind shelter.yaml", 14, 5, "/ingredients/3"),
        false,
        Optional.empty(),
        Optional.of(
            new Trace(
                "oil.share <= gel.oil-capacity",
                new Place("oil-load.yaml", 12, 14, "/rules/above-gel-capacity/require"),
                "1 in 100",
                Set.of("z", "a", "m", "b"),
                List.of(new Trace("oil.share", Place.NOWHERE, "14 %", Set.of(), List.of())))));
  }

  static Finding borderline(String rule, double odds, Severity level) {
    return new Finding(
        rule,
        "The water phase is too weakly buffered",
        Severity.ERROR,
        Outcome.BORDERLINE,
        Odds.of(odds),
        level,
        Subject.FORMULA,
        Optional.of(
            new Shown(
                "water-phase.pH",
                Double.NEGATIVE_INFINITY,
                Double.NaN,
                5.43219,
                Unit.PH,
                Set.of("pKa of Lactic Acid"))),
        Optional.empty(),
        "The pH may leave its window.",
        "",
        List.of(),
        List.of(),
        List.of("pH"),
        Place.NOWHERE,
        false,
        Optional.empty(),
        Optional.empty());
  }

  static Finding unknown(String rule, boolean mustBeKnown) {
    return new Finding(
        rule,
        "Preservative level in water",
        Severity.ERROR,
        Outcome.UNKNOWN,
        new Odds(0.2, 1),
        mustBeKnown ? Severity.ERROR : Severity.NOTE,
        new Subject("preservative", "Sodium Benzoate"),
        Optional.empty(),
        Optional.empty(),
        "It is not known whether Sodium Benzoate is active.",
        "Only the undissociated acid works.",
        List.of(PAPER),
        List.of("inhibitory levels of Sodium Benzoate", "pH"),
        List.of(),
        new Place("recipes/wind shelter.yaml", 9, 0, "/ingredients/1"),
        mustBeKnown,
        Optional.empty(),
        Optional.empty());
  }

  static Finding accepted() {
    Finding base = breaks();
    return new Finding(
        base.rule(),
        base.title(),
        base.severity(),
        base.outcome(),
        base.odds(),
        base.level(),
        new Subject("ingredient", "Jojoba Oil"),
        base.observed(),
        base.limit(),
        base.message(),
        base.lesson(),
        base.sources(),
        base.missing(),
        base.settledBy(),
        base.where(),
        false,
        Optional.of(
            new Acceptance(
                base.rule(),
                "Jojoba Oil",
                Optional.of(Quantity.of(14, Unit.PERCENT)),
                "held 12 weeks at 40 °C, see lab book",
                LocalDate.of(2027, 3, 1))),
        Optional.empty());
  }

  static Duty duty(Outcome applies) {
    return new Duty(
        "caution.patch-test",
        "Patch test",
        applies,
        Severity.NOTE,
        Subject.FORMULA,
        "Try it on a small patch of skin first.",
        "Skin differs.",
        applies == Outcome.MAY_APPLY ? List.of("product.users") : List.of(),
        List.of(PRACTICE));
  }

  /** One of everything. */
  static Review full() {
    return of(
        "Wind-shelter gel-cream",
        List.of(
            breaks(),
            borderline("acidity.weak", 0.3, Severity.WARNING),
            unknown("preservation.no-data", true),
            borderline("acidity.drift", 0.8, Severity.NOTE),
            unknown("preservation.active-level", false),
            accepted()),
        List.of(
            duty(Outcome.APPLIES),
            rename(duty(Outcome.MAY_APPLY), "label.children"),
            rename(duty(Outcome.HOLDS), "label.order")));
  }

  private static Duty rename(Duty duty, String rule) {
    return new Duty(
        rule,
        duty.title(),
        duty.applies(),
        duty.severity(),
        duty.subject(),
        duty.message(),
        duty.lesson(),
        duty.missing(),
        duty.sources());
  }

  static Review of(String formula, List<Finding> findings, List<Duty> duties) {
    Map<String, Outcome> rules = new LinkedHashMap<>();
    findings.forEach(finding -> rules.putIfAbsent(finding.rule(), finding.outcome()));
    duties.forEach(duty -> rules.putIfAbsent(duty.rule(), duty.applies()));
    rules.put("composition.sum", Outcome.HOLDS);
    rules.put("suspension.grains-settle", Outcome.NOT_APPLICABLE);
    rules.put("label.allergens", Outcome.DOES_NOT_APPLY);
    Map<Outcome, Integer> counts = new EnumMap<>(Outcome.class);
    rules.values().forEach(outcome -> counts.merge(outcome, 1, Integer::sum));
    return new Review(
        formula,
        new Editions("0.1.0", new TreeMap<>(Map.of("oil-load", "2026.1")), DAY, "00ff"),
        findings.isEmpty() ? Outcome.HOLDS : findings.get(0).outcome(),
        findings.isEmpty() ? Severity.NOTE : findings.get(0).level(),
        counts,
        (int) findings.stream().filter(Finding::isAccepted).count(),
        findings,
        duties,
        List.of(new Review.MeasureNext("viscosity at 10 /s", List.of("texture.level"))),
        findings.stream()
            .filter(finding -> finding.outcome() == Outcome.UNKNOWN)
            .map(
                finding ->
                    new Review.Unchecked(finding.rule(), finding.subject(), finding.missing()))
            .toList(),
        new TreeMap<>(
            Map.of(
                "water-phase.pH",
                new Review.PropertyValue(
                    new Shown("water-phase.pH", 5.0, 5.2, 5.4, Unit.PH, Set.of()),
                    "predicted",
                    List.of("a-paper")),
                "water-phase.water-activity",
                new Review.PropertyValue(
                    new Shown("water-phase.water-activity", 0.97, 0.98, 0.99, Unit.NONE, Set.of()),
                    "predicted",
                    List.of("a-paper")),
                "gel.yield-stress",
                new Review.PropertyValue(
                    new Shown(
                        "gel.yield-stress",
                        0,
                        Double.NaN,
                        Double.POSITIVE_INFINITY,
                        Unit.PASCAL,
                        Set.of("gum of Tara Gum")),
                    "missing",
                    List.of()))),
        new TreeMap<>(rules),
        new TreeMap<>(Map.of("feel.tack", "We like it tacky")),
        List.of("Hot vessel."),
        new Place("recipes/wind shelter.yaml", 1, 1, ""),
        java.util.Optional.empty(),
        java.util.Optional.empty());
  }

  /** A review with this text wherever a user's text can come. */
  static Review hostile(String text) {
    Finding base = breaks();
    Finding finding =
        new Finding(
            base.rule(),
            text,
            base.severity(),
            base.outcome(),
            base.odds(),
            base.level(),
            new Subject("ingredient", text),
            Optional.of(new Shown(text, 1, 2, 3, Unit.PERCENT, Set.of(text))),
            base.limit(),
            text,
            text,
            List.of(new Source(text, text, Source.Standing.FROM_MEMORY)),
            List.of(text),
            List.of(text),
            new Place(text, 3, 4, text),
            false,
            Optional.of(new Acceptance(base.rule(), text, Optional.empty(), text + ".", DAY)),
            Optional.of(new Trace(text, Place.NOWHERE, text, Set.of(text), List.of())));
    Finding open =
        new Finding(
            "oil-load.other",
            text,
            base.severity(),
            base.outcome(),
            base.odds(),
            base.level(),
            new Subject("ingredient", text),
            Optional.empty(),
            Optional.empty(),
            text,
            text,
            List.of(),
            List.of(),
            List.of(),
            new Place(text, 3, 4, text),
            false,
            Optional.empty(),
            Optional.empty());
    Duty duty =
        new Duty(
            "label.children",
            text,
            Outcome.MAY_APPLY,
            Severity.NOTE,
            new Subject("row", text),
            text,
            text,
            List.of(text),
            List.of());
    return of(text, List.of(open, finding), List.of(duty));
  }

  static Unreadable unreadable(String file) {
    return new Unreadable(
        file,
        List.of(
            new Problem(
                new Place(file, 3, 7, "/ingredients/0/nmae"),
                "unknown-key",
                "The key nmae is not known.",
                "Did you mean name?"),
            Problem.of(Place.NOWHERE, "no-name", "The formula has no name.")));
  }
}
