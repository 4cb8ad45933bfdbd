package gelwright.science;

/**
 * Viscosity of ethanol in water over that of water at the same temperature, from a table.
 *
 * <p>It rises to two and a half times that of water near 45 % and falls again: a spray with a third
 * of ethanol is no thinner than one of water. Straight lines between the logarithms of the table's
 * points, in % by weight and in °C.
 *
 * <p><b>Range.</b> 0 to 100 % by weight of ethanol in ethanol and water, 0 to 70 °C; outside it the
 * value at the end is returned.
 *
 * <p><b>Uncertainty.</b> The table 1 %; between its points up to 4 %, most where it bends.
 *
 * <p><b>Source.</b> Bingham and Jackson's table, as reprinted in a handbook of alcohol; read.
 */
public final class EthanolViscosity {
  /**
   * Fraction of ethanol by weight at which the viscosity is greatest, at 25 °C; of the table, read.
   */
  public static final double GREATEST_AT = 0.45;

  /** Step of the table, read, in % by weight and in °C. */
  private static final double STEP = 10;

  // mPa·s, read (Bingham and Jackson). Rows: 0 to 70 °C; columns: 0 to 100 % by weight of
  // ethanol.
  private static final double[][] TABLE = {
    {1.792, 3.311, 5.319, 6.94, 7.14, 6.58, 5.75, 4.762, 3.690, 2.732, 1.773},
    {1.308, 2.179, 3.165, 4.05, 4.39, 4.18, 3.77, 3.268, 2.710, 2.101, 1.466},
    {1.005, 1.538, 2.183, 2.71, 2.91, 2.87, 2.67, 2.370, 2.008, 1.610, 1.200},
    {0.801, 1.160, 1.553, 1.87, 2.02, 2.02, 1.93, 1.767, 1.531, 1.279, 1.003},
    {0.656, 0.907, 1.160, 1.368, 1.482, 1.499, 1.447, 1.344, 1.203, 1.035, 0.834},
    {0.549, 0.734, 0.907, 1.050, 1.132, 1.155, 1.127, 1.062, 0.968, 0.848, 0.702},
    {0.469, 0.609, 0.736, 0.834, 0.893, 0.913, 0.902, 0.856, 0.789, 0.704, 0.592},
    {0.406, 0.514, 0.608, 0.683, 0.727, 0.740, 0.729, 0.695, 0.650, 0.589, 0.504}
  };

  private EthanolViscosity() {}

  /**
   * Viscosity over that of water at the same temperature.
   *
   * @param massFraction of ethanol in ethanol and water, 0 to 1
   * @param celsius temperature; held to 0 to 70 °C
   */
  public static double relative(double massFraction, double celsius) {
    double percent = 100 * Require.fraction(massFraction, "massFraction");
    return Math.exp(logarithm(percent, celsius) - logarithm(0, celsius));
  }

  /**
   * Viscosity of the mixture, mPa·s.
   *
   * @param massFraction of ethanol in ethanol and water, 0 to 1
   * @param celsius temperature; held to 0 to 70 °C
   */
  public static double milliPascalSeconds(double massFraction, double celsius) {
    return Math.exp(logarithm(100 * Require.fraction(massFraction, "massFraction"), celsius));
  }

  private static double logarithm(double percent, double celsius) {
    double row = Math.max(0, Math.min(TABLE.length - 1, Require.finite(celsius, "celsius") / STEP));
    int above = (int) Math.min(TABLE.length - 2, Math.floor(row));
    double share = row - above;
    return (1 - share) * along(TABLE[above], percent) + share * along(TABLE[above + 1], percent);
  }

  private static double along(double[] row, double percent) {
    double place = percent / STEP;
    int left = (int) Math.min(row.length - 2, Math.floor(place));
    double share = place - left;
    return (1 - share) * Math.log(row[left]) + share * Math.log(row[left + 1]);
  }
}
