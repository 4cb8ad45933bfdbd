package gelwright.quantity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.hipparchus.special.Erf;

/**
 * A likely value and how far each named {@link Doubt} moves it.
 *
 * <p>Every doubt is taken as normally distributed and independent of every other; its contribution is
 * signed: how far the value moves when the doubt moves by one standard deviation (first-order
 * propagation, JCGM 100:2008 "GUM" section 5.1.2). On the {@link Scale#FACTOR} scale contributions
 * are in the natural logarithm of the value, on the {@link Scale#LINEAR} scale in its unit. The range
 * shown, {@link #low()} to {@link #high()}, holds 90 % of the probability.
 *
 * <p>Law and arithmetic have no doubts: an exact estimate has no contributions.
 */
public final class Estimate {
  /** How a quantity is uncertain: by a difference, or by a factor. */
  public enum Scale {
    /** Known to ± something: pH, temperatures, shares. */
    LINEAR,
    /** Known to ×/÷ something: viscosities, yield stresses, inhibitory levels. Positive values. */
    FACTOR
  }

  /** Standard deviations from the middle to either end of a 90 % range of a normal distribution. */
  public static final double NINETY_PERCENT = 1.6448536269514722;

  private static final Doubt[] NO_DOUBTS = {};
  private static final double[] NO_MOVES = {};

  private final double likely;
  private final Scale scale;
  // Parallel arrays in the order of the doubts' names: comparing two estimates is one merge.
  private final Doubt[] doubts;
  private final double[] moves;

  private Estimate(double likely, Scale scale, Doubt[] doubts, double[] moves) {
    this.likely = likely;
    this.scale = scale;
    this.doubts = doubts;
    this.moves = moves;
  }

