package gelwright.quantity;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number with its unit, as written on a sheet: {@code 35 min}, {@code 38 °C}, {@code 0.2 %}.
 *
 * @param value finite, in {@code unit}
 * @param unit the unit it is written in
 */
public record Quantity(double value, Unit unit) {
  // Bounded digits, and [0-9] for the digits of ASCII alone: a sheet cannot make this pattern work
  // hard, nor write a number that a reader of the sheet cannot read.
  private static final Pattern WRITTEN =
      Pattern.compile(
          "([+-]?[0-9]{1,18}(?:\\.[0-9]{1,18})?(?:[eE][+-]?[0-9]{1,3})?)"
              + "(?:\\s*([^0-9\\s].{0,15}|)|\\s+(1/[a-z]{1,6}))");

  /** Longest text that is read at all. */
  private static final int LONGEST = 60;

  public Quantity {
    requireNonNull(unit, "unit");
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value must be finite, is " + value);
    }
  }

  /** A quantity in the unit it is written in. */
  public static Quantity of(double value, Unit unit) {
    return new Quantity(value, unit);
  }

  /** A quantity given in the coherent base unit of its dimension, expressed in {@code unit}. */
  public static Quantity ofBase(double base, Unit unit) {
    return new Quantity(unit.fromBase(base), unit);
  }

  /**
   * Reads a quantity as a formulator writes it: a number with a decimal point, an optional space
   * (plain, no-break or thin), a unit of {@link Unit}, or nothing for a plain number. Empty when it
   * is anything else: a decimal comma, digits of another script, a number too large or too small to
   * hold, an unknown unit, more than 60 characters.
   */
  public static Optional<Quantity> parse(String text) {
    return Written.read(text)
        .map(written -> new Quantity(Double.parseDouble(written.number()), written.unit()));
  }

  /**
   * A quantity with its number still in digits, for readers that must not round it.
   *
   * @param number decimal digits as written; as a double it is finite, and 0 only if written so
   * @param unit the unit
   */
  record Written(String number, Unit unit) {
    static Optional<Written> read(String text) {
      if (text.length() > LONGEST) {
        return Optional.empty();
      }
      // No-break, narrow no-break and thin space, which typesetting puts before a unit.
      String spaced = text.replace('\u00a0', ' ').replace('\u202f', ' ').replace('\u2009', ' ');
      Matcher match = WRITTEN.matcher(spaced.strip());
      if (!match.matches()) {
        return Optional.empty();
      }
      String number = match.group(1);
      double value = Double.parseDouble(number);
      if (!Double.isFinite(value) || (value == 0 && new BigDecimal(number).signum() != 0)) {
        return Optional.empty();
      }
      String symbol = match.group(2) == null ? match.group(3) : match.group(2);
      return Unit.of(symbol).map(unit -> new Written(number, unit));
    }
  }

  /** What kind of quantity this is. */
  public Dimension dimension() {
    return unit.dimension();
  }

  /** The number in the coherent base unit of its dimension. */
  public double inBase() {
    return unit.toBase(value);
  }

  /** The number in another unit of the same dimension; of another dimension is a caller's error. */
  public double in(Unit other) {
    if (!other.dimension().equals(unit.dimension())) {
      throw new IllegalArgumentException(
          "unit " + other.symbol() + " does not measure what " + unit.symbol() + " measures");
    }
    return other.fromBase(unit.toBase(value));
  }

  /** As a formulator writes it, three significant digits: {@code 9.6 %}, {@code 5.2}. */
  @Override
  public String toString() {
    return print(value, unit);
  }

  /**
   * A number of a unit as a formulator writes it, to three significant digits (four for a
   * temperature or stirring speed from 100 on); a pH to two decimals at most and without its unit.
   *
   * @param value in {@code unit}; anything but NaN
   */
  public static String print(double value, Unit unit) {
    if (unit == Unit.PH) {
      String text = Numbers.decimals(value, 2);
      return text.endsWith("0") ? text.substring(0, text.length() - 1) : text;
    }
    if (unit == Unit.NONE) {
      return Numbers.plain(value);
    }
    if (unit == Unit.CELSIUS || unit == Unit.RPM) {
      return Numbers.significant(value, Math.abs(value) >= 100 ? 4 : 3) + " " + unit.symbol();
    }
    if (unit == Unit.PERCENT) {
      // A recipe is written to hundredths of a percent: 102.35 % is not 102 %.
      double size = Math.abs(value);
      return Numbers.significant(value, size >= 100 ? 5 : size >= 10 ? 4 : 3) + " %";
    }
    return Numbers.plain(value) + " " + unit.symbol();
  }
}
