package gelwright.quantity;

import static java.util.Objects.requireNonNull;

import java.util.Set;
import java.util.TreeSet;

/**
 * A number as far as it is known: at least one estimate and at most another.
 *
 * <p>Where nothing is missing the two are the same estimate. Where an input is missing they are what
 * is physically possible, and {@link #missing()} names the input. A comparison whose odds are the
 * same over the whole bound is decided all the same: that is how <i>unknown</i> is earned.
 *
 * @param atLeast lower estimate; exact negative infinity where there is no lower bound
 * @param atMost upper estimate; exact infinity where there is no upper bound
 * @param missing what would have to be known, in the trade's words; empty when nothing is missing
 */
public record Bounded(Estimate atLeast, Estimate atMost, Set<String> missing) {
  public Bounded {
    requireNonNull(atLeast, "atLeast");
    requireNonNull(atMost, "atMost");
    missing = Set.copyOf(missing);
    if (atLeast.likely() > atMost.likely()) {
      throw new IllegalArgumentException(
          "atLeast " + atLeast.likely() + " is above atMost " + atMost.likely());
    }
  }

  /** A number that is known, with its doubts. */
  public static Bounded of(Estimate estimate) {
    return new Bounded(estimate, estimate, Set.of());
  }

  public static Bounded exact(double value) {
    return of(Estimate.exact(value));
  }

  /** A number of which only what is physically possible is known. */
  public static Bounded unknown(double least, double most, Set<String> missing) {
    return new Bounded(Estimate.exact(least), Estimate.exact(most), missing);
  }

  /** A number of which nothing is known. */
  public static Bounded unknown(Set<String> missing) {
    return unknown(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, missing);
  }

  /** Whether nothing is missing and the number is one estimate. */
  public boolean isKnown() {
    return atLeast == atMost || atLeast.equals(atMost);
  }

  public Bounded plus(Bounded other) {
    return new Bounded(
        atLeast.plus(other.atLeast), atMost.plus(other.atMost), union(missing, other.missing));
  }

  public Bounded minus(Bounded other) {
    return new Bounded(
        atLeast.subtract(other.atMost), atMost.subtract(other.atLeast), union(missing, other.missing));
  }

  /** The product; an unknown factor of either sign is bounded by the four corners. */
  public Bounded times(Bounded other) {
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

  public Bounded negated() {
    return exact(0).minus(this);
  }

  public Bounded min(Bounded other) {
    return new Bounded(
        smaller(atLeast, other.atLeast), smaller(atMost, other.atMost), union(missing, other.missing));
  }

  public Bounded max(Bounded other) {
    return new Bounded(
        smaller(atLeast, other.atLeast) == atLeast ? other.atLeast : atLeast,
        smaller(atMost, other.atMost) == atMost ? other.atMost : atMost,
        union(missing, other.missing));
  }

  private static Estimate smaller(Estimate a, Estimate b) {
    return a.likely() <= b.likely() ? a : b;
  }

  /** The odds that this number is at most the other. */
  public Odds atMost(Bounded other) {
    double low = atMost.oddsAtMost(other.atLeast);
    double high =
        isKnown() && other.isKnown() ? low : atLeast.oddsAtMost(other.atMost);
    return new Odds(Math.min(low, high), Math.max(low, high));
  }

  /** The odds that this number is less than the other. */
  public Odds lessThan(Bounded other) {
    double low = atMost.oddsLess(other.atLeast);
    double high = isKnown() && other.isKnown() ? low : atLeast.oddsLess(other.atMost);
    return new Odds(Math.min(low, high), Math.max(low, high));
  }

  /**
   * The odds that this number lies between two others, of which the first is not above the second:
   * missing it on one side excludes missing it on the other, so the two odds add up.
   */
  public Odds within(Bounded from, Bounded to) {
    Odds below = lessThan(from);
    Odds above = to.lessThan(this);
    return new Odds(
        clamp(1 - below.high() - above.high()), clamp(1 - below.low() - above.low()));
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
