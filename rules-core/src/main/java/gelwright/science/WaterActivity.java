package gelwright.science;

/**
 * Water activity of solutions near 25 °C: is water scarce for germs?
 *
 * <pre>
 *   one solute      aw = x(w)·exp(−K x(s)²)                          Norrish
 *   several         aw = Π aw,i, each solute alone in all the water  Ross
 *   electrolyte     aw = exp(−M(w) Φ Σm)
 *   saturated salt  aw = A·exp(B/T)/100
 * </pre>
 *
 * <p><b>Symbols.</b> x: mole fraction of water, of solute; K: Norrish constant on the natural
 * exponential, dimensionless; M(w) = 0.018015 kg/mol; Φ: osmotic coefficient; Σm: mol of ions per
 * kg of water; T in kelvin.
 *
 * <p><b>Range.</b> Norrish: down to aw ≈ 0.6; K = 0 (Raoult) is an upper bound on aw for the diols
 * for which no trustworthy K exists. Ross: multiplied errors; good to about 0.01 above aw 0.8,
 * common practice. Φ = {@link #OSMOTIC_COEFFICIENT} stands for 1:1 salts up to about 1 mol/kg; at 3
 * mol/kg of sodium chloride the answer is 0.01 too high. Gums and other polymers hardly matter.
 *
 * <p><b>Uncertainty.</b> ±0.005 for glycerol and sorbitol, ±0.02 with a recalled K or K = 0, ±2 %
 * on salt humidities.
 *
 * <p><b>Sources.</b> Norrish, J. Food Technol. 1:25 (1966); Ross, Food Technol. 29:26 (1975): from
 * memory; the form of Norrish's equation read (Baeza 2010). Constants of K belong to the
 * ingredient. Salts: CRC Handbook, "Constant humidity solutions", read. Φ: Robinson and Stokes,
 * from memory.
 */
public final class WaterActivity {

  /** Molar mass of water, kg/mol. IUPAC 2021. */
  public static final double MOLAR_MASS_WATER = 0.018015;

  /**
   * Osmotic coefficient used where none is known. Sodium chloride has 0.932, 0.921, 0.936, 0.983 at
   * 0.1, 0.5, 1, 2 mol/kg (Robinson and Stokes, from memory).
   */
  public static final double OSMOTIC_COEFFICIENT = 0.93;

  private WaterActivity() {}

  /**
   * Norrish's equation for one solute.
   *
   * @param moleFraction of the solute, 0 to 1
   * @param k Norrish constant on the natural exponential; negative where the solute holds water
   *     less than Raoult's law says
   * @return 0 to 1 for every K from about −1 up
   */
  public static double norrish(double moleFraction, double k) {
    Require.fraction(moleFraction, "moleFraction");
    Require.finite(k, "k");
    return (1 - moleFraction) * Math.exp(-k * moleFraction * moleFraction);
  }

  /**
   * Mole fraction of a solute alone in water.
   *
   * @param solute mass of solute, any unit, zero or more
   * @param water mass of water, same unit, above zero
   * @param molarMass of the solute, g/mol
   */
  public static double moleFraction(double solute, double water, double molarMass) {
    Require.notNegative(solute, "solute");
    Require.positive(water, "water");
    Require.positive(molarMass, "molarMass");
    double amount = solute / molarMass;
    return amount / (amount + water / (1000 * MOLAR_MASS_WATER));
  }

  /**
   * Ross's product of single water activities, each for one solute in all the water; 1 for none.
   */
  public static double ross(double... single) {
    double product = 1;
    for (double aw : single) {
      product *= Require.notNegative(aw, "single");
    }
    return product;
  }

  /**
   * Water activity of an electrolyte.
   *
   * @param ions Σm, mol of ions per kg of water, zero or more
   * @param osmoticCoefficient Φ, above zero; {@link #OSMOTIC_COEFFICIENT} where unknown
   */
  public static double electrolyte(double ions, double osmoticCoefficient) {
    Require.notNegative(ions, "ions");
    Require.positive(osmoticCoefficient, "osmoticCoefficient");
    return Math.exp(-MOLAR_MASS_WATER * osmoticCoefficient * ions);
  }

  /**
   * Saturated salt solutions for checking a water-activity meter. Constants: CRC Handbook, read.
   */
  public enum SaturatedSalt {
    /** MgCl₂·6H₂O, 5–45 °C. */
    MAGNESIUM_CHLORIDE(29.26, 34, 5, 45),
    /** NaBr·2H₂O, 0–35 °C. */
    SODIUM_BROMIDE(20.49, 308, 0, 35),
    /** NaCl, 10–40 °C. */
    SODIUM_CHLORIDE(69.20, 25, 10, 40),
    /** (NH₄)₂SO₄, 10–40 °C. */
    AMMONIUM_SULFATE(62.06, 79, 10, 40),
    /** KCl, 5–25 °C. */
    POTASSIUM_CHLORIDE(49.38, 159, 5, 25),
    /** BaCl₂·2H₂O, 5–25 °C. */
    BARIUM_CHLORIDE(69.99, 75, 5, 25),
    /** KNO₃, 0–50 °C. */
    POTASSIUM_NITRATE(43.22, 225, 0, 50),
    /** K₂SO₄, 10–50 °C. */
    POTASSIUM_SULFATE(86.75, 34, 10, 50);

    private final double a; // % relative humidity
    private final double b; // kelvin
    private final double lowest; // °C
    private final double highest; // °C

    SaturatedSalt(double a, double b, double lowest, double highest) {
      this.a = a;
      this.b = b;
      this.lowest = lowest;
      this.highest = highest;
    }

    /**
     * Water activity above the saturated solution, ±2 %.
     *
     * @param celsius temperature; outside the salt's range the value at the end of the range
     */
    public double waterActivity(double celsius) {
      Require.finite(celsius, "celsius");
      double t = Math.max(lowest, Math.min(highest, celsius));
      return a * Math.exp(b / (t + 273.15)) / 100;
    }

    /** Whether a temperature in °C lies within the range of the constants. */
    public boolean covers(double celsius) {
      return celsius >= lowest && celsius <= highest;
    }
  }
}
