package gelwright.science;

/**
 * Can it be weighed on the balance at hand?
 *
 * <pre>
 *   u     = 2·max(s, 0.41 d)           what a weighing may be off by, 95 %
 *   m_min = u/tolerance
 *   error = u/m
 * </pre>
 *
 * <p>s: standard deviation of at least ten weighings, d: readability, m: mass, all in one unit;
 * tolerance and error as fractions.
 *
 * <p><b>Range.</b> Any balance in working order; m_min does not depend on the load. Only
 * repeatability is counted: calibration, draughts and spilling are not.
 *
 * <p><b>Uncertainty.</b> Arithmetic once s is known. Where s is not known, 0 gives the best the
 * balance could do.
 *
 * <p><b>Source.</b> USP chapter 41, Balances, with its tolerance of 0.10 %: read (2000 s, 820 d).
 * Wider tolerances for making rather than assaying (1 % and 5 %) are common practice.
 */
public final class Weighing {

  /** Standard deviation of rounding to a readability of 1, as USP chapter 41 rounds it (√2/√12). */
  public static final double ROUNDING = 0.41;

  private Weighing() {}

  /**
   * Smallest mass that can be weighed to a tolerance.
   *
   * @param standardDeviation s, zero or more (0 if not known)
   * @param readability d, same unit, above zero
   * @param tolerance as a fraction, above zero: 0.01 for 1 %
   * @return in the unit of s and d
   */
  public static double minimumWeight(
      double standardDeviation, double readability, double tolerance) {
    return uncertainty(standardDeviation, readability) / Require.positive(tolerance, "tolerance");
  }

  /**
   * What a mass may be off by, relative to itself.
   *
   * @param mass in the unit of the others, zero or more; for 0 the answer is {@code
   *     Double.MAX_VALUE}
   * @param standardDeviation s, zero or more (0 if not known)
   * @param readability d, above zero
   * @return as a fraction
   */
  public static double relativeError(double mass, double standardDeviation, double readability) {
    double u = uncertainty(standardDeviation, readability);
    return Math.min(Double.MAX_VALUE, u / Require.notNegative(mass, "mass"));
  }

  /**
   * Smallest batch in which a share can be weighed.
   *
   * @param minimumWeight from {@link #minimumWeight}
   * @param share of the batch, above 0, up to 1
   */
  public static double smallestBatch(double minimumWeight, double share) {
    Require.positive(share, "share");
    return Require.notNegative(minimumWeight, "minimumWeight") / Require.fraction(share, "share");
  }

  private static double uncertainty(double standardDeviation, double readability) {
    return 2
        * Math.max(
            Require.notNegative(standardDeviation, "standardDeviation"),
            ROUNDING * Require.positive(readability, "readability"));
  }
}
