package gelwright.quantity;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/**
 * A number as far as it is known: at least one estimate and at most another.
 *
 * <p>Where nothing is missing the two are the same estimate. Where an input is missing they are
 * what is physically possible, and {@link #missing()} names the input. A comparison whose odds are
 * the same over the whole bound is decided all the same: that is how <i>unknown</i> is earned.
 *
 * <p>The arithmetic encloses: whatever the two numbers are within their bounds, the result is
 * within its own. An infinite bound stands for "however large": zero times it is zero, and what is
 * left when it is subtracted from or divided by another is open. Nothing here gives NaN or throws
 * for a number. Bounds are ordered, and corners are chosen, by their likely values.
 *
 * @param atLeast lower estimate; exact negative infinity where there is no lower bound
 * @param atMost upper estimate; exact infinity where there is no upper bound
 * @param missing what would have to be known, in the trade's words; empty when nothing is missing
 */
public record Bounded(Estimate atLeast, Estimate atMost, Set<String> missing) {
  /** All of a thing, in the base unit of a share: %. */
  private static final double WHOLE = 100;

  private static final Estimate NOTHING = Estimate.exact(0);
  private static final Estimate NO_LEAST = Estimate.exact(Double.NEGATIVE_INFINITY);
  private static final Estimate NO_MOST = Estimate.exact(Double.POSITIVE_INFINITY);

  public Bounded {
    requireNonNull(atLeast, "atLeast");
    requireNonNull(atMost, "atMost");
    // Sorted, so that two runs name what is missing in the same order.
    missing = missing.isEmpty() ? Set.of() : Collections.unmodifiableSet(new TreeSet<>(missing));
    if (atLeast.likely() > atMost.likely()) {
      throw new IllegalArgumentException(
          "atLeast " + atLeast.likely() + " is above atMost " + atMost.likely());
    }
  }

  /** A number that is known, with its doubts. */
  public static Bounded of(Estimate estimate) {
    return new Bounded(estimate, estimate, Set.of());
  }

  /** A number without doubt, of which nothing is missing. Never NaN. */
  public static Bounded exact(double value) {
    return of(Estimate.exact(value));
  }

  /**
   * A number of which only what is physically possible is known.
   *
   * @param least lower bound, or negative infinity; not above {@code most}
   * @param most upper bound, or infinity
   * @param missing what would have to be known
   */
  public static Bounded unknown(double least, double most, Set<String> missing) {
    return new Bounded(Estimate.exact(least), Estimate.exact(most), missing);
  }

  /** A number of which nothing is known. */
  public static Bounded unknown(Set<String> missing) {
    return unknown(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, missing);
  }

  /**
   * Whether the number is one estimate: either nothing is missing, or what is missing cannot move
   * it, as in zero times an unknown.
   */
  public boolean isKnown() {
    return atLeast.equals(atMost);
  }

  /**
   * Both ends of a 90 % range.
   *
   * @param low in base units; negative infinity when not bounded
   * @param high in base units; infinity when not bounded
   */
  public record Range(double low, double high) {}

  /**
   * From the lower end of the lower estimate to the upper end of the upper one, for showing.
   *
   * <p>A share is a part of a whole: where its likely value lies within 0 to 100 % the range shown
   * does too. The doubt of a share near either end is lopsided in truth, and first-order
   * propagation does not see that. Odds are not touched by this.
   *
   * @param dimension what the number measures
   */
  public Range range(Dimension dimension) {
    double low = atLeast.low();
    double high = atMost.high();
    if (dimension.equals(Dimension.SHARE)) {
      low = atLeast.likely() >= 0 ? Math.max(0, low) : low;
      high = atMost.likely() <= WHOLE ? Math.min(WHOLE, high) : high;
    }
    return new Range(low, high);
  }

  /** The sum; open towards every side where infinities of opposite sign meet. */
  public Bounded plus(Bounded other) {
    if (isKnown() && other.isKnown() && !isInfinite() && !other.isInfinite()) {
      return single(atLeast.plus(other.atLeast), other);
    }
    return new Bounded(
        meets(atLeast, other.atLeast) ? NO_LEAST : atLeast.plus(other.atLeast),
        meets(atMost, other.atMost) ? NO_MOST : atMost.plus(other.atMost),
        union(missing, other.missing));
  }

  /** The difference; open towards every side where infinities of equal sign meet. */
  public Bounded minus(Bounded other) {
    if (isKnown() && other.isKnown() && !isInfinite() && !other.isInfinite()) {
      return single(atLeast.subtract(other.atLeast), other);
    }
    return new Bounded(
        atLeast.likely() == other.atMost.likely() && isInfinite(atLeast)
            ? NO_LEAST
            : atLeast.subtract(other.atMost),
        atMost.likely() == other.atLeast.likely() && isInfinite(atMost)
            ? NO_MOST
            : atMost.subtract(other.atLeast),
        union(missing, other.missing));
  }

  private Bounded single(Estimate result, Bounded other) {
    return new Bounded(result, result, union(missing, other.missing));
  }

