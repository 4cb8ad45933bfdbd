package gelwright.science;

/**
 * Viscosity of the water phase without its gum: glycerin in water, Pa·s.
 *
 * <pre>
 *  eta = eta_w^a eta_g^(1-a),   a = 1 - C + a1 b1 C (1-C)/(a1 C + b1 (1-C))
 *  a1 = 0.705 - 0.0017 T,       b1 = (4.9 + 0.036 T) a1^2.5
 *  eta_w = 1.790e-3 exp((-1230 - T) T/(36100 + 360 T))
 *  eta_g = 12.100 exp((-1233 + T) T/(9900 + 70 T))</pre>
 *
 * <p>Symbols: C mass fraction of glycerin, T in °C. Range: 0 to 100 °C (held inside), all C. Other
 * polyols may be counted as glycerin of the same mass: an upper bound, since most are thinner.
 * Doubt: 5 % (glycerin), a factor of 1.5 (other polyols). Source: Cheng 2008, Ind. Eng. Chem. Res.
 * 47:3285; constants from memory, checked against handbook values.
 */
public final class SolventViscosity {
  private SolventViscosity() {}

  /**
   * Viscosity of glycerin in water, Pa·s.
   *
   * @param glycerin mass fraction in glycerin plus water, held within 0 to 1
   * @param celsius °C, held within 0 to 100
   */
  public static double glycerinInWater(double glycerin, double celsius) {
    double c = Math.min(1, Math.max(0, Thermal.finite(glycerin, "glycerin")));
    double t = Math.min(100, Math.max(0, Thermal.finite(celsius, "celsius")));
    double water = 1.790e-3 * Math.exp((-1230 - t) * t / (36_100 + 360 * t));
    double pure = 12.100 * Math.exp((-1233 + t) * t / (9900 + 70 * t));
    double a1 = 0.705 - 0.0017 * t;
    double b1 = (4.9 + 0.036 * t) * Math.pow(a1, 2.5);
    double exponent = 1 - c + a1 * b1 * c * (1 - c) / (a1 * c + b1 * (1 - c));
    return Math.pow(water, exponent) * Math.pow(pure, 1 - exponent);
  }
}
