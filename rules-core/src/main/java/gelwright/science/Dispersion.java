package gelwright.science;

/**
 * The largest drop of oil that survives stirring, m.
 *
 * <pre>  laminar             d = 2 Ca_c sigma/(eta gd)
 *  turbulent-inertial  d = (sigma³/(eps² rho))^(1/5)
 *  turbulent-viscous   d = sigma/sqrt(eps eta)</pre>
 *
 * <p>Symbols: sigma interfacial tension in N/m; eta viscosity of the emulsion at the shear rate in
 * Pa·s (with the drops in it: Jansen, Agterof and Mellema 2001, J. Rheology 45:227); gd shear rate
 * in 1/s; eps power per volume in W/m³; rho density in kg/m³; Ca_c critical capillary number in
 * simple shear, a function of the viscosity ratio drop/emulsion.
 *
 * <p>Range: drops far smaller than the vessel, no surfactant dynamics, break-up complete (some
 * minutes of stirring), no coalescence. Doubt: a factor of 2; the sweep of the blade breaks smaller
 * than the mean shear does. Sources: Grace 1982, Chem. Eng. Commun. 14:225; de Bruijn 1989, thesis
 * Eindhoven (constants of the fit from memory); Walstra 1993, Chem. Eng. Science 48:333 (from
 * memory).
 */
public final class Dispersion {
  /**
   * log10 of the viscosity ratio above which simple shear breaks no drop; ratio 4.08. de Bruijn
   * 1989.
   */
  private static final double DIVERGENCE = 0.611;

  /** Largest exponent of ten returned for Ca_c short of the divergence. */
  private static final double LARGEST_LOG = 300;

  private Dispersion() {}

  /**
   * Critical capillary number in simple shear: log10 Ca_c = -0.506 - 0.0995 L + 0.124 L² - 0.115/(L
   * - 0.611), L = log10 of the viscosity ratio (de Bruijn's fit to Grace).
   *
   * <p>Fitted for ratios of 1e-3 to 4; a smaller ratio counts as 1e-6. It grows without bound
   * towards 4.08 and is infinite from there: simple shear only spins a thicker drop.
   *
   * @param ratio viscosity of the drop over that of the emulsion
   */
  public static double criticalCapillaryNumber(double ratio) {
    double logarithm = Math.log10(Math.max(1e-6, Require.notNegative(ratio, "ratio")));
    if (logarithm >= DIVERGENCE) {
      return Double.POSITIVE_INFINITY;
    }
    double log =
        -0.506
            - 0.0995 * logarithm
            + 0.124 * logarithm * logarithm
            - 0.115 / (logarithm - DIVERGENCE);
    return log > LARGEST_LOG ? Double.POSITIVE_INFINITY : Math.pow(10, log);
  }

  /**
   * Largest surviving drop in laminar shear, m; infinite where shear breaks no drop.
   *
   * @param tension N/m
   * @param emulsionViscosity Pa·s at the shear rate
   * @param dropViscosity Pa·s
   * @param shearRate 1/s
   */
  public static double laminarDrop(
      double tension, double emulsionViscosity, double dropViscosity, double shearRate) {
    double viscosity = Require.positive(emulsionViscosity, "emulsionViscosity");
    double critical = criticalCapillaryNumber(dropViscosity / viscosity);
    double stress = viscosity * Require.notNegative(shearRate, "shearRate");
    return stress > 0
        ? 2 * critical * Require.positive(tension, "tension") / stress
        : Double.POSITIVE_INFINITY;
  }

  /** Largest surviving drop in eddies larger than the drop's own scale of inertia, m. */
  public static double inertialDrop(double tension, double density, double powerPerVolume) {
    double power = Require.notNegative(powerPerVolume, "powerPerVolume");
    return Math.pow(
        Math.pow(Require.positive(tension, "tension"), 3)
            / (power * power * Require.positive(density, "density")),
        0.2);
  }

  /** Largest surviving drop smaller than the smallest eddies, torn by the shear in them, m. */
  public static double viscousDrop(double tension, double viscosity, double powerPerVolume) {
    return Require.positive(tension, "tension")
        / Math.sqrt(
            Require.notNegative(powerPerVolume, "powerPerVolume")
                * Require.positive(viscosity, "viscosity"));
  }

  /**
   * Largest surviving drop in turbulence, m. Whichever mechanism rules, its drop is the smaller of
   * the two (they meet at the size of the smallest eddies), so a smooth minimum is taken: (a^-4 +
   * b^-4)^(-1/4), at most 16 % below the smaller one.
   */
  public static double turbulentDrop(
      double tension, double density, double viscosity, double powerPerVolume) {
    double inertial = 1 / inertialDrop(tension, density, powerPerVolume);
    double viscous = 1 / viscousDrop(tension, viscosity, powerPerVolume);
    return 1 / Math.sqrt(Math.sqrt(Math.pow(inertial, 4) + Math.pow(viscous, 4)));
  }

  /**
   * Largest surviving drop over all regimes, m.
   *
   * <p>The inverse sizes add, laminar and turbulent weighted by {@link Stirring#turbulentShare}:
   * 1/d = (1 - w)/laminar + w/turbulent + 1/poured. So a regime that breaks nothing drops out
   * without a jump, and no drop is larger than what was poured in.
   *
   * @param laminar from {@link #laminarDrop}, may be infinite
   * @param turbulent from {@link #turbulentDrop}, may be infinite
   * @param reynolds of the stirred vessel
   * @param poured size of the drops as poured, m (about 2 mm)
   */
  public static double largestDrop(
      double laminar, double turbulent, double reynolds, double poured) {
    double weight = Stirring.turbulentShare(reynolds);
    double inverse =
        (1 - weight) / positiveOrInfinite(laminar, "laminar")
            + weight / positiveOrInfinite(turbulent, "turbulent")
            + 1 / Require.positive(poured, "poured");
    return 1 / inverse;
  }

  /**
   * Largest surviving drop of oil stirred into a gel, m: shear, Reynolds number and power follow
   * from {@link Stirring}.
   *
   * @param impeller type of stirrer
   * @param emulsion flow curve of the gel with the drops in it ({@link FlowModifiers#loaded})
   * @param oilViscosity Pa·s
   * @param tension N/m
   * @param density of the gel, kg/m³
   * @param speed 1/s
   * @param diameter of the stirrer, m
   * @param volume that takes up the power, m³: the batch for a mean, the sweep of the stirrer
   *     (about its diameter cubed) for what passes the blade
   * @param poured size of the drops as poured, m
   */
  public static double stirredDrop(
      Stirring.Impeller impeller,
      FlowCurve emulsion,
      double oilViscosity,
      double tension,
      double density,
      double speed,
      double diameter,
      double volume,
      double poured) {
    double shearRate = Stirring.meanShear(impeller, speed);
    double viscosity = emulsion.viscosity(shearRate);
    double reynolds = Stirring.reynolds(density, speed, diameter, viscosity);
    double power =
        Stirring.power(Stirring.powerNumber(impeller, reynolds), density, speed, diameter)
            / Require.positive(volume, "volume");
    return largestDrop(
        laminarDrop(tension, viscosity, oilViscosity, shearRate),
        turbulentDrop(tension, density, viscosity, power),
        reynolds,
        poured);
  }

  private static double positiveOrInfinite(double value, String name) {
    if (!(value > 0)) {
      throw new IllegalArgumentException(name + " must be positive, was " + value);
    }
    return value;
  }
}
