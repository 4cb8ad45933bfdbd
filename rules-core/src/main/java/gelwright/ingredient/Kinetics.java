package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

/**
 * How fast an ingredient is lost in heat: first order, k by Arrhenius from its value at one
 * temperature.
 *
 * @param rate k at {@code at}
 * @param at temperature of the rate, °C
 * @param activationEnergy Ea
 * @param from lowest temperature the constants were measured at, °C
 * @param to highest temperature the constants were measured at, °C
 */
public record Kinetics(Figure rate, double at, Figure activationEnergy, double from, double to) {
  public Kinetics {
    requireNonNull(rate, "rate");
    requireNonNull(activationEnergy, "activationEnergy");
    if (!(from < to && from <= at && at <= to)) {
      throw new IllegalArgumentException(from + " to " + to + " does not hold " + at);
    }
  }
}
