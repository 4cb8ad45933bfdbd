package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * A reading taken on the product.
 *
 * @param what pH, viscosity, yield-stress, flow-curve, drop-size, density or water-activity
 * @param value the reading; absent for a flow curve
 * @param at temperature of the sample
 * @param shearRate shear rate of a viscosity reading
 * @param points of a flow curve
 */
public record Measurement(
    String what,
    Optional<Quantity> value,
    Optional<Quantity> at,
    Optional<Quantity> shearRate,
    List<Point> points) {
  /**
   * A point of a flow curve.
   *
   * @param shearRate in /s
   * @param stress in Pa
   */
  public record Point(double shearRate, double stress) {}

  public Measurement {
    requireNonNull(what, "what");
    points = List.copyOf(points);
  }
}
