package gelwright.science;

/**
 * What changes the flow of a gel after the gum has been chosen: how much of it has swollen, salt,
 * pH, temperature, solvent, and the drops and grains it carries.
 *
 * <p>Factors multiply yield stress and consistency (see {@link FlowCurve#scaled}); particles act
 * through {@link FlowCurve#homogenised}. Salt and pH factors are proposed, with a factor of doubt
 * of 2. All functions are total and free of side effects.
 */
public final class FlowModifiers {
  /** Close packing of equal spheres poured at random, volume fraction. Textbook value 0.64. */
  public static final double RANDOM_CLOSE_PACKING = 0.64;

  /**
   * Packing fraction of beads in a yield-stress fluid, 0.57: Chateau, Ovarlez and Trung 2008, J.
   * Rheology 52:489; Mahaut et al. 2008 (from memory).
   */
  public static final double SUSPENSION_PACKING = 0.57;

  /** Intrinsic viscosity of rigid spheres per volume fraction: 5/2, Einstein 1906. */
  public static final double RIGID_SPHERE = 2.5;

  /**
   * Ionic strength that halves a carbomer gel, mol/kg per % of polymer: 15 mM at 0.25 %. Proposed.
   */
  private static final double CARBOMER_HALVING = 0.015 / 0.25;

  /** Degree of neutralisation at which a carbomer gel has opened to 1 - 1/e. Proposed. */
  private static final double CARBOMER_OPENING = 0.10;

  /** A volume fraction this near to packing stands for all beyond it. */
  private static final double FULLEST = 0.98;

  private FlowModifiers() {}

  /**
   * Concentration of gum that takes part in the flow, % w/w: hydrated fraction · concentration.
   *
   * <p>Only chains that have left the grain thicken the water, and the flow laws are those of fully
   * hydrated gum, so a half-hydrated 1 % flows as 0.5 %. Grains that are still swollen act as soft
   * particles besides; that is left out, so the result is on the thin side. For short-falls above a
   * half the picture is too simple.
   *
   * @param concentration % w/w of gum weighed in
   * @param hydrated hydrated fraction, held within 0 to 1
   */
  public static double effectiveConcentration(double concentration, double hydrated) {
    return Require.notNegative(concentration, "concentration")
        * Math.min(1, Math.max(0, Require.finite(hydrated, "hydrated")));
  }

  /**
   * What is left of a neutralised carbomer gel in salt: f = 1/(1 + I/I50), I50 = 15 mM per 0.25 %
   * of polymer, in proportion to the polymer. Proposed from trade experience (about half lost at
   * 0.1 % sodium chloride, more than 85 % at 1 %); doubt a factor of 2.
   *
   * <p>I is free electrolyte only, without the polymer's charges and the counter-ions of its own
   * neutralisation: a salt-free gel must not thin itself. Count divalent ions four times over.
   *
   * @param polymer % w/w of carbomer in the water phase
   * @param ionicStrength mol/kg
   */
  public static double carbomerSaltFactor(double polymer, double ionicStrength) {
    return collapseFactor(CARBOMER_HALVING, polymer, ionicStrength);
  }

  /**
   * The same for any gum whose chains fold in salt: f = 1/(1 + I/(halving · polymer)).
   *
   * @param halving ionic strength at which half is left of 1 % of gum, mol/kg, above zero
   * @param polymer % w/w of gum in the water phase
   * @param ionicStrength of the free electrolyte, mol/kg
   */
  public static double collapseFactor(double halving, double polymer, double ionicStrength) {
    double half = Require.positive(halving, "halving") * Require.notNegative(polymer, "polymer");
    double strength = Require.notNegative(ionicStrength, "ionicStrength");
    return strength == 0 ? 1 : half / (half + strength);
  }

  /**
   * What is left of a carbomer gel when only a part of its acid groups is neutralised: 1 -
   * exp(-(alpha/0.10)²). Flat from about alpha = 0.2 (pH 5) up, as Islam et al. (2004) report for
   * pH 5.0 to 8.0; it collapses below. The shape below is proposed; doubt a factor of 2. Excess
   * base acts as salt, not here.
   *
   * @param neutralised degree of neutralisation, held within 0 to 1
   */
  public static double carbomerNeutralisationFactor(double neutralised) {
    return openingFactor(CARBOMER_OPENING, neutralised);
  }

