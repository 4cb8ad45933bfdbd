package gelwright.quantity;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.hipparchus.special.Erf;

/**
 * A likely value and how far each named {@link Doubt} moves it.
 *
 * <p>Every doubt is taken as normally distributed and independent of every other; its contribution
 * is signed: how far the value moves when the doubt moves by one standard deviation (first-order
 * propagation, JCGM 100:2008 "GUM" section 5.1.2). On the {@link Scale#FACTOR} scale contributions
 * are in the natural logarithm of the value, on the {@link Scale#LINEAR} scale in its unit. The
 * range shown, {@link #low()} to {@link #high()}, holds 90 % of the probability.
 *
 * <p>First order is good where the value is nearly straight in each doubt over a standard
 * deviation. It is poor where it curves strongly: the square of a number near zero, or the
 * difference of two numbers that are each known to a factor only and nearly equal.
 *
 * <p>Law and arithmetic have no doubts: an exact estimate has no contributions.
 */
public final class Estimate {
  /** How a quantity is uncertain: by a difference, or by a factor. */
  public enum Scale {
    /** Known to ± something: pH, temperatures, shares. Normally distributed. */
    LINEAR,
    /**
     * Known to ×/÷ something: viscosities, yield stresses, inhibitory levels. Positive values;
     * their logarithm is normally distributed.
     */
    FACTOR
  }

  /** Standard deviations from the middle to either end of a 90 % range of a normal distribution. */
  public static final double NINETY_PERCENT = 1.6448536269514722;

  /**
   * Numbers nearer than this, relative to the larger, differ only by the rounding of arithmetic.
   */
  private static final double ROUNDING = 1e-12;

  private static final Doubt[] NO_DOUBTS = {};
  private static final double[] NO_MOVES = {};

