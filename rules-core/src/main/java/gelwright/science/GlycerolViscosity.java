package gelwright.science;

/**
 * Viscosity of glycerol in water.
 *
 * <pre>
 *   μ  = μ(w)^α · μ(g)^(1−α)
 *   α  = 1 − C + a b C (1 − C)/(a C + b (1 − C))
 *   a  = 0.705 − 0.0017 T,   b = (4.9 + 0.036 T) a^2.5
 *   μ(w) = 1.790 exp((−1230 − T) T/(36100 + 360 T))
 *   μ(g) = 12100 exp((−1233 + T) T/(9900 + 70 T))
 * </pre>
 *
 * <p>μ in mPa·s; T in °C; C: mass fraction of glycerol.
 *
 * <p><b>Range.</b> C from 0 to 1, T from 0 to 100 °C; outside that temperature the value at the end
 * of the range is returned. Newtonian at any shear rate met here.
 *
 * <p><b>Uncertainty.</b> Within 6 % of the Glycerine Producers' Association table at 20 °C (checked
 * in the tests); nearly pure glycerol is as uncertain as its water content: 1 % of water takes off
 * a fifth.
 *
 * <p><b>Source.</b> Cheng, Ind. Eng. Chem. Res. 47:3285 (2008); abstract read, constants from
 * memory.
 */
public final class GlycerolViscosity {

  private GlycerolViscosity() {}

  /**
   * Viscosity, mPa·s.
   *
   * @param massFraction of glycerol, 0 to 1
   * @param celsius temperature; held to 0 to 100 °C
   */
  public static double milliPascalSeconds(double massFraction, double celsius) {
    double c = Require.fraction(massFraction, "massFraction");
    double t = Math.max(0, Math.min(100, Require.finite(celsius, "celsius")));
    double a = 0.705 - 0.0017 * t;
    double b = (4.9 + 0.036 * t) * Math.pow(a, 2.5);
    double alpha = 1 - c + a * b * c * (1 - c) / (a * c + b * (1 - c));
    double water = 1.790 * Math.exp((-1230 - t) * t / (36100 + 360 * t));
    double glycerol = 12100 * Math.exp((-1233 + t) * t / (9900 + 70 * t));
    return Math.pow(water, alpha) * Math.pow(glycerol, 1 - alpha);
  }
}
