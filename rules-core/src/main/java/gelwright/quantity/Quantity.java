package gelwright.quantity;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A number with its unit, as written on a sheet: {@code 35 min}, {@code 38 °C}, {@code 0.2 %}.
 *
 * @param value finite, in {@code unit}
 * @param unit never null
 */
public record Quantity(double value, Unit unit) {
  // Bounded digits: a sheet cannot make this pattern work hard.
  private static final Pattern WRITTEN =
      Pattern.compile("([+-]?\\d{1,18}(?:\\.\\d{1,18})?(?:[eE][+-]?\\d{1,3})?)(?:\\s*(\\D.{0,15}|)|\\s+(1/[a-z]+))");

  public Quantity {
    requireNonNull(unit, "unit");
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException("value must be finite, is " + value);
    }
  }

  public static Quantity of(double value, Unit unit) {
    return new Quantity(value, unit);
  }

  /** A quantity given in the coherent base unit of its dimension, expressed in {@code unit}. */
  public static Quantity ofBase(double base, Unit unit) {
    return new Quantity(unit.fromBase(base), unit);
  }

  /**
   * Reads a quantity as a formulator writes it: a number with a decimal point, an optional space, a
   * unit of {@link Unit}, or nothing for a plain number. Empty when it is anything else.
   */
  public static Optional<Quantity> parse(String text) {
    String stripped = text.strip();
    if (stripped.length() > 60) {
      return Optional.empty();
    }
    Matcher match = WRITTEN.matcher(stripped);
    if (!match.matches()) {
      return Optional.empty();
    }
    double value = Double.parseDouble(match.group(1));
    if (!Double.isFinite(value)) {
      return Optional.empty();
    }
    String symbol = match.group(2) == null ? match.group(3) : match.group(2);
    return Unit.of(symbol).map(unit -> new Quantity(value, unit));
  }

  public Dimension dimension() {
    return unit.dimension();
  }

  /** The number in the coherent base unit of its dimension. */
  public double inBase() {
    return unit.toBase(value);
  }

  /** The number in another unit of the same dimension. */
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

  /** A number of a unit as a formulator writes it; a pH goes without its unit. */
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
    return Numbers.plain(value) + " " + unit.symbol();
  }
}
