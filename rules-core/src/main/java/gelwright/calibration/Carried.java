package gelwright.calibration;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Salt;
import gelwright.profile.Practice;
import gelwright.science.FlowLaw;
import gelwright.science.FlowModifiers;
import gelwright.science.GlycerolViscosity;
import java.util.Optional;

/** Readings carried to what a flow law is told in: water of 25 °C without salt. */
final class Carried {
  // What the gum adds to the stress of the water is divided by what temperature and salt make of
  // it; the water's own part changes with its viscosity. Doubts are logarithms of the factor, for
  // the 90 % range of the figure they come from.

  /** Temperature at which laws are told, °C. */
  static final double TOLD_AT = 25;

  /** ± range of a thermometer in the sample, K. Common practice, no source. */
  static final double THERMOMETER = 0.5;

  private final Optional<Gum> usual;
  private final Ingredient ingredient;
  private final double celsius;
  private final boolean temperatureSaid;
  private final double salt;

  Carried(Ingredient ingredient, Optional<Gum> usual, Readings readings) {
    this.ingredient = ingredient;
    this.usual = usual;
    this.temperatureSaid = readings.celsius().isPresent();
    double said = readings.celsius().orElse(TOLD_AT);
    boolean near = Math.abs(said - TOLD_AT) <= Practice.READING_TEMPERATURE_NEAR;
    this.celsius = near ? TOLD_AT : said;
    this.salt = readings.salt();
  }

  /** The stress at 25 °C in plain water, Pa; not above that of water where there is no gum felt. */
  double stress(double share, double rate, double stress) {
    double gum = stress - rate * water(celsius);
    return gum / (warmth(energy()) * saltFactor(share, known())) + rate * water(TOLD_AT);
  }

  /** Whether a stress is above that of the water alone. */
  boolean feelsGum(double rate, double stress) {
    return stress > 1.05 * rate * water(celsius);
  }

  private static double water(double celsius) {
    return FlowLaw.WATER_VISCOSITY
        * GlycerolViscosity.milliPascalSeconds(0, celsius)
        / GlycerolViscosity.milliPascalSeconds(0, TOLD_AT);
  }

  private double energy() {
    return usual.flatMap(Gum::flowEnergy).map(Figure::likely).orElse(Practice.FLOW_ENERGY);
  }

  private double energyRange() {
    return usual.flatMap(Gum::flowEnergy).map(Figure::spread).orElse(Practice.FLOW_ENERGY_RANGE);
  }

  private double warmth(double energy) {
    return FlowModifiers.temperatureFactor(Math.max(0, energy), celsius);
  }

  /** Doubt of the temperature itself, ln. */
  double temperatureDoubt() {
    double range = temperatureSaid ? THERMOMETER : Practice.READING_TEMPERATURE_RANGE;
    double warmer = FlowModifiers.temperatureFactor(energy(), celsius + range);
    return Math.abs(Math.log(warmer / warmth(energy())));
  }

  /** Doubt of the way from the temperature of the readings to 25 °C, ln. */
  double warmthDoubt() {
    double range = energyRange();
    boolean factor =
        usual
            .flatMap(Gum::flowEnergy)
            .filter(f -> f.scale() == gelwright.quantity.Estimate.Scale.FACTOR)
            .isPresent();
    double high = factor ? energy() * range : energy() + range;
    return Math.abs(Math.log(warmth(high) / warmth(energy())));
  }

  private Optional<Salt> known() {
    return usual.flatMap(gum -> gum.salt().toOptional());
  }

  private double saltFactor(double share, Optional<Salt> known) {
    return known.map(effect -> saltFactor(share, effect, "", 0)).orElse(1.0);
  }

  private double saltFactor(double share, Salt effect, String shifted, double deviations) {
    return switch (effect.effect()) {
      // A polyacid is read neutralised: open.
      case COLLAPSES ->
          FlowModifiers.collapseFactor(figure(effect, "half-at", shifted, deviations), share, salt);
      case THINS ->
          FlowModifiers.thinGelFactor(
              figure(effect, "left", shifted, deviations),
              figure(effect, "up-to", shifted, deviations),
              Math.max(
                  figure(effect, "none-from", shifted, deviations),
                  1.001 * figure(effect, "up-to", shifted, deviations)),
              figure(effect, "salted-from", shifted, deviations),
              share,
              salt);
      case SCREENS -> Math.sqrt(bound(effect));
    };
  }

  private static double figure(Salt effect, String name, String shifted, double deviations) {
    Figure figure = effect.figure(name);
    return name.equals(shifted) ? figure.shifted(deviations) : figure.likely();
  }

  private double bound(Salt effect) {
    return FlowModifiers.unsaltedCoilBound(
        Math.max(1, effect.figure("unsalted-up-to").likely()),
        effect.figure("salted-from").likely(),
        salt);
  }

  /** Doubt of what the salt in the water, or too little of it, does to the gum, ln. */
  double saltDoubt(double share) {
    Optional<Salt> known = known();
    if (known.isPresent()) {
      Salt effect = known.get();
      if (effect.effect() == Salt.Effect.SCREENS) {
        return Math.log(bound(effect)) / 2;
      }
      double sum = 0;
      for (String name : effect.effect().figures()) {
        double most =
            Math.abs(
                Math.log(
                    saltFactor(share, effect, name, gelwright.quantity.Estimate.NINETY_PERCENT)
                        / saltFactor(share, effect, "", 0)));
        sum += most * most;
      }
      return Math.sqrt(sum);
    }
    boolean silent = usual.map(gum -> gum.salt().isUnknown()).orElse(true);
    boolean uncharged =
        ingredient
            .charge()
            .fold(word -> word.equals("none") || word.equals("nonionic"), true, false);
    if (!silent || uncharged || salt == 0) {
      return 0;
    }
    double unscreened =
        FlowModifiers.unsaltedCoilBound(Practice.SALT_FACTOR, Practice.SALTED, salt);
    return Math.log(Practice.SALT_FACTOR + 1 - unscreened);
  }
}