  /** A number without doubt. Infinite where a bound does not exist; never NaN. */
  public static Estimate exact(double value) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("value is not a number");
    }
    return new Estimate(value, Scale.LINEAR, NO_DOUBTS, NO_MOVES);
  }

  /**
   * A likely value with its contributions.
   *
   * @param likely finite; positive on the factor scale (a zero there becomes an exact zero)
   * @param scale how it is uncertain
   * @param contributions per doubt, one standard deviation, signed; zeros are dropped
   */
  public static Estimate of(double likely, Scale scale, Map<Doubt, Double> contributions) {
    if (!Double.isFinite(likely)) {
      throw new IllegalArgumentException("likely must be finite, is " + likely);
    }
    if (scale == Scale.FACTOR && likely <= 0) {
      if (likely < 0) {
        throw new IllegalArgumentException("likely must be positive on the factor scale: " + likely);
      }
      return exact(0);
    }
    TreeMap<Doubt, Double> sorted = new TreeMap<>(contributions);
    sorted.values().removeIf(move -> move == 0);
    Doubt[] doubts = sorted.keySet().toArray(NO_DOUBTS);
    double[] moves = new double[doubts.length];
    for (int i = 0; i < doubts.length; i++) {
      moves[i] = sorted.get(doubts[i]);
      if (!Double.isFinite(moves[i])) {
        throw new IllegalArgumentException("contribution of " + doubts[i] + " is not finite");
      }
    }
    return new Estimate(likely, scale, doubts, moves);
  }

  /** A value known to ± {@code range} (90 %), from one doubt. */
  public static Estimate within(double likely, double range, Doubt doubt) {
    return of(likely, Scale.LINEAR, Map.of(doubt, range / NINETY_PERCENT));
  }

  /** A value known to ×/÷ {@code factor} (90 %), from one doubt. */
  public static Estimate withinFactor(double likely, double factor, Doubt doubt) {
    if (!(factor >= 1)) {
      throw new IllegalArgumentException("factor must be at least 1, is " + factor);
    }
    return of(likely, Scale.FACTOR, Map.of(doubt, Math.log(factor) / NINETY_PERCENT));
  }

  public double likely() {
    return likely;
  }

  public Scale scale() {
    return scale;
  }

  public boolean isExact() {
    return doubts.length == 0;
  }

  /** One standard deviation on the estimate's scale. */
  public double deviation() {
    double sum = 0;
    for (double move : moves) {
      sum += move * move;
    }
    return Math.sqrt(sum);
  }

  /** Lower end of the 90 % range. */
  public double low() {
    return at(-NINETY_PERCENT);
  }

  /** Upper end of the 90 % range. */
  public double high() {
    return at(NINETY_PERCENT);
  }

  private double at(double deviations) {
    if (isExact()) {
      return likely;
    }
    double shift = deviations * deviation();
    return scale == Scale.LINEAR ? likely + shift : likely * Math.exp(shift);
  }

  /** The doubts with their contributions, the largest first. */
  public List<Contribution> contributions() {
    List<Contribution> list = new ArrayList<>(doubts.length);
    for (int i = 0; i < doubts.length; i++) {
      list.add(new Contribution(doubts[i], moves[i]));
    }
    list.sort(
        (a, b) -> {
          int bySize = Double.compare(Math.abs(b.move()), Math.abs(a.move()));
          return bySize != 0 ? bySize : a.doubt().compareTo(b.doubt());
        });
    return List.copyOf(list);
  }

  /**
   * One doubt's part in an estimate.
   *
   * @param doubt the source
   * @param move how far one standard deviation of it moves the value, on the estimate's scale
   */
  public record Contribution(Doubt doubt, double move) {}

  /**
   * The odds that this number is at most the other one. Exact numbers give 0 or 1. The comparison is
   * on the difference (of logarithms where either is known by a factor and both are positive), in
   * which shared doubts cancel.
   */
  public double oddsAtMost(Estimate other) {
    if (isExact() && other.isExact()) {
      return likely <= other.likely ? 1 : 0;
    }
    return oddsBelow(other);
  }

  /** The odds that this number is less than the other one; see {@link #oddsAtMost}. */
  public double oddsLess(Estimate other) {
    if (isExact() && other.isExact()) {
      return likely < other.likely ? 1 : 0;
    }
    return oddsBelow(other);
  }

  private double oddsBelow(Estimate other) {
    if (Double.isInfinite(likely) || Double.isInfinite(other.likely)) {
      return likely < other.likely ? 1 : 0;
    }
    Difference difference = minus(other);
    if (difference.deviation == 0) {
      return difference.middle <= 0 ? 1 : 0;
    }
    return normal(-difference.middle / difference.deviation);
  }

  /**
   * The doubts that matter most to the comparison of the two numbers, the largest first; shared
   * doubts count only as far as they do not cancel.
   */
  public List<Contribution> undecidedBy(Estimate other) {
    if (Double.isInfinite(likely) || Double.isInfinite(other.likely)) {
      return List.of();
    }
    TreeMap<Doubt, Double> sum = new TreeMap<>();
    boolean logarithmic = comparesByFactor(other);
    for (int i = 0; i < doubts.length; i++) {
      sum.merge(doubts[i], moves[i] * weight(logarithmic), Double::sum);
    }
    for (int i = 0; i < other.doubts.length; i++) {
      sum.merge(other.doubts[i], -other.moves[i] * other.weight(logarithmic), Double::sum);
    }
    return new Estimate(1, Scale.LINEAR, sum.keySet().toArray(NO_DOUBTS),
            sum.values().stream().mapToDouble(Double::doubleValue).toArray())
        .contributions();
  }

  private boolean comparesByFactor(Estimate other) {
    boolean byFactor =
        (scale == Scale.FACTOR && !isExact()) || (other.scale == Scale.FACTOR && !other.isExact());
    return byFactor && likely > 0 && other.likely > 0;
  }

  private Difference minus(Estimate other) {
    boolean logarithmic = comparesByFactor(other);
    double middle =
        logarithmic ? Math.log(likely) - Math.log(other.likely) : likely - other.likely;
    double mine = weight(logarithmic);
    double theirs = other.weight(logarithmic);
    double square = 0;
    int i = 0;
    int j = 0;
    while (i < doubts.length || j < other.doubts.length) {
      int order =
          i == doubts.length ? 1 : j == other.doubts.length ? -1 : doubts[i].compareTo(other.doubts[j]);
      double move = 0;
      if (order <= 0) {
        move += moves[i++] * mine;
      }
      if (order >= 0) {
        move -= other.moves[j++] * theirs;
      }
      square += move * move;
    }
    return new Difference(middle, Math.sqrt(square));
  }

  // First order: d(ln x) = dx / x.
  private double weight(boolean logarithmic) {
    if (logarithmic) {
      return scale == Scale.FACTOR ? 1 : 1 / likely;
    }
    return scale == Scale.FACTOR ? likely : 1;
  }

  private record Difference(double middle, double deviation) {}

  /** The standard normal distribution function. */
  static double normal(double z) {
    if (z > 8) {
      return 1;
    }
    if (z < -8) {
      return 0;
    }
    return 0.5 * Erf.erfc(-z / Math.sqrt(2));
  }

  /** The sum of two estimates, on the linear scale; shared doubts add up. */
  public Estimate plus(Estimate other) {
    return combine(other, likely + other.likely, Scale.LINEAR, 1);
  }

  /** The difference of two estimates, on the linear scale; shared doubts cancel. */
  public Estimate subtract(Estimate other) {
    return combine(other, likely - other.likely, Scale.LINEAR, -1);
  }

  /** The product of two estimates. */
  public Estimate times(Estimate other) {
    return multiply(other, likely * other.likely, 1);
  }

  /** The quotient of two estimates; a divisor of zero gives an infinite exact number. */
  public Estimate dividedBy(Estimate other) {
    if (other.likely == 0) {
      return exact(likely == 0 ? 0 : likely > 0 ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY);
    }
    return multiply(other, likely / other.likely, -1);
  }

  private Estimate multiply(Estimate other, double value, int sign) {
    if (isExact() && other.isExact()) {
      return exact(Double.isNaN(value) ? 0 : value);
    }
    if (likely > 0 && other.likely > 0) {
      return combine(other, value, Scale.FACTOR, sign);
    }
    // At or below zero: linear, by the product rule.
    double mine = sign > 0 ? other.likely : 1 / other.likely;
    double theirs = sign > 0 ? likely : -value / other.likely;
    TreeMap<Doubt, Double> sum = new TreeMap<>();
    for (int i = 0; i < doubts.length; i++) {
      sum.merge(doubts[i], moves[i] * weight(false) * mine, Double::sum);
    }
    for (int i = 0; i < other.doubts.length; i++) {
      sum.merge(other.doubts[i], other.moves[i] * other.weight(false) * theirs, Double::sum);
    }
    return Double.isFinite(value) ? of(value, Scale.LINEAR, sum) : exact(Double.isNaN(value) ? 0 : value);
  }

  private Estimate combine(Estimate other, double value, Scale into, int sign) {
    if (!Double.isFinite(value)) {
      return exact(Double.isNaN(value) ? 0 : value);
    }
    if (isExact() && other.isExact()) {
      return exact(value);
    }
    boolean logarithmic = into == Scale.FACTOR;
    TreeMap<Doubt, Double> sum = new TreeMap<>();
    for (int i = 0; i < doubts.length; i++) {
      sum.merge(doubts[i], moves[i] * weight(logarithmic), Double::sum);
    }
    for (int i = 0; i < other.doubts.length; i++) {
      sum.merge(other.doubts[i], sign * other.moves[i] * other.weight(logarithmic), Double::sum);
    }
    return of(value, into, sum);
  }

  @Override
  public boolean equals(Object object) {
    return object instanceof Estimate other
        && Double.doubleToLongBits(likely) == Double.doubleToLongBits(other.likely)
        && (isExact() && other.isExact() || scale == other.scale)
        && Arrays.equals(doubts, other.doubts)
        && Arrays.equals(moves, other.moves);
  }

  @Override
  public int hashCode() {
    return 31 * Double.hashCode(likely) + Arrays.hashCode(doubts);
  }

  @Override
  public String toString() {
    return isExact()
        ? Numbers.plain(likely)
        : Numbers.plain(likely) + " (" + Numbers.plain(low()) + " to " + Numbers.plain(high()) + ")";
  }
}
