package gelwright.api;

import gelwright.ingredient.Source;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.List;

/** What a review's records are called in plain words. */
final class Words {
  /** Fractions people say, from the smallest to the largest. */
  private static final int[][] FRACTIONS = {
    {1, 20}, {1, 10}, {1, 5}, {1, 4}, {1, 3}, {2, 5}, {1, 2}, {3, 5}, {2, 3}, {3, 4}, {4, 5},
    {9, 10}, {19, 20}
  };

  private Words() {}

  /** The whole review in one sentence. */
  static String verdict(Review review) {
    int breaks = 0;
    int borderline = 0;
    int unknown = 0;
    int demanded = 0;
    for (Finding finding : review.findings()) {
      if (finding.isAccepted()) {
        continue;
      }
      if (finding.outcome() == Outcome.BREAKS) {
        breaks++;
      } else if (finding.outcome() == Outcome.BORDERLINE) {
        borderline++;
      } else {
        unknown++;
        demanded += finding.mustBeKnown() ? 1 : 0;
      }
    }
    if (review.rules().isEmpty()) {
      return "No rule was run.";
    }
    List<String> parts = new ArrayList<>();
    if (breaks > 0) {
      parts.add("breaks " + requirements(breaks));
    }
    if (borderline > 0) {
      parts.add(borderline + (borderline == 1 ? " is borderline" : " are borderline"));
    }
    if (unknown > 0) {
      parts.add(
          unknown
              + " could not be checked"
              + (demanded == 0 ? "" : ", " + demanded + " of which must be known"));
    }
    if (review.accepted() > 0) {
      parts.add(review.accepted() + (review.accepted() == 1 ? " is accepted" : " are accepted"));
    }
    if (parts.isEmpty()) {
      return "Nothing that was checked stands against it.";
    }
    if (breaks == 0) {
      parts.add(0, "breaks no rule that could be checked");
    }
    String sentence = String.join("; ", parts) + ".";
    return Character.toUpperCase(sentence.charAt(0)) + sentence.substring(1);
  }

  private static String requirements(int number) {
    return number == 1 ? "1 rule" : number + " rules";
  }

  /** The outcome of the whole in one or two words, for a table. */
  static String outcome(Review review) {
    if (review.rules().isEmpty()) {
      return "no rule was run";
    }
    return switch (review.outcome()) {
      case BREAKS -> "breaks";
      case BORDERLINE -> "borderline";
      case UNKNOWN -> "not all checked";
      case HOLDS -> review.unchecked().isEmpty() ? "holds" : "not all checked";
      case NOT_APPLICABLE, APPLIES, MAY_APPLY, DOES_NOT_APPLY -> review.outcome().word();
    };
  }

  /** A number with its range, as far as it is known. */
  static String range(Shown shown) {
    boolean low = Double.isFinite(shown.low());
    boolean high = Double.isFinite(shown.high());
    if (!shown.isKnown()) {
      if (low && high) {
        return "between " + print(shown, shown.low()) + " and " + print(shown, shown.high());
      }
      return low
          ? "at least " + print(shown, shown.low())
          : high ? "at most " + print(shown, shown.high()) : "not known";
    }
    if (!Double.isFinite(shown.likely())) {
      return "any amount";
    }
    String likely = print(shown, shown.likely());
    String least = low ? print(shown, shown.low()) : "anything";
    String most = high ? print(shown, shown.high()) : "anything";
    return least.equals(likely) && most.equals(likely)
        ? likely
        : likely + " (" + least + " to " + most + ")";
  }

  private static String print(Shown shown, double value) {
    return Quantity.print(value, shown.unit());
  }

  /** Odds as people say them. */
  static String odds(Odds odds) {
    if (odds.equals(Odds.OPEN)) {
      return "nothing is known of the odds that it holds";
    }
    if (odds.low() != odds.high()) {
      return "the odds that it holds are between "
          + percent(odds.low())
          + " and "
          + percent(odds.high());
    }
    if (odds.low() <= Odds.BREAKS_TO) {
      return odds.low() == 0 ? "" : "less than 1 in 20 that it holds";
    }
    int[] nearest = FRACTIONS[0];
    for (int[] fraction : FRACTIONS) {
      if (Math.abs(odds.low() - (double) fraction[0] / fraction[1])
          < Math.abs(odds.low() - (double) nearest[0] / nearest[1])) {
        nearest = fraction;
      }
    }
    return (odds.low() < 0.5 ? "probably breaks, " : "probably holds, ")
        + "about "
        + nearest[0]
        + " in "
        + nearest[1]
        + " that it holds";
  }

  private static String percent(double odds) {
    return Math.round(odds * 100) + " %";
  }

  static String standing(Source.Standing standing) {
    return switch (standing) {
      case PUBLISHED -> "published";
      case COMMON_PRACTICE -> "common practice, no source";
      case FROM_MEMORY -> "from memory, not checked against a text";
    };
  }

  /** What a finding is about, or empty for the formula as a whole. */
  static String subject(Subject subject) {
    if (subject.isFormula()) {
      return "";
    }
    // A step is called "step 3" already.
    return subject.name().startsWith(subject.kind())
        ? subject.name()
        : subject.kind() + " " + subject.name();
  }

  /** Findings that count, by level: errors, warnings, notes. */
  static int count(Review review, Severity level) {
    return (int)
        review.findings().stream()
            .filter(
                finding ->
                    !finding.isAccepted()
                        && finding.level() == level
                        && (finding.outcome() != Outcome.UNKNOWN || finding.mustBeKnown()))
            .count();
  }
}
