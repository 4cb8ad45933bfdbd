package gelwright.profile;

import gelwright.formula.Equipment;
import gelwright.ingredient.Kinetics;
import gelwright.ingredient.Known;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.science.Degradation;
import gelwright.science.Evaporation;
import gelwright.science.TemperaturePath;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;

/** What heat takes from the ingredients, and steam from the batch. */
final class HeatProperties {
  /** Hot is what lies above this, °C: the trade adds what is heat-labile below. Common practice. */
  private static final double HOT = 40;

  /** ± range of the temperature of combined phases: the vessel is left out. Common practice. */
  private static final double COMBINED_RANGE = 2;

  /** Relative humidity of a room in which nobody measured it, %. Common practice, no source. */
  private static final double HUMIDITY = 50;

  /** ± range of {@link #HUMIDITY}. */
  private static final double HUMIDITY_RANGE = 20;

  private static final String NO_METHOD = "the procedure (method)";

  private static final double COLDEST = -273.15;

  static final List<Definition> ALL =
      List.of(
          Definition.number(
              "process.combined-temperature",
              Unit.CELSIUS,
              "highest temperature right after phases are combined, without the heat of the vessel",
              (world, item) -> combined(world)),
          Definition.factor(
              "process.water-lost",
              Unit.GRAM,
              "water that leaves the vessel as steam in the procedure",
              (world, item) -> waterLost(world)));

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          Definition.number(
              "time-hot",
              Unit.MINUTE,
              "time it spends above 40 °C",
              (world, item) ->
                  ProcessProperties.secondsAbove(world, world.model().component(item), HOT)),
          Definition.number(
              "heat-retention",
              Unit.PERCENT,
              "part of it that the procedure's heat leaves, where its kinetics are known",
              (world, item) -> retention(world, world.model().component(item))));

  private HeatProperties() {}

  private static Reading combined(World world) {
    if (world.model().method().isEmpty()) {
      return Reading.unknown(COLDEST, Double.POSITIVE_INFINITY, NO_METHOD);
    }
    Procedure procedure = ProcessProperties.procedure(world);
    if (Double.isInfinite(procedure.combined())) {
      return Reading.unknown(
          COLDEST, Double.POSITIVE_INFINITY, "a step that adds one phase to another");
    }
    world.source(Practice.SOURCE);
    world.predicted();
    double combined =
        world.within(
            procedure.combined(),
            COMBINED_RANGE,
            "heat that the vessels bring",
            "the temperature right after combining");
    return procedure.missingCombined().isEmpty()
        ? Reading.of(combined)
        : new Reading(COLDEST, Double.POSITIVE_INFINITY, procedure.missingCombined());
  }

  // The surface is that of the vessel and the water as hot as the batch. A cover that is not stated
  // is somewhere between closed and open; how full the vessel is belongs to the range.
  private static Reading waterLost(World world) {
    Reading batch = world.of(BriefProperties.BATCH_MASS);
    Reading water = world.of(CompositionProperties.WATER);
    double most = batch.high() * water.high() / 100;
    if (Double.isNaN(most)) {
      most = 0;
    }
    Equipment equipment = world.model().equipment();
    Set<String> missing = new TreeSet<>();
    if (world.model().method().isEmpty()) {
      missing.add(NO_METHOD);
    }
    if (equipment.vesselDiameter().isEmpty()) {
      missing.add("diameter of the vessel (equipment.vessel)");
    }
    Optional<Component> aqua = world.model().recipe().component(Recipe.WATER);
    if (aqua.isEmpty()) {
      missing.add("water in the recipe");
    }
    if (!missing.isEmpty()) {
      return new Reading(0, most, missing);
    }
    Component.Part main = aqua.get().first();
    for (Component.Part part : aqua.get().parts()) {
      main = part.units() > main.units() ? part : main;
    }
    Optional<Procedure.Cohort> cohort = ProcessProperties.procedure(world).cohort(main.line());
    if (cohort.isEmpty()) {
      return Reading.unknown(0, most, ProcessProperties.noStep(main));
    }
    TemperaturePath path = cohort.get().path;
    Optional<String> cover = equipment.vesselCover();
    double highest = cover.map(HeatProperties::cover).orElse(Evaporation.Cover.OPEN.factor());
    double lowest = cover.map(HeatProperties::cover).orElse(0.0);
    if (cover.isEmpty()) {
      missing.add("cover of the vessel (equipment.vessel)");
    }
    double diameter = equipment.vesselDiameter().get().inBase();
    double open =
        Evaporation.loss(
            path,
            Math.PI * diameter * diameter / 4,
            1,
            Procedure.room(world),
            humidity(world, equipment.roomHumidity()),
            0);
    world.source("evaporation-correlation");
    world.predicted();
    double factor =
        world.withinFactor(
            1,
            Evaporation.DOUBT,
            "water that an open vessel loses",
            "the mass of the batch before and after heating");
    double low = Math.min(most, lowest * open * factor);
    double high = Math.min(most, highest * open * factor);
    boolean tooHot = path.peakCelsius() > Evaporation.HOTTEST && highest > 0;
    if (tooHot) {
      missing.add("evaporation above 80 °C");
    }
    missing.addAll(cohort.get().missingTimes);
    missing.addAll(cohort.get().missingTemperatures);
    boolean unbounded =
        highest > 0
            && (tooHot
                || !cohort.get().missingTimes.isEmpty()
                || !cohort.get().missingTemperatures.isEmpty());
    if (!cohort.get().missingTemperatures.isEmpty()) {
      low = 0;
    }
    return new Reading(low, unbounded ? Math.max(low, most) : high, missing);
  }

  private static double cover(String word) {
    return switch (word) {
      case "open" -> Evaporation.Cover.OPEN.factor();
      case "loose" -> Evaporation.Cover.LOOSE.factor();
      default -> Evaporation.Cover.CLOSED.factor();
    };
  }

  private static double humidity(World world, Optional<Quantity> stated) {
    if (stated.isPresent()) {
      return stated.get().inBase() / 100;
    }
    world.source(Practice.SOURCE);
    return world.within(
            HUMIDITY, HUMIDITY_RANGE, "humidity of the room", "the humidity of the room")
        / 100;
  }

  // Outside the temperatures at which the constants were measured the rate is only bounded: below
  // them between none and that at the lower end, above them at least that at the upper end.
  private static Reading retention(World world, Component component) {
    Known<Kinetics> known = component.ingredient().kinetics();
    if (known.fold(kinetics -> false, true, false)) {
      return Reading.of(100);
    }
    if (known.isUnknown()) {
      return Reading.unknown(0, 100, component.missing("kinetics of heat loss"));
    }
    if (world.model().method().isEmpty()) {
      return Reading.unknown(0, 100, NO_METHOD);
    }
    Kinetics kinetics = known.toOptional().orElseThrow();
    Degradation.Rate rate =
        new Degradation.Arrhenius(
            world.value(
                kinetics.rate(),
                component.missing("rate of heat loss"),
                "an assay after the procedure"),
            kinetics.at(),
            world.value(
                kinetics.activationEnergy(),
                component.missing("activation energy of heat loss"),
                "an assay after the procedure"));
    Set<String> missing = new TreeSet<>();
    double low = 0;
    double high = 0;
    double all = 0;
    for (Component.Part part : component.parts()) {
      all += part.units();
      Optional<Procedure.Cohort> cohort = ProcessProperties.procedure(world).cohort(part.line());
      if (cohort.isEmpty()) {
        missing.add(ProcessProperties.noStep(part));
        high += part.units();
        continue;
      }
      TemperaturePath path = cohort.get().path;
      missing.addAll(cohort.get().missingTemperatures);
      missing.addAll(cohort.get().missingTimes);
      boolean open = !cohort.get().missingTemperatures.isEmpty();
      double least = left(path, t -> t < kinetics.from() ? 0 : rate.at(Math.min(t, kinetics.to())));
      double most = left(path, t -> rate.at(Math.max(t, kinetics.from())));
      high += part.units() * (open ? 1 : least);
      boolean above = path.peakCelsius() > kinetics.to();
      if (path.secondsAbove(COLDEST) > path.secondsAbove(kinetics.from() - 1e-9)) {
        missing.add("kinetics of " + component.name() + " below " + celsius(kinetics.from()));
      }
      if (above) {
        missing.add("kinetics of " + component.name() + " above " + celsius(kinetics.to()));
      }
      boolean unbounded = above || open || !cohort.get().missingTimes.isEmpty();
      low += unbounded ? 0 : part.units() * most;
    }
    world.predicted();
    return all == 0
        ? Reading.of(100)
        : new Reading(100 * Math.min(low, high) / all, 100 * high / all, missing);
  }

  private static String celsius(double value) {
    return gelwright.quantity.Numbers.plain(value) + " °C";
  }

  private static double left(TemperaturePath path, DoubleUnaryOperator rate) {
    return Math.exp(-path.integrate(rate));
  }
}
