package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Bounded;
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
    missing =
        missing.isEmpty()
            ? Set.of()
            : java.util.Collections.unmodifiableSet(new java.util.TreeSet<>(missing));
  }

  /** Shows a number in a unit of its dimension; a share never beyond 0 to 100 %. */
  public static Shown of(String name, Bounded value, Unit unit) {
    Bounded.Range range = value.range(unit.dimension());
    return new Shown(
        name,
        unit.fromBase(range.low()),
        value.isKnown() ? unit.fromBase(value.atLeast().likely()) : Double.NaN,
        unit.fromBase(range.high()),
        unit,
        value.missing());
  }

  public boolean isKnown() {
    return !Double.isNaN(likely);
  }
}
