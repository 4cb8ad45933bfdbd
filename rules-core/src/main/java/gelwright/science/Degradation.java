package gelwright.science;

/**
 * What heat and time leave of a substance: first-order loss over a temperature path.
 *
 * <pre>  fraction left = exp(-integral of k(T) dt)
 *  Arrhenius       k(T) = k_ref exp(-Ea/R (1/T - 1/T_ref))
 *  Eyring          k(T) = kB T/h exp(dS/R) exp(-dH/(R T))
 *  random scission 1/Mn(t) - 1/Mn(0) = k t/m0</pre>
 *
 * <p>Symbols: k in 1/s, Ea and dH in J/mol, dS in J/(mol K), T in K inside and °C outside, Mn
 * number-average molar mass and m0 molar mass of the repeat unit in kg/mol.
 *
 * <p>Range: the temperatures at which the constants were measured; beyond them an extrapolation,
 * and never where Ea below 20 kJ/mol tells of a reaction starved of oxygen. Doubt: that of k (a
 * factor of 1.5 to 3 across media) rather than of the equation. Source: textbook kinetics
 * (Arrhenius 1889, Eyring 1935); the constants bring their own.
 */
public final class Degradation {
  /** A rate constant of first order as a function of temperature. */
  public sealed interface Rate {
    /** Rate constant at a temperature in °C, 1/s. */
    double at(double celsius);
  }

  /**
   * Rate known at one temperature, with an activation energy.
   *
   * @param reference k at the reference temperature, 1/s
   * @param referenceCelsius °C
   * @param activationEnergy J/mol
   */
  public record Arrhenius(double reference, double referenceCelsius, double activationEnergy)
      implements Rate {
    public Arrhenius {
      Require.notNegative(reference, "reference");
      Require.finite(referenceCelsius, "referenceCelsius");
      Require.notNegative(activationEnergy, "activationEnergy");
    }

    /** From a pre-exponential factor A (1/s) and Ea (J/mol), referred to 25 °C. */
    public static Arrhenius fromPrefactor(double prefactor, double activationEnergy) {
      double reference = Thermal.REFERENCE_CELSIUS;
      double exponent = -activationEnergy / (Thermal.GAS_CONSTANT * Thermal.kelvin(reference));
      return new Arrhenius(prefactor * Math.exp(exponent), reference, activationEnergy);
    }

    @Override
    public double at(double celsius) {
      return reference * Thermal.rateRatio(activationEnergy, celsius, referenceCelsius);
    }
  }

  /**
   * Rate from an activation enthalpy and entropy.
   *
   * @param enthalpy J/mol
   * @param entropy J/(mol K)
   */
  public record Eyring(double enthalpy, double entropy) implements Rate {
    public Eyring {
      Require.notNegative(enthalpy, "enthalpy");
      Require.finite(entropy, "entropy");
    }

    @Override
    public double at(double celsius) {
      double kelvin = Thermal.kelvin(celsius);
      double exponent = entropy / Thermal.GAS_CONSTANT - enthalpy / (Thermal.GAS_CONSTANT * kelvin);
      return Thermal.BOLTZMANN
          * kelvin
          / Thermal.PLANCK
          * Math.exp(Math.min(Thermal.LARGEST_EXPONENT, exponent));
    }
  }

  private Degradation() {}

  /** Fraction left at the end of a temperature path, 0 to 1. */
  public static double fractionLeft(Rate rate, TemperaturePath path) {
    return Math.exp(-path.integrate(rate::at));
  }

  /** Fraction left after a time (s) at one temperature (°C), 0 to 1. */
  public static double fractionLeft(Rate rate, double celsius, double duration) {
    return Math.exp(-rate.at(celsius) * Require.notNegative(duration, "duration"));
  }

  /** Time in s until half is left at a temperature in °C; infinite at rate zero. */
  public static double halfLife(Rate rate, double celsius) {
    return Math.log(2) / rate.at(celsius);
  }

  /** Activation energy in J/mol from rate constants (any one unit) at two temperatures in °C. */
  public static double activationEnergy(
      double firstRate, double firstCelsius, double secondRate, double secondCelsius) {
    double span = 1 / Thermal.kelvin(firstCelsius) - 1 / Thermal.kelvin(secondCelsius);
    if (span == 0) {
      throw new IllegalArgumentException("the two temperatures must differ");
    }
    return Thermal.GAS_CONSTANT
        * Math.log(
            Require.positive(secondRate, "secondRate") / Require.positive(firstRate, "firstRate"))
        / span;
  }

  /** Factor on the rate per 10 K from a z-value in K: 10^(10/z). */
  public static double tenKelvinFactor(double z) {
    return Math.pow(10, 10 / Require.positive(z, "z"));
  }

  /** Rate constant in 1/s from a decimal reduction time in s: ln 10 / D. */
  public static double rateFromDecimalReduction(double decimalReduction) {
    return Math.log(10) / Require.positive(decimalReduction, "decimalReduction");
  }

  /** Percentage to add at the start so that the stated amount is left after t s: exp(k t) - 1. */
  public static double overagePercent(Rate rate, double celsius, double duration) {
    double exponent = rate.at(celsius) * Require.notNegative(duration, "duration");
    return 100 * Math.expm1(Math.min(Thermal.LARGEST_EXPONENT, exponent));
  }

  /**
   * Molar mass after random scission, kg/mol (number average).
   *
   * @param start number-average molar mass before, kg/mol
   * @param repeatUnit molar mass of the unit whose bond breaks, kg/mol
   * @param rate of breaking per bond
   */
  public static double molarMassAfterScission(
      double start, double repeatUnit, Rate rate, TemperaturePath path) {
    double broken = path.integrate(rate::at);
    return 1
        / (1 / Require.positive(start, "start")
            + broken / Require.positive(repeatUnit, "repeatUnit"));
  }
}
