package gelwright.science;

/**
 * Shear, Reynolds number, power and vortex of a stirrer.
 *
 * <pre>  tip speed         v  = pi D N
 *  mean shear rate   gd = ks N                          Metzner and Otto 1957, AIChE J. 3:3
 *  Reynolds number   Re = rho N D²/eta(gd)
 *  power             P  = Po rho N³ D⁵
 *  power number      Po = laminar constant/Re + turbulent value
 *  vortex depth      h  = (2 pi N rc)²/g, rc = 0.35 D   Rankine; Nagata 1975 (from memory)
 *  width that moves  b  = D (4/pi³ Po rho N² D²/tau)^⅓  balance of torques on a ball; Solomon 1981
 * </pre>
 *
 * <p>Symbols: D diameter of the stirrer in m, N speed in 1/s, eta Pa·s, rho kg/m³, P in W, h in m.
 *
 * <p>Range: Metzner-Otto holds in the laminar regime (Re below 10) and is the common estimate up to
 * Re 1000; the shear in the sweep of a blade is several times the mean. The sum for Po is a lower
 * bound between Re 10 and 1e4. Vortex: unbaffled beaker. Doubt: ks a factor of 1.3, Po 1.5, vortex
 * 1.5.
 */
public final class Stirring {
  /** Reynolds number below which a stirred vessel is laminar; textbook value. */
  public static final double LAMINAR_BELOW = 10;

  /** Reynolds number above which a stirred vessel is turbulent; textbook value. */
  public static final double TURBULENT_ABOVE = 1e4;

  /**
   * Radius of the core of the vortex over the diameter of the stirrer. Nagata 1975, from memory.
   */
  private static final double CORE = 0.35;

  /** Where a constant of a stirrer was seen. */
  public enum Basis {
    /** Seen in a printed table or an engineering reference. */
    PUBLISHED,
    /** Recalled from a textbook, not checked against the text. */
    FROM_MEMORY,
    /** Nothing was found: taken from the stirrer it is most like. */
    PROPOSED
  }

  /**
   * A dimensionless constant of a stirrer.
   *
   * @param value the constant, above zero
   * @param factor ×/÷ range that holds 90 % of what is met, 1 or more
   * @param basis where it was seen
   * @param source the work, or the reasoning
   */
  public record Constant(double value, double factor, Basis basis, String source) {
    public Constant {
      Require.positive(value, "value");
      if (!(factor >= 1)) {
        throw new IllegalArgumentException("factor must be at least 1, was " + factor);
      }
      if (source.isBlank()) {
        throw new IllegalArgumentException("source must not be blank");
      }
    }

    private static Constant published(double value, double factor, String source) {
      return new Constant(value, factor, Basis.PUBLISHED, source);
    }

    private static Constant recalled(double value, double factor, String source) {
      return new Constant(value, factor, Basis.FROM_MEMORY, source);
    }

    private static Constant proposed(double value, double factor, String source) {
      return new Constant(value, factor, Basis.PROPOSED, source);
    }
  }

  private static final String REFERENCE_SHEET =
      "process engineering reference sheets, impeller shear rate and power number";
  private static final String CHHABRA =
      "Chhabra and Richardson, Non-Newtonian Flow and Applied Rheology";
  private static final String NAGATA = "Nagata 1975, Mixing";
  private static final String TEXTBOOK = "mixing textbooks";