  // An exact value is always on the linear scale.
  private final double likely;
  private final Scale scale;
  // Parallel arrays in one order of doubts: comparing two estimates is one merge.
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
    // Adding zero turns a negative zero into a plain one, which would else compare as different.
    return new Estimate(value + 0.0, Scale.LINEAR, NO_DOUBTS, NO_MOVES);
  }

  /**
   * A likely value with its contributions.
   *
   * @param likely finite; positive on the factor scale (a zero there becomes an exact zero)
   * @param scale how it is uncertain
   * @param contributions per doubt, how far one standard deviation of it moves the value, signed:
   *     on the linear scale in the unit of the value, on the factor scale in its natural logarithm;
   *     finite; zeros are dropped
   */
  public static Estimate of(double likely, Scale scale, Map<Doubt, Double> contributions) {
    Doubt[] all = new Doubt[contributions.size()];
    double[] moves = new double[all.length];
    int count = 0;
    for (Map.Entry<Doubt, Double> contribution : contributions.entrySet()) {
      all[count] = contribution.getKey();
      moves[count++] = contribution.getValue();
    }
    return of(likely, scale, all, moves, count);
  }

  /**
   * The same, the contributions as two lists side by side: for what computes many estimates.
   *
   * @param likely as {@link #of(double, Scale, Map)}
   * @param scale as there
   * @param doubts each once; the first {@code count} count
   * @param contributions of each doubt
   * @param count how many there are
   */
  public static Estimate of(
      double likely, Scale scale, Doubt[] doubts, double[] contributions, int count) {
    if (!Double.isFinite(likely)) {
      throw new IllegalArgumentException("likely must be finite, is " + likely);
    }
    if (scale == Scale.FACTOR && likely <= 0) {
      if (likely < 0) {
        throw new IllegalArgumentException(
            "likely must be positive on the factor scale: " + likely);
      }
      return exact(0);
    }
    Doubt[] sorted = new Doubt[count];
    double[] moves = new double[count];
    int kept = 0;
    for (int i = 0; i < count; i++) {
      if (contributions[i] != 0) {
        insert(doubts[i], contributions[i], sorted, moves, kept++);
      }
    }
    return kept == 0
        ? exact(likely)
        : new Estimate(
            likely + 0.0, scale, Arrays.copyOf(sorted, kept), Arrays.copyOf(moves, kept));
  }

  // Any one order will do to merge two lists; that of the hashes costs least.
  private static int order(Doubt a, Doubt b) {
    int order = Integer.compare(a.hashCode(), b.hashCode());
    return order != 0 ? order : a.compareTo(b);
  }

  // Few doubts bear on one number, so each is put in its place among those before it.
  private static void insert(Doubt doubt, double move, Doubt[] doubts, double[] moves, int count) {
    if (!Double.isFinite(move)) {
      throw new IllegalArgumentException("contribution of " + doubt + " is not finite");
    }
    int place = count;
    while (place > 0 && order(doubts[place - 1], doubt) > 0) {
      doubts[place] = doubts[place - 1];
      moves[place] = moves[place - 1];
      place--;
    }
    doubts[place] = doubt;
    moves[place] = move;
  }

  /**
   * A value known to ± {@code range} (90 %), from one doubt.
   *
   * @param likely finite
   * @param range half the width of the 90 % range, in the unit of the value; finite, at least 0
   * @param doubt where the doubt comes from
   */
  public static Estimate within(double likely, double range, Doubt doubt) {
    if (!(range >= 0)) {
      throw new IllegalArgumentException("range must be at least 0, is " + range);
    }
    return of(likely, Scale.LINEAR, Map.of(doubt, range / NINETY_PERCENT));
  }

  /**
   * A value known to ×/÷ {@code factor} (90 %), from one doubt.
   *
   * @param likely finite and positive; 0 gives an exact 0
   * @param factor finite, at least 1
   * @param doubt where the doubt comes from
   */
  public static Estimate withinFactor(double likely, double factor, Doubt doubt) {
    if (!(factor >= 1)) {
      throw new IllegalArgumentException("factor must be at least 1, is " + factor);
    }
    return of(likely, Scale.FACTOR, Map.of(doubt, Math.log(factor) / NINETY_PERCENT));
  }

  /**
   * The value with every doubt at its middle: the mean on the linear scale, the median on the
   * factor scale. Infinite where a bound does not exist; never NaN.
   */
  public double likely() {
    return likely;
  }

  /** How the value is uncertain; {@link Scale#LINEAR} for an exact one. */
  public Scale scale() {
    return scale;
  }

  /** Whether no doubt moves the value. */
  public boolean isExact() {
    return doubts.length == 0;
  }

  /**
   * One standard deviation on the estimate's scale: the root of the sum of the squared
   * contributions, since different doubts are independent. 0 for an exact value.
   */
  public double deviation() {
    double largest = 0;
    for (double move : moves) {
      largest = Math.max(largest, Math.abs(move));
    }
    if (largest == 0) {
      return 0;
    }
    // Relative to the largest, whose square could be too large or too small to hold.
    double sum = 0;
    for (double move : moves) {
      double part = move / largest;
      sum += part * part;
    }
    return largest * Math.sqrt(sum);
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
   * The odds that this number is at most the other one, 0 to 1.
   *
   * <p>Exact numbers give 0 or 1; two that differ by no more than the rounding of their arithmetic
   * (a relative 10⁻¹²) count as equal, so 0.1 % + 0.2 % is at most 0.3 %. Otherwise the comparison
   * is on the difference (of logarithms where either is known by a factor and both are positive),
   * in which shared doubts cancel: Φ((b − a) / √(sa² + sb² − 2·cov)). A number known by a factor is
   * certainly above zero.
   */
  public double oddsAtMost(Estimate other) {
    return oddsBelow(other, true);
  }

  /** The odds that this number is less than the other one; see {@link #oddsAtMost}. */
  public double oddsLess(Estimate other) {
    return oddsBelow(other, false);
  }

  private double oddsBelow(Estimate other, boolean orEqual) {
    if ((isExact() && other.isExact())
        || Double.isInfinite(likely)
        || Double.isInfinite(other.likely)) {
      return certainlyBelow(other, orEqual);
    }
    if (isCertainlyPositive() && other.isExact() && other.likely <= 0) {
      return 0;
    }
    if (other.isCertainlyPositive() && isExact() && likely <= 0) {
      return 1;
    }
    boolean logarithmic = comparesByFactor(other);
    Estimate difference =
        merge(other, 0, Scale.LINEAR, weight(logarithmic), -other.weight(logarithmic));
    if (difference.isExact()) {
      return certainlyBelow(other, orEqual);
    }
    double deviation = difference.deviation();
    if (!(deviation < Double.POSITIVE_INFINITY)) {
      return 0.5;
    }
    double middle = logarithmic ? Math.log(other.likely) - Math.log(likely) : other.likely - likely;
    return normal(middle / deviation);
  }

  private double certainlyBelow(Estimate other, boolean orEqual) {
    double a = likely;
    double b = other.likely;
    boolean equal =
        a == b
            || (Double.isFinite(a)
                && Double.isFinite(b)
                && Math.abs(a - b) <= ROUNDING * Math.max(Math.abs(a), Math.abs(b)));
    return (equal ? orEqual : a < b) ? 1 : 0;
  }

  private boolean isCertainlyPositive() {
    return scale == Scale.FACTOR && !isExact();
  }

  /**
   * The doubts that matter most to the comparison of the two numbers, the largest first; shared
   * doubts count only as far as they do not cancel. Empty where no doubt bears on it. The moves are
   * in the natural logarithm where the comparison is, else in the numbers' unit.
   */
  public List<Contribution> undecidedBy(Estimate other) {
    if (Double.isInfinite(likely) || Double.isInfinite(other.likely)) {
      return List.of();
    }
    boolean logarithmic = comparesByFactor(other);
    return merge(other, 0, Scale.LINEAR, weight(logarithmic), -other.weight(logarithmic))
        .contributions();
  }

  private boolean comparesByFactor(Estimate other) {
    return (isCertainlyPositive() || other.isCertainlyPositive()) && likely > 0 && other.likely > 0;
  }

  // What a contribution is multiplied by to be in the logarithm, or in the unit of the value.
  // First order: d(ln x) = dx / x.
  private double weight(boolean logarithmic) {
    if (logarithmic) {
      return scale == Scale.FACTOR ? 1 : 1 / likely;
    }
    return scale == Scale.FACTOR ? likely : 1;
  }

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

  /**
   * The sum of two estimates; shared doubts add up. Two positive numbers of which none is known by
   * a difference give a sum known by a factor, which stays positive; any other sum is on the linear
   * scale. Infinities of opposite sign give 0; {@link Bounded} keeps such a sum open.
   */
  public Estimate plus(Estimate other) {
    double value = likely + other.likely;
    boolean byFactor =
        likely > 0
            && other.likely > 0
            && (scale == Scale.FACTOR || isExact())
            && (other.scale == Scale.FACTOR || other.isExact());
    if (byFactor) {
      return merge(other, value, Scale.FACTOR, likely / value, other.likely / value);
    }
    return merge(other, value, Scale.LINEAR, weight(false), other.weight(false));
  }

  /**
   * The difference of two estimates, on the linear scale; shared doubts cancel. Infinities of equal
   * sign give 0; {@link Bounded} keeps such a difference open.
   */
  public Estimate subtract(Estimate other) {
    return merge(other, likely - other.likely, Scale.LINEAR, weight(false), -other.weight(false));
  }

  /**
   * The product of two estimates. An exact positive factor leaves the scale as it is; otherwise the
   * product of positive numbers is known by a factor, any other product on the linear scale. Zero
   * times infinity is 0: an infinite estimate stands for "however large", and zero of it is zero.
   */
  public Estimate times(Estimate other) {
    double value = likely * other.likely;
    if (likely > 0 && other.likely > 0) {
      return multiplied(other, value, 1);
    }
    return merge(
        other, value, Scale.LINEAR, weight(false) * other.likely, other.weight(false) * likely);
  }

  /**
   * The quotient of two estimates, with the scale of {@link #times}. A divisor of zero gives an
   * infinite exact number of the dividend's sign, and 0/0 and ∞/∞ give 0; {@link Bounded} keeps
   * such a quotient open.
   */
  public Estimate dividedBy(Estimate other) {
    if (other.likely == 0) {
      return exact(
          likely == 0 ? 0 : likely > 0 ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY);
    }
    double value = likely / other.likely;
    if (likely > 0 && other.likely > 0) {
      return multiplied(other, value, -1);
    }
    return merge(
        other,
        value,
        Scale.LINEAR,
        weight(false) / other.likely,
        -other.weight(false) * value / other.likely);
  }

  // A product (sign 1) or quotient (sign -1) of positive numbers.
  private Estimate multiplied(Estimate other, double value, int sign) {
    if (other.isExact() && scale == Scale.LINEAR) {
      double factor = sign > 0 ? other.likely : 1 / other.likely;
      return merge(other, value, Scale.LINEAR, factor, 0);
    }
    if (isExact() && other.scale == Scale.LINEAR && sign > 0) {
      return merge(other, value, Scale.LINEAR, 0, likely);
    }
    return merge(other, value, Scale.FACTOR, weight(true), sign * other.weight(true));
  }

  /**
   * An estimate whose contributions are {@code mine} times this one's plus {@code theirs} times the
   * other's, by one merge of the two sorted lists. What is left of a doubt that cancels but for the
   * rounding is dropped.
   */
  private Estimate merge(Estimate other, double value, Scale into, double mine, double theirs) {
    if ((isExact() && other.isExact()) || !Double.isFinite(value)) {
      return exact(Double.isNaN(value) ? 0 : value);
    }
    if (into == Scale.FACTOR && value == 0) {
      return exact(0);
    }
    Doubt[] bothDoubts = new Doubt[doubts.length + other.doubts.length];
    double[] bothMoves = new double[bothDoubts.length];
    int count = 0;
    int i = 0;
    int j = 0;
    while (i < doubts.length || j < other.doubts.length) {
      int order =
          i == doubts.length
              ? 1
              : j == other.doubts.length ? -1 : order(doubts[i], other.doubts[j]);
      Doubt doubt = order <= 0 ? doubts[i] : other.doubts[j];
      double a = order <= 0 ? bounded(moves[i++] * mine) : 0;
      double b = order >= 0 ? bounded(other.moves[j++] * theirs) : 0;
      double move = bounded(a + b);
      if (Math.abs(move) > ROUNDING * Math.max(Math.abs(a), Math.abs(b))) {
        bothDoubts[count] = doubt;
        bothMoves[count++] = move;
      }
    }
    if (count == 0) {
      return exact(value);
    }
    if (count < bothDoubts.length) {
      bothDoubts = Arrays.copyOf(bothDoubts, count);
      bothMoves = Arrays.copyOf(bothMoves, count);
    }
    return new Estimate(value + 0.0, into, bothDoubts, bothMoves);
  }

  // Overflow must not become an infinity, from which the next step would make NaN.
  private static double bounded(double move) {
    return Double.isNaN(move)
        ? Double.MAX_VALUE
        : Math.max(-Double.MAX_VALUE, Math.min(Double.MAX_VALUE, move));
  }

  @Override
  public boolean equals(Object object) {
    return this == object
        || (object instanceof Estimate other
            && Double.doubleToLongBits(likely) == Double.doubleToLongBits(other.likely)
            && scale == other.scale
            && Arrays.equals(doubts, other.doubts)
            && Arrays.equals(moves, other.moves));
  }

  @Override
  public int hashCode() {
    return 31 * Double.hashCode(likely) + Arrays.hashCode(doubts);
  }

  @Override
  public String toString() {
    return isExact()
        ? Numbers.plain(likely)
        : Numbers.plain(likely)
            + " ("
            + Numbers.plain(low())
            + " to "
            + Numbers.plain(high())
            + ")";
  }
}
