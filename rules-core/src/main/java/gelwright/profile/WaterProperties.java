package gelwright.profile;

import gelwright.formula.Measurement;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.AcidBase;
import gelwright.science.FlashPoint;
import gelwright.science.WaterActivity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** What the water phase is like besides its pH: how scarce its water, how firm its pH. */
final class WaterProperties {
  /** ± range of a water-activity meter checked with saturated salts. Common practice, no source. */
  private static final double METER = 0.01;

  /**
   * ± range of the Norrish constant of a solute for which none is known, about Raoult's law (K =
   * 0). Published constants of diols contradict each other between 0 and 4, ethanol's is below
   * zero; ±1.5 is an engine value, from memory.
   */
  private static final double NORRISH_RANGE = 1.5;

  /**
   * ×/÷ range on the logarithm of the whole: Ross' product is good to about 0.01 above a water
   * activity of 0.8. Common practice, no source.
   */
  private static final double ROSS_FACTOR = 1.1;

  /**
   * Lightest particle a solute can be, kg/mol: ammonia. For what has no molar mass on its sheet.
   */
  private static final double LIGHTEST = 0.017;

  /** ± range of a flash point, K: 2 between instruments and the spread of the readings. */
  private static final double FLASH_RANGE = 3;

  /** Least ethanol in ethanol and water that the table of flash points knows, % w/w. */
  private static final double LEAST_ETHANOL = 5;

  /** Closed pH up to which carbonates leave wholly, see {@link AcidBase.Carbonates#DEGASSED}. */
  private static final double LEAVES_BELOW = 6;

  static final Definition ACTIVITY =
      Definition.number(
          "water-phase.water-activity",
          Unit.NONE,
          "water activity of the water phase at 25 °C: measured, else from what is dissolved; gums"
              + " and what a pH adjustment adds are left out",
          (world, item) -> activity(world));

  static final Definition BUFFER =
      Definition.factor(
          "water-phase.buffer-capacity",
          Unit.MILLIMOLAL,
          "strong base that raises the pH of a kilogram of water by one unit, by the slope at the"
              + " pH of the product",
          (world, item) -> buffer(world));

  static final Definition DEGASSED =
      Definition.number(
          "water-phase.pH-degassed",
          Unit.PH,
          "pH when all carbon dioxide has left; without carbonates the pH itself",
          (world, item) -> degassed(world));

  static final Definition FLASH_POINT =
      Definition.number(
          "process.flash-point",
          Unit.CELSIUS,
          "closed-cup flash point of the ethanol and water in the recipe",
          (world, item) -> flashPoint(world));

  static final List<Definition> ALL = List.of(ACTIVITY, BUFFER, DEGASSED, FLASH_POINT);

  private WaterProperties() {}

  private static Reading activity(World world) {
    Optional<Measurement> measured = world.model().measured("water-activity");
    if (measured.isPresent() && measured.get().value().isPresent()) {
      world.measured();
      world.source(Practice.SOURCE);
      return Reading.of(
              world.within(
                  measured.get().value().get().inBase(),
                  METER,
                  "water-activity reading of " + world.model().name(),
                  "a second reading of the water activity"))
          .within(0, 1);
    }
    Reading water = world.of(CompositionProperties.WATER);
    if (water.high() <= 0) {
      return Reading.unknown(0, 1, "water in the recipe");
    }
    Set<String> missing = new TreeSet<>(water.missing());
    boolean exact = water.isKnown();
    double high = Math.exp(logarithm(world, water.high(), false, exact, missing));
    double low =
        water.low() <= 0
            ? 0
            : exact && missing.isEmpty()
                ? high
                : Math.exp(logarithm(world, water.low(), true, exact, missing));
    world.predicted();
    return new Reading(Math.min(low, high), high, missing);
  }

  // Logarithms of the single activities add up. What may be dissolved, but of which the molar mass
  // or the charges are missing, counts as nothing for the high end and as the lightest particles
  // there are for the low one.
  private static double logarithm(
      World world, double water, boolean low, boolean exact, Set<String> missing) {
    double sum = 0;
    int solutes = 0;
    for (Component component : world.model().recipe().components()) {
      if (component.units() == 0
          || component.name().equals(Recipe.WATER)
          || component.has("gum").odds().low() == 1) {
        continue;
      }
      Truth dissolved = component.inWater();
      if (dissolved.odds().high() == 0) {
        continue;
      }
      double ratio = component.percent() / water;
      Optional<Double> single =
          dissolved.odds().low() < 1
              ? Optional.empty()
              : exact ? world.of(SINGLE, component.index()) : single(world, component, ratio);
      if (single.isPresent()) {
        sum += single.get();
        solutes++;
        continue;
      }
      missing.addAll(dissolved.missing());
      if (dissolved.odds().low() == 1) {
        missing.add(component.missing(Trait.MOLAR_MASS.key()));
      }
      if (low) {
        sum += Math.log(WaterActivity.electrolyte(ratio / LIGHTEST, 1));
      }
    }
    if (solutes == 0) {
      return sum;
    }
    world.source("ross-1975");
    return sum
        * world.withinFactor(
            1, ROSS_FACTOR, "how the solutes hold the water together", "a water-activity reading");
  }

  /** The same where the water is known. */
  private static final Shared<Optional<Double>> SINGLE =
      new Shared<>(
          (world, item) -> {
            Component component = world.model().component(item);
            double water = world.of(CompositionProperties.WATER).high();
            return single(world, component, component.percent() / water);
          });

