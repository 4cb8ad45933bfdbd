package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.formula.Measurement;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Acid;
import gelwright.ingredient.Equivalent;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import gelwright.science.AcidBase;
import gelwright.science.AcidEquivalent;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;

/** Where the pH lands, and what that makes of acids, bases and their salts. */
final class AcidityProperties {
  /** Lowest and highest pH a water phase can have: 10 mol/kg of strong acid or base. */
  static final double LOWEST = -1;

  static final double HIGHEST = 15;

  private static final List<String> NUMBERED = List.of("pKa 1", "pKa 2", "pKa 3", "pKa 4");

  /** Asks for the species of one mole instead of a mass. */
  private static final double PER_MOLE = -1;

  /** More of an adjuster than this, mol per kg of water, is not an adjustment. */
  private static final double MOST_ADJUSTER = 5;

  static final Definition PH =
      Definition.number(
          "water-phase.pH",
          Unit.PH,
          "pH of the water phase at 25 °C: measured, else as adjusted, else from the charge balance",
          (world, item) -> pH(world));

  static final Definition PREDICTED_PH =
      Definition.number(
          "water-phase.pH-unadjusted",
          Unit.PH,
          "pH from the charge balance of what is in the water, before any adjustment",
          (world, item) -> predicted(world));

  static final Definition IONIC_STRENGTH =
      Definition.factor(
          "water-phase.ionic-strength",
          Unit.MOLAL,
          "free electrolyte, without polymer charge and the counter-ions of its neutralisation",
          (world, item) -> {
            Solution solution = solution(world);
            if (!solution.missing.isEmpty()) {
              return new Reading(0, Double.POSITIVE_INFINITY, solution.missing);
            }
            return Reading.of(
                target(world.model()).isPresent() || world.model().measured("pH").isPresent()
                    ? WaterProperties.atProductPH(world).ionicStrength()
                    : unadjusted(world).ionicStrength());
          });

  static final List<Definition> ALL =
      List.of(
          PH,
          PREDICTED_PH,
          IONIC_STRENGTH,
          Definition.choice(
              "water-phase.pH-origin",
              Set.of("measured", "adjusted", "predicted"),
              true,
              "where the pH comes from",
              (model, item) -> Chosen.of(origin(model))));

  static final Definition SHARE_AS_ACID =
      Definition.number(
          "share-as-acid",
          Unit.PERCENT,
          "share counted as the free acid (or base) it is a salt or an ester of",
          (world, item) -> shareAsAcid(world, world.model().component(item)));

  static final Definition UNDISSOCIATED =
      Definition.number(
          "undissociated",
          Unit.PERCENT,
          "part that is undissociated at the pH of the product; all of it for what is no acid or base",
          (world, item) -> undissociated(world, world.model().component(item)));

  static final Definition SHARE_AS_ZINC = shareAs(Equivalent.ZINC, "share counted as zinc");

  static final Definition SHARE_AS_RETINOL =
      shareAs(Equivalent.RETINOL, "share counted as retinol: retinol equivalents");

