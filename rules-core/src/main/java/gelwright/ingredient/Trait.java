package gelwright.ingredient;

import gelwright.quantity.Dimension;
import java.util.Optional;

/**
 * The single numbers an ingredient sheet may give, with what is physically possible: a missing one
 * is bounded by that and by nothing else.
 */
public enum Trait {
  /** Density at 20–25 °C. Lightest condensed matter is liquid hydrogen, heaviest osmium. */
  DENSITY("density", Dimension.DENSITY, 70, 22_600),
  MOLAR_MASS("molar-mass", Dimension.MOLAR_MASS, 0.001, Double.POSITIVE_INFINITY),
  /** Octanol–water partition coefficient of the neutral form, as its logarithm. */
  LOG_KOW("log-Kow", Dimension.NUMBER, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
  /** Solubility in water at 25 °C; of the undissociated form for an acid. */
  SOLUBILITY("solubility", Dimension.DENSITY, 0, Double.POSITIVE_INFINITY),
  /** Oil a gel carries per part of this gum, without an emulsifier. */
  OIL_PER_GUM("oil-per-gum", Dimension.NUMBER, 0, Double.POSITIVE_INFINITY),
  /** Least share at which it does what it is used for. */
  USE_LEAST("use-from", Dimension.SHARE, 0, 100),
  /** Greatest share at which it is usually used. */
  USE_MOST("use-to", Dimension.SHARE, 0, 100),
  /** Lowest pH at which it keeps or works. */
  PH_LEAST("pH-from", Dimension.PH, -2, 16),
  /** Highest pH at which it keeps or works. */
  PH_MOST("pH-to", Dimension.PH, -2, 16),
  /** Usual diameter of the grains. */
  SIZE("size", Dimension.LENGTH, 0, 0.1),
  /** Interfacial tension against water. */
  INTERFACIAL_TENSION("interfacial-tension", Dimension.SURFACE_TENSION, 0, 1),
  /** Lowest temperature at which a gum that needs heat hydrates. */
  HYDRATION_THRESHOLD("hydrates-from", Dimension.TEMPERATURE, -20, 200),
  /** Viscosity of a liquid at 25 °C. Thinnest is superfluid helium, thickest is a glass. */
  VISCOSITY("viscosity", Dimension.VISCOSITY, 0, Double.POSITIVE_INFINITY),
  /**
   * What an oil takes up of a preservative over what octanol takes up, both against water; octanol
   * takes up the most.
   */
  OIL_OVER_OCTANOL("oil-over-octanol", Dimension.NUMBER, 0, 1),
  /** Norrish constant K of a solute on the natural exponential. */
  NORRISH("norrish-K", Dimension.NUMBER, -10, 100),
  /** Most ethanol in the water phase that a gum bears. */
  ETHANOL_MOST("ethanol-to", Dimension.SHARE, 0, 100),
  /** Most polyol in the water phase that a gum bears. */
  POLYOL_MOST("polyol-to", Dimension.SHARE, 0, 100);

  private final String key;
  private final Dimension dimension;
  private final double least;
  private final double most;

  Trait(String key, Dimension dimension, double least, double most) {
    this.key = key;
    this.dimension = dimension;
    this.least = least;
    this.most = most;
  }

  /** As written on an ingredient sheet and in "missing" lists. */
  public String key() {
    return key;
  }

  public Dimension dimension() {
    return dimension;
  }

  /** Least value physically possible, in base units. */
  public double least() {
    return least;
  }

  /** Greatest value physically possible, in base units. */
  public double most() {
    return most;
  }

  public static Optional<Trait> of(String key) {
    for (Trait trait : values()) {
      if (trait.key.equals(key)) {
        return Optional.of(trait);
      }
    }
    return Optional.empty();
  }
}
