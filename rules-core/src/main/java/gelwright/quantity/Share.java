package gelwright.quantity;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * An exact share in % w/w: a count of hundred-millionths of a percent, so sums are exact and a recipe
 * of any number of lines adds up to exactly 100 % or does not.
 *
 * @param units hundred-millionths of a percent; may be negative in a difference
 */
public record Share(long units) implements Comparable<Share> {
  /** Units in one percent. */
  public static final long PER_PERCENT = 100_000_000L;

  public static final Share ZERO = new Share(0);
  public static final Share ALL = new Share(100 * PER_PERCENT);

  /** Largest share a sheet may state, in %: a slip of a few zeros must not overflow a sum. */
  private static final BigDecimal MOST = BigDecimal.valueOf(1_000_000);

  /**
   * A share of so many percent. Empty when it is finer than a hundred-millionth of a percent or
   * beyond a million percent.
   */
  public static Optional<Share> ofPercent(BigDecimal percent) {
    if (percent.abs().compareTo(MOST) > 0 || percent.stripTrailingZeros().scale() > 8) {
      return Optional.empty();
    }
    return Optional.of(new Share(percent.movePointRight(8).longValueExact()));
  }

  /** The share nearest to so many percent. */
  public static Share nearest(double percent) {
    if (!(Math.abs(percent) <= 1e6)) {
      throw new IllegalArgumentException("percent out of range: " + percent);
    }
    return new Share(Math.round(percent * PER_PERCENT));
  }

  /** Reads {@code 4 %}, {@code 400 ppm} or the plain number 4 (percent w/w). */
  public static Optional<Share> parse(String text) {
    Optional<Quantity> quantity = Quantity.parse(text);
    if (quantity.isEmpty()) {
      return Optional.empty();
    }
    Unit unit = quantity.get().unit();
    if (unit != Unit.PERCENT && unit != Unit.PPM && unit != Unit.NONE) {
      return Optional.empty();
    }
    int end = 0;
    String stripped = text.strip();
    while (end < stripped.length() && "+-.0123456789eE".indexOf(stripped.charAt(end)) >= 0) {
      end++;
    }
    BigDecimal number = new BigDecimal(stripped.substring(0, end));
    return ofPercent(unit == Unit.PPM ? number.movePointLeft(4) : number);
  }

  public Share plus(Share other) {
    return new Share(Math.addExact(units, other.units));
  }

  public Share minus(Share other) {
    return new Share(Math.subtractExact(units, other.units));
  }

  /** The part of this share that a raw material of a given strength brings, to the nearest unit. */
  public Share part(Share strength) {
    return new Share(
        BigDecimal.valueOf(units)
            .multiply(BigDecimal.valueOf(strength.units))
            .divide(BigDecimal.valueOf(ALL.units), java.math.RoundingMode.HALF_EVEN)
            .setScale(0, java.math.RoundingMode.HALF_EVEN)
            .longValueExact());
  }

  public double percent() {
    return (double) units / PER_PERCENT;
  }

  @Override
  public int compareTo(Share other) {
    return Long.compare(units, other.units);
  }

  /** All digits and no idle ones: {@code 0.35 %}. */
  @Override
  public String toString() {
    return BigDecimal.valueOf(units, 8).stripTrailingZeros().toPlainString() + " %";
  }
}
