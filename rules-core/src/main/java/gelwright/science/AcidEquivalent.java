package gelwright.science;

/**
 * Amounts "as acid", "as zinc", "as anhydrous": conversion by molar mass, as limits of law ask for.
 *
 * <pre>
 *   factor = n·M(wanted)/M(given)             mass wanted per mass given
 *   factor = 1 − n·M(water)/M(hydrate)        anhydrous per hydrate
 * </pre>
 *
 * <p>M in g/mol; n: units wanted in one unit given (2 for a salt of two acids). Exact within the
 * molar masses (IUPAC 2021; a part in ten thousand). No range: arithmetic.
 *
 * <p><b>Source.</b> "Calculated as acid" in Annex V of Regulation (EC) No 1223/2009.
 */
public final class AcidEquivalent {

  /** Molar mass of water, g/mol. IUPAC 2021. */
  public static final double MOLAR_MASS_WATER = 18.015;

  private AcidEquivalent() {}

  /**
   * Mass of the substance wanted for each mass of the substance given.
   *
   * @param molarMassWanted g/mol, above zero
   * @param molarMassGiven g/mol, above zero
   * @param units of the wanted in one unit of the given, above zero
   */
  public static double factor(double molarMassWanted, double molarMassGiven, double units) {
    Require.positive(molarMassWanted, "molarMassWanted");
    Require.positive(molarMassGiven, "molarMassGiven");
    Require.positive(units, "units");
    return units * molarMassWanted / molarMassGiven;
  }

  /**
   * Share of a hydrate that is not water of crystallisation.
   *
   * @param molarMassHydrate g/mol
   * @param waters molecules of water in one unit of the hydrate, zero or more; together lighter
   *     than the hydrate
   */
  public static double anhydrousShare(double molarMassHydrate, double waters) {
    Require.positive(molarMassHydrate, "molarMassHydrate");
    Require.notNegative(waters, "waters");
    return Require.positive(1 - waters * MOLAR_MASS_WATER / molarMassHydrate, "share left");
  }

  /**
   * Molality of something dissolved, mol per kg of water.
   *
   * @param mass of the substance, any unit, zero or more
   * @param molarMass g/mol, above zero
   * @param water mass of water, same unit, above zero
   */
  public static double molality(double mass, double molarMass, double water) {
    Require.notNegative(mass, "mass");
    Require.positive(molarMass, "molarMass");
    Require.positive(water, "water");
    return 1000 * mass / molarMass / water;
  }
}