  private boolean isInfinite() {
    return isInfinite(atLeast) || isInfinite(atMost);
  }

  private static boolean isInfinite(Estimate estimate) {
    return Double.isInfinite(estimate.likely());
  }

  // Infinities of opposite sign: their sum is no number.
  private static boolean meets(Estimate a, Estimate b) {
    return isInfinite(a) && isInfinite(b) && a.likely() != b.likely();
  }

  /** The product; an unknown factor of either sign is bounded by the four corners. */
  public Bounded times(Bounded other) {
    if (isKnown() && other.isKnown()) {
      return single(atLeast.times(other.atLeast), other);
    }
    return corners(
        other,
        atLeast.times(other.atLeast),
        atLeast.times(other.atMost),
        atMost.times(other.atLeast),
        atMost.times(other.atMost));
  }

  /** The quotient; where the divisor may be zero nothing is known of it. */
  public Bounded dividedBy(Bounded other) {
    if (other.atLeast.likely() <= 0 && other.atMost.likely() >= 0) {
      if (other.isKnown()) {
        return unknown(union(union(missing, other.missing), Set.of("a divisor other than zero")));
      }
      return unknown(union(missing, other.missing));
    }
    if (isInfinite() && (isInfinite(other.atLeast) && isInfinite(other.atMost))) {
      // However large over however large: only the sign is left, if that.
      boolean divisorPositive = other.atLeast.likely() > 0;
      boolean mayBePositive = divisorPositive ? atMost.likely() > 0 : atLeast.likely() < 0;
      boolean mayBeNegative = divisorPositive ? atLeast.likely() < 0 : atMost.likely() > 0;
      return new Bounded(
          mayBeNegative ? NO_LEAST : NOTHING,
          mayBePositive ? NO_MOST : NOTHING,
          union(missing, other.missing));
    }
    if (isKnown() && other.isKnown()) {
      return single(atLeast.dividedBy(other.atLeast), other);
    }
    return corners(
        other,
        atLeast.dividedBy(other.atLeast),
        atLeast.dividedBy(other.atMost),
        atMost.dividedBy(other.atLeast),
        atMost.dividedBy(other.atMost));
  }

  private Bounded corners(Bounded other, Estimate... corners) {
    Estimate least = corners[0];
    Estimate most = corners[0];
    for (Estimate corner : corners) {
      if (corner.likely() < least.likely()) {
        least = corner;
      }
      if (corner.likely() > most.likely()) {
        most = corner;
      }
    }
    return new Bounded(least, most, union(missing, other.missing));
  }

  /** The number with its sign turned. */
  public Bounded negated() {
    return exact(0).minus(this);
  }

  /** The smaller of the two, by their likely values. */
  public Bounded min(Bounded other) {
    return new Bounded(
        smaller(atLeast, other.atLeast),
        smaller(atMost, other.atMost),
        union(missing, other.missing));
  }

  /** The larger of the two, by their likely values. */
  public Bounded max(Bounded other) {
    return new Bounded(
        larger(atLeast, other.atLeast),
        larger(atMost, other.atMost),
        union(missing, other.missing));
  }

  private static Estimate smaller(Estimate a, Estimate b) {
    return a.likely() <= b.likely() ? a : b;
  }

  private static Estimate larger(Estimate a, Estimate b) {
    return a.likely() >= b.likely() ? a : b;
  }

  /**
   * The odds that this number is at most the other: from the odds at the least favourable corner of
   * the two bounds to those at the most favourable one. Two known numbers have one odds.
   */
  public Odds atMost(Bounded other) {
    double low = atMost.oddsAtMost(other.atLeast);
    double high = isKnown() && other.isKnown() ? low : atLeast.oddsAtMost(other.atMost);
    return new Odds(Math.min(low, high), Math.max(low, high));
  }

  /** The odds that this number is less than the other; see {@link #atMost(Bounded)}. */
  public Odds lessThan(Bounded other) {
    double low = atMost.oddsLess(other.atLeast);
    double high = isKnown() && other.isKnown() ? low : atLeast.oddsLess(other.atMost);
    return new Odds(Math.min(low, high), Math.max(low, high));
  }

  /**
   * The odds that this number lies between two others, ends included. The first should not be above
   * the second: then missing it on one side excludes missing it on the other, and the two odds add
   * up. Where the two ends overlap in their doubts, the odds err to the low side.
   */
  public Odds within(Bounded from, Bounded to) {
    Odds below = lessThan(from);
    Odds above = to.lessThan(this);
    return new Odds(clamp(1 - below.high() - above.high()), clamp(1 - below.low() - above.low()));
  }

  private static double clamp(double odds) {
    return Math.max(0, Math.min(1, odds));
  }

  private static Set<String> union(Set<String> a, Set<String> b) {
    if (a.isEmpty()) {
      return b;
    }
    if (b.isEmpty()) {
      return a;
    }
    Set<String> both = new TreeSet<>(a);
    both.addAll(b);
    return both;
  }
}
