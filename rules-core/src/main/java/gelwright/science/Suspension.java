package gelwright.science;

/**
 * Whether a gel holds grains, drops and bubbles still, and how far they drift if not.
 *
 * <pre>  held if            tau_y &gt;= Yc g |drho| d
 *  else, sphere       drho g d/18 = stress(v/d),   that is Stokes with the viscosity at v/d
 *  crowd              v (1 - phi)^n,   n = (4.7 + 0.41 Re^0.75)/(1 + 0.175 Re^0.75)</pre>
 *
 * <p>Symbols: tau_y Pa; d diameter in m; drho density of the particle less that of the gel in kg/m³
 * (negative floats); v in m/s, positive down; phi volume fraction; Re of the particle. Yc = 0.0477
 * is the limit of Beris et al. (1985, J. Fluid Mech. 158:219) for a Bingham fluid; experiments
 * collect at 0.04 to 0.08 and at 0.2 (Chhabra, from memory). That spread is the doubt.
 *
 * <p>Range: one sphere far from walls, Re below 1, a gel at rest. A yield stress is often only
 * apparent: for storage over months check {@link #stokes} with the viscosity at rest too. Shaking
 * in transport needs about twice the yield stress (common practice). Stokes' law and Richardson and
 * Zaki (1954, Trans. IChemE 32:35), the exponent after Rowe (1987).
 */
public final class Suspension {
  /** Critical yield parameter 2 pi tau_y R²/F: 0.143, Beris et al. 1985. */
  public static final double BERIS = 0.143;

  /** The same limit as the ratio tau_y/(g |drho| d): a third of {@link #BERIS}, Beris 1985. */
  public static final double THEORY = BERIS / 3;

  /**
   * Ratio tau_y/(g |drho| d) that the more demanding experiments ask for (Chhabra, from memory).
   */
  public static final double EXPERIMENT = 0.2;

  /** Exponent for small slow particles (Re below 0.2). Richardson and Zaki 1954. */
  public static final double SLOW_EXPONENT = 4.65;

  private Suspension() {}

  /**
   * Yield stress that holds a particle, Pa.
   *
   * @param criterion Yc, {@link #THEORY} to {@link #EXPERIMENT}
   * @param densityDifference kg/m³, of either sign
   * @param diameter m
   */
  public static double yieldNeeded(double criterion, double densityDifference, double diameter) {
    return Require.notNegative(criterion, "criterion")
        * Thermal.GRAVITY
        * Math.abs(Require.finite(densityDifference, "densityDifference"))
        * Require.notNegative(diameter, "diameter");
  }

  /** Speed in a Newtonian liquid, m/s, positive down: drho g d²/(18 eta). */
  public static double stokes(double densityDifference, double diameter, double viscosity) {
    return Require.finite(densityDifference, "densityDifference")
        * Thermal.GRAVITY
        * Require.notNegative(diameter, "diameter")
        * diameter
        / (18 * Require.positive(viscosity, "viscosity"));
  }

  /**
   * Speed in a gel, m/s, positive down, with the viscosity at the shear rate v/d; 0 where the yield
   * stress exceeds |drho| g d/18 (0.0556 in the terms above, between theory and experiment).
   */
  public static double speed(FlowCurve gel, double densityDifference, double diameter) {
    // Stokes with eta = stress(v/d)/(v/d) becomes stress(v/d) = drho g d/18, so the speed follows
    // from one inversion of the flow curve instead of an iteration.
    Require.finite(densityDifference, "densityDifference");
    double size = Require.notNegative(diameter, "diameter");
    double stress = Math.abs(densityDifference) * Thermal.GRAVITY * size / 18;
    return Math.signum(densityDifference) * size * gel.shearRateAt(stress);
  }

  /**
   * Factor for clean bubbles and drops whose surface moves: 3 (eta_d + eta_c)/(3 eta_d + 2 eta_c),
   * Hadamard and Rybczynski 1911; 1.5 for a bubble, 1 for a rigid sphere. Gum and surfactant make
   * surfaces rigid, so 1 is the usual case and this the upper bound.
   */
  public static double mobileSurfaceFactor(double dropViscosity, double gelViscosity) {
    double drop = Require.notNegative(dropViscosity, "dropViscosity");
    double gel = Require.positive(gelViscosity, "gelViscosity");
    return 3 * (drop + gel) / (3 * drop + 2 * gel);
  }

  /** Richardson and Zaki's exponent at a particle Reynolds number: 4.7 slow, 2.34 fast. */
  public static double hindranceExponent(double reynolds) {
    double power = Math.pow(Require.notNegative(reynolds, "reynolds"), 0.75);
    return (4.7 + 0.41 * power) / (1 + 0.175 * power);
  }

  /** Share of the single particle's speed that is left in a crowd: (1 - phi)^exponent. */
  public static double hindrance(double phi, double exponent) {
    Require.fraction(phi, "phi");
    return Math.pow(1 - phi, Require.notNegative(exponent, "exponent"));
  }

  /** Distance in m that particles of a volume fraction move in a time (s); positive down. */
  public static double drift(
      FlowCurve gel, double densityDifference, double diameter, double phi, double duration) {
    return speed(gel, densityDifference, diameter)
        * hindrance(phi, SLOW_EXPONENT)
        * Require.notNegative(duration, "duration");
  }

  /** Acceleration of a centrifuge over gravity: 4 pi² N² r/g, with r in m and N in 1/s. */
  public static double centrifugalRatio(double radius, double speed) {
    double angular = 2 * Math.PI * Require.notNegative(speed, "speed");
    return angular * angular * Require.notNegative(radius, "radius") / Thermal.GRAVITY;
  }
}
