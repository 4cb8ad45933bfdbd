package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Odds;
import gelwright.review.Shown;
import gelwright.review.Subject;
import java.util.List;
import java.util.Locale;

/**
 * A number of both formulas side by side.
 *
 * @param subject what it is a number of; {@link Subject#FORMULA} for the formula as a whole
 * @param meaning one sentence
 * @param first its name, value, range and unit in the first formula, and what is missing
 * @param firstOrigin stated, measured, predicted or missing
 * @param second the same of the second formula
 * @param secondOrigin the same of the second formula
 * @param difference the second against the first
 * @param higher the odds that the second is greater
 * @param lower the odds that the second is less; not the rest of {@code higher} where the two may
 *     be equal
 * @param verdict what the odds say
 * @param undecidedBy the doubts that do not cancel, the largest first; at most three
 */
public record PropertyComparison(
    Subject subject,
    String meaning,
    Shown first,
    String firstOrigin,
    Shown second,
    String secondOrigin,
    Difference difference,
    Odds higher,
    Odds lower,
    Verdict verdict,
    List<OpenDoubt> undecidedBy) {
  public PropertyComparison {
    requireNonNull(subject, "subject");
    requireNonNull(meaning, "meaning");
    requireNonNull(first, "first");
    requireNonNull(firstOrigin, "firstOrigin");
    requireNonNull(second, "second");
    requireNonNull(secondOrigin, "secondOrigin");
    requireNonNull(difference, "difference");
    requireNonNull(higher, "higher");
    requireNonNull(lower, "lower");
    requireNonNull(verdict, "verdict");
    undecidedBy = List.copyOf(undecidedBy);
  }

  /** Name of the property: {@code gel.yield-stress}, {@code preservative.undissociated}. */
  public String name() {
    return first.name();
  }

  /**
   * A doubt that bears on the difference.
   *
   * @param doubt what is not known exactly, in the trade's words
   * @param settledBy the measurement or information that would settle it, or empty
   */
  public record OpenDoubt(String doubt, String settledBy) {
    public OpenDoubt {
      requireNonNull(doubt, "doubt");
      requireNonNull(settledBy, "settledBy");
    }
  }

  /**
   * How the second number lies to the first. Odds of 95 % are those at which a rule holds; that 3
   * chances in 4 make "probably" is a convention of this engine, without a source.
   */
  public enum Verdict {
    /** Nothing that bears on it differs. */
    SAME,
    /** Greater, and no doubt could turn it: odds of 99.95 % and more. */
    CERTAINLY_HIGHER,
    /** Greater with odds of 95 % and more. */
    CLEARLY_HIGHER,
    /** Greater with odds of 75 % and more. */
    PROBABLY_HIGHER,
    /** Neither greater nor less with odds of 75 %. */
    CANNOT_BE_TOLD_APART,
    /** Less with odds of 75 % and more. */
    PROBABLY_LOWER,
    /** Less with odds of 95 % and more. */
    CLEARLY_LOWER,
    /** Less, and no doubt could turn it: odds of 99.95 % and more. */
    CERTAINLY_LOWER,
    /** Something is missing that could turn it. */
    UNKNOWN;

    static final double CERTAINLY_FROM = 0.9995;
    static final double CLEARLY_FROM = Odds.HOLDS_FROM;
    static final double PROBABLY_FROM = 0.75;

    /** As written in reports. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    static Verdict of(Odds higher, Odds lower, boolean known) {
      if (higher.low() >= PROBABLY_FROM) {
        return higher.low() >= CERTAINLY_FROM
            ? CERTAINLY_HIGHER
            : higher.low() >= CLEARLY_FROM ? CLEARLY_HIGHER : PROBABLY_HIGHER;
      }
      if (lower.low() >= PROBABLY_FROM) {
        return lower.low() >= CERTAINLY_FROM
            ? CERTAINLY_LOWER
            : lower.low() >= CLEARLY_FROM ? CLEARLY_LOWER : PROBABLY_LOWER;
      }
      return known ? CANNOT_BE_TOLD_APART : UNKNOWN;
    }
  }
}
