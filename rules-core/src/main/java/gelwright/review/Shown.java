package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Bounded;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.util.Set;

/**
 * A number as a report shows it.
 *
 * @param name of the property, or the expression as written in the rule
 * @param low lower end of its 90 % range, in {@code unit}; negative infinity when not bounded
 * @param likely likely value; NaN when only a bound is known
 * @param high upper end of its 90 % range; infinity when not bounded
 * @param unit of the three
 * @param missing what is missing to know it better; empty when nothing is
 */
public record Shown(
    String name, double low, double likely, double high, Unit unit, Set<String> missing) {
  public Shown {
    requireNonNull(name, "name");
    requireNonNull(unit, "unit");
    missing = java.util.Collections.unmodifiableSet(new java.util.TreeSet<>(missing));
  }

  /** Shows a number in a unit of its dimension. */
  public static Shown of(String name, Bounded value, Unit unit) {
    Estimate from = value.atLeast();
    Estimate to = value.atMost();
    return new Shown(
        name,
        unit.fromBase(from.low()),
        value.isKnown() ? unit.fromBase(from.likely()) : Double.NaN,
        unit.fromBase(to.high()),
        unit,
        value.missing());
  }

  public boolean isKnown() {
    return !Double.isNaN(likely);
  }
}
