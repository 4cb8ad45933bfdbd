package gelwright.science;

/**
 * Densities of mixtures at 20 °C, and alcohol by volume.
 *
 * <pre>
 *   ethanol–water, glycerol–water    smooth curve through a table
 *   anything else                    1/ρ = Σ wᵢ/ρᵢ        (ideal volumes)
 *   vol% = w ρ/ρ(ethanol)
 * </pre>
 *
 * <p>w: mass fraction; ρ in g/mL.
 *
 * <p><b>Range.</b> w from 0 to 1, 20 °C. Over 15 to 25 °C ethanol mixtures move by up to 0.0009
 * g/mL per kelvin, glycerol mixtures by up to 0.0006 (from memory).
 *
 * <p><b>Uncertainty.</b> Tables ±0.0003 between the points. Ideal volumes err by −3.5 % for ethanol
 * and −1.1 % for glycerol at half and half, by less than 1 % up to a tenth of either.
 *
 * <p><b>Sources.</b> Ethanol: CRC Handbook/OIML R 22, from memory; 5 % read in Perry's Chemical
 * Engineers' Handbook. Glycerol: Lange's Handbook of Chemistry, 15th edition, table 5.13, read; the
 * Glycerine Producers' Association (1963), from memory, agrees to 0.0003.
 */
public final class Density {

  /*
   * The curve is a cubic Hermite spline whose slope at each point is that of the parabola through the
   * point and its neighbours (one-sided at the ends). It passes through every table value, its first
   * derivative is continuous, which finite differences ask for, and a table value only touches the
   * two intervals on either side of it.
   */

  /** Water at 20 °C, g/mL. Handbook value, from memory. */
  public static final double WATER = 0.99821;

  /** Ethanol at 20 °C, g/mL. CRC Handbook/OIML R 22, from memory. */
  public static final double ETHANOL = 0.78934;

  /** Shares by mass of the points of the ethanol table, fractions. CRC Handbook, from memory. */
  private static final double[] ETHANOL_SHARE = {
    0, 0.05, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1
  };

  /** Densities at those points, 20 °C, g/mL. CRC Handbook/OIML R 22, from memory. */
  private static final double[] ETHANOL_DENSITY = {
    WATER, 0.98938, 0.98187, 0.96864, 0.95382, 0.93518, 0.91384, 0.89113, 0.86766, 0.84344, 0.81797,
    ETHANOL
  };

  /** Shares by mass of the points of the glycerol table, fractions. Lange's table 5.13, read. */
  private static final double[] GLYCEROL_SHARE = {
    0, 0.10, 0.20, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1
  };

  /**
   * Densities at those points, g/mL: relative densities 20/20 °C of Lange's table 5.13, read, made
   * absolute with the density of water.
   */
  private static final double[] GLYCEROL_DENSITY = {
    WATER,
    1.02395 * WATER,
    1.04880 * WATER,
    1.07470 * WATER,
    1.10135 * WATER,
    1.12845 * WATER,
    1.15605 * WATER,
    1.18355 * WATER,
    1.21090 * WATER,
    1.23755 * WATER,
    1.26362 * WATER
  };

  private Density() {}

  /**
   * Density of ethanol in water at 20 °C, g/mL.
   *
   * @param massFraction of ethanol, 0 to 1
   */
  public static double ethanolWater(double massFraction) {
    return interpolate(
        ETHANOL_SHARE, ETHANOL_DENSITY, Require.fraction(massFraction, "massFraction"));
  }

  /**
   * Density of glycerol in water at 20 °C, g/mL.
   *
   * @param massFraction of glycerol, 0 to 1
   */
  public static double glycerolWater(double massFraction) {
    return interpolate(
        GLYCEROL_SHARE, GLYCEROL_DENSITY, Require.fraction(massFraction, "massFraction"));
  }

  /**
   * Density of a mixture whose volumes add up, g/mL.
   *
   * @param masses of the parts, any one unit, zero or more, not all zero
   * @param densities of the parts, g/mL, above zero, as many
   */
  public static double idealMixture(double[] masses, double[] densities) {
    if (masses.length != densities.length) {
      throw new IllegalArgumentException("densities: not as many as masses");
    }
    double mass = 0;
    double volume = 0;
    for (int i = 0; i < masses.length; i++) {
      mass += Require.notNegative(masses[i], "masses");
      volume += masses[i] / Require.positive(densities[i], "densities");
    }
    return mass / Require.positive(volume, "total volume");
  }

  /**
   * Alcohol by volume of ethanol in water at 20 °C, as a fraction.
   *
   * @param massFraction of ethanol, 0 to 1
   */
  public static double alcoholByVolume(double massFraction) {
    return massFraction * ethanolWater(massFraction) / ETHANOL;
  }

  private static double interpolate(double[] x, double[] y, double at) {
    int i = 0;
    while (i < x.length - 2 && at > x[i + 1]) {
      i++;
    }
    double h = x[i + 1] - x[i];
    double t = (at - x[i]) / h;
    double s = 1 - t;
    return y[i] * (1 + 2 * t) * s * s
        + y[i + 1] * t * t * (3 - 2 * t)
        + h * t * s * (s * slope(x, y, i) - t * slope(x, y, i + 1));
  }

  /** Slope at point i of the parabola through it and its neighbours. */
  private static double slope(double[] x, double[] y, int i) {
    int m = Math.min(Math.max(i, 1), x.length - 2);
    double left = x[m] - x[m - 1];
    double right = x[m + 1] - x[m];
    double slopeLeft = (y[m] - y[m - 1]) / left;
    double slopeRight = (y[m + 1] - y[m]) / right;
    double curvature = (slopeRight - slopeLeft) / (left + right);
    return slopeLeft + curvature * (2 * x[i] - x[m - 1] - x[m]);
  }
}
