package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.HydrationData;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.FlowCurve;
import gelwright.science.Hydration;
import gelwright.science.OilCapacity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;

/** How the gel flows at the end of the procedure, and how much oil it carries. */
final class GelProperties {
  static final Definition CONCENTRATION =
      Definition.number(
          "concentration",
          Unit.PERCENT,
          "share of the ingredient in the water phase",
          (world, item) -> concentration(world, world.model().component(item)));

  static final Definition HYDRATION_OF_GUM =
      Definition.number(
          "hydration",
          Unit.PERCENT,
          "hydrated part of a gum at the end of its hydration",
          (world, item) -> hydration(world, world.model().component(item)));

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          CONCENTRATION,
          HYDRATION_OF_GUM,
          Definition.number(
              "law-from",
              Unit.PERCENT,
              "lowest concentration in the water phase at which the gum's flow is known",
              (world, item) -> range(world, item, Gum::from, true)),
          Definition.number(
              "law-to",
              Unit.PERCENT,
              "highest concentration in the water phase at which the gum's flow is known",
              (world, item) -> range(world, item, Gum::to, false)),
          Definition.number(
              "hydrates-from",
              Unit.CELSIUS,
              "lowest temperature at which the gum hydrates; of a gum that hydrates cold the "
                  + "freezing point",
              (world, item) -> threshold(world, world.model().component(item))));

  static final Definition YIELD =
      Definition.factor(
          "gel.yield-stress",
          Unit.PASCAL,
          "stress below which the gel does not flow, at the end of the procedure, 25 °C",
          (world, item) -> curve(world).read(FlowCurve::yieldStress));

  static final List<Definition> ALL = all();

  private GelProperties() {}

  private static List<Definition> all() {
    List<Definition> all = new ArrayList<>();
    all.add(YIELD);
    all.add(viscosity("gel.viscosity-at-rest", 0.01, "nearly at rest"));
    all.add(viscosity("gel.viscosity-levelling", 0.1, "levelling"));
    all.add(viscosity("gel.viscosity-pouring", 10, "pouring and scooping"));
    all.add(viscosity("gel.viscosity-rubbing", 1000, "rubbing in"));
    all.add(viscosity("gel.viscosity-spraying", 100_000, "in a spray nozzle"));
    all.add(
        Definition.number(
            "gel.hydration",
            Unit.PERCENT,
            "hydrated part of the slowest gum at the end of its hydration",
            (world, item) -> slowest(world)));
    all.add(
        Definition.factor(
            "gel.oil-capacity",
            Unit.PERCENT,
            "oil this gel carries with no emulsifier",
            (world, item) -> oilCapacity(world)));
    return List.copyOf(all);
  }

  private static Definition viscosity(String name, double rate, String when) {
    return Definition.factor(
        name,
        Unit.PASCAL_SECOND,
        "apparent viscosity "
            + when
            + ", at "
            + gelwright.quantity.Numbers.plain(rate)
            + " /s, 25 °C",
        (world, item) -> viscosityAt(world, rate));
  }

  /** Apparent viscosity at a shear rate. */
  static Reading viscosityAt(World world, double rate) {
    return curve(world).read(curve -> curve.viscosity(rate));
  }

  /** Apparent viscosity of the finished gel at a shear rate and the temperature after a step. */
  static Reading viscosityAfter(World world, int step, double rate) {
    Procedure.StepState state = ProcessProperties.procedure(world).steps().get(step);
    return viscosityAt(world, rate)
        .with(
            GelFlow.warmth(world, state.after(), rate),
            // However thick, times nothing, is nothing.
            (viscosity, ratio) -> ratio == 0 ? 0 : viscosity * ratio);
  }

  private static final Shared<GelFlow.CurveBound> CURVE =
      new Shared<>((world, item) -> GelReadings.curve(world));

  /** The flow of the gel at the end of the procedure, at 25 °C: measured, else predicted. */
  static GelFlow.CurveBound curve(World world) {
    return world.of(CURVE);
  }

  // Of several grades the range in which all are known.
  private static Reading range(World world, int item, ToDoubleFunction<Gum> end, boolean widest) {
    Component component = world.model().component(item);
    Reading range = Reading.unknown(0, 100, "flow law of " + component.name());
    boolean first = true;
    for (GelFlow.Portion portion : GelFlow.portions(component)) {
      Reading own =
          portion
              .gum()
              .toOptional()
              .map(gum -> Reading.of(end.applyAsDouble(gum)))
              .orElse(Reading.unknown(0, 100, "flow law of " + component.name()));
      range = first ? own : widest ? range.max(own) : range.min(own);
      first = false;
    }
    return range;
  }

  static Reading concentration(World world, Component component) {
    Reading phase = world.of(CompositionProperties.WATER_PHASE);
    double share = component.percent();
    if (phase.high() <= 0) {
      return Reading.unknown(0, 100, "water in the recipe");
    }
    return phase.map(
        total -> total <= 0 ? 100 : Math.min(100, 100 * share / Math.max(total, share)));
  }

  private static Reading threshold(World world, Component component) {
    Optional<Figure> figure = component.ingredient().trait(Trait.HYDRATION_THRESHOLD);
    if (figure.isPresent()) {
      return Reading.of(
          world.value(figure.get(), component.missing(Trait.HYDRATION_THRESHOLD.key()), ""));
    }
    return Reading.unknown(
        Trait.HYDRATION_THRESHOLD.least(),
        Trait.HYDRATION_THRESHOLD.most(),
        component.missing(Trait.HYDRATION_THRESHOLD.key()));
  }

  /** Hydrated part of a gum at the end of its hydration, in %, over all lines that bring it. */
  private static Reading hydration(World world, Component component) {
    Reading mean = Reading.of(0);
    for (GelFlow.Portion portion : GelFlow.portions(component)) {
      double share = component.units() == 0 ? 1 : portion.share();
      mean = mean.plus(hydration(world, portion, true).map(value -> share * value));
    }
    return mean.within(0, 100);
  }

  /**
   * Hydrated part of what a recipe brings of a gum in one grade, in %.
   *
   * @param atEndOfHydration at the end of its hydration; else at the end of the procedure
   */
  static Reading hydration(World world, GelFlow.Portion portion, boolean atEndOfHydration) {
    Component component = portion.component();
    Optional<HydrationData> data = portion.hydration().toOptional();
    if (data.isEmpty()) {
      return Reading.unknown(0, 100, "hydration of " + component.name());
    }
    if (world.model().method().isEmpty()) {
      return Reading.unknown(0, 100, "the procedure (method)");
    }
    double rate =
        world.value(
            data.get().rate(),
            "hydration rate of " + component.name(),
            "the viscosity after the hydration step and again a day later");
    double energy =
        world.value(
            data.get().activationEnergy(),
            "hydration activation energy of " + component.name(),
            "");
    Optional<Figure> threshold = component.ingredient().trait(Trait.HYDRATION_THRESHOLD);
    Hydration model =
        new Hydration(
            rate,
            energy,
            data.get().shape(),
            1,
            threshold.map(Figure::likely).orElse(Hydration.NO_THRESHOLD));
    long units = 0;
    for (Component.Part part : portion.parts()) {
      units += part.units();
    }
    Reading mean = Reading.of(0);
    for (Component.Part part : portion.parts()) {
      double share = units == 0 ? 1.0 / portion.parts().size() : (double) part.units() / units;
      Reading own = hydration(world, component, part, model, atEndOfHydration);
      mean = mean.plus(own.map(value -> share * value));
    }
    return mean.within(0, 100);
  }

  private static Reading hydration(
      World world,
      Component component,
      Component.Part part,
      Hydration model,
      boolean atEndOfHydration) {
    Optional<Procedure.Cohort> cohort = ProcessProperties.procedure(world).cohort(part.line());
    if (cohort.isEmpty()) {
      return Reading.unknown(0, 100, ProcessProperties.noStep(part));
    }
    var path = cohort.get().path;
    if (atEndOfHydration
        && cohort.get().hydratedUntil >= 0
        && cohort.get().hydratedUntil < path.endSeconds()) {
      path = path.until(cohort.get().hydratedUntil);
    }
    double hydrated = 100 * model.after(path);
    Set<String> missing = new TreeSet<>(cohort.get().missingTemperatures);
    missing.addAll(cohort.get().missingTimes);
    if (component.ingredient().trait(Trait.HYDRATION_THRESHOLD).isEmpty()) {
      // It may need more heat than it gets; it hydrates at most as if it needed none.
      missing.add(component.missing(Trait.HYDRATION_THRESHOLD.key()));
      return new Reading(0, missing.size() == 1 ? hydrated : 100, missing);
    }
    // A missing time counts as none: what is hydrated without it is a lower bound.
    return missing.isEmpty()
        ? Reading.of(hydrated)
        : new Reading(cohort.get().missingTemperatures.isEmpty() ? hydrated : 0, 100, missing);
  }

  private static Reading slowest(World world) {
    Reading slowest = Reading.of(100);
    for (Component component : world.model().recipe().possibly("gum")) {
      Truth gum = component.has("gum");
      Reading own = world.of(HYDRATION_OF_GUM, component.index());
      if (gum.odds().low() < 1) {
        own = new Reading(own.low(), 100, Reading.union(own.missing(), gum.missing()));
      }
      slowest = slowest.min(own);
    }
    return slowest;
  }

  // The smaller of what the gums carry by practice and what crowding allows. What drop break-up and
  // suspension allow joins where the procedure tells how the oil was stirred in.
  private static Reading oilCapacity(World world) {
    Reading capacity = Reading.of(0);
    for (Component component : world.model().recipe().possibly("gum")) {
      Truth gum = component.has("gum");
      Optional<Figure> perGum = component.ingredient().trait(Trait.OIL_PER_GUM);
      Reading own =
          perGum.isEmpty()
              ? Reading.unknown(0, Double.POSITIVE_INFINITY, component.missing("oil-per-gum"))
              : Reading.of(
                  component.percent()
                      * world.value(
                          perGum.get(),
                          "oil per part of " + component.name(),
                          "a storage test of this gel with its oil"));
      if (gum.odds().low() < 1) {
        own = new Reading(0, own.high(), Reading.union(own.missing(), gum.missing()));
      }
      capacity = capacity.plus(own);
    }
    capacity = capacity.min(crowding(world));
    return CompositionProperties.sumOf(world, "oil").high() > 0
        ? CarryingProperties.held(world, capacity)
        : capacity;
  }

  // The share at which drops touch grows with the density of the oil. A missing density is bounded
  // above by what is physically possible; what may be an oil may shift the mean density.
  private static Reading crowding(World world) {
    double mass = 0;
    double least = 0;
    double heaviest = 0;
    Set<String> missing = new TreeSet<>();
    for (Component component : world.model().recipe().possibly("oil")) {
      Truth oil = component.has("oil");
      Reading density = IngredientProperties.trait(world, component, Trait.DENSITY);
      missing.addAll(density.missing());
      if (oil.odds().low() == 1) {
        mass += component.percent();
        least += component.percent() / density.high();
      } else {
        missing.addAll(oil.missing());
        heaviest = Math.max(heaviest, density.high());
      }
    }
    double high = Math.max(mass > 0 ? mass / least : 0, heaviest);
    if (high == 0) {
      return Reading.of(100);
    }
    double gel =
        world.model().measured("density").isPresent()
            ? CarryingProperties.carrier(world).low()
            : Practice.GEL_DENSITY;
    double share = OilCapacity.crowdingShare(high, gel);
    // Where a density is missing there is no least: an exact bound taken for a doubtful number
    // would make the odds better than they are.
    return missing.isEmpty() ? Reading.of(share) : new Reading(0, share, missing);
  }
}
