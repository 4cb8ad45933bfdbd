package gelwright.profile;

import gelwright.formula.Step;
import gelwright.ingredient.HeatLimit;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** What the procedure does to the batch and to each ingredient. */
final class ProcessProperties {
  private static final String NO_METHOD = "the procedure (method)";

  /** Absolute zero, °C. */
  private static final double COLDEST = -273.15;

  private static final Set<String> ACTIONS =
      Arrays.stream(Step.Action.values()).map(Step.Action::word).collect(Collectors.toSet());

  static final Definition PEAK =
      Definition.number(
          "process.peak-temperature",
          Unit.CELSIUS,
          "highest temperature of the procedure",
          (world, item) -> {
            if (world.model().method().isEmpty()) {
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
              (world, item) -> Reading.of(world.model().method().size())),
          Definition.choices(
              "method.actions",
              ACTIONS,
              false,
              "what the steps of the procedure do",
              (model, item) ->
                  model.method().isEmpty()
                      ? Chosen.unknown(Set.of(NO_METHOD))
                      : new Chosen(
                          model.method().stream()
                              .map(step -> step.action().word())
                              .collect(Collectors.toSet()),
                          Set.of())),
          Definition.number(
              "method.gum-ready-at",
              Unit.NONE,
              "number of the last step that hydrates, or else disperses",
              (world, item) -> gumReady(world.model())),
          Definition.number(
              "method.pH-set-at",
              Unit.NONE,
              "number of the last step that adjusts the pH",
              (world, item) -> last(world.model(), Step.Action.ADJUST_PH, "adjusts the pH")),
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

  static final Definition JOINS =
      Definition.number(
          "joins-at",
          Unit.NONE,
          "number of the step at which it first gets into the batch; 0 where it is there from the"
              + " start",
          (world, item) -> joins(world.model(), world.model().component(item)));

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
              ACTIONS,
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
          Definition.factor(
              "viscosity",
              Unit.PASCAL_SECOND,
              "apparent viscosity of the finished gel at 10 /s and the temperature the step ends at:"
                  + " what a filling has to move",
              (world, item) -> GelProperties.viscosityAfter(world, item, 10)),
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
                          || step(model, item).lasting().isPresent())),
          Definition.truth(
              "gives-a-speed",
              true,
              "whether the step says how fast to stir",
              (model, item) -> Truth.of(step(model, item).stir().isPresent())),
          Definition.truth(
              "gives-a-pH",
              true,
              "whether the step says a pH",
              (model, item) -> Truth.of(step(model, item).pH().isPresent())));

  private ProcessProperties() {}

  private static Reading last(Model model, Step.Action action, String what) {
    List<Step> method = model.method();
    for (int i = method.size() - 1; i >= 0; i--) {
      if (method.get(i).action() == action) {
        return Reading.of(i + 1);
      }
    }
    return Reading.unknown(
        1, Double.POSITIVE_INFINITY, method.isEmpty() ? NO_METHOD : "a step that " + what);
  }

  private static Reading gumReady(Model model) {
    Reading hydrated = last(model, Step.Action.HYDRATE, "hydrates the gum");
    return hydrated.isKnown()
        ? hydrated
        : last(model, Step.Action.DISPERSE, "disperses or hydrates the gum");
  }

  // A line that a step names joins there; the others come with their phase: with the one that is
  // worked on from the start, or at the step that adds it.
  private static Reading joins(Model model, Component component) {
    List<Step> method = model.method();
    if (method.isEmpty()) {
      return Reading.unknown(0, Double.POSITIVE_INFINITY, NO_METHOD);
    }
    Map<Integer, Integer> named = model.joins();
    double first = Double.POSITIVE_INFINITY;
    Set<String> missing = new TreeSet<>();
    for (Component.Part part : component.parts()) {
      OptionalInt phase = phaseJoins(method, part.source().phase());
      Integer own = named.get(part.line());
      if (own == null && phase.isEmpty()) {
        missing.add(noStep(part));
        continue;
      }
      int step = own == null ? phase.getAsInt() : Math.max(own + 1, phase.orElse(0));
      first = Math.min(first, step);
    }
    return missing.isEmpty() ? Reading.of(first) : new Reading(0, first, missing);
  }

  // 0 for the phase that others are added to, or that the first step works on.
  private static OptionalInt phaseJoins(List<Step> method, String phase) {
    String main =
        method.stream()
            .flatMap(step -> step.into().stream())
            .findFirst()
            .or(() -> method.stream().flatMap(step -> step.phase().stream()).findFirst())
            .orElse(phase);
    if (phase.equals(main)) {
      return OptionalInt.of(0);
    }
    for (int i = 0; i < method.size(); i++) {
      Step step = method.get(i);
      if (step.action() == Step.Action.ADD && step.phase().equals(Optional.of(phase))) {
        return OptionalInt.of(i + 1);
      }
    }
    return OptionalInt.empty();
  }

  private static Step step(Model model, int item) {
    return model.method().get(item);
  }

  private static boolean missingPhase(Model model, Optional<String> phase) {
    return phase.isPresent()
        && model.lines().stream().noneMatch(line -> line.phase().equals(phase.get()));
  }

  private static Set<String> missingHeat(Model.HeatItem heat) {
    return Set.of(heat.component().missing("heat limits"));
  }

  private static final Shared<Procedure> PROCEDURE =
      new Shared<>((world, item) -> Procedure.walk(world));

  static Procedure procedure(World world) {
    return world.of(PROCEDURE);
  }

  /** Highest temperature an ingredient lives through, over all lines that bring it. */
  static Reading peak(World world, Component component) {
    if (world.model().method().isEmpty()) {
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
    if (world.model().method().isEmpty()) {
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
