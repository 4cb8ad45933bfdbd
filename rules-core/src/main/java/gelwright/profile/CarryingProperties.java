package gelwright.profile;

import gelwright.formula.Equipment;
import gelwright.formula.Measurement;
import gelwright.formula.Step;
import gelwright.ingredient.Trait;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.Dispersion;
import gelwright.science.FlowCurve;
import gelwright.science.OilCapacity;
import gelwright.science.Stirring;
import gelwright.science.Suspension;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Whether the gel holds its drops and grains still, and how large stirring leaves the drops. */
final class CarryingProperties {
  /** Drops of oil as poured, m: about 2 mm, common practice; no drop is larger. */
  private static final double POURED = 2e-3;

  /** ×/÷ range of the largest drop that survives: the model's own doubt, see {@link Dispersion}. */
  private static final double DROP_FACTOR = 2;

  /** Middle of the criteria from theory to the more demanding experiments, on the factor scale. */
  private static final double CRITERION = Math.sqrt(Suspension.THEORY * Suspension.EXPERIMENT);

  /** ×/÷ range of {@link #CRITERION}: out to theory and to experiment. */
  private static final double CRITERION_FACTOR =
      Math.sqrt(Suspension.EXPERIMENT / Suspension.THEORY);

  /** Drift below this counts as this, m: a micrometre nobody sees. */
  private static final double LEAST_DRIFT = 1e-6;

  /** Drift above this counts as this, m: no package is deeper. */
  private static final double MOST_DRIFT = 1;

  static final Definition DROP_SIZE =
      Definition.factor(
          "oil.drop-size",
          Unit.MICROMETRE,
          "largest drop of oil that survives the strongest stirring after the oil has joined",
          (world, item) -> dropSize(world));

  static final Definition OIL_YIELD =
      Definition.factor(
          "oil.yield-needed",
          Unit.PASCAL,
          "yield stress that holds the largest drop of oil still",
          (world, item) ->
              yieldNeeded(world, difference(world, oilDensity(world)), world.of(DROP_SIZE)));

  static final Definition OIL_DRIFT =
      Definition.factor(
          "oil.drift",
          Unit.MILLIMETRE,
          "how far the largest drop of oil moves over the shelf life; a micrometre at least, a"
              + " metre at most",
          (world, item) ->
              drift(
                  world,
                  difference(world, oilDensity(world)),
                  world.of(DROP_SIZE),
                  CompositionProperties.sumOf(world, "oil")));

