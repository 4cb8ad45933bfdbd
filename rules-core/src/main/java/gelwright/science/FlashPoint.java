package gelwright.science;

/**
 * Closed-cup flash point of ethanol in water, °C, from a table.
 *
 * <p>The table of 5 to 96 % appears in print once as % by weight and once as % by volume. A volume
 * percentage is always the larger figure, and the flash point falls with it, so the table is read
 * both ways and the lower answer is returned: the safe reading. Straight lines between the points.
 *
 * <p>Range: 5 to 100 % of the mixture of ethanol and water alone. Below 5 % the answer stays at 62
 * °C, a lower bound. Salts, gums and polyols are not in the table; count ethanol on ethanol plus
 * water. Doubt: 2 °C between instruments, 3 °C more between the two readings. A guide for caution,
 * not a transport or storage classification.
 */
public final class FlashPoint {
  /** Percent of ethanol of the table, read (% by weight in one print, by volume in the other). */
  private static final double[] PERCENT = {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 96, 100};

  /**
   * Closed-cup flash point, °C, read; that of pure ethanol is the lowest in print (12.7 to 16.6).
   */
  private static final double[] CELSIUS = {62, 49, 36, 29, 26, 24, 22, 21, 20, 17, 17, 12.7};

  private FlashPoint() {}

  /** The table at a percentage of ethanol, held within 5 to 100. */
  public static double table(double percent) {
    return interpolate(PERCENT, CELSIUS, Require.finite(percent, "percent"));
  }

  /**
   * Percent of ethanol by volume at 20 °C from percent by weight, held within 0 to 100; see {@link
   * Density#alcoholByVolume}.
   */
  public static double volumePercent(double weightPercent) {
    double held = Math.max(0, Math.min(100, Require.finite(weightPercent, "weightPercent")));
    return 100 * Density.alcoholByVolume(held / 100);
  }

  /**
   * Flash point in °C of ethanol and water: the lower of the two readings.
   *
   * @param weightPercent % w/w of ethanol in ethanol plus water
   */
  public static double ofEthanol(double weightPercent) {
    return Math.min(table(weightPercent), table(volumePercent(weightPercent)));
  }

  private static double interpolate(double[] at, double[] values, double x) {
    int last = at.length - 1;
    if (x <= at[0]) {
      return values[0];
    }
    for (int i = 1; i <= last; i++) {
      if (x <= at[i]) {
        double share = (x - at[i - 1]) / (at[i] - at[i - 1]);
        return values[i - 1] + share * (values[i] - values[i - 1]);
      }
    }
    return values[last];
  }
}
