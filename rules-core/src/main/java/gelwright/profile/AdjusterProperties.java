package gelwright.profile;

import gelwright.formula.Step;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import gelwright.science.AcidBase;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** What is added to reach a pH: whether it can, and how much it takes. */
final class AdjusterProperties {
  // The water phase is solved without any adjuster; an adjuster is then an amount of charge added
  // to
  // it. Added to a solution that already stands at the target, whatever shows net positive charge
  // there raises the pH and whatever shows net negative charge lowers it, so the way it moves
  // follows from its own charge at the target. That the raw materials bring a pH of their own is a
  // doubt of the start: the same amount then leads as far from the target as the start was off.
  private static final String UP = "up";
  private static final String DOWN = "down";
  private static final String NEITHER = "neither";

  /** Charge per mole below which an adjuster moves nothing; far below that of any acid or base. */
  private static final double NO_CHARGE = 1e-9;

  private static final double HALF_A_TENTH = 0.05;

  static final Definition BEFORE =
      Definition.number(
          "pH-before",
          Unit.PH,
          "pH of the water phase before anything is added to adjust it, from the charge balance",
          (world, item) -> before(world));

  static final Definition SHARE_NEEDED =
      Definition.number(
          "share-needed",
          Unit.PERCENT,
          "share of the recipe that it takes to reach the target",
          (world, item) -> world.of(AdjusterProperties.NEEDED, item).share());

  static final List<Definition> OF_ADJUSTERS =
      List.of(
          Definition.choice(
              "name",
              Set.of(),
              true,
              "INCI name, or the name as written when it is not known",
              (model, item) -> Chosen.of(adjuster(model, item).name())),
          Definition.choice(
              "moves",
              Set.of(UP, DOWN, NEITHER),
              false,
              "where it moves the pH when the target is near",
              (model, item) -> moves(model, adjuster(model, item))),
          Definition.truth(
              "has-a-counterpart",
              false,
              "whether another adjuster moves the pH the other way",
              AdjusterProperties::counterpart),
          Definition.number(
              "target",
              Unit.PH,
              "pH that is to be reached",
              (world, item) ->
                  AcidityProperties.target(world.model())
                      .map(Reading::of)
                      .orElseGet(
                          () ->
                              Reading.unknown(
                                  AcidityProperties.LOWEST,
                                  AcidityProperties.HIGHEST,
                                  noTarget(adjuster(world.model(), item))))),
          BEFORE,
          SHARE_NEEDED,
          Definition.number(
              "amount-needed",
              Unit.GRAM,
              "mass for the batch that it takes to reach the target",
              (world, item) ->
                  world
                      .of(SHARE_NEEDED, item)
                      .with(
                          world.of(BriefProperties.BATCH_MASS),
                          (share, batch) -> share == 0 ? 0 : share * batch / 100)));

  private AdjusterProperties() {}

  /** Ingredients of the recipe that a line asks for "to pH" or a step adjusts with. */
  static List<Component> items(Recipe recipe, List<Step> method) {
    List<Component> items = new ArrayList<>();
    for (Component component : recipe.components()) {
      if (component.isSolvedFor() || named(component, recipe, method)) {
        items.add(component);
      }
    }
    return List.copyOf(items);
  }

  private static boolean named(Component component, Recipe recipe, List<Step> method) {
    for (Step step : method) {
      if (step.action() != Step.Action.ADJUST_PH) {
        continue;
      }
      for (Component.Part part : component.parts()) {
        String written = part.source().name();
        String inci = recipe.lines().get(part.line()).name();
        if (step.with().contains(written) || step.with().contains(inci)) {
          // A solution that is named brings its water too, which adjusts nothing.
          return !component.name().equals(Recipe.WATER);
        }
      }
    }
    return false;
  }

  private static Component adjuster(Model model, int item) {
    return model.adjusters().get(item);
  }

  static String noTarget(Component component) {
    return "the pH that " + component.name() + " is to reach";
  }