  static final Definition SHARE_AS_SULFUR_DIOXIDE =
      shareAs(Equivalent.SULFUR_DIOXIDE, "share counted as sulfur dioxide");

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          SHARE_AS_ACID,
          SHARE_AS_ZINC,
          SHARE_AS_RETINOL,
          SHARE_AS_SULFUR_DIOXIDE,
          UNDISSOCIATED,
          Definition.number(
              "undissociated-share",
              Unit.PERCENT,
              "undissociated acid in the recipe",
              (world, item) ->
                  world
                      .of(SHARE_AS_ACID, item)
                      .with(world.of(UNDISSOCIATED, item), (share, part) -> share * part / 100)));

  private AcidityProperties() {}

  static Truth isAcid(Model model, int item) {
    Component component = model.component(item);
    return component
        .ingredient()
        .acid()
        .fold(
            acid -> Truth.of(!acid.pKa().isEmpty()),
            Truth.IMPOSSIBLE,
            Truth.open(Set.of(component.missing("acid–base behaviour"))));
  }

  /** Share of a component; what an amount "to pH" takes is solved for, and the water makes room. */
  static Reading share(World world, int item) {
    Component component = world.model().component(item);
    if (!component.isSolvedFor()) {
      return Reading.of(component.percent());
    }
    return added(world, component).share().map(added -> added + component.percent());
  }

  /** What it takes to bring the water phase from where it lands to the target. */
  static Needed added(World world, Component component) {
    return world.of(ADDED, component.index());
  }

  private static final Shared<Needed> ADDED =
      new Shared<>(
          (world, item) ->
              needed(
                  world,
                  world.model().component(item),
                  solution(world),
                  0,
                  world.inLikely(AcidityProperties.ADDED, item)));

  /**
   * What an adjustment takes.
   *
   * @param share of the recipe, %
   * @param ionicStrength of the water phase after it, mol/kg; where it can be told
   */
  record Needed(Reading share, double ionicStrength) {}

  /**
   * Share of the recipe that takes a solution to the target.
   *
   * @param startsHigher how much higher the solution's pH is than its charge balance says
   * @param near what it takes where little is different
   */
  static Needed needed(
      World world,
      Component component,
      Solution solution,
      double startsHigher,
      @Nullable Needed near) {
    Optional<Double> target = target(world.model());
    if (target.isEmpty()) {
      return new Needed(Reading.unknown(0, 100, AdjusterProperties.noTarget(component)), 0);
    }
    return needed(world, component, solution, startsHigher, target.get(), near);
  }

  /** The same for any pH. */
  static Needed needed(
      World world,
      Component component,
      Solution solution,
      double startsHigher,
      double target,
      @Nullable Needed near) {
    Solution adjuster = new Solution();
    double mass = add(world, component, PER_MOLE, adjuster);
    Set<String> missing = Reading.union(solution.missing, adjuster.missing);
    if (!missing.isEmpty()) {
      return new Needed(new Reading(0, 100, missing), 0);
    }
    if (adjuster.species.isEmpty()) {
      return new Needed(Reading.unknown(0, 100, "an adjuster that is an acid or a base"), 0);
    }
    AcidBase.Adjustment answer =
        AcidBase.amountToReach(
            target - startsHigher,
            solution.mixture(),
            adjuster.species,
            MOST_ADJUSTER,
            AcidBase.Options.STANDARD,
            near == null ? 0 : near.ionicStrength());
    world.predicted();
    if (answer instanceof AcidBase.Amount amount) {
      return new Needed(
          Reading.of(amount.molality() * mass * waterPercent(world)), amount.ionicStrength());
    }
    if (startsHigher != 0
        && answer instanceof AcidBase.Impossible impossible
        && impossible.obstacle() == AcidBase.Obstacle.WRONG_WAY) {
      // The doubt alone carries the start past the target: then nothing need be added.
      return new Needed(Reading.of(0), 0);
    }
    return new Needed(
        Reading.unknown(0, 100, "an amount of " + component.name() + " that reaches pH " + target),
        0);
  }

  private static double waterPercent(World world) {
    return world.of(CompositionProperties.WATER).low();
  }

  private static String origin(Model model) {
    if (model.measured("pH").isPresent()) {
      return "measured";
    }
    return target(model).isPresent() ? "adjusted" : "predicted";
  }

  /** The pH the recipe is adjusted to: by the last such step, or by a "to pH" line. */
  static Optional<Double> target(Model model) {
    Optional<Double> target = Optional.empty();
    boolean adjusted = false;
    for (Step step : model.method()) {
      if (step.action() == Step.Action.ADJUST_PH) {
        adjusted = true;
        if (step.pH().isPresent()) {
          target = step.pH();
        }
      }
    }
    for (Recipe.ResolvedLine line : model.recipe().lines()) {
      adjusted |= line.line().amount() instanceof Amount.ToPH;
    }
    if (target.isPresent()) {
      return target;
    }
    Optional<Span> aim = model.brief().pH();
    return adjusted ? aim.map(Span::middle) : Optional.empty();
  }

  private static Reading pH(World world) {
    Optional<Measurement> measured = world.model().measured("pH");
    if (measured.isPresent() && measured.get().value().isPresent()) {
      world.measured();
      world.source(Practice.SOURCE);
      return Reading.of(
          world.within(
              measured.get().value().get().inBase(),
              Practice.PH_METER,
              "pH reading of " + world.model().name(),
              "a second reading of the pH"));
    }
    Optional<Double> target = target(world.model());
    if (target.isPresent()) {
      world.source(Practice.SOURCE);
      return Reading.of(
          world.within(
              target.get(),
              Practice.PH_ADJUSTED,
              "pH reached by adjusting " + world.model().name(),
              "the pH of the finished product"));
    }
    return world.of(PREDICTED_PH);
  }

  private static Reading predicted(World world) {
    Solution solution = solution(world);
    if (!solution.missing.isEmpty()) {
      Set<String> missing = new TreeSet<>(solution.missing);
      missing.add("the pH of the product (measured)");
      return new Reading(LOWEST, HIGHEST, missing);
    }
    world.predicted();
    return Reading.of(unadjusted(world).pH() + ownPH(world));
  }

  /** What the raw materials' own pH adds to a pH from the charge balance: likely nothing. */
  static double ownPH(World world) {
    world.source(Practice.SOURCE);
    return world.within(
        0, Practice.PH_PREDICTED, ownPHDoubt(world.model().name()), "the pH of the product");
  }

  static String ownPHDoubt(String formula) {
    return "raw materials' own pH in " + formula;
  }

  /** What is dissolved in the water phase, as far as it takes part in the charge balance. */
  static final class Solution {
    final List<AcidBase.Species> species = new ArrayList<>();
    final Set<String> missing = new TreeSet<>();

    /** Those of the species whose uncharged form leaves as a gas. */
    final List<AcidBase.Species> escaping = new ArrayList<>();

    private AcidBase.@Nullable Mixture mixture;

    /** All of the species, once the last is in. */
    AcidBase.Mixture mixture() {
      AcidBase.Mixture known = mixture;
      if (known == null) {
        known = AcidBase.Mixture.of(species);
        mixture = known;
      }
      return known;
    }
  }

  private static final Shared<Solution> SOLUTION =
      new Shared<>((world, item) -> dissolve(world, List.of()));

  private static final Shared<AcidBase.Equilibrium> UNADJUSTED =
      new Shared<>(
          (world, item) -> solve(solution(world), world.inLikely(AcidityProperties.UNADJUSTED, 0)));

  /** Where a solution stands; it is found sooner beside one that differs little. */
  static AcidBase.Equilibrium solve(Solution solution, AcidBase.@Nullable Equilibrium near) {
    return near == null
        ? AcidBase.solve(solution.mixture(), AcidBase.Options.STANDARD)
        : AcidBase.solve(solution.mixture(), AcidBase.Options.STANDARD, near);
  }

  static Solution solution(World world) {
    return world.of(SOLUTION);
  }

  static AcidBase.Equilibrium unadjusted(World world) {
    return world.of(UNADJUSTED);
  }

  /** What is dissolved, leaving some components out. */
  static Solution dissolve(World world, List<Component> without) {
    Solution solution = new Solution();
    Reading water = world.of(CompositionProperties.WATER);
    if (water.low() <= 0) {
      solution.missing.add("water in the recipe");
      return solution;
    }
    solution.missing.addAll(water.missing());
    for (Component component : world.model().recipe().components()) {
      if (component.units() > 0 && !without.contains(component)) {
        add(world, component, component.percent() / water.low(), solution);
      }
    }
    return solution;
  }

  /**
   * Adds what a component brings into a kilogram of water.
   *
   * @param kilograms of the component per kg of water, or {@link #PER_MOLE} for one mole of it
   * @return molar mass in kg/mol, 0 when it takes no part
   */
  static double add(World world, Component component, double kilograms, Solution solution) {
    Mole mole = world.of(MOLE, component.index());
    solution.missing.addAll(mole.missing());
    if (mole.mass() == 0) {
      return 0;
    }
    double molality = kilograms == PER_MOLE ? 1 : kilograms / mole.mass();
    for (AcidBase.Species each : mole.species()) {
      AcidBase.Species species = molality == 1 ? each : each.times(molality);
      solution.species.add(species);
      if (mole.escapes() && species instanceof AcidBase.Weak) {
        solution.escaping.add(species);
      }
    }
    return mole.mass();
  }

  /**
   * What a mole of a component brings into the charge balance.
   *
   * @param mass molar mass, kg/mol; 0 when it takes no part or is not known
   * @param species as in a kilogram of water
   * @param escapes whether its uncharged form leaves as a gas
   * @param missing what is missing to tell
   */
  private record Mole(
      double mass, List<AcidBase.Species> species, boolean escapes, Set<String> missing) {
    static final Mole NOTHING = new Mole(0, List.of(), false, Set.of());

    static Mole unknown(String missing) {
      return new Mole(0, List.of(), false, Set.of(missing));
    }
  }

  private static final Shared<Mole> MOLE =
      new Shared<>((world, item) -> mole(world, world.model().component(item)));

  private static Mole mole(World world, Component component) {
    Known<Acid> known = component.ingredient().acid();
    if (known.isUnknown()) {
      return Mole.unknown(component.missing("acid–base behaviour"));
    }
    if (known.toOptional().isEmpty()) {
      return Mole.NOTHING;
    }
    Acid acid = known.toOptional().get();
    Optional<Figure> molarMass = molarMass(component);
    if (molarMass.isEmpty()) {
      return Mole.unknown(component.missing(Trait.MOLAR_MASS.key()));
    }
    double mass = world.value(molarMass.get(), component.missing("molar mass"), "");
    List<AcidBase.Species> species = new ArrayList<>(2);
    int charge = acid.charge();
    if (acid.pKa().isEmpty()) {
      if (charge != 0) {
        species.add(new AcidBase.StrongIon(Math.abs(charge), Integer.signum(charge)));
      }
    } else if (acid.slope().isPresent()) {
      double pKa = pKa(world, component, acid)[0];
      double slope =
          world.value(acid.slope().get(), world.model().named("titration", component.name()), "");
      species.add(new AcidBase.Polyacid(1, pKa, slope));
    } else {
      List<Double> pKa = new ArrayList<>();
      for (double each : pKa(world, component, acid)) {
        pKa.add(each);
      }
      species.add(new AcidBase.Weak(acid.perMolecule(), pKa, charge));
    }
    int counterIons = acid.counterIons();
    if (counterIons != 0) {
      species.add(new AcidBase.StrongIon(Math.abs(counterIons), Integer.signum(counterIons)));
    }
    return new Mole(mass, List.copyOf(species), acid.escapes(), Set.of());
  }

  /** Adds one mole of a component. */
  static void addMole(World world, Component component, Solution solution) {
    add(world, component, PER_MOLE, solution);
  }

  static Optional<Figure> molarMass(Component component) {
    Ingredient ingredient = component.ingredient();
    Optional<String> form = component.first().source().hydrate();
    if (form.isPresent()) {
      return Optional.ofNullable(ingredient.hydrates().get(form.get()));
    }
    if (!ingredient.hydrates().isEmpty()) {
      return ingredient.hydrates().values().stream().findFirst();
    }
    return ingredient.trait(Trait.MOLAR_MASS);
  }

  // The doubt in a pKa belongs to the acid: sorbic acid and its potassium salt share it.
  static double[] pKa(World world, Component component, Acid acid) {
    String owner = acid.parent().isEmpty() ? component.name() : acid.parent();
    double[] values = new double[acid.pKa().size()];
    double last = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < values.length; i++) {
      String which =
          values.length == 1 ? "pKa" : i < NUMBERED.size() ? NUMBERED.get(i) : "pKa " + (i + 1);
      last = Math.max(last, world.value(acid.pKa().get(i), world.model().named(which, owner), ""));
      values[i] = last;
    }
    return values;
  }

  static Reading undissociated(World world, Component component) {
    return undissociated(world, component, () -> world.of(PH));
  }

  /** The same at any pH. What is no acid or base asks for none, and so does not rest on it. */
  static Reading undissociated(World world, Component component, Supplier<Reading> atPH) {
    Known<Acid> known = component.ingredient().acid();
    if (known.isUnknown()) {
      return Reading.unknown(0, 100, component.missing("acid–base behaviour"));
    }
    Optional<Acid> acid = known.toOptional();
    if (acid.isEmpty()) {
      return Reading.of(100);
    }
    if (acid.get().pKa().isEmpty()) {
      return Reading.of(0);
    }
    double[] pKa = pKa(world, component, acid.get());
    int neutral = acid.get().charge();
    if (neutral < 0 || neutral > pKa.length) {
      return Reading.of(0);
    }
    Reading pH = atPH.get();
    if (neutral > 0 && neutral < pKa.length && !pH.isKnown()) {
      // An ampholyte is most undissociated in between: not monotone, so only the far ends are
      // known.
      return new Reading(0, 100, pH.missing());
    }
    if (acid.get().slope().isPresent()) {
      double slope =
          world.value(
              acid.get().slope().get(), world.model().named("titration", component.name()), "");
      return pH.map(value -> 100 / (1 + Math.pow(10, (value - pKa[0]) / slope)));
    }
    return pH.map(value -> 100 * neutralFraction(value, pKa, neutral));
  }

  // Fractions of the protonation states are 10^(sum of (pH - pKa)) over their sum; the state that
  // has
  // lost as many protons as its charge is the neutral one.
  private static double neutralFraction(double pH, double[] pKa, int neutral) {
    double weight = 1;
    double sum = 1;
    double chosen = neutral == 0 ? 1 : 0;
    for (int i = 0; i < pKa.length; i++) {
      weight *= Math.pow(10, pH - pKa[i]);
      sum += weight;
      if (i + 1 == neutral) {
        chosen = weight;
      }
    }
    return Double.isInfinite(sum) ? 0 : chosen / sum;
  }

  static Reading shareAsAcid(World world, Component component) {
    Reading share = world.of(IngredientProperties.SHARE, component.index());
    Known<Acid> known = component.ingredient().acid();
    if (known.isUnknown()) {
      return new Reading(
          0, 100, Reading.union(share.missing(), Set.of(component.missing("acid–base behaviour"))));
    }
    Optional<Acid> acid = known.toOptional();
    if (acid.isEmpty() || acid.get().parent().isEmpty()) {
      return share;
    }
    Optional<Double> factor = factor(world, component, acid.get());
    if (factor.isEmpty()) {
      // A salt weighs more than its acid, so its share is an upper bound. A lactone weighs less.
      Set<String> missing = new TreeSet<>(share.missing());
      if (molarMass(component).isEmpty()) {
        missing.add(component.missing(Trait.MOLAR_MASS.key()));
      }
      if (parentMass(world, acid.get()).isEmpty()) {
        missing.add(Trait.MOLAR_MASS.key() + " of " + acid.get().parent());
      }
      boolean salt = acid.get().counterIons() > 0;
      return new Reading(0, salt ? share.high() : 100, missing);
    }
    return share.map(value -> value * factor.get());
  }

  private static Definition shareAs(Equivalent equivalent, String meaning) {
    return Definition.number(
        "share-as-" + equivalent.word(),
        Unit.PERCENT,
        meaning,
        (world, item) -> shareAs(world, world.model().component(item), equivalent));
  }

  // What does not say how much it counts is not taken to count nothing: it is at most all of it.
  private static Reading shareAs(World world, Component component, Equivalent equivalent) {
    Reading share = world.of(IngredientProperties.SHARE, component.index());
    Integer count = component.ingredient().countsAs().get(equivalent);
    Optional<Figure> own = molarMass(component);
    if (count == null || own.isEmpty()) {
      String missing =
          count == null
              ? component.missing(equivalent.word())
              : component.missing(Trait.MOLAR_MASS.key());
      return new Reading(0, share.high(), Reading.union(share.missing(), Set.of(missing)));
    }
    double mass = world.value(own.get(), component.missing("molar mass"), "");
    double factor = AcidEquivalent.factor(equivalent.molarMass(), mass, count);
    return share.map(value -> value * factor);
  }

  private static Optional<Figure> parentMass(World world, Acid acid) {
    return world
        .model()
        .catalogue()
        .find(acid.parent())
        .flatMap(
            parent ->
                parent.hydrates().isEmpty()
                    ? parent.trait(Trait.MOLAR_MASS)
                    : Optional.ofNullable(parent.hydrates().get("anhydrous"))
                        .or(() -> parent.trait(Trait.MOLAR_MASS)));
  }

  /** Mass of the parent acid per mass of the ingredient, if both molar masses are known. */
  private static Optional<Double> factor(World world, Component component, Acid acid) {
    Optional<Figure> own = molarMass(component);
    Optional<Figure> parent = parentMass(world, acid);
    if (own.isEmpty() || parent.isEmpty()) {
      return Optional.empty();
    }
    double mass = world.value(own.get(), component.missing("molar mass"), "");
    double acidMass =
        world.value(parent.get(), world.model().named("molar mass", acid.parent()), "");
    return Optional.of(acid.perMolecule() * acidMass / mass);
  }
}
