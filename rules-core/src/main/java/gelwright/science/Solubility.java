package gelwright.science;

import java.util.OptionalDouble;

/**
 * Will a weak acid crystallise, and how much gas does a bicarbonate give?
 *
 * <pre>
 *   S  = S₀ (1 + 10^(pH − pKa))            solubility of acid and anion together
 *   pH(min) = pKa + log₁₀(C/S₀ − 1)        below it a total of C crystallises
 *   V  = n R T/p                           carbon dioxide set free
 * </pre>
 *
 * <p><b>Symbols.</b> S₀: solubility of the undissociated acid, C: total as acid; one unit for both
 * (g/L). n in mol.
 *
 * <p><b>Range.</b> One acid step, water without cosolvent (glycols and ethanol raise S₀), pH where
 * the salt itself stays dissolved. A supersaturated solution can stay clear for weeks.
 *
 * <p><b>Uncertainty.</b> Factor 1.3 on S₀, that is ±0.12 on pH(min). At 5 °C half of S₀ is left of
 * benzoic and sorbic acid: from memory.
 *
 * <p><b>Source.</b> Mass action. S₀ belongs to the ingredient.
 */
public final class Solubility {

  /** What is left of S₀ in a refrigerator, 5 against 25 °C, for benzoic and sorbic acid. Memory. */
  public static final double COLD_FACTOR = 0.5;

  /** Gas constant, J/(mol K). Exact to the digits given, CODATA 2018. */
  public static final double GAS_CONSTANT = 8.314462618;

  /** Standard atmosphere, Pa. Exact by definition. */
  public static final double ATMOSPHERE = 101325;

  private Solubility() {}

  /**
   * Total solubility of a weak acid, as acid, in the unit of {@code intrinsic}.
   *
   * @param intrinsic S₀, above zero
   * @param pH finite
   * @param pKa apparent pKa, finite
   */
  public static double total(double intrinsic, double pH, double pKa) {
    Require.positive(intrinsic, "intrinsic");
    return Math.min(Double.MAX_VALUE, intrinsic * (1 + Partition.ionisedRatio(pH, pKa)));
  }

  /**
   * Lowest pH at which everything stays dissolved.
   *
   * @param total C, as acid, same unit as {@code intrinsic}, zero or more
   * @param intrinsic S₀, above zero
   * @param pKa apparent pKa, finite
   * @return empty where C does not exceed S₀: then nothing crystallises at any pH
   */
  public static OptionalDouble lowestPH(double total, double intrinsic, double pKa) {
    Require.notNegative(total, "total");
    Require.positive(intrinsic, "intrinsic");
    Require.finite(pKa, "pKa");
    if (total <= intrinsic) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(pKa + Math.log10(total / intrinsic - 1));
  }

  /**
   * Volume of carbon dioxide at one atmosphere, litres. All of it; about 0.8 L for each litre of
   * water stays dissolved under pure carbon dioxide at 25 °C (from memory).
   *
   * @param moles of carbonate set free, zero or more
   * @param celsius temperature above −273.15
   */
  public static double carbonDioxideLitres(double moles, double celsius) {
    Require.notNegative(moles, "moles");
    Require.positive(celsius + 273.15, "celsius + 273.15");
    return moles * GAS_CONSTANT * (celsius + 273.15) / ATMOSPHERE * 1000;
  }
}
