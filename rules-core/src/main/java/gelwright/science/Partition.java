package gelwright.science;

/**
 * How a preservative shares itself between oil and water, and within the water between
 * undissociated, ionised and micelle-bound.
 *
 * <pre>
 *   Cw = C (φ + 1)/(K φ + R)                 undissociated and free, in the water
 *   R  = 1 + 10^(pH − pKa) + S·Cs            (what the water holds)/(undissociated and free)
 * </pre>
 *
 * <p><b>Symbols.</b> C: concentration over the whole volume, in any unit; all answers come back in
 * it, per volume of the phase named. φ: volume of oil over volume of water. K: oil–water partition
 * coefficient of the undissociated form, concentration ratio, for <em>this</em> oil (octanol values
 * are too high for mineral oil by one to two powers of ten). S: binding constant per % of
 * surfactant; Cs: surfactant in the water, %.
 *
 * <p><b>Range.</b> Dilute, at equilibrium. Not where the acid pairs up in the oil (benzoic acid in
 * hydrocarbons above about 0.1 %), nor near the solubility limit. φ from 0 up; without oil the
 * water holds C.
 *
 * <p><b>Uncertainty.</b> That of K and S: a factor of 2 unless measured with the oil at hand. The
 * ionised term is exact within the pKa. The extension by the ionised term is from memory (after
 * Garrett); mass balance holds for it by construction.
 *
 * <p><b>Sources.</b> Bean and others: J. Soc. Cosmet. Chem. 16:18 (1965) and 18:207 (1967), read;
 * with emulsifier and R = 1 + S·C: J. Soc. Cosmet. Chem. 23:713 (1972), read.
 */
public final class Partition {

  private static final double LN10 = Math.log(10);

  private Partition() {}

  /**
   * Where the preservative is. All in the unit of the total; each per volume of the phase it is in.
   *
   * @param inOil in the oil; meaningless but harmless where there is no oil
   * @param undissociatedInWater free and undissociated, in the water
   * @param ionisedInWater in the water
   * @param boundInWater held by surfactant, in the water
   */
  public record Shares(
      double inOil, double undissociatedInWater, double ionisedInWater, double boundInWater) {

    /** Everything in the water that is not bound: undissociated and ionised. */
    public double freeInWater() {
      return undissociatedInWater + ionisedInWater;
    }

    /** Everything in the water. */
    public double totalInWater() {
      return undissociatedInWater + ionisedInWater + boundInWater;
    }
  }

  /**
   * Shares a preservative out.
   *
   * @param total concentration over oil and water together, any unit, zero or more
   * @param oilToWater φ, volume of oil over volume of water, zero or more
   * @param coefficient K, oil–water partition coefficient of the undissociated form, zero or more
   * @param ionisedRatio ionised over undissociated, see {@link #ionisedRatio}; 0 for a neutral one
   * @param boundRatio bound over undissociated, see {@link #boundRatio}; 0 without surfactant
   */
  public static Shares share(
      double total, double oilToWater, double coefficient, double ionisedRatio, double boundRatio) {
    Require.notNegative(total, "total");
    Require.notNegative(oilToWater, "oilToWater");
    Require.notNegative(coefficient, "coefficient");
    Require.notNegative(ionisedRatio, "ionisedRatio");
    Require.notNegative(boundRatio, "boundRatio");
    double r = 1 + ionisedRatio + boundRatio;
    double water = total * (oilToWater + 1) / (coefficient * oilToWater + r);
    return new Shares(coefficient * water, water, ionisedRatio * water, boundRatio * water);
  }

  /**
   * Ionised over undissociated of an acid, 10^(pH − pKa).
   *
   * @param pH finite; held within ±300 of the pKa so that the answer stays finite
   * @param pKa apparent pKa, finite
   */
  public static double ionisedRatio(double pH, double pKa) {
    Require.finite(pH, "pH");
    Require.finite(pKa, "pKa");
    return Math.exp(LN10 * Math.max(-300, Math.min(300, pH - pKa)));
  }

  /**
   * Bound over undissociated, S·Cs.
   *
   * @param bindingPerPercent S, per % of surfactant
   * @param surfactantPercent Cs, % of surfactant in the water
   */
  public static double boundRatio(double bindingPerPercent, double surfactantPercent) {
    Require.notNegative(bindingPerPercent, "bindingPerPercent");
    Require.notNegative(surfactantPercent, "surfactantPercent");
    return bindingPerPercent * surfactantPercent;
  }
}
