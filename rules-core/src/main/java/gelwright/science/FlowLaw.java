package gelwright.science;

import java.util.ArrayList;
import java.util.List;

/**
 * How the flow curve of one gum depends on its concentration.
 *
 * <p>Concentrations are % w/w of fully hydrated gum in the water phase (1 % is taken as 10 g/L).
 * Each law holds in its {@link #range()}. {@link #at(double)} evaluates the equation anywhere from
 * 0 % up, because a caller differentiates it, but outside the range the figure is no prediction:
 * where {@link #monotoneInConcentration()} is true the value at the end of the range is a one-sided
 * bound (above it, for too little gum), otherwise the answer is unknown.
 *
 * <p>The doubt (a factor of 1.5 to 4 on yield stress and viscosity) belongs to the gum's
 * parameters, not to the equation, and travels with them. One measured reading beats any default.
 */
public sealed interface FlowLaw {

  /** Viscosity of water at 25 °C, Pa·s: 0.890 mPa·s, IAPWS 2008 (from memory). */
  double WATER_VISCOSITY = 0.89e-3;

  /** Doubt added by mixing gums without a listed synergy, as a factor. Proposed. */
  double MIXTURE_DOUBT = 1.5;

  /** Concentrations in % w/w between which a law is meant to hold. */
  record Range(double low, double high) {
    public Range {
      Require.notNegative(low, "low");
      Require.positive(high, "high");
      if (low >= high) {
        throw new IllegalArgumentException("low must be below high: " + low + ", " + high);
      }
    }

    /** Whether a concentration in % w/w lies in this range, ends included. */
    public boolean contains(double concentration) {
      return concentration >= low && concentration <= high;
    }
  }

  /** Concentrations in % w/w between which this law is meant to hold. */
  Range range();

  /**
   * The flow curve at a concentration.
   *
   * @param concentration % w/w of gum in the water phase, not negative
   * @param solventViscosity of the water phase without the gum, Pa·s
   */
  FlowCurve at(double concentration, double solventViscosity);

  /** The flow curve at a concentration (% w/w) in water of 25 °C. */
  default FlowCurve at(double concentration) {
    return at(concentration, WATER_VISCOSITY);
  }

  /** Whether more gum never means a lower stress, at any shear rate. */
  boolean monotoneInConcentration();

  /** One gum of a mixture: its law and its concentration in % w/w of the water phase. */
  record Part(FlowLaw law, double concentration) {
    public Part {
      Require.notNegative(concentration, "concentration");
    }
  }

  /**
   * The flow curve of several gums in one water phase.
   *
   * <p>A single gum gives its own curve. A pair with a listed synergy is passed as one part with
   * the pair's own law. Otherwise each gum is taken alone at the total concentration and
   * log(viscosity) is averaged by weight at every shear rate, which for Herschel-Bulkley gums is
   * log K = sum of w log K with the weighted flow index. The yield stress is averaged in the same
   * way over those gums that have one, each at their joint concentration, so that a trace of a
   * liquid gum does not wipe it out. The rule is proposed, not measured: multiply the largest
   * factor of doubt among the parts by {@link #MIXTURE_DOUBT}.
   *
   * @param parts gums with their concentrations; parts of 0 % are left out
   * @param solventViscosity Pa·s
   */
  static FlowCurve mix(List<Part> parts, double solventViscosity) {
    // Averaging viscosities without the yield part keeps the sum finite at rest and lets every
    // family of curves mix with every other. Weights of the yield average are renormalised over
    // the gums that carry a yield, at the concentration those gums have together.
    double total = 0;
    double plastic = 0;
    List<Part> present = new ArrayList<>();
    for (Part part : parts) {
      if (part.concentration() > 0) {
        present.add(part);
        total += part.concentration();
        if (hasYield(part.law())) {
          plastic += part.concentration();
        }
      }
    }
    if (present.isEmpty()) {
      return FlowCurve.Coil.newtonian(0, solventViscosity);
    }
    if (present.size() == 1) {
      return present.get(0).law().at(present.get(0).concentration(), solventViscosity);
    }
    double logYield = 0;
    boolean allPlastic = true;
    double logConsistency = 0;
    double flowIndex = 0;
    List<FlowCurve> members = new ArrayList<>();
    List<Double> weights = new ArrayList<>();
    for (Part part : present) {
      FlowCurve alone = part.law().at(total, solventViscosity);
      double weight = part.concentration() / total;
      members.add(alone);
      weights.add(weight);
      if (hasYield(part.law())) {
        double yield = part.law().at(plastic, solventViscosity).yieldStress();
        logYield += part.concentration() / plastic * Math.log(yield);
      }
      if (alone instanceof FlowCurve.Plastic curve) {
        logConsistency += weight * Math.log(curve.consistency());
        flowIndex += weight * curve.flowIndex();
      } else {
        allPlastic = false;
      }
    }
    double yield = plastic > 0 ? Math.exp(logYield) : 0;
    return allPlastic
        ? new FlowCurve.Plastic(yield, Math.exp(logConsistency), flowIndex, solventViscosity)
        : new FlowCurve.Blend(yield, members, weights, 1, solventViscosity);
  }

