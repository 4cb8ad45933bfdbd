package gelwright.profile;

import gelwright.formula.Measurement;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.HydrationData;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.FlowCurve;
import gelwright.science.FlowLaw;
import gelwright.science.FlowModifiers;
import gelwright.science.Hydration;
import gelwright.science.OilCapacity;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;

/** How the gel flows at the end of the procedure, and how much oil it carries. */
final class GelProperties {
  private static final String FLOW_READING = "a flow curve, or the viscosity at 10 /s";

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
          (world, item) -> hydration(world, world.model().component(item), true));

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          CONCENTRATION,
          HYDRATION_OF_GUM,
          Definition.number(
              "law-from",
              Unit.PERCENT,
              "lowest concentration in the water phase at which the gum's flow is known",
              (world, item) -> range(world, item, Gum::from)),
          Definition.number(
              "law-to",
              Unit.PERCENT,
              "highest concentration in the water phase at which the gum's flow is known",
              (world, item) -> range(world, item, Gum::to)),
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
          (world, item) -> measuredOr(world, "yield-stress", FlowCurve::yieldStress));

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

  /** Apparent viscosity at a shear rate; a reading at that rate beats the prediction. */
  static Reading viscosityAt(World world, double rate) {
    Optional<Measurement> measured = world.model().measured("viscosity");
    if (measured.isPresent()
        && measured.get().value().isPresent()
        && measured.get().shearRate().isPresent()
        && Math.abs(Math.log(measured.get().shearRate().get().inBase() / rate)) < 1e-9) {
      world.measured();
      return Reading.of(reading(world, measured.get().value().get().inBase(), "viscosity"));
    }
    return predictedViscosity(world, rate);
  }

  /** Apparent viscosity at a shear rate by the flow laws, whatever was measured. */
  static Reading predictedViscosity(World world, double rate) {
    return curve(world).read(curve -> curve.viscosity(rate));
  }

  private static Reading measuredOr(
      World world, String what, ToDoubleFunction<FlowCurve> predicted) {
    Optional<Measurement> measured = world.model().measured(what);
    if (measured.isPresent() && measured.get().value().isPresent()) {
      world.measured();
      return Reading.of(reading(world, measured.get().value().get().inBase(), what));
    }
    return curve(world).read(predicted);
  }

  private static double reading(World world, double value, String what) {
    world.source(Practice.SOURCE);
    return world.withinFactor(
        value,
        Practice.READING_FACTOR,
        what + " reading of " + world.model().formula().name(),
        "a second reading");
  }

  /**
   * The flow of the gel as a bound: the thinnest and the thickest it can be, and what is missing.
   * Each is the thickest of several curves: that of all gums together and of each gum alone.
   */
  record CurveBound(
      List<FlowCurve> thinnest, Optional<List<FlowCurve>> thickest, Set<String> missing) {
    /** A number that grows with the thickness of the gel. */
    Reading read(ToDoubleFunction<FlowCurve> number) {
      double low = most(thinnest, number);
      double high = thickest.map(curves -> most(curves, number)).orElse(Double.POSITIVE_INFINITY);
      return new Reading(Math.min(low, high), Math.max(low, high), missing);
    }

    private static double most(List<FlowCurve> curves, ToDoubleFunction<FlowCurve> number) {
      return curves.stream().mapToDouble(number).max().orElse(0);
    }
  }

  static CurveBound curve(World world) {
    return world.shared(CurveBound.class, GelProperties::computeCurve);
  }

  // Each gum gives a concentration that is hydrated (between a least and a most where something is
  // missing) and a law. Below a law's range the end of the range bounds the gel from above, above
  // it from below. A gum of which no law is known leaves the gel unbounded above; the others still
  // bound it from below, since more gum never thins a gel.
  private static CurveBound computeCurve(World world) {
    List<FlowLaw.Part> least = new ArrayList<>();
    List<FlowLaw.Part> most = new ArrayList<>();
    boolean unbounded = false;
    Set<String> missing = new TreeSet<>();
    for (Component component : world.model().recipe().components()) {
      Truth gum = component.has("gum");
      if (gum.odds().high() == 0 || component.units() == 0) {
        continue;
      }
      boolean sure = gum.odds().low() == 1;
      if (!sure) {
        missing.addAll(gum.missing());
      }
      Optional<Gum> data = gum(component).toOptional();
      if (data.isEmpty()) {
        missing.add("flow law of " + component.name());
        unbounded = true;
        continue;
      }
      Reading concentration = concentration(world, component);
      Reading hydrated = hydration(world, component, false);
      missing.addAll(concentration.missing());
      missing.addAll(hydrated.missing());
      FlowLaw law = law(world, component, data.get());
      double low = FlowModifiers.effectiveConcentration(concentration.low(), hydrated.low() / 100);
      double high =
          FlowModifiers.effectiveConcentration(
              Math.min(concentration.high(), 100), hydrated.high() / 100);
      double from = data.get().from();
      double to = data.get().to();
      String range =
          "flow of "
              + component.name()
              + " outside "
              + gelwright.quantity.Numbers.plain(from)
              + " to "
              + gelwright.quantity.Numbers.plain(to)
              + " %";
      if (high < from) {
        missing.add(range);
        high = from;
        low = 0;
      } else if (low < from) {
        if (!hydrated.isKnown() || !concentration.isKnown()) {
          low = 0;
        }
      }
      if (high > to) {
        missing.add(range);
        unbounded = true;
        low = Math.min(low, to);
      }
      Reading left = GumModifiers.factor(world, component, data.get(), high);
      missing.addAll(left.missing());
      if (sure) {
        least.add(GumModifiers.part(law, low, left.low()));
      }
      most.add(GumModifiers.part(law, high, left.high()));
    }
    double solvent = FlowLaw.WATER_VISCOSITY;
    world.predicted();
    List<FlowCurve> thin = loaded(world, mix(world, least, solvent), false, missing);
    if (unbounded) {
      return new CurveBound(thin, Optional.empty(), missing);
    }
    List<FlowCurve> thick = loaded(world, mix(world, most, solvent), true, missing);
    return new CurveBound(thin, Optional.of(thick), missing);
  }

  // A weighted mean of a strong gum and much of a weak one can come out below the strong gum alone.
  // No gum thins another that it does not react with, so each alone is a lower bound.
  private static List<FlowCurve> mix(World world, List<FlowLaw.Part> parts, double solvent) {
    FlowCurve curve = FlowLaw.mix(parts, solvent);
    List<FlowLaw.Part> present = parts.stream().filter(part -> part.concentration() > 0).toList();
    if (present.size() < 2) {
      return List.of(curve);
    }
    double factor =
        world.withinFactor(
            1, FlowLaw.MIXTURE_DOUBT, "how the gums of this mixture add up", FLOW_READING);
    List<FlowCurve> curves = new ArrayList<>();
    curves.add(curve.scaled(factor, factor));
    for (FlowLaw.Part part : present) {
      curves.add(part.law().at(part.concentration(), solvent));
    }
    return curves;
  }

  // Drops and grains stiffen a gel, the more the more room they take. What may be drops or grains
  // counts as dissolved for the thin end and as dispersed for the thick one; a density that is
  // missing is taken where it is physically possible: heaviest for the thin end, lightest for the
  // thick one.
  private static List<FlowCurve> loaded(
      World world, List<FlowCurve> gel, boolean thick, Set<String> missing) {
    double volume = 0;
    double dispersed = 0;
    for (Component component : world.model().recipe().components()) {
      if (component.units() == 0) {
        continue;
      }
      Truth drops = component.has("oil").or(component.has("particle"));
      if (drops.odds().low() < 1) {
        missing.addAll(drops.missing());
      }
      if (drops.odds().high() == 0 || (drops.odds().low() < 1 && !thick)) {
        volume += component.percent();
        continue;
      }
      Reading density = IngredientProperties.trait(world, component, Trait.DENSITY);
      missing.addAll(density.missing());
      double own = component.percent() / ((thick ? density.low() : density.high()) / 1000);
      volume += own;
      dispersed += own;
    }
    if (dispersed == 0 || volume == 0) {
      return gel;
    }
    double filled = Math.min(Practice.FULLEST, dispersed / volume);
    return gel.stream()
        .map(curve -> FlowModifiers.loaded(curve, filled, FlowModifiers.RIGID_SPHERE))
        .toList();
  }

  private static Known<Gum> gum(Component component) {
    Ingredient ingredient = component.ingredient();
    Optional<String> grade = component.first().source().grade();
    if (grade.isPresent() && ingredient.grades().containsKey(grade.get())) {
      Known<Gum> own = ingredient.grades().get(grade.get()).gum();
      if (!own.isUnknown()) {
        return own;
      }
    }
    return ingredient.gum();
  }

  private static FlowLaw law(World world, Component component, Gum gum) {
    FlowLaw.Range range = new FlowLaw.Range(gum.from(), gum.to());
    Parameters p = new Parameters(world, component.name(), gum.parameters());
    return switch (gum.law()) {
      case "herschel-bulkley" ->
          new FlowLaw.HerschelBulkley(
              p.of("yield"),
              p.of("yield-power"),
              p.of("consistency"),
              p.of("consistency-power"),
              p.of("flow-index"),
              range);
      case "cross" ->
          new FlowLaw.Cross(
              p.of("zero-shear-viscosity"),
              p.of("zero-shear-power"),
              p.of("time"),
              p.of("time-power"),
              p.of("cross-exponent"),
              range);
      case "coil" ->
          new FlowLaw.RandomCoil(
              p.of("intrinsic-viscosity") / Unit.DECILITRE_PER_GRAM.toBase(1),
              p.of("break"),
              p.of("power-below"),
              p.of("power-above"),
              p.of("molar-mass"),
              p.of("cross-exponent"),
              range);
      case "newtonian" -> new FlowLaw.Exponential(p.of("viscosity"), p.of("growth"), range);
      default -> throw new IllegalArgumentException("no such flow law: " + gum.law());
    };
  }

  private record Parameters(World world, String gum, Map<String, Figure> figures) {
    double of(String name) {
      Figure figure = figures.get(name);
      if (figure == null) {
        throw new IllegalArgumentException("flow law of " + gum + " lacks " + name);
      }
      return world.value(figure, name + " of " + gum, FLOW_READING);
    }
  }

  private static Reading range(World world, int item, ToDoubleFunction<Gum> end) {
    Component component = world.model().component(item);
    return gum(component)
        .toOptional()
        .map(gum -> Reading.of(end.applyAsDouble(gum)))
        .orElseGet(() -> Reading.unknown(0, 100, "flow law of " + component.name()));
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

  /**
   * Hydrated part of a gum, in %.
   *
   * @param atEndOfHydration at the end of its hydration; else at the end of the procedure
   */
  static Reading hydration(World world, Component component, boolean atEndOfHydration) {
    Optional<HydrationData> data = hydrationData(component).toOptional();
    if (data.isEmpty()) {
      return Reading.unknown(0, 100, "hydration of " + component.name());
    }
    if (world.model().formula().method().isEmpty()) {
      return Reading.unknown(0, 100, "the procedure (method)");
    }
    Component.Part part = component.first();
    Optional<Procedure.Cohort> cohort = ProcessProperties.procedure(world).cohort(part.line());
    if (cohort.isEmpty()) {
      return Reading.unknown(0, 100, ProcessProperties.noStep(part));
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
    var path = cohort.get().path;
    if (atEndOfHydration
        && cohort.get().hydratedUntil >= 0
        && cohort.get().hydratedUntil < path.endSeconds()) {
      path = path.until(cohort.get().hydratedUntil);
    }
    double hydrated = 100 * model.after(path);
    Set<String> missing = new TreeSet<>(cohort.get().missingTemperatures);
    missing.addAll(cohort.get().missingTimes);
    if (threshold.isEmpty()) {
      // It may need more heat than it gets; it hydrates at most as if it needed none.
      missing.add(component.missing(Trait.HYDRATION_THRESHOLD.key()));
      return new Reading(0, missing.size() == 1 ? hydrated : 100, missing);
    }
    // A missing time counts as none: what is hydrated without it is a lower bound.
    return missing.isEmpty()
        ? Reading.of(hydrated)
        : new Reading(cohort.get().missingTemperatures.isEmpty() ? hydrated : 0, 100, missing);
  }

  private static Known<HydrationData> hydrationData(Component component) {
    Optional<String> grade = component.first().source().grade();
    Ingredient ingredient = component.ingredient();
    if (grade.isPresent() && ingredient.grades().containsKey(grade.get())) {
      Known<HydrationData> own = ingredient.grades().get(grade.get()).hydration();
      if (!own.isUnknown()) {
        return own;
      }
    }
    return ingredient.hydration();
  }

  private static Reading slowest(World world) {
    Reading slowest = Reading.of(100);
    for (Component component : world.model().recipe().components()) {
      Truth gum = component.has("gum");
      if (gum.odds().high() == 0 || component.units() == 0) {
        continue;
      }
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
    for (Component component : world.model().recipe().components()) {
      Truth gum = component.has("gum");
      if (component.units() == 0 || gum.odds().high() == 0) {
        continue;
      }
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
    for (Component component : world.model().recipe().components()) {
      Truth oil = component.has("oil");
      if (component.units() == 0 || oil.odds().high() == 0) {
        continue;
      }
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
    double share = OilCapacity.crowdingShare(high, Practice.GEL_DENSITY);
    // Where a density is missing there is no least: an exact bound taken for a doubtful number
    // would make the odds better than they are.
    return missing.isEmpty() ? Reading.of(share) : new Reading(0, share, missing);
  }
}