  /** Stirrers with their shear constant and power numbers. */
  public enum Impeller {
    /** Flat paddle of two blades. */
    PADDLE(
        Constant.recalled(11.5, 1.15, CHHABRA + ": 10 to 13"),
        Constant.proposed(70, 2, "as the disc turbine"),
        Constant.recalled(2, 1.5, NAGATA + ": by the width of the blade")),
    /** Marine propeller of three blades, pitch equal to the diameter. */
    PROPELLER(
        Constant.recalled(10, 1.2, CHHABRA),
        Constant.recalled(40, 1.3, TEXTBOOK + ": 40 to 50"),
        Constant.recalled(0.33, 1.15, TEXTBOOK + ": 0.30 to 0.35")),
    /** Disc turbine with six flat blades. */
    DISC_TURBINE(
        Constant.published(11.5, 1.15, REFERENCE_SHEET + ": 11.5, range 10 to 13"),
        Constant.published(70, 1.1, REFERENCE_SHEET),
        Constant.published(5.35, 1.05, REFERENCE_SHEET + ": 5.2 and 5.5")),
    /** Turbine with blades at 45°. */
    PITCHED_BLADE(
        Constant.published(9.5, 1.15, REFERENCE_SHEET),
        Constant.recalled(50, 1.3, TEXTBOOK),
        Constant.recalled(1.45, 1.15, TEXTBOOK + ": 1.3 to 1.6")),
    /** Hydrofoil. */
    HYDROFOIL(
        Constant.published(5.0, 1.2, REFERENCE_SHEET),
        Constant.proposed(40, 1.5, "as the propeller"),
        Constant.recalled(0.3, 1.2, TEXTBOOK)),
    /** Anchor with a close gap. */
    ANCHOR(
        Constant.recalled(22.5, 1.2, CHHABRA + ": 20 to 25"),
        Constant.recalled(207, 1.2, NAGATA + ": 200 to 215"),
        Constant.proposed(0.3, 2, "never turbulent in practice")),
    /** Helical ribbon. */
    HELICAL_RIBBON(
        Constant.recalled(30, 1.2, CHHABRA),
        Constant.recalled(300, 1.3, NAGATA),
        Constant.proposed(0.3, 2, "never turbulent in practice")),
    /** Hand or planetary whisk. */
    WHISK(
        Constant.proposed(15, 1.5, "between paddle and anchor"),
        Constant.proposed(70, 2, "as the paddle"),
        Constant.proposed(1, 2, "half of a paddle, its wires being thin")),
    /** Rotor in a stator: outside the gap it stirs like a small turbine; see {@link #gapShear}. */
    ROTOR_STATOR(
        Constant.proposed(11.5, 1.5, "as the disc turbine, outside the gap"),
        Constant.proposed(70, 2, "as the disc turbine"),
        Constant.proposed(2, 1.5, "between propeller and disc turbine"));

    private final Constant shear;
    private final Constant laminar;
    private final Constant turbulent;

    Impeller(Constant shear, Constant laminar, Constant turbulent) {
      this.shear = shear;
      this.laminar = laminar;
      this.turbulent = turbulent;
    }

    /** ks: mean shear rate over speed. */
    public Constant shear() {
      return shear;
    }

    /** Power number times Reynolds number in the laminar regime. */
    public Constant laminar() {
      return laminar;
    }

    /** Power number in the turbulent regime. */
    public Constant turbulent() {
      return turbulent;
    }

    /** Value of {@link #shear}. */
    public double shearConstant() {
      return shear.value();
    }

    /** Value of {@link #laminar}. */
    public double laminarPower() {
      return laminar.value();
    }

    /** Value of {@link #turbulent}. */
    public double turbulentPower() {
      return turbulent.value();
    }
  }

  private Stirring() {}

  /** Speed in 1/s from revolutions per minute. */
  public static double perSecond(double revolutionsPerMinute) {
    return Require.notNegative(revolutionsPerMinute, "revolutionsPerMinute") / 60;
  }

  /** Tip speed, m/s. */
  public static double tipSpeed(double diameter, double speed) {
    return Math.PI * Require.positive(diameter, "diameter") * Require.notNegative(speed, "speed");
  }

  /** Mean shear rate of a stirrer at a speed in 1/s, 1/s. */
  public static double meanShear(Impeller impeller, double speed) {
    return impeller.shearConstant() * Require.notNegative(speed, "speed");
  }

