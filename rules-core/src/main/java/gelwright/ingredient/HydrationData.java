package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

/**
 * How fast a gum hydrates: X = 1 − exp(−(∫k dt)^shape), k by Arrhenius from its value at 25 °C.
 *
 * @param rate k at 25 °C
 * @param activationEnergy Ea
 * @param shape Weibull exponent, 1 for first order
 */
public record HydrationData(Figure rate, Figure activationEnergy, double shape) {
  public HydrationData {
    requireNonNull(rate, "rate");
    requireNonNull(activationEnergy, "activationEnergy");
    if (!(shape > 0 && shape <= 2)) {
      throw new IllegalArgumentException("shape out of range: " + shape);
    }
  }
}
