package gelwright.science;

/** Constants that the flow and heat models share. */
final class Thermal {
  /** Molar gas constant, J/(mol K). Exact by definition: SI brochure, 9th edition, 2019. */
  static final double GAS_CONSTANT = 8.31446261815324;

  /** Boltzmann constant, J/K. Exact by definition: SI brochure, 9th edition, 2019. */
  static final double BOLTZMANN = 1.380649e-23;

  /** Planck constant, J s. Exact by definition: SI brochure, 9th edition, 2019. */
  static final double PLANCK = 6.62607015e-34;

  /** 0 °C in kelvin. Exact by definition: SI brochure, 9th edition, 2019. */
  static final double ZERO_CELSIUS = 273.15;

  /** Standard gravity, m/s². Exact by definition: ISO 80000-3:2019. */
  static final double GRAVITY = 9.80665;

  /** Reference temperature of the gum and rate tables, °C; theirs by definition. */
  static final double REFERENCE_CELSIUS = 25;

  /** Coldest temperature the models look at, °C; colder input is treated as this. */
  private static final double COLDEST_CELSIUS = -100;

  /** Exponents are held below this, so that a product of rates and times stays finite. */
  static final double LARGEST_EXPONENT = 500;

  private Thermal() {}

  /** Absolute temperature in K; input below -100 °C counts as -100 °C, so it is never zero. */
  static double kelvin(double celsius) {
    return Math.max(celsius, COLDEST_CELSIUS) + ZERO_CELSIUS;
  }

  /** exp(-Ea/R (1/T - 1/Tref)): how much faster a rate runs at T than at the reference. */
  static double rateRatio(double activationEnergy, double celsius, double referenceCelsius) {
    double inverse = 1 / kelvin(celsius) - 1 / kelvin(referenceCelsius);
    return Math.exp(Math.min(LARGEST_EXPONENT, -activationEnergy / GAS_CONSTANT * inverse));
  }

  /** Rises smoothly from 0 at {@code low} to 1 at {@code high}, with flat ends. */
  static double smoothStep(double value, double low, double high) {
    double share = Math.min(1, Math.max(0, (value - low) / (high - low)));
    return share * share * (3 - 2 * share);
  }
}
