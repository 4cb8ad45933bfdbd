package gelwright.profile;

import gelwright.formula.Step;
import gelwright.ingredient.HeatLimit;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** What the procedure does to the batch and to each ingredient. */
final class ProcessProperties {
  private static final String NO_METHOD = "the procedure (method)";

  /** Absolute zero, °C. */
  private static final double COLDEST = -273.15;

  static final Definition PEAK =
      Definition.number(
          "process.peak-temperature",
          Unit.CELSIUS,
          "highest temperature of the procedure",
          (world, item) -> {
            if (world.model().formula().method().isEmpty()) {
              return Reading.unknown(COLDEST, Double.POSITIVE_INFINITY, NO_METHOD);
            }
            Procedure procedure = procedure(world);
            return procedure.missing().isEmpty()
                ? Reading.of(procedure.peak())
                : new Reading(procedure.peak(), Double.POSITIVE_INFINITY, procedure.missing());
          });

  static final List<Definition> ALL =
      List.of(
          PEAK,
          Definition.exact(
              "method.steps",
              Unit.NONE,
              "how many steps the procedure has",
              (world, item) -> Reading.of(world.model().formula().method().size())),
          Definition.number(
              "room.temperature",
              Unit.CELSIUS,
              "temperature of the room: as stated, else what is usual",
              (world, item) -> Reading.of(Procedure.room(world))));

  static final Definition PEAK_OF_INGREDIENT =
      Definition.number(
          "peak-temperature",
          Unit.CELSIUS,
          "highest temperature it lives through, from the step at which it joins",
          (world, item) -> peak(world, world.model().component(item)));

  static final Definition HEAT_LIMIT =
      Definition.number(
          "at-most",
          Unit.CELSIUS,
          "highest process temperature it bears",
          (world, item) -> {
            Model.HeatItem heat = world.model().heatLimits().get(item);
            if (heat.limit().isEmpty()) {
              return new Reading(COLDEST, Double.POSITIVE_INFINITY, missingHeat(heat));
            }
            HeatLimit limit = heat.limit().get();
            return Reading.of(
                world.value(limit.atMost(), "heat limit of " + heat.component().name(), ""));
          });

  static final List<Definition> OF_HEAT_LIMITS =
      List.of(
          Definition.choice(
              "kind",
              Set.of("degrades", "evaporates", "flammable", "reversible", "habit"),
              false,
              "what happens above the limit",
              (model, item) -> {
                Model.HeatItem heat = model.heatLimits().get(item);
                return heat.limit()
                    .map(limit -> Chosen.of(limit.kind().word()))
                    .orElseGet(() -> Chosen.unknown(missingHeat(heat)));
              }),
          Definition.choice(
              "ingredient",
              Set.of(),
              true,
              "the ingredient it is a limit of",
              (model, item) -> Chosen.of(model.heatLimits().get(item).component().name())),
          HEAT_LIMIT,
          Definition.number(
              "peak-temperature",
              Unit.CELSIUS,
              "highest temperature the ingredient lives through",
              (world, item) -> peak(world, world.model().heatLimits().get(item).component())),
          Definition.number(
              "time-above",
              Unit.MINUTE,
              "time the ingredient spends above the limit",
              (world, item) -> {
                Model.HeatItem heat = world.model().heatLimits().get(item);
                if (heat.limit().isEmpty()) {
                  return new Reading(0, Double.POSITIVE_INFINITY, missingHeat(heat));
                }
                double limit =
                    world.value(
                        heat.limit().get().atMost(),
                        "heat limit of " + heat.component().name(),
                        "");
                return secondsAbove(world, heat.component(), limit);
              }));

