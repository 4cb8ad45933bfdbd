package gelwright.quantity;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * An exact share in % w/w: a count of hundred-millionths of a percent, so sums are exact and a
 * recipe of any number of lines adds up to exactly 100 % or does not.
 *
 * @param units hundred-millionths of a percent; may be negative in a difference
 */
public record Share(long units) implements Comparable<Share> {
  /** Units in one percent. */
  public static final long PER_PERCENT = 100_000_000L;

  /** Nothing. */
  public static final Share ZERO = new Share(0);

  /** The whole: 100 %. */
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

  /** The share nearest to so many percent, from minus a million to a million. */
  public static Share nearest(double percent) {
    if (!(Math.abs(percent) <= 1e6)) {
      throw new IllegalArgumentException("percent out of range: " + percent);
    }
    return new Share(Math.round(percent * PER_PERCENT));
  }

  /**
   * Reads {@code 4 %}, {@code 400 ppm} or the plain number 4 (percent w/w), digit by digit. Empty
   * when it is anything else, finer than a hundred-millionth of a percent or beyond a million
   * percent. A minus sign is read: whether a share may be negative is the caller's question.
   */
  public static Optional<Share> parse(String text) {
    return Quantity.Written.read(text)
        .flatMap(
            written -> {
              BigDecimal number = new BigDecimal(written.number());
              return switch (written.unit()) {
                case PERCENT, NONE -> ofPercent(number);
                case PPM -> ofPercent(number.movePointLeft(4));
                default -> Optional.empty();
              };
            });
  }

  /**
   * The exact sum; throws ArithmeticException beyond the range of a long (92 thousand million %).
   */
  public Share plus(Share other) {
    return new Share(Math.addExact(units, other.units));
  }

  /** The exact difference; throws like {@link #plus}. */
  public Share minus(Share other) {
    return new Share(Math.subtractExact(units, other.units));
  }

  /**
   * The part of this share that a raw material of a given strength brings, rounded to the nearest
   * unit (half to even). To keep the whole whole, take the rest as {@code minus(part)}, never as a
   * second part: two halves of an odd count round the same way.
   *
   * @param strength part of the raw material, {@link #ALL} for all of it
   * @throws ArithmeticException where the result does not fit
   */
  public Share part(Share strength) {
    return new Share(
        BigDecimal.valueOf(units)
            .multiply(BigDecimal.valueOf(strength.units))
            .divide(BigDecimal.valueOf(ALL.units), 0, RoundingMode.HALF_EVEN)
            .longValueExact());
  }

  /** The share in % w/w, to the nearest double. */
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