  /**
   * The same for any polyacid: 1 - exp(-(alpha/opening)²).
   *
   * @param opening degree of neutralisation at which 1 - 1/e of the gel is there, above zero
   * @param neutralised degree of neutralisation, held within 0 to 1
   */
  public static double openingFactor(double opening, double neutralised) {
    double alpha = Math.min(1, Math.max(0, Require.finite(neutralised, "neutralised")));
    double ratio = alpha / Require.positive(opening, "opening");
    return -Math.expm1(-ratio * ratio);
  }

  /**
   * Xanthan in salt: 1 from 0.3 % up, 0.7 at 0.15 % and below with more than 0.02 mol/kg, smooth
   * between. After the change of sign near 0.25 % reported by Pastor et al. (1994, Food
   * Hydrocolloids 8:265); the figure 0.7 is proposed.
   *
   * @param gum % w/w of xanthan in the water phase
   * @param ionicStrength mol/kg
   */
  public static double xanthanSaltFactor(double gum, double ionicStrength) {
    return thinGelFactor(0.7, 0.15, 0.30, 0.02, gum, ionicStrength);
  }

  /**
   * The same for any gum of stiff chains that thins in salt where it is dilute.
   *
   * @param left part that is left, above zero
   * @param upTo % w/w of gum up to which the whole of the effect shows
   * @param noneFrom % w/w of gum from which on nothing shows, above {@code upTo}
   * @param salted ionic strength from which on the effect is whole, mol/kg, above zero
   * @param gum % w/w in the water phase
   * @param ionicStrength mol/kg
   */
  public static double thinGelFactor(
      double left, double upTo, double noneFrom, double salted, double gum, double ionicStrength) {
    double thin = 1 - Thermal.smoothStep(Require.notNegative(gum, "gum"), upTo, noneFrom);
    double whole =
        Thermal.smoothStep(Require.notNegative(ionicStrength, "ionicStrength"), 0, salted);
    return 1 - (1 - Require.positive(left, "left")) * thin * whole;
  }

  /**
   * Upper bound of what too little salt adds to the low-shear viscosity of a charged coil
   * (cellulose gum, hyaluronate, alginate, lambda-carrageenan) whose law is that of the salted
   * coil: 3 without salt, 1 from 0.05 mol/kg up. From memory; use 1 to this as the range, not as a
   * correction.
   *
   * @param ionicStrength mol/kg
   */
  public static double unsaltedCoilBound(double ionicStrength) {
    return unsaltedCoilBound(3, 0.05, ionicStrength);
  }

  /**
   * The same with other numbers.
   *
   * @param most what too little salt multiplies by at most, 1 or more
   * @param salted ionic strength from which on it is 1, mol/kg, above zero
   * @param ionicStrength mol/kg
   */
  public static double unsaltedCoilBound(double most, double salted, double ionicStrength) {
    double strength = Require.notNegative(ionicStrength, "ionicStrength");
    return most - (most - 1) * Thermal.smoothStep(strength, 0, salted);
  }

  /**
   * Viscosity or consistency at a temperature against that at 25 °C: exp(Ea/R (1/T - 1/298.15 K)).
   *
   * @param activationEnergy J/mol, typically 5 000 (xanthan, sclerotium gum) to 30 000 (cellulose
   *     ethers)
   * @param celsius °C; valid 0 to 60, and only below a melting point of the gel
   */
  public static double temperatureFactor(double activationEnergy, double celsius) {
    Require.notNegative(activationEnergy, "activationEnergy");
    return Thermal.rateRatio(
        -activationEnergy, Require.finite(celsius, "celsius"), Thermal.REFERENCE_CELSIUS);
  }

  /** How a gum stands to the alcohol and polyol beside it. */
  public enum Solvent {
    /** Both are within what the gum bears. */
    BORNE,
    /** Too much ethanol: the gum may not swell, or falls out. */
    ETHANOL_TOO_HIGH,
    /** Too much polyol. */
    POLYOL_TOO_HIGH,
    /** Too much of both. */
    BOTH_TOO_HIGH
  }