  /** Shear rate in the gap (m) of a rotor whose tip moves at a speed in m/s, 1/s. */
  public static double gapShear(double tipSpeed, double gap) {
    return Require.notNegative(tipSpeed, "tipSpeed") / Require.positive(gap, "gap");
  }

  /** Reynolds number with the viscosity (Pa·s) at the mean shear rate. */
  public static double reynolds(double density, double speed, double diameter, double viscosity) {
    return Require.positive(density, "density")
        * Require.notNegative(speed, "speed")
        * Require.positive(diameter, "diameter")
        * diameter
        / Require.positive(viscosity, "viscosity");
  }

  /** Reynolds number of a gel, its viscosity read from the flow curve at the mean shear rate. */
  public static double reynolds(
      Impeller impeller, FlowCurve gel, double density, double speed, double diameter) {
    return reynolds(density, speed, diameter, gel.viscosity(meanShear(impeller, speed)));
  }

  /** Power number: laminar constant over Re, plus the turbulent value faded in by Re. */
  public static double powerNumber(Impeller impeller, double reynolds) {
    double re = Math.max(1e-9, Require.notNegative(reynolds, "reynolds"));
    return impeller.laminarPower() / re + turbulentShare(re) * impeller.turbulentPower();
  }

  /** Power in W from the power number, density (kg/m³), speed (1/s) and diameter (m). */
  public static double power(double powerNumber, double density, double speed, double diameter) {
    return Require.notNegative(powerNumber, "powerNumber")
        * Require.positive(density, "density")
        * Math.pow(Require.notNegative(speed, "speed"), 3)
        * Math.pow(Require.positive(diameter, "diameter"), 5);
  }

  /**
   * How far a stirred vessel is turbulent: 1/(1 + (316/Re)^1.5), that is 0.6 % at Re 10, half at
   * 316 (their logarithmic middle) and 99.4 % at Re 1e4. A smooth switch between the textbook
   * limits.
   */
  public static double turbulentShare(double reynolds) {
    double middle = Math.sqrt(LAMINAR_BELOW * TURBULENT_ABOVE);
    double re = Math.max(1e-9, Require.notNegative(reynolds, "reynolds"));
    return 1 / (1 + Math.pow(middle / re, 1.5));
  }

  /** Depth of the vortex in an unbaffled beaker of thin liquid, m. */
  public static double vortexDepth(double diameter, double speed) {
    double core = 2 * Math.PI * speed * CORE * Require.positive(diameter, "diameter");
    return core * core / Thermal.GRAVITY;
  }

  /**
   * Width of the part of a gel that moves around a stirrer, m; the rest of it stands still. The
   * torque of the stirrer, P/(2 pi N), is in balance with the yield stress (Pa) on the surface of a
   * ball around it, pi²/8 times its width cubed times the stress. Solomon et al. 1981, Chem. Eng.
   * Commun. 11:143, from memory; the balance is worked out. Without a yield stress everything
   * moves: infinite. At least the stirrer itself.
   */
  public static double stirredWidth(
      double powerNumber, double density, double speed, double diameter, double yieldStress) {
    double torque = power(powerNumber, density, speed, diameter) / (2 * Math.PI * speed);
    if (Require.notNegative(yieldStress, "yieldStress") == 0) {
      return Double.POSITIVE_INFINITY;
    }
    return Math.max(diameter, Math.cbrt(8 * torque / (Math.PI * Math.PI * yieldStress)));
  }

  /** Speed for equal tip speed in a vessel whose stirrer has another diameter. */
  public static double speedForEqualTip(double speed, double diameter, double newDiameter) {
    return speed * diameter / Require.positive(newDiameter, "newDiameter");
  }

  /** Speed for equal power per volume, turbulent, geometrically similar vessels. */
  public static double speedForEqualPower(double speed, double diameter, double newDiameter) {
    return speed * Math.pow(diameter / Require.positive(newDiameter, "newDiameter"), 2.0 / 3);
  }
}
