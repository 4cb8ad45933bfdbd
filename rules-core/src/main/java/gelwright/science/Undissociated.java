package gelwright.science;

/**
 * How much of a weak monoprotic acid is undissociated at a pH. For the common preservative acids
 * that form is the one that works best, though not the only one that works.
 *
 * <pre>
 *   f = 1/(1 + 10^(pH − pKa′)),   pKa′ = pKa − A·h(I)      (Davies; see {@link AcidBase})
 * </pre>
 *
 * <p>f is a share of the dissolved acid, 0 to 1; I in mol/kg; pKa thermodynamic, at 25 °C.
 *
 * <p><b>Range.</b> Any finite pH; the answer falls smoothly to 0 and never becomes NaN. 25 °C; the
 * pKa of a carboxylic acid hardly moves with temperature. Not for acids with several steps closer
 * than about 2 pH units: take the fractions of {@link AcidBase} there.
 *
 * <p><b>Uncertainty.</b> That of the pKa: ±0.05 changes f at pH = pKa by ±0.03. Leaving out I
 * overstates f at I = 0.1 mol/kg by a quarter where little is left (pKa′ is 0.107 lower).
 *
 * <p><b>Source.</b> The law of mass action. Published tables: Steinberg, J. Cosmet. Sci. 56:361
 * (2005), read. Ions are not inert: above pH 6 sorbate carries more than half of the inhibition
 * (Eklund 1983, read), so a small f is a lower bound on activity.
 */
public final class Undissociated {

  private static final double LN10 = Math.log(10);

  private Undissociated() {}

  /**
   * Share undissociated, at infinite dilution or with an apparent pKa.
   *
   * @param pH finite
   * @param pKa finite
   * @return 0 to 1
   */
  public static double fraction(double pH, double pKa) {
    Require.finite(pH, "pH");
    Require.finite(pKa, "pKa");
    return 1 / (1 + Math.exp(LN10 * (pH - pKa)));
  }

  /**
   * Share undissociated, with Davies activities.
   *
   * @param pH finite
   * @param pKa thermodynamic constant of a neutral acid
   * @param ionicStrength mol/kg, zero or more; above 0.5 the correction levels off
   * @return 0 to 1
   */
  public static double fraction(double pH, double pKa, double ionicStrength) {
    return fraction(pH, apparentPKa(pKa, ionicStrength));
  }

  /**
   * The pKa that a neutral acid shows at an ionic strength: hydrogen ion by activity (as a pH meter
   * reads it), acid and anion by amount.
   *
   * @param pKa thermodynamic constant of a neutral acid
   * @param ionicStrength mol/kg, zero or more; above 0.5 the correction levels off
   */
  public static double apparentPKa(double pKa, double ionicStrength) {
    Require.finite(pKa, "pKa");
    Require.notNegative(ionicStrength, "ionicStrength");
    return pKa - AcidBase.DEBYE_HUCKEL_A * AcidBase.davies(ionicStrength);
  }
}