  /**
   * Whether ethanol and polyols stay within what a gum bears. A flag, since no law of the loss is
   * published; the limits come with the gum.
   *
   * @param ethanol % w/w of the water phase
   * @param ethanolLimit % w/w
   * @param polyol % w/w of the water phase
   * @param polyolLimit % w/w
   */
  public static Solvent solvent(
      double ethanol, double ethanolLimit, double polyol, double polyolLimit) {
    boolean tooStrong = ethanol > ethanolLimit;
    boolean tooMuch = polyol > polyolLimit;
    if (tooStrong) {
      return tooMuch ? Solvent.BOTH_TOO_HIGH : Solvent.ETHANOL_TOO_HIGH;
    }
    return tooMuch ? Solvent.POLYOL_TOO_HIGH : Solvent.BORNE;
  }

  /**
   * Relative viscosity of a suspension: (1 - phi/packing)^(-intrinsic · packing), Krieger and
   * Dougherty (1959, Trans. Society of Rheology 3:137).
   *
   * <p>From 0.98 of the packing up the value at 0.98 is returned, as a lower bound: the gel is then
   * crowded and the law says nothing.
   *
   * @param phi volume fraction of what is dispersed
   * @param packing volume fraction at which it jams, e.g. {@link #RANDOM_CLOSE_PACKING}
   * @param intrinsic 2.5 for rigid spheres, else {@link #dropIntrinsicViscosity}
   */
  public static double kriegerDougherty(double phi, double packing, double intrinsic) {
    double filled = filled(phi, packing);
    return Math.pow(1 - filled / packing, -Require.notNegative(intrinsic, "intrinsic") * packing);
  }

  /**
   * Yield stress with particles over that without: sqrt((1 - phi) g), g the Krieger-Dougherty ratio
   * with packing 0.57. Chateau, Ovarlez and Trung (2008, J. Rheology 52:489; from memory). Rigid
   * grains that do not touch chemically, larger than the network's mesh. Doubt: 15 % below phi 0.4.
   */
  public static double yieldRatio(double phi, double intrinsic) {
    double stiffness = kriegerDougherty(phi, SUSPENSION_PACKING, intrinsic);
    return Math.sqrt((1 - filled(phi, SUSPENSION_PACKING)) * stiffness);
  }

  /**
   * Consistency with particles over that without, from the same homogenisation: sqrt(g^(n+1) (1 -
   * phi)^(1-n)).
   *
   * @param flowIndex n of the gel
   */
  public static double consistencyRatio(double phi, double intrinsic, double flowIndex) {
    double stiffness = kriegerDougherty(phi, SUSPENSION_PACKING, intrinsic);
    double free = 1 - filled(phi, SUSPENSION_PACKING);
    return Math.sqrt(Math.pow(stiffness, flowIndex + 1) * Math.pow(free, 1 - flowIndex));
  }

  /**
   * The flow curve of a gel that carries drops or grains, yield stress and viscosity together (see
   * {@link FlowCurve#homogenised}); packing 0.57 as measured for beads in yield-stress fluids.
   *
   * @param gel curve without particles
   * @param phi volume fraction of particles in the whole
   * @param intrinsic 2.5 for rigid spheres
   */
  public static FlowCurve loaded(FlowCurve gel, double phi, double intrinsic) {
    double stiffness = kriegerDougherty(phi, SUSPENSION_PACKING, intrinsic);
    double free = 1 - filled(phi, SUSPENSION_PACKING);
    return gel.homogenised(stiffness, Math.sqrt(stiffness / free));
  }

  /**
   * Intrinsic viscosity of drops: 2.5 (eta_d + 0.4 eta_c)/(eta_d + eta_c), Taylor (1932, Proc.
   * Royal Society A 138:41). Between 1 (bubbles, or any oil in a far thicker gel) and 2.5 (rigid).
   * Small drops held round by their surface behave as rigid: then 2.5 is the upper bound.
   *
   * @param dropViscosity Pa·s
   * @param gelViscosity Pa·s, at the shear rate of interest
   */
  public static double dropIntrinsicViscosity(double dropViscosity, double gelViscosity) {
    double drop = Require.notNegative(dropViscosity, "dropViscosity");
    double gel = Require.positive(gelViscosity, "gelViscosity");
    return RIGID_SPHERE * (drop + 0.4 * gel) / (drop + gel);
  }

  /** Whether a volume fraction is so near to packing that the laws of this class are bounds. */
  public static boolean crowded(double phi, double packing) {
    return phi > FULLEST * packing;
  }

  private static double filled(double phi, double packing) {
    Require.fraction(phi, "phi");
    return Math.min(phi, FULLEST * Require.positive(packing, "packing"));
  }
}