  private static boolean hasYield(FlowLaw law) {
    return law instanceof HerschelBulkley gel && gel.yieldPrefactor() > 0;
  }

  /**
   * Gels with a yield stress: yield stress = yieldPrefactor · c^yieldExponent, consistency =
   * consistencyPrefactor · c^consistencyExponent, constant flow index. Yield stress and consistency
   * grow as powers of c in a network (Gutowski et al. 2012, Rheologica Acta 51:441, for carbomer;
   * Garcia et al. 2011, Biochemical Engineering J. 55:73, c² for gellan fluid gels). With a zero
   * yield prefactor this is the power law of a starch.
   *
   * @param yieldPrefactor Pa at 1 %
   * @param consistencyPrefactor Pa·s^n at 1 %
   */
  record HerschelBulkley(
      double yieldPrefactor,
      double yieldExponent,
      double consistencyPrefactor,
      double consistencyExponent,
      double flowIndex,
      Range range)
      implements FlowLaw {
    public HerschelBulkley {
      Require.notNegative(yieldPrefactor, "yieldPrefactor");
      Require.positive(yieldExponent, "yieldExponent");
      Require.positive(consistencyPrefactor, "consistencyPrefactor");
      Require.positive(consistencyExponent, "consistencyExponent");
      atMost(2, flowIndex, "flowIndex");
    }

    /** A gum without yield stress: stress = prefactor · c^exponent · rate^flowIndex. */
    public static HerschelBulkley powerLaw(
        double consistencyPrefactor, double consistencyExponent, double flowIndex, Range range) {
      return new HerschelBulkley(0, 1, consistencyPrefactor, consistencyExponent, flowIndex, range);
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      return new FlowCurve.Plastic(
          yieldPrefactor * Math.pow(concentration, yieldExponent),
          consistencyPrefactor * Math.pow(concentration, consistencyExponent),
          flowIndex,
          solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      return true;
    }
  }

  /**
   * Gums fitted by the Cross equation with power laws in c: viscosity at rest = viscosityPrefactor
   * · c^viscosityExponent, time constant = timePrefactor · c^timeExponent, exponent m. The first
   * law is read as the excess over the solvent; it differs from the zero-shear viscosity by the
   * solvent's, which is below 10 % of it inside the ranges in use, and keeps the curve above the
   * solvent for any c.
   *
   * @param viscosityPrefactor Pa·s at 1 %
   * @param timePrefactor s at 1 %
   */
  record Cross(
      double viscosityPrefactor,
      double viscosityExponent,
      double timePrefactor,
      double timeExponent,
      double exponent,
      Range range)
      implements FlowLaw {
    public Cross {
      Require.positive(viscosityPrefactor, "viscosityPrefactor");
      Require.positive(viscosityExponent, "viscosityExponent");
      Require.notNegative(timePrefactor, "timePrefactor");
      Require.notNegative(timeExponent, "timeExponent");
      atMost(1, exponent, "exponent");
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      return new FlowCurve.Coil(
          viscosityPrefactor * Math.pow(concentration, viscosityExponent),
          timePrefactor * Math.pow(concentration, timeExponent),
          exponent,
          solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      return viscosityExponent >= timeExponent * exponent;
    }
  }

  /**
   * Entangling random coils after Morris et al. (1981, Carbohydrate Polymers 1:5-21). With x = c
   * [eta] the specific viscosity at rest is atBreak (x/breakAt)^p, p = below or above as x is;
   * Morris found atBreak 10, breakAt 4, p 1.4 and 3.3 for many polysaccharides, and that guar and
   * locust bean gum are steeper. Shear thinning has one shape for all (Morris 1990, Carbohydrate
   * Polymers 13:85): Cross with m = 0.76. Where no flow curve is known the time constant is the
   * Rouse time, (6/pi²)(eta0 - eta_s) M/(c R T) at 25 °C, good to a factor of 3.
   *
   * <p>The viscosity is continuous at the break; its slope is not.
   *
   * @param intrinsicViscosity [eta], dL/g
   * @param breakAt c[eta] at the break, 1
   * @param below exponent below the break
   * @param above exponent above the break
   * @param molarMass kg/mol
   * @param exponent m of the shear thinning
   * @param atBreak specific viscosity at the break, about 10; scaling it scales the gum's viscosity
   */
  record RandomCoil(
      double intrinsicViscosity,
      double breakAt,
      double below,
      double above,
      double molarMass,
      double exponent,
      double atBreak,
      Range range)
      implements FlowLaw {
    /** Specific viscosity at the break: about 10, Morris et al. 1981. */
    public static final double AT_BREAK = 10;

    /** A coil with Morris's specific viscosity at the break. */
    public RandomCoil(
        double intrinsicViscosity,
        double breakAt,
        double below,
        double above,
        double molarMass,
        double exponent,
        Range range) {
      this(intrinsicViscosity, breakAt, below, above, molarMass, exponent, AT_BREAK, range);
    }

    public RandomCoil {
      Require.positive(atBreak, "atBreak");
      Require.positive(intrinsicViscosity, "intrinsicViscosity");
      Require.positive(breakAt, "breakAt");
      Require.positive(below, "below");
      Require.positive(above, "above");
      Require.positive(molarMass, "molarMass");
      atMost(1, exponent, "exponent");
    }

    /** Morris's general coil (break at 4, slopes 1.4 and 3.3, thinning exponent 0.76). */
    public static RandomCoil morris(double intrinsicViscosity, double molarMass, Range range) {
      return new RandomCoil(intrinsicViscosity, 4, 1.4, 3.3, molarMass, 0.76, range);
    }

    /** Specific viscosity at rest, (eta0 - eta_s)/eta_s, at a concentration in % w/w. */
    public double specificViscosity(double concentration) {
      double ratio = concentration * intrinsicViscosity / breakAt;
      return atBreak * Math.pow(ratio, ratio <= 1 ? below : above);
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      double added = solventViscosity * specificViscosity(concentration);
      return new FlowCurve.Coil(
          added, rouseTime(added, molarMass, concentration), exponent, solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      // At high rates the viscosity goes as c^(p - m(p-1)), which rises since m is at most 1.
      return true;
    }
  }

  /**
   * Coils given by a series in x = c[eta]: specific viscosity = x + huggins x² + coefficient ·
   * x^power, after Milas, Rinaudo et al. (2001, Biopolymers 59:191; constants from memory) for
   * sodium hyaluronate in excess salt. Without salt the viscosity at low shear rates is higher. The
   * Rouse time sets the shear thinning.
   *
   * @param intrinsicViscosity [eta], dL/g
   * @param huggins second coefficient, 0.4 for hyaluronate
   * @param coefficient of the steep term, 7.77e-3 for hyaluronate
   * @param power of the steep term, 4.18 for hyaluronate
   * @param molarMass kg/mol
   * @param exponent m of the shear thinning
   */
  record CoilSeries(
      double intrinsicViscosity,
      double huggins,
      double coefficient,
      double power,
      double molarMass,
      double exponent,
      Range range)
      implements FlowLaw {
    public CoilSeries {
      Require.positive(intrinsicViscosity, "intrinsicViscosity");
      Require.notNegative(huggins, "huggins");
      Require.notNegative(coefficient, "coefficient");
      Require.positive(power, "power");
      Require.positive(molarMass, "molarMass");
      atMost(1, exponent, "exponent");
    }

    /**
     * Intrinsic viscosity of sodium hyaluronate in saline, dL/g: 3.6e-4 M^0.78 with M in g/mol
     * (0.05 to 4 million). After Laurent, constants from memory; within 6 % of tabled values from
     * 0.1 to 3 million.
     */
    public static double hyaluronateIntrinsicViscosity(double molarMass) {
      return 3.6e-4 * Math.pow(1000 * Require.positive(molarMass, "molarMass"), 0.78);
    }

    /** Specific viscosity at rest, (eta0 - eta_s)/eta_s, at a concentration in % w/w. */
    public double specificViscosity(double concentration) {
      double x = concentration * intrinsicViscosity;
      return x + huggins * x * x + coefficient * Math.pow(x, power);
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      double added = solventViscosity * specificViscosity(concentration);
      return new FlowCurve.Coil(
          added, rouseTime(added, molarMass, concentration), exponent, solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      return true;
    }
  }

  /**
   * Newtonian gums whose viscosity grows exponentially: added viscosity = prefactor (exp(rate · c)
   * - 1). For acacia 1e-3 Pa·s and 0.175 per %, a fit to the one published point (60 to 100 mPa·s
   * at 25 %).
   *
   * @param prefactor Pa·s
   * @param rate per % w/w
   */
  record Exponential(double prefactor, double rate, Range range) implements FlowLaw {
    /** Above this exponent the law stops growing, so that it stays finite. */
    private static final double STEEPEST = 300;

    public Exponential {
      Require.positive(prefactor, "prefactor");
      Require.positive(rate, "rate");
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      return FlowCurve.Coil.newtonian(
          prefactor * Math.expm1(Math.min(STEEPEST, rate * concentration)), solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      return true;
    }
  }

  /**
   * Newtonian gums of compact coils: relative viscosity = (1 + c[eta]/power)^power. For pullulan
   * [eta] 0.7 dL/g and power 3.5, a guess.
   *
   * @param intrinsicViscosity [eta], dL/g
   * @param power q; the steepest growth with concentration
   */
  record NewtonianPower(double intrinsicViscosity, double power, Range range) implements FlowLaw {
    public NewtonianPower {
      Require.positive(intrinsicViscosity, "intrinsicViscosity");
      Require.positive(power, "power");
    }

    @Override
    public FlowCurve at(double concentration, double solventViscosity) {
      Require.notNegative(concentration, "concentration");
      double relative = Math.pow(1 + concentration * intrinsicViscosity / power, power);
      return FlowCurve.Coil.newtonian(solventViscosity * (relative - 1), solventViscosity);
    }

    @Override
    public boolean monotoneInConcentration() {
      return true;
    }
  }

  private static void atMost(double largest, double value, String name) {
    if (Require.positive(value, name) > largest) {
      throw new IllegalArgumentException(name + " must be at most " + largest + ", was " + value);
    }
  }

  /** Rouse time (6/pi²) added M/(c R T) at 25 °C in s, with c in kg/m³; 0 without gum. */
  private static double rouseTime(double added, double molarMass, double concentration) {
    double kilogramsPerCubicMetre = 10 * concentration;
    if (kilogramsPerCubicMetre <= 0) {
      return 0;
    }
    double thermalEnergy = Thermal.GAS_CONSTANT * Thermal.kelvin(Thermal.REFERENCE_CELSIUS);
    return 6 / (Math.PI * Math.PI) * added * molarMass / (kilogramsPerCubicMetre * thermalEnergy);
  }
}
