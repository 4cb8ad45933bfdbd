package gelwright.profile;

/**
 * The few inputs of the engine that belong to no ingredient: each with its 90 % range, unit, source
 * and standing. They are doubts like any other and show up as such.
 */
public final class Practice {
  /** Source id under which all of these are cited: common practice, no source. */
  public static final String SOURCE = "engine-practice";

  /** Temperature of a room in which nobody measured it, °C. Common practice, no source. */
  static final double ROOM = 22;

  /** ± range of {@link #ROOM}, K. */
  static final double ROOM_RANGE = 3;

  /**
   * ± range of a pH read with a two-point calibrated meter in a gel. Common practice, no source.
   */
  static final double PH_METER = 0.1;

  /** ± range of a pH reached by adjusting until the meter shows it. Common practice, no source. */
  static final double PH_ADJUSTED = 0.15;

  /**
   * ± range of a predicted pH from the variation of raw materials (free acid in esters and
   * extracts, alkalinity of the water): design value ±0.3, common practice, no source.
   */
  static final double PH_PREDICTED = 0.3;

  /** Heat capacity of what dissolves in water, J/(kg K): water at 25 °C 4181 (CRC Handbook). */
  static final double HEAT_CAPACITY_WATER = 4181;

  /** Heat capacity of oils, J/(kg K): olive, sunflower, castor 1750–2240; from memory. */
  static final double HEAT_CAPACITY_OIL = 2000;

  /** ×/÷ range of {@link #HEAT_CAPACITY_OIL}. */
  static final double HEAT_CAPACITY_OIL_RANGE = 1.15;

  /**
   * Density of the gel between the drops, kg/m³: water 997 at 25 °C (CRC Handbook), a little more
   * with polyols and salts; rounded.
   */
  static final double GEL_DENSITY = 1000;

  /**
   * Volume fraction of drops and grains up to which the gel's load is reckoned: just below the
   * packing of 0.57 at which the model of the loaded gel (Chateau, Ovarlez and Trung, J. Rheol. 52
   * (2008) 489; from memory) grows without end.
   */
  static final double FULLEST = 0.55;

  /** Range added to a reading of viscosity or stress by instrument and sample, ×/÷. From memory. */
  public static final double READING_FACTOR = 1.1;

  /**
   * Turn of the flow curve away from a reading, as ± on the flow index: how much the index of one
   * gum differs between its grades. Engine value, from memory.
   */
  static final double TILT = 0.1;

  /** ± range of the temperature of a reading that says none, about 25 °C, K. Common practice. */
  public static final double READING_TEMPERATURE_RANGE = 3;

  /** A reading within so many K of 25 °C counts as taken there. */
  public static final double READING_TEMPERATURE_NEAR = 0.5;

  /**
   * Activation energy of flow of a gum whose sheet gives none, J/mol: that of water between 20 and
   * 40 °C, from 1.002 and 0.653 mPa·s (CRC Handbook).
   */
  public static final double FLOW_ENERGY = 16_300;

  /** ± range of {@link #FLOW_ENERGY}, J/mol: most gums lie between 2 and 30 kJ/mol, from memory. */
  public static final double FLOW_ENERGY_RANGE = 14_000;

  /**
   * ×/÷ range of what the polyols add to the viscosity of the water: glycerol's own is good to 6 %,
   * diols are taken to do the same. Engine value, from memory.
   */
  static final double POLYOL_FACTOR = 1.3;

  /**
   * ×/÷ range of the Rouse time as the relaxation time of a coil: it sets where the shear thinning
   * begins. From memory.
   */
  static final double RELAXATION_FACTOR = 3;

  /** ± range of a density read from a filled and weighed beaker, kg/m³. Common practice. */
  static final double DENSITY_READING = 5;

  /**
   * How long a step lasts that stirs, adds or disperses and says no time, s. Common practice, no
   * source: some minutes.
   */
  static final double SILENT_STEP = 180;

  /** ×/÷ range of {@link #SILENT_STEP}. */
  static final double SILENT_STEP_FACTOR = 3;

  /**
   * Drift of the oil over the shelf life that nobody sees, m: 5 mm, the height of a rim in a jar.
   * Engine value, common practice.
   */
  static final double DRIFT_UNSEEN = 5e-3;

  /** ×/÷ range of {@link #DRIFT_UNSEEN}. */
  static final double DRIFT_UNSEEN_FACTOR = 2;

  /**
   * Most that salt changes the flow of a charged gum whose sheet does not say what it does, ×/÷.
   * Engine value, from memory.
   */
  public static final double SALT_FACTOR = 2;

  /** Ionic strength at which that is reached, mol/kg: that of physiological saline, a third. */
  public static final double SALTED = 0.05;

  private Practice() {}
}
