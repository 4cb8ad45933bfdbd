package gelwright.science;

/**
 * Cooling of a stirred vessel: T = Ta + (T0 - Ta) exp(-t/tau), tau = m cp/(h A).
 *
 * <p>Symbols: T0 start and Ta surroundings in °C, t in s, m mass in kg, cp heat capacity in J/(kg
 * K), h heat transfer in W/(m² K), A surface in m². About h: 10 in still air, 25 in moving air, 300
 * and more in a water bath (from memory; doubt a factor of 2). One reading fixes tau far better
 * than h does.
 *
 * <p>Range: the vessel is stirred and warmer inside than at the wall by little; a thick gel at rest
 * cools more slowly, since conduction inside then limits. Source: Newton's law of cooling, any text
 * on heat transfer.
 */
public final class NewtonCooling {
  private NewtonCooling() {}

  /** Temperature in °C after an elapsed time in s. */
  public static double temperature(
      double start, double ambient, double timeConstant, double elapsed) {
    Require.positive(timeConstant, "timeConstant");
    return ambient
        + (start - ambient) * Math.exp(-Require.notNegative(elapsed, "elapsed") / timeConstant);
  }

  /**
   * Time in s until a temperature is reached; infinite when it lies at or beyond the surroundings,
   * 0 when the start is already there or past it.
   */
  public static double timeTo(double target, double start, double ambient, double timeConstant) {
    Require.positive(timeConstant, "timeConstant");
    double share = (target - ambient) / (start - ambient);
    if (start == target || share >= 1) {
      return 0;
    }
    return share > 0 ? -timeConstant * Math.log(share) : Double.POSITIVE_INFINITY;
  }

  /**
   * Time constant in s from mass (kg), heat capacity (J/(kg K)), transfer (W/(m² K)), area (m²).
   */
  public static double timeConstant(
      double mass, double heatCapacity, double heatTransfer, double area) {
    return Require.positive(mass, "mass")
        * Require.positive(heatCapacity, "heatCapacity")
        / (Require.positive(heatTransfer, "heatTransfer") * Require.positive(area, "area"));
  }

  /**
   * Time constant in s from one reading on the way.
   *
   * @param reading °C, strictly between start and surroundings
   * @param elapsed s
   */
  public static double timeConstantFrom(
      double start, double ambient, double reading, double elapsed) {
    double share = (reading - ambient) / (start - ambient);
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException("reading must lie between start and ambient");
    }
    return -Require.positive(elapsed, "elapsed") / Math.log(share);
  }
}
