package gelwright.science;

/**
 * How much of a gum has swollen after its time in the water.
 *
 * <pre>
 *   X = Xinf (1 - exp(-(integral of k(T) dt)^beta)),   k(T) = k25 exp(-Ea/R (1/T - 1/298.15 K))
 * </pre>
 *
 * <p>Symbols: X hydrated fraction of 0 to 1; k25 in 1/s; Ea in J/mol; beta 0.6 to 1 (Weibull), 1
 * unless stated; Xinf what the gum reaches in the end. Gums that need heat (locust bean,
 * kappa-carrageenan, gellan) carry a threshold: below it nothing hydrates, switched over about 2 K
 * so that the result is smooth, with 98 % of the rate at the threshold itself and less than 1 %
 * from 5 K below.
 *
 * <p>Range: grains wetted one by one and stirred at about 500 rpm, 10 to 95 °C. Shear is not in the
 * equation: lumps, unstirred corners and hard grains hydrate more slowly without a law, and more
 * stirring helps little once the grains are apart. Outside the range the equation goes on.
 *
 * <p>Doubt: a factor of 1.5 on k. Source: the form is common for dissolving powders (Weibull 1951);
 * the constants are common practice, since none are published for cosmetic gums.
 *
 * @param rate25 k at 25 °C, 1/s
 * @param activationEnergy J/mol
 * @param shape beta
 * @param limit Xinf, above 0 and at most 1
 * @param threshold °C below which the gum does not hydrate; {@link #NO_THRESHOLD} for none
 */
public record Hydration(
    double rate25, double activationEnergy, double shape, double limit, double threshold) {
  /** For gums that hydrate cold. */
  public static final double NO_THRESHOLD = -100;

  /** Centre of the switch below the threshold, K; proposed. */
  private static final double SWITCH_BELOW = 2;

  /** Width of the switch, K; proposed. */
  private static final double SWITCH_WIDTH = 0.5;

  public Hydration {
    Require.notNegative(rate25, "rate25");
    Require.notNegative(activationEnergy, "activationEnergy");
    Require.positive(shape, "shape");
    Require.positive(limit, "limit");
    Require.finite(threshold, "threshold");
    if (limit > 1) {
      throw new IllegalArgumentException("limit must be at most 1, was " + limit);
    }
  }

  /** A gum that hydrates cold and in the end wholly, with beta 1. */
  public static Hydration cold(double rate25, double activationEnergy) {
    return new Hydration(rate25, activationEnergy, 1, 1, NO_THRESHOLD);
  }

  /** Rate constant at a temperature in °C, 1/s. */
  public double rate(double celsius) {
    double rate = rate25 * Thermal.rateRatio(activationEnergy, celsius, Thermal.REFERENCE_CELSIUS);
    if (threshold <= NO_THRESHOLD) {
      return rate;
    }
    double above = (celsius - (threshold - SWITCH_BELOW)) / SWITCH_WIDTH;
    return rate / (1 + Math.exp(-above));
  }

  /**
   * Hydrated fraction at the end of a temperature path that starts when the gum meets the water.
   */
  public double after(TemperaturePath path) {
    return hydrated(path.integrate(this::rate));
  }

  /** Hydrated fraction after a time (s) at one temperature (°C). */
  public double after(double celsius, double duration) {
    return hydrated(rate(celsius) * Require.notNegative(duration, "duration"));
  }

  /** Time in s at one temperature (°C) until a fraction is hydrated; infinite if never. */
  public double timeTo(double fraction, double celsius) {
    if (!(fraction >= 0) || fraction >= limit) {
      return Double.POSITIVE_INFINITY;
    }
    return Math.pow(-Math.log1p(-fraction / limit), 1 / shape) / rate(celsius);
  }

  private double hydrated(double dose) {
    return -limit * Math.expm1(-Math.pow(Math.max(0, dose), shape));
  }
}