  static final List<Definition> ALL = List.of(DROP_SIZE, OIL_YIELD, OIL_DRIFT);

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          Definition.factor(
              "yield-needed",
              Unit.PASCAL,
              "yield stress that holds a grain of it still",
              (world, item) -> {
                Component grain = world.model().component(item);
                return yieldNeeded(
                    world,
                    difference(world, world.of(IngredientProperties.DENSITY, item)),
                    IngredientProperties.size(world, grain));
              }),
          Definition.factor(
              "drift",
              Unit.MILLIMETRE,
              "how far a grain of it moves over the shelf life; a micrometre at least, a metre at"
                  + " most",
              (world, item) -> {
                Component grain = world.model().component(item);
                return drift(
                    world,
                    difference(world, world.of(IngredientProperties.DENSITY, item)),
                    IngredientProperties.size(world, grain),
                    Reading.of(grain.percent()));
              }));

  private CarryingProperties() {}

  /**
   * The oil a gel carries, given what practice and crowding allow: all of it if its drops are held,
   * by the yield stress or because they drift too little over the shelf life to be seen.
   */
  static Reading held(World world, Reading capacity) {
    Reading yield = world.of(GelProperties.YIELD);
    Reading needed = world.of(OIL_YIELD);
    world.source("beris-1985");
    Reading byYield =
        new Reading(
            holding(yield.low(), needed.high()),
            holding(yield.high(), needed.low()),
            Reading.union(yield.missing(), needed.missing()));
    // Where even the worst case is held, what is missing for it does not matter.
    if (byYield.low() >= capacity.high()) {
      return capacity;
    }
    double unseen =
        world.withinFactor(
            Practice.DRIFT_UNSEEN,
            Practice.DRIFT_UNSEEN_FACTOR,
            "drift of the oil that nobody sees",
            "a filled pack left standing");
    world.source(Practice.SOURCE);
    Reading byDrift = world.of(OIL_DRIFT).map(drift -> OilCapacity.driftShare(drift, unseen));
    Reading holding = byYield.max(byDrift);
    return holding.low() >= capacity.high() ? capacity : capacity.min(holding);
  }

  private static double holding(double yield, double needed) {
    if (Double.isInfinite(yield)) {
      return 100;
    }
    return Double.isInfinite(needed) ? 0 : OilCapacity.holdingShare(yield, needed);
  }

  private static Reading yieldNeeded(World world, Reading difference, Reading size) {
    world.source("beris-1985");
    world.source("chhabra-recalled");
    world.predicted();
    double criterion =
        world.withinFactor(
            CRITERION,
            CRITERION_FACTOR,
            "yield stress that stops a sphere",
            "a filled pack left standing in the warm");
    return difference.with(
        size, (density, diameter) -> Suspension.yieldNeeded(criterion, density, diameter));
  }

  /**
   * Density of the gel between the drops and grains, kg/m³: from a reading on the product, less
   * what is dispersed in it, else by ideal volumes.
   */
  static Reading carrier(World world) {
    Optional<Measurement> measured = world.model().measured("density");
    Optional<Double> read =
        measured.flatMap(Measurement::value).map(Quantity::inBase).filter(value -> value > 0);
    if (read.isEmpty()) {
      return gelDensity(world);
    }
    world.measured();
    world.source(Practice.SOURCE);
    double density =
        world.within(
            read.get(),
            Practice.DENSITY_READING,
            "density reading of " + world.model().name(),
            "a second reading");
    double gel = 0;
    double all = 0;
    Reading dispersed = Reading.of(0);
    for (Component component : world.model().recipe().components()) {
      if (component.units() == 0) {
        continue;
      }
      all += component.percent();
      if (component.has("oil").or(component.has("particle")).odds().low() < 1) {
        gel += component.percent();
        continue;
      }
      dispersed =
          dispersed.plus(
              world
                  .of(IngredientProperties.DENSITY, component.index())
                  .map(own -> component.percent() / own));
    }
    double mass = gel;
    double volume = all / Math.max(1, density);
    // What the drops and grains leave of the volume; a reading that leaves none is of a foam, or of
    // another batch.
    return dispersed
        .map(taken -> mass / Math.max(mass / Trait.DENSITY.most(), volume - taken))
        .within(Trait.DENSITY.least(), Trait.DENSITY.most());
  }

  private static final Shared<Reading> GEL_DENSITY =
      new Shared<>((world, item) -> computeGelDensity(world));

  /** Density of all that is neither oil nor grain, kg/m³, by ideal volumes. */
  static Reading gelDensity(World world) {
    return world.of(GEL_DENSITY);
  }

  private static Reading computeGelDensity(World world) {
    double mass = 0;
    Reading volume = Reading.of(0);
    for (Component component : world.model().recipe().components()) {
      Truth dispersed = component.has("oil").or(component.has("particle"));
      if (component.units() == 0 || dispersed.odds().low() == 1) {
        continue;
      }
      mass += component.percent();
      volume =
          volume.plus(
              world
                  .of(IngredientProperties.DENSITY, component.index())
                  .map(density -> component.percent() / density));
    }
    if (mass == 0) {
      return Reading.unknown(Trait.DENSITY.least(), Trait.DENSITY.most(), "water in the recipe");
    }
    double all = mass;
    return volume.map(value -> all / value);
  }

  private static Reading oilDensity(World world) {
    double mass = 0;
    Reading volume = Reading.of(0);
    for (Component component : oils(world)) {
      mass += component.percent();
      volume =
          volume.plus(
              world
                  .of(IngredientProperties.DENSITY, component.index())
                  .map(density -> component.percent() / density));
    }
    if (mass == 0) {
      return Reading.unknown(Trait.DENSITY.least(), Trait.DENSITY.most(), "oil in the recipe");
    }
    double all = mass;
    return volume.map(value -> all / value);
  }

  private static List<Component> oils(World world) {
    return world.model().recipe().surely("oil");
  }

  /** How far a density is from that of the gel, kg/m³, without its sign. */
  private static Reading difference(World world, Reading density) {
    Reading gel = carrier(world);
    Set<String> missing = Reading.union(density.missing(), gel.missing());
    double low = density.low() - gel.high();
    double high = density.high() - gel.low();
    double most = Math.max(Math.abs(low), Math.abs(high));
    double least = low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
    return new Reading(least, most, missing);
  }

  private static Reading drift(World world, Reading difference, Reading size, Reading share) {
    Optional<Quantity> shelfLife = world.model().brief().shelfLife();
    if (shelfLife.isEmpty()) {
      return Reading.unknown(LEAST_DRIFT, MOST_DRIFT, "shelf life (product.shelf-life)");
    }
    double duration = shelfLife.get().inBase();
    GelFlow.CurveBound curve = GelProperties.curve(world);
    world.source("richardson-zaki-1954");
    world.predicted();
    Set<String> missing = Reading.union(curve.missing(), share.missing());
    missing = Reading.union(missing, Reading.union(difference.missing(), size.missing()));
    double low =
        drift(
            curve.thickest().orElse(List.of()),
            difference.low(),
            size.low(),
            share.high(),
            duration);
    double high = drift(curve.thinnest(), difference.high(), size.high(), share.low(), duration);
    // Where the best and the worst case agree, what is missing does not matter.
    return low == high
        ? Reading.of(low)
        : new Reading(Math.min(low, high), Math.max(low, high), missing);
  }

  // The share by mass stands for the share by volume: what crowding slows down is small beside the
  // doubt in the flow law.
  private static double drift(
      List<FlowCurve> curves, double difference, double size, double share, double duration) {
    if (difference == 0 || size == 0) {
      return LEAST_DRIFT;
    }
    // The gel is as thick as the thickest of its curves; without any it is unboundedly thick.
    double least =
        curves.stream()
            .mapToDouble(
                curve ->
                    Suspension.drift(curve, difference, size, Math.min(1, share / 100), duration))
            .min()
            .orElse(0);
    return Math.max(LEAST_DRIFT, Math.min(MOST_DRIFT, least));
  }

  private static Reading dropSize(World world) {
    Optional<Measurement> measured = world.model().measured("drop-size");
    if (measured.isPresent() && measured.get().value().isPresent()) {
      world.measured();
      world.source(Practice.SOURCE);
      return Reading.of(
          world.withinFactor(
              measured.get().value().get().inBase(),
              Practice.READING_FACTOR,
              "drop-size reading of " + world.model().name(),
              "a second reading"));
    }
    List<Component> oils = oils(world);
    if (oils.isEmpty()) {
      return Reading.unknown(0, POURED, "oil in the recipe");
    }
    Set<String> missing = new TreeSet<>();
    Equipment equipment = world.model().equipment();
    Optional<Stirring.Impeller> impeller = equipment.stirrerType().flatMap(type -> impeller(type));
    if (impeller.isEmpty()) {
      missing.add("type of the stirrer (equipment.stirrer)");
    }
    if (equipment.stirrerDiameter().isEmpty()) {
      missing.add("diameter of the stirrer (equipment.stirrer)");
    }
    if (world.model().method().isEmpty()) {
      missing.add("the procedure (method)");
    }
    double volume = 0;
    double tension = 0;
    double logViscosity = 0;
    for (Component oil : oils) {
      Reading density = world.of(IngredientProperties.DENSITY, oil.index());
      Reading sigma = IngredientProperties.trait(world, oil, Trait.INTERFACIAL_TENSION);
      Reading viscosity = IngredientProperties.trait(world, oil, Trait.VISCOSITY);
      missing.addAll(density.missing());
      missing.addAll(sigma.missing());
      missing.addAll(viscosity.missing());
      double own = oil.percent() / density.low();
      volume += own;
      tension += own * sigma.low();
      logViscosity += own * Math.log(Math.max(1e-12, viscosity.low()));
    }
    GelFlow.CurveBound curve = GelProperties.curve(world);
    missing.addAll(curve.missing());
    Reading gelDensity = carrier(world);
    if (!missing.isEmpty() || curve.thickest().isEmpty() || tension <= 0) {
      return new Reading(0, POURED, missing);
    }
    double smallest = POURED;
    boolean stirred = false;
    Map<List<Double>, Reading> warmth = new HashMap<>();
    Set<String> silent = new TreeSet<>();
    int joined = joined(world, oils, silent);
    List<Step> method = world.model().method();
    for (int i = Math.max(0, joined); joined >= 0 && i < method.size(); i++) {
      Step step = method.get(i);
      if (step.action() == Step.Action.FILL || standsApart(method, i)) {
        continue;
      }
      if (step.stir().isEmpty()) {
        boolean stirs =
            i == joined
                || step.action() == Step.Action.MIX
                || step.action() == Step.Action.HOMOGENISE;
        if (stirs) {
          silent.add("stirring speed of step " + (i + 1) + " (stir)");
        }
        continue;
      }
      stirred = true;
      double diameter = equipment.stirrerDiameter().get().inBase();
      double rate = Stirring.meanShear(impeller.get(), step.stir().get().inBase());
      double celsius = temperature(world, i);
      Reading warm =
          warmth.computeIfAbsent(
              List.of(celsius, rate), at -> GelFlow.warmth(world, at.get(0), at.get(1)));
      if (!warm.missing().isEmpty()) {
        return new Reading(0, POURED, warm.missing());
      }
      // The sweep of the stirrer, its diameter cubed: all of the batch passes it in some minutes.
      smallest =
          Math.min(
              smallest,
              Dispersion.stirredDrop(
                  impeller.get(),
                  warmed(GelFlow.thickest(curve.thickest().get(), rate), warm.low()),
                  Math.exp(logViscosity / volume),
                  tension / volume,
                  (gelDensity.low() + gelDensity.high()) / 2,
                  step.stir().get().inBase(),
                  diameter,
                  Math.pow(diameter, 3),
                  POURED));
    }
    if (!stirred) {
      silent.add("stirring speed after the oil has joined (stir)");
    }
    world.source("de-bruijn-1989");
    world.source("metzner-otto-1957");
    world.predicted();
    double size =
        Math.min(
            POURED,
            world.withinFactor(
                smallest,
                DROP_FACTOR,
                "size of the drops that stirring leaves",
                "the drop size under a microscope"));
    silent.addAll(softened(world));
    return silent.isEmpty() ? Reading.of(size) : new Reading(0, size, silent);
  }

  /** Temperature of the batch at the end of a step, °C. */
  private static double temperature(World world, int step) {
    return ProcessProperties.procedure(world).steps().get(step).after();
  }

  private static FlowCurve warmed(FlowCurve curve, double factor) {
    return factor == 1
        ? curve
        : curve.scaled(factor, factor).inSolvent(factor * curve.solventViscosity());
  }

  // What lowers the tension between oil and water makes smaller drops; by how much is not known.
  private static Set<String> softened(World world) {
    Set<String> softened = new TreeSet<>();
    for (Component component : world.model().recipe().components()) {
      Truth active = component.has("emulsifier").or(component.has("surfactant"));
      if (component.units() > 0 && active.odds().high() > 0) {
        softened.add("interfacial tension with " + component.name());
      }
    }
    return softened;
  }

  /** The step at which the last of the oils joins the water; -1 if that is not known. */
  private static int joined(World world, List<Component> oils, Set<String> missing) {
    Model model = world.model();
    List<Step> method = model.method();
    Map<Integer, Integer> with = model.joins();
    boolean phases = method.stream().anyMatch(step -> step.phase().isPresent());
    int last = 0;
    for (Component oil : oils) {
      for (Component.Part part : oil.parts()) {
        int at = -1;
        Integer named = with.get(part.line());
        if (named != null) {
          at = named;
        } else {
          String phase = part.source().phase();
          for (int i = 0; at < 0 && i < method.size(); i++) {
            boolean adds = method.get(i).action() == Step.Action.ADD;
            if (adds && method.get(i).phase().equals(Optional.of(phase))) {
              at = i;
            }
          }
          if (at < 0 && (!phases || worksOn(method, phase))) {
            at = 0;
          }
        }
        if (at < 0) {
          missing.add(ProcessProperties.noStep(part));
          return -1;
        }
        last = Math.max(last, at);
      }
    }
    return last;
  }

  private static boolean worksOn(List<Step> method, String phase) {
    Optional<String> wanted = Optional.of(phase);
    return method.stream()
        .anyMatch(step -> step.phase().equals(wanted) || step.into().equals(wanted));
  }

  /** Whether a step works on a phase that is only added later. */
  private static boolean standsApart(List<Step> method, int index) {
    Step step = method.get(index);
    if (step.phase().isEmpty() || step.action() == Step.Action.ADD) {
      return false;
    }
    return method.subList(index + 1, method.size()).stream()
        .anyMatch(later -> later.action() == Step.Action.ADD && later.phase().equals(step.phase()));
  }

  private static Optional<Stirring.Impeller> impeller(String type) {
    return switch (type) {
      case "paddle" -> Optional.of(Stirring.Impeller.PADDLE);
      case "propeller" -> Optional.of(Stirring.Impeller.PROPELLER);
      case "anchor" -> Optional.of(Stirring.Impeller.ANCHOR);
      case "rotor-stator" -> Optional.of(Stirring.Impeller.ROTOR_STATOR);
      case "whisk" -> Optional.of(Stirring.Impeller.WHISK);
      default -> Optional.empty();
    };
  }
}