  /** Logarithm of the activity of water with one solute alone, if it can be told. */
  private static Optional<Double> single(World world, Component component, double ratio) {
    Optional<Figure> constant = component.ingredient().trait(Trait.NORRISH);
    boolean neutral = component.ingredient().acid().fold(acid -> false, true, false);
    if (constant.isEmpty() && !neutral) {
      AcidityProperties.Solution solution = new AcidityProperties.Solution();
      AcidityProperties.add(world, component, ratio, solution);
      if (!solution.missing.isEmpty()) {
        return Optional.empty();
      }
      double ions = 0;
      for (AcidBase.Species species : solution.species) {
        ions += species instanceof AcidBase.Polyacid ? 0 : species.molality();
      }
      return Optional.of(
          Math.log(WaterActivity.electrolyte(ions, WaterActivity.OSMOTIC_COEFFICIENT)));
    }
    Optional<Figure> molarMass = component.ingredient().trait(Trait.MOLAR_MASS);
    if (molarMass.isEmpty()) {
      return Optional.empty();
    }
    double mass = world.value(molarMass.get(), component.missing("molar mass"), "");
    double k;
    if (constant.isPresent()) {
      k =
          world.value(
              constant.get(), component.missing("Norrish constant"), "a water-activity reading");
    } else {
      world.source(Practice.SOURCE);
      k =
          world.within(
              0, NORRISH_RANGE, component.missing("Norrish constant"), "a water-activity reading");
    }
    world.source("norrish-1966");
    double fraction = WaterActivity.moleFraction(ratio, 1, 1000 * mass);
    return Optional.of(Math.log(Math.min(1, WaterActivity.norrish(fraction, k))));
  }

  /** The water phase brought to the pH of the product by a strong ion, whatever was used for it. */
  private static List<AcidBase.Species> closed(AcidityProperties.Solution solution, double pH) {
    double charge =
        AcidBase.netCharge(AcidBase.Mixture.of(solution.species), AcidBase.Options.STANDARD, pH);
    List<AcidBase.Species> all = new ArrayList<>(solution.species);
    all.add(new AcidBase.StrongIon(Math.abs(charge), charge > 0 ? -1 : 1));
    return all;
  }

  /** Where the water phase stands at the pH of the product; the composition must be known. */
  static AcidBase.Equilibrium atProductPH(World world) {
    return world.of(AT_PRODUCT_PH);
  }

  private static final Shared<AcidBase.Equilibrium> AT_PRODUCT_PH =
      new Shared<>((world, item) -> bring(world));

  private static AcidBase.Equilibrium bring(World world) {
    Reading pH = world.of(AcidityProperties.PH);
    double middle = (pH.low() + pH.high()) / 2;
    AcidBase.Mixture mixture = AcidityProperties.solution(world).mixture();
    AcidBase.Equilibrium near = world.inLikely(AT_PRODUCT_PH, 0);
    return near == null
        ? AcidBase.heldAt(mixture, AcidBase.Options.STANDARD, middle)
        : AcidBase.heldAt(mixture, AcidBase.Options.STANDARD, middle, near);
  }

  private static Reading buffer(World world) {
    AcidityProperties.Solution solution = AcidityProperties.solution(world);
    Reading pH = world.of(AcidityProperties.PH);
    if (!solution.missing.isEmpty() || !pH.isKnown()) {
      return new Reading(
          0, Double.POSITIVE_INFINITY, Reading.union(solution.missing, pH.missing()));
    }
    world.predicted();
    return Reading.of(atProductPH(world).bufferCapacity());
  }

  private static Reading degassed(World world) {
    AcidityProperties.Solution solution = AcidityProperties.solution(world);
    Reading pH = world.of(AcidityProperties.PH);
    if (!solution.missing.isEmpty()) {
      return new Reading(
          AcidityProperties.LOWEST,
          AcidityProperties.HIGHEST,
          Reading.union(solution.missing, pH.missing()));
    }
    if (solution.escaping.isEmpty()) {
      return pH;
    }
    world.predicted();
    Reading gone =
        pH.map(
            value -> {
              List<AcidBase.Species> rest = closed(solution, value);
              rest.removeAll(solution.escaping);
              return AcidBase.solve(AcidBase.Mixture.of(rest), AcidBase.Options.STANDARD, value)
                  .pH();
            });
    // Losing all of it is the far end: above this pH little is left to leave, and the pH stops
    // somewhere on the way.
    return pH.high() <= LEAVES_BELOW
        ? gone
        : new Reading(
            Math.min(pH.low(), gone.low()),
            Math.max(pH.high(), gone.high()),
            Reading.union(gone.missing(), Set.of("how much carbon dioxide leaves above pH 6")));
  }

  private static Reading flashPoint(World world) {
    Reading ethanol = CompositionProperties.sumOf(world, "ethanol");
    Reading water = world.of(CompositionProperties.WATER);
    Set<String> missing = Reading.union(ethanol.missing(), water.missing());
    if (ethanol.high() <= 0) {
      return Reading.unknown(
          FlashPoint.table(0), Double.POSITIVE_INFINITY, "ethanol in the recipe");
    }
    double most = 100 * ethanol.high() / (ethanol.high() + water.low());
    double least = ethanol.low() <= 0 ? 0 : 100 * ethanol.low() / (ethanol.low() + water.high());
    world.source("flash-point-ethanol");
    world.source("ethanol-density-recalled");
    world.predicted();
    double shift = world.within(0, FLASH_RANGE, "flash point of ethanol and water", "");
    double low = FlashPoint.ofEthanol(most) + shift;
    if (least < LEAST_ETHANOL) {
      Set<String> more = new TreeSet<>(missing);
      more.add("flash point of less than 5 % of ethanol in water");
      return new Reading(low, Double.POSITIVE_INFINITY, more);
    }
    return new Reading(low, FlashPoint.ofEthanol(least) + shift, missing);
  }
}
