package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Bounded;
import gelwright.quantity.Dimension;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.util.Locale;

/**
 * How much the second number is above the first, or how many times the first it is. Doubts that
 * both numbers share have cancelled, so its 90 % range may be far narrower than that of either.
 *
 * @param kind difference, or ratio of two numbers above zero of which one is known to a factor
 * @param low lower end of its 90 % range, in {@code unit}; negative infinity when not bounded
 * @param likely likely value; NaN when only a bound is known
 * @param high upper end; infinity when not bounded
 * @param unit of the three: of a ratio none, of two temperatures K, of two shares % as points
 */
public record Difference(Kind kind, double low, double likely, double high, Unit unit) {
  /** How two numbers are held against each other. */
  public enum Kind {
    /** The second less the first. */
    DIFFERENCE,
    /** The second over the first. */
    RATIO;

    /** As written in reports. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public Difference {
    requireNonNull(kind, "kind");
    requireNonNull(unit, "unit");
  }

  /** Whether there is a likely value, not a bound only. */
  public boolean isKnown() {
    return !Double.isNaN(likely);
  }

  static Difference of(Bounded first, Bounded second, Unit unit) {
    if (isRatio(first, second)) {
      return of(Kind.RATIO, second.dividedBy(first), Unit.NONE);
    }
    Unit apart = unit.dimension().equals(Dimension.TEMPERATURE) ? Unit.KELVIN : unit;
    return of(Kind.DIFFERENCE, second.minus(first), apart);
  }

  private static Difference of(Kind kind, Bounded value, Unit unit) {
    // Not Bounded.range: that keeps a share within 0 to 100 %, and a difference may be below 0.
    return new Difference(
        kind,
        unit.fromBase(value.atLeast().low()),
        value.isKnown() ? unit.fromBase(value.atLeast().likely()) : Double.NaN,
        unit.fromBase(value.atMost().high()),
        unit);
  }

  private static boolean isRatio(Bounded first, Bounded second) {
    return first.isKnown()
        && second.isKnown()
        && isPositive(first.atLeast())
        && isPositive(second.atLeast())
        && (isByFactor(first.atLeast()) || isByFactor(second.atLeast()));
  }

  private static boolean isPositive(Estimate estimate) {
    return estimate.likely() > 0 && Double.isFinite(estimate.likely());
  }

  private static boolean isByFactor(Estimate estimate) {
    return !estimate.isExact() && estimate.scale() == Estimate.Scale.FACTOR;
  }
}
