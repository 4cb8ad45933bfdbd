package gelwright.science;

/**
 * Temperature on combining phases, and time to heat: T = sum(m cp T)/sum(m cp), t = m cp dT/(eta
 * P).
 *
 * <p>Symbols: m mass in kg (or any one unit), cp heat capacity in J/(kg K) (any one unit), T in °C,
 * P power in W, eta useful share. No loss to the room, no heat of mixing unless given. Range:
 * liquids and solids that do not melt, boil or react. Doubt: 1 K for the capacities, more where the
 * vessel is left out. Source: conservation of energy.
 */
public final class HeatBalance {
  private HeatBalance() {}

  /**
   * Temperature in °C after combining.
   *
   * @param masses kg, not negative, not all zero
   * @param heatCapacities J/(kg K)
   * @param celsius °C
   */
  public static double combined(double[] masses, double[] heatCapacities, double[] celsius) {
    if (masses.length != heatCapacities.length || masses.length != celsius.length) {
      throw new IllegalArgumentException("masses, heatCapacities and celsius must pair up");
    }
    double capacity = 0;
    double heat = 0;
    for (int i = 0; i < masses.length; i++) {
      double part =
          Require.notNegative(masses[i], "masses")
              * Require.positive(heatCapacities[i], "heatCapacities");
      capacity += part;
      heat += part * Require.finite(celsius[i], "celsius");
    }
    return heat / Require.positive(capacity, "masses");
  }

  /**
   * Change of temperature in K when a substance dissolves: -(moles · heat)/(m cp), so a substance
   * that takes up heat (urea, +15 400 J/mol) cools.
   *
   * @param moles mol dissolved
   * @param heatOfSolution J/mol, positive when heat is taken up
   * @param capacity m cp of the whole, J/K
   */
  public static double changeOnDissolving(double moles, double heatOfSolution, double capacity) {
    return -Require.notNegative(moles, "moles")
        * Require.finite(heatOfSolution, "heatOfSolution")
        / Require.positive(capacity, "capacity");
  }

  /**
   * Time to heat, s.
   *
   * @param capacity m cp of what is heated, J/K
   * @param rise K
   * @param power of the heater, W
   * @param usefulShare of the power that arrives, 0 to 1
   */
  public static double heatingTime(double capacity, double rise, double power, double usefulShare) {
    return Require.notNegative(capacity, "capacity")
        * Require.notNegative(rise, "rise")
        / (Require.positive(power, "power") * Require.positive(usefulShare, "usefulShare"));
  }
}