  private static Chosen moves(Model model, Component component) {
    Optional<Double> target = AcidityProperties.target(model);
    if (target.isEmpty()) {
      return Chosen.unknown(Set.of(noTarget(component)));
    }
    AcidityProperties.Solution own = new AcidityProperties.Solution();
    AcidityProperties.addMole(new World(model), component, own);
    if (!own.missing.isEmpty()) {
      return Chosen.unknown(own.missing);
    }
    AcidBase.Options ideal = AcidBase.Options.IDEAL;
    double charge =
        AcidBase.netCharge(AcidBase.Mixture.of(own.species), ideal, target.get())
            - AcidBase.netCharge(AcidBase.Mixture.of(), ideal, target.get());
    return Chosen.of(charge > NO_CHARGE ? UP : charge < -NO_CHARGE ? DOWN : NEITHER);
  }

  private static Truth counterpart(Model model, int item) {
    Truth any = Truth.IMPOSSIBLE;
    Chosen mine = moves(model, adjuster(model, item));
    for (Component other : model.adjusters()) {
      if (other.index() == adjuster(model, item).index()) {
        continue;
      }
      Chosen its = moves(model, other);
      Set<String> missing = Reading.union(mine.missing(), its.missing());
      any =
          any.or(
              missing.isEmpty()
                  ? Truth.of(
                      !mine.names().equals(its.names())
                          && !mine.names().contains(NEITHER)
                          && !its.names().contains(NEITHER))
                  : Truth.open(missing));
    }
    return any;
  }

  private static AcidityProperties.Solution unadjusted(World world) {
    return addNothing(world.model()) ? AcidityProperties.solution(world) : world.of(UNADJUSTED);
  }

  // Amounts "to pH" alone: what the recipe states is without any adjuster.
  private static boolean addNothing(Model model) {
    for (Component adjuster : model.adjusters()) {
      if (adjuster.units() > 0) {
        return false;
      }
    }
    return true;
  }

  /** What is dissolved without the adjusters. */
  private static final Shared<AcidityProperties.Solution> UNADJUSTED =
      new Shared<>((world, item) -> AcidityProperties.dissolve(world, world.model().adjusters()));

  /** Where the water phase stands without the adjusters. */
  private static final Shared<AcidBase.Equilibrium> START =
      new Shared<>(
          (world, item) ->
              AcidityProperties.solve(
                  unadjusted(world), world.inLikely(AdjusterProperties.START, 0)));

  private static Reading before(World world) {
    AcidityProperties.Solution solution = unadjusted(world);
    if (!solution.missing.isEmpty()) {
      return new Reading(AcidityProperties.LOWEST, AcidityProperties.HIGHEST, solution.missing);
    }
    world.predicted();
    AcidBase.Equilibrium start =
        addNothing(world.model()) ? AcidityProperties.unadjusted(world) : world.of(START);
    return Reading.of(start.pH() + AcidityProperties.ownPH(world));
  }

  /** Share of the recipe that takes the water phase, without any adjuster, to a pH. */
  static Reading shareToReach(World world, Component component, double pH) {
    return AcidityProperties.needed(
            world, component, unadjusted(world), AcidityProperties.ownPH(world), pH, null)
        .share();
  }

  /**
   * Share of the recipe that moves the pH by a tenth: the slope of the titration at a pH, taken
   * over half a tenth to either side of it.
   */
  static Reading sharePerTenth(World world, Component component, double pH) {
    Reading above = shareToReach(world, component, pH + HALF_A_TENTH);
    Reading below = shareToReach(world, component, pH - HALF_A_TENTH);
    Set<String> missing = Reading.union(above.missing(), below.missing());
    if (!missing.isEmpty()) {
      return new Reading(0, 100, missing);
    }
    return Reading.of(Math.abs(above.low() - below.low()));
  }

  private static final Shared<AcidityProperties.Needed> NEEDED =
      new Shared<>(
          (world, item) -> {
            Component adjuster = adjuster(world.model(), item);
            double startsHigher = AcidityProperties.ownPH(world);
            return startsHigher == 0 && addNothing(world.model())
                ? AcidityProperties.added(world, adjuster)
                : AcidityProperties.needed(
                    world,
                    adjuster,
                    unadjusted(world),
                    startsHigher,
                    world.inLikely(AdjusterProperties.NEEDED, item));
          });
}