  static final List<Definition> OF_STEPS =
      List.of(
          Definition.choice(
              "action",
              Set.of(
                  "heat",
                  "cool",
                  "hold",
                  "disperse",
                  "hydrate",
                  "add",
                  "mix",
                  "homogenise",
                  "adjust-pH",
                  "fill"),
              true,
              "what is done",
              (model, item) -> Chosen.of(step(model, item).action().word())),
          Definition.truth(
              "names-a-phase-that-is-missing",
              true,
              "whether it names a phase the recipe does not have",
              (model, item) ->
                  Truth.of(
                      missingPhase(model, step(model, item).phase())
                          || missingPhase(model, step(model, item).into()))),
          Definition.truth(
              "comes-after-filling",
              true,
              "whether the product was filled before",
              (model, item) -> {
                for (int i = 0; i < item; i++) {
                  if (step(model, i).action() == Step.Action.FILL) {
                    return Truth.CERTAIN;
                  }
                }
                return Truth.IMPOSSIBLE;
              }),
          Definition.number(
              "temperature-before",
              Unit.CELSIUS,
              "temperature of what the step works on, before it",
              (world, item) -> {
                Procedure.StepState state = procedure(world).steps().get(item);
                return state.missing().isEmpty()
                    ? Reading.of(state.before())
                    : new Reading(COLDEST, Double.POSITIVE_INFINITY, state.missing());
              }),
          Definition.number(
              "temperature",
              Unit.CELSIUS,
              "temperature the step asks for",
              (world, item) ->
                  step(world.model(), item)
                      .temperature()
                      .map(value -> Reading.of(value.inBase()))
                      .orElseGet(
                          () ->
                              Reading.unknown(
                                  COLDEST,
                                  Double.POSITIVE_INFINITY,
                                  "temperature of step " + (item + 1)))),
          Definition.truth(
              "gives-a-temperature",
              true,
              "whether the step says a temperature",
              (model, item) -> Truth.of(step(model, item).temperature().isPresent())),
          Definition.truth(
              "gives-a-time",
              true,
              "whether the step says how long",
              (model, item) ->
                  Truth.of(
                      step(model, item).over().isPresent()
                          || step(model, item).lasting().isPresent())));

  private ProcessProperties() {}

  private static Step step(Model model, int item) {
    return model.formula().method().get(item);
  }

  private static boolean missingPhase(Model model, Optional<String> phase) {
    return phase.isPresent()
        && model.formula().lines().stream().noneMatch(line -> line.phase().equals(phase.get()));
  }

  private static Set<String> missingHeat(Model.HeatItem heat) {
    return Set.of(heat.component().missing("heat limits"));
  }

  static Procedure procedure(World world) {
    return world.shared(Procedure.class, Procedure::walk);
  }

  /** Highest temperature an ingredient lives through, over all lines that bring it. */
  static Reading peak(World world, Component component) {
    if (world.model().formula().method().isEmpty()) {
      return Reading.unknown(COLDEST, Double.POSITIVE_INFINITY, NO_METHOD);
    }
    Procedure procedure = procedure(world);
    double peak = COLDEST;
    Set<String> missing = new TreeSet<>();
    for (Component.Part part : component.parts()) {
      Optional<Procedure.Cohort> cohort = procedure.cohort(part.line());
      if (cohort.isEmpty()) {
        missing.add(noStep(part));
        continue;
      }
      peak = Math.max(peak, cohort.get().path.peakCelsius());
      missing.addAll(cohort.get().missingTemperatures);
    }
    return missing.isEmpty()
        ? Reading.of(peak)
        : new Reading(peak, Double.POSITIVE_INFINITY, missing);
  }

  static String noStep(Component.Part part) {
    return "the step that adds " + part.source().name();
  }

  static Reading secondsAbove(World world, Component component, double celsius) {
    if (world.model().formula().method().isEmpty()) {
      return Reading.unknown(0, Double.POSITIVE_INFINITY, NO_METHOD);
    }
    Procedure procedure = procedure(world);
    double longest = 0;
    Set<String> missing = new TreeSet<>();
    for (Component.Part part : component.parts()) {
      Optional<Procedure.Cohort> cohort = procedure.cohort(part.line());
      if (cohort.isEmpty()) {
        missing.add(noStep(part));
        continue;
      }
      longest = Math.max(longest, cohort.get().path.secondsAbove(celsius));
      missing.addAll(cohort.get().missingTemperatures);
      missing.addAll(cohort.get().missingTimes);
    }
    return missing.isEmpty()
        ? Reading.of(longest)
        : new Reading(longest, Double.POSITIVE_INFINITY, missing);
  }
}
