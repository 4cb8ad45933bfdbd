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

  /** Stirrers with their shear constant and power numbers. */
  public enum Impeller {
    /** Flat paddle; ks 10 to 13, from memory (Chhabra and Richardson). */
    PADDLE(11.5, 70, 2),
    /** Marine propeller; ks about 10, Po 0.30 to 0.35, from memory. */
    PROPELLER(10, 40, 0.33),
    /** Disc turbine with six flat blades; ks 11.5, Po 5.2 to 5.5, Po Re 70, textbook. */
    DISC_TURBINE(11.5, 70, 5.35),
    /** Turbine with blades at 45°; ks 9.5, textbook; Po 1.3 to 1.6, from memory. */
    PITCHED_BLADE(9.5, 50, 1.45),
    /** Hydrofoil; ks 5.0, textbook; Po 0.3, from memory. */
    HYDROFOIL(5.0, 40, 0.3),
    /** Anchor; ks 20 to 25, Po Re 200 to 215, from memory. */
    ANCHOR(22.5, 207, 0.3),
    /** Helical ribbon; ks about 30, from memory. */
    HELICAL_RIBBON(30, 300, 0.3),
    /** Hand or planetary whisk; ks 10 to 20, order of size, from memory. */
    WHISK(15, 70, 1),
    /** Rotor in a stator: outside the gap it stirs like a small turbine; see {@link #gapShear}. */
    ROTOR_STATOR(11.5, 70, 2);

    private final double shearConstant;
    private final double laminarPower;
    private final double turbulentPower;

    Impeller(double shearConstant, double laminarPower, double turbulentPower) {
      this.shearConstant = shearConstant;
      this.laminarPower = laminarPower;
      this.turbulentPower = turbulentPower;
    }

    /** ks: mean shear rate over speed. */
    public double shearConstant() {
      return shearConstant;
    }

    /** Power number times Reynolds number in the laminar regime. */
    public double laminarPower() {
      return laminarPower;
    }

    /** Power number in the turbulent regime. */
    public double turbulentPower() {
      return turbulentPower;
    }
  }

  private Stirring() {}

  /** Speed in 1/s from revolutions per minute. */
  public static double perSecond(double revolutionsPerMinute) {
    return Thermal.notNegative(revolutionsPerMinute, "revolutionsPerMinute") / 60;
  }

  /** Tip speed, m/s. */
  public static double tipSpeed(double diameter, double speed) {
    return Math.PI * Thermal.positive(diameter, "diameter") * Thermal.notNegative(speed, "speed");
  }

  /** Mean shear rate of a stirrer at a speed in 1/s, 1/s. */
  public static double meanShear(Impeller impeller, double speed) {
    return impeller.shearConstant() * Thermal.notNegative(speed, "speed");
  }

  /** Shear rate in the gap (m) of a rotor whose tip moves at a speed in m/s, 1/s. */
  public static double gapShear(double tipSpeed, double gap) {
    return Thermal.notNegative(tipSpeed, "tipSpeed") / Thermal.positive(gap, "gap");
  }

  /** Reynolds number with the viscosity (Pa·s) at the mean shear rate. */
  public static double reynolds(double density, double speed, double diameter, double viscosity) {
    return Thermal.positive(density, "density")
        * Thermal.notNegative(speed, "speed")
        * Thermal.positive(diameter, "diameter")
        * diameter
        / Thermal.positive(viscosity, "viscosity");
  }

  /** Reynolds number of a gel, its viscosity read from the flow curve at the mean shear rate. */
  public static double reynolds(
      Impeller impeller, FlowCurve gel, double density, double speed, double diameter) {
    return reynolds(density, speed, diameter, gel.viscosity(meanShear(impeller, speed)));
  }

  /** Power number: laminar constant over Re, plus the turbulent value faded in by Re. */
  public static double powerNumber(Impeller impeller, double reynolds) {
    double re = Math.max(1e-9, Thermal.notNegative(reynolds, "reynolds"));
    return impeller.laminarPower() / re + turbulentShare(re) * impeller.turbulentPower();
  }

  /** Power in W from the power number, density (kg/m³), speed (1/s) and diameter (m). */
  public static double power(double powerNumber, double density, double speed, double diameter) {
    return Thermal.notNegative(powerNumber, "powerNumber")
        * Thermal.positive(density, "density")
        * Math.pow(Thermal.notNegative(speed, "speed"), 3)
        * Math.pow(Thermal.positive(diameter, "diameter"), 5);
  }

  /**
   * How far a stirred vessel is turbulent: 1/(1 + (316/Re)^1.5), that is 0.6 % at Re 10, half at
   * 316 (their logarithmic middle) and 99.4 % at Re 1e4. A smooth switch between the textbook
   * limits.
   */
  public static double turbulentShare(double reynolds) {
    double middle = Math.sqrt(LAMINAR_BELOW * TURBULENT_ABOVE);
    double re = Math.max(1e-9, Thermal.notNegative(reynolds, "reynolds"));
    return 1 / (1 + Math.pow(middle / re, 1.5));
  }

  /** Depth of the vortex in an unbaffled beaker of thin liquid, m. */
  public static double vortexDepth(double diameter, double speed) {
    double core = 2 * Math.PI * speed * CORE * Thermal.positive(diameter, "diameter");
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
    if (Thermal.notNegative(yieldStress, "yieldStress") == 0) {
      return Double.POSITIVE_INFINITY;
    }
    return Math.max(diameter, Math.cbrt(8 * torque / (Math.PI * Math.PI * yieldStress)));
  }

  /** Speed for equal tip speed in a vessel whose stirrer has another diameter. */
  public static double speedForEqualTip(double speed, double diameter, double newDiameter) {
    return speed * diameter / Thermal.positive(newDiameter, "newDiameter");
  }

  /** Speed for equal power per volume, turbulent, geometrically similar vessels. */
  public static double speedForEqualPower(double speed, double diameter, double newDiameter) {
    return speed * Math.pow(diameter / Thermal.positive(newDiameter, "newDiameter"), 2.0 / 3);
  }
}
