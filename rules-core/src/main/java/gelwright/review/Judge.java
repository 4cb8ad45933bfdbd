package gelwright.review;

import gelwright.quantity.Odds;
import gelwright.rule.Severity;
import gelwright.rule.Truth;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/** What becomes of a rule, from the odds that it applies and the odds that it is met. */
final class Judge {
  // The table, with "applies" across (the condition and, for an item, whether it is of the kind):
  //
  //                 | certainly | borderline            | unknown  | certainly not
  //   requirement   |           |                       |          |
  //     holds       | holds     | holds                 | unknown  | not applicable
  //     borderline  | borderline| borderline            | unknown  | not applicable
  //     breaks      | breaks    | borderline            | unknown  | not applicable
  //     unknown     | unknown   | unknown               | unknown  | not applicable
  //   duty          | applies   | may apply             | may apply| does not apply
  //
  // "Certainly" and "certainly not" start at odds of 95 % and 5 %. Between them odds are unknown
  // when
  // an input is missing that keeps them open, borderline otherwise. A requirement that certainly
  // holds
  // is met whether or not its condition is; where the condition is unknown the rule is unknown all
  // the
  // same, so that leaving out an input never turns a rule into a holding one. With a borderline
  // condition the odds are those of "does not apply, or is met".

  private Judge() {}

  /**
   * An outcome with its odds.
   *
   * @param outcome what became of the rule
   * @param odds that it does not apply or is met
   * @param missing what is missing, where the outcome is unknown or a duty may apply
   */
  record Judged(Outcome outcome, Odds odds, Set<String> missing) {
    Verdict verdict() {
      return switch (outcome) {
        case HOLDS -> Verdict.HOLDS;
        case NOT_APPLICABLE -> Verdict.NOT_APPLICABLE;
        case DOES_NOT_APPLY -> Verdict.DOES_NOT_APPLY;
        default -> new Verdict(outcome, List.copyOf(new TreeSet<>(missing)));
      };
    }
  }

  static final Judged NOT_APPLICABLE = new Judged(Outcome.NOT_APPLICABLE, Odds.CERTAIN, Set.of());
  static final Judged DOES_NOT_APPLY =
      new Judged(Outcome.DOES_NOT_APPLY, Odds.IMPOSSIBLE, Set.of());

  /** A requirement. */
  static Judged requirement(Truth applies, Truth met) {
    return switch (applies.odds().verdict()) {
      case BREAKS -> new Judged(Outcome.NOT_APPLICABLE, Odds.CERTAIN, Set.of());
      case HOLDS -> certainlyApplies(met);
      case BETWEEN ->
          applies.missing().isEmpty() ? probablyApplies(applies, met) : mayApply(applies, met);
    };
  }

  private static Judged mayApply(Truth applies, Truth met) {
    Set<String> missing = new TreeSet<>(applies.missing());
    if (met.odds().verdict() == Odds.Verdict.BETWEEN) {
      missing.addAll(met.missing());
    }
    return new Judged(Outcome.UNKNOWN, applies.odds().not().or(met.odds()), missing);
  }

  private static Judged probablyApplies(Truth applies, Truth met) {
    Odds odds = applies.odds().not().or(met.odds());
    if (met.odds().verdict() == Odds.Verdict.HOLDS) {
      return new Judged(Outcome.HOLDS, odds, Set.of());
    }
    boolean open = met.odds().verdict() == Odds.Verdict.BETWEEN && !met.missing().isEmpty();
    return open
        ? new Judged(Outcome.UNKNOWN, odds, met.missing())
        : new Judged(Outcome.BORDERLINE, odds, Set.of());
  }

  private static Judged certainlyApplies(Truth met) {
    return switch (met.odds().verdict()) {
      case HOLDS -> new Judged(Outcome.HOLDS, met.odds(), Set.of());
      case BREAKS -> new Judged(Outcome.BREAKS, met.odds(), Set.of());
      case BETWEEN ->
          met.missing().isEmpty()
              ? new Judged(Outcome.BORDERLINE, met.odds(), Set.of())
              : new Judged(Outcome.UNKNOWN, met.odds(), met.missing());
    };
  }

  /** A duty without anything to check. */
  static Judged duty(Truth applies) {
    return switch (applies.odds().verdict()) {
      case HOLDS -> new Judged(Outcome.APPLIES, applies.odds(), Set.of());
      case BREAKS -> new Judged(Outcome.DOES_NOT_APPLY, applies.odds(), Set.of());
      case BETWEEN -> new Judged(Outcome.MAY_APPLY, applies.odds(), applies.missing());
    };
  }

  /** What an outcome is reported at. */
  static Severity level(
      Outcome outcome, Odds odds, Severity severity, boolean mustBeKnown, boolean keep) {
    return switch (outcome) {
      case BREAKS -> severity;
      case BORDERLINE -> odds.low() < 0.5 ? (keep ? severity : severity.milder()) : Severity.NOTE;
      case UNKNOWN -> mustBeKnown ? severity : Severity.NOTE;
      default -> Severity.NOTE;
    };
  }

  /** Order of outcomes, the worst first, for the outcome of a rule over its subjects. */
  static int rank(Outcome outcome) {
    return switch (outcome) {
      case BREAKS -> 0;
      case BORDERLINE -> 1;
      case UNKNOWN -> 2;
      case APPLIES -> 3;
      case MAY_APPLY -> 4;
      case HOLDS -> 5;
      case DOES_NOT_APPLY -> 6;
      case NOT_APPLICABLE -> 7;
    };
  }
}
