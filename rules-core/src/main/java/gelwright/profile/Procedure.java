package gelwright.profile;

import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.science.HeatBalance;
import gelwright.science.TemperaturePath;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/** What each ingredient lives through, from the step at which it joins. */
final class Procedure {
  // The steps are walked once, in order. Each phase starts in a vessel of its own at room
  // temperature;
  // adding a phase into another merges the vessels. Ingredients with the same history form a
  // cohort,
  // so a temperature path is kept once for all of them. A phase that no step mentions stands still.
  //
  // What a step does not say is recorded as missing and never guessed: a missing duration counts as
  // none (a lower bound of all that grows with time), a missing temperature makes the peak
  // unbounded. Only a step that stirs, adds or disperses takes some minutes where it says nothing:
  // nobody times it, and it is short beside the hydration.

  //
  // Beside the histories, each vessel keeps its course on the clock of the whole procedure, which
  // runs through the steps one after the other. A course ends where its temperature is not known.

  private final Map<Integer, Cohort> cohortByLine = new HashMap<>();
  private final List<Course> courses = new ArrayList<>();
  private final Map<Integer, Double> joinedAt = new HashMap<>();
  private final Set<String> missingTimes = new TreeSet<>();
  private double clock;
  private final List<StepState> steps = new ArrayList<>();
  private double peak = Double.NEGATIVE_INFINITY;
  private final Set<String> missing = new TreeSet<>();
  private double combined = Double.NEGATIVE_INFINITY;
  private final Set<String> missingCombined = new TreeSet<>();

  /** Temperatures of the step's vessel before and after, and what is missing to know the first. */
  record StepState(double before, double after, Set<String> missing, String trouble) {}

  /** A temperature at a time of the whole procedure. */
  record Stage(double seconds, double celsius) {}

  /** How warm a phase is, from the start of the procedure until it is combined with another. */
  record Course(String phase, List<Stage> stages, Set<String> missing) {
    Course(String phase) {
      this(phase, new ArrayList<>(), new TreeSet<>());
    }
  }

  /** Ingredients with one history. */
  static final class Cohort {
    TemperaturePath path;
    double hydratedUntil = -1;
    final Set<String> missingTemperatures = new TreeSet<>();
    final Set<String> missingTimes = new TreeSet<>();

    Cohort(TemperaturePath path) {
      this.path = path;
    }
  }

  private static final class Vessel {
    final List<Cohort> cohorts = new ArrayList<>();
    final Set<String> missingTemperatures = new TreeSet<>();
    double temperature;
    double massInWater;
    double massOfOil;
    final Set<String> missingMedia = new TreeSet<>();
    final Set<Integer> lines = new TreeSet<>();
    final Course course;

    Vessel(double temperature, Course course) {
      this.temperature = temperature;
      this.course = course;
    }

    void stage(double seconds) {
      course.missing().addAll(missingTemperatures);
      if (course.missing().isEmpty()) {
        course.stages().add(new Stage(seconds, temperature));
      }
    }
  }

  private Procedure() {}

  static Procedure walk(World world) {
    Procedure procedure = new Procedure();
    procedure.run(world);
    return procedure;
  }

  /** Highest temperature of the whole procedure so far as known, °C. */
  double peak() {
    return peak;
  }

  /** What is missing to know every temperature. */
  Set<String> missing() {
    return missing;
  }

  /** Highest temperature right after phases were combined, °C; negative infinity if never. */
  double combined() {
    return combined;
  }

  /** What is missing to know {@link #combined}. */
  Set<String> missingCombined() {
    return missingCombined;
  }

  List<StepState> steps() {
    return steps;
  }

  /** The phases in the order of the recipe, as one step follows the other. */
  List<Course> courses() {
    return courses;
  }

  /**
   * When a line joins, s from the start: at the step that names it, or when its phase is added to
   * another after standing in the room; 0 for all else.
   */
  double joinedAt(int line) {
    return joinedAt.getOrDefault(line, 0.0);
  }

  /** When the procedure ends, s; a step without a time counts as none. */
  double endSeconds() {
    return clock;
  }

  /** Durations that are missing. */
  Set<String> missingTimes() {
    return missingTimes;
  }

  /** The history of what a line brings, if it ever joins. */
  Optional<Cohort> cohort(int line) {
    return Optional.ofNullable(cohortByLine.get(line));
  }

  /** Room temperature, °C: as stated, else the practice value with its doubt. */
  static double room(World world) {
    Optional<Quantity> stated = world.model().equipment().roomTemperature();
    if (stated.isPresent()) {
      return stated.get().inBase();
    }
    world.source(Practice.SOURCE);
    return world.within(
        Practice.ROOM, Practice.ROOM_RANGE, "room temperature", "the temperature of the room");
  }

  private void run(World world) {
    List<Step> method = world.model().method();
    double room = room(world);
    Map<String, Vessel> vessels = new LinkedHashMap<>();
    Map<Integer, Integer> joinsAt = world.model().joins();
    for (Recipe.ResolvedLine line : world.model().recipe().lines()) {
      String phase = line.line().phase();
      Vessel vessel = vessels.computeIfAbsent(phase, key -> vessel(room, key));
      if (!joinsAt.containsKey(line.index())) {
        if (vessel.cohorts.isEmpty()) {
          vessel.cohorts.add(new Cohort(TemperaturePath.startingAt(room)));
        }
        join(vessel, line, vessel.cohorts.get(0));
      }
    }
    peak = room;
    Vessel main = mainVessel(method, vessels);
    for (int i = 0; i < method.size(); i++) {
      Step step = method.get(i);
      String name = "step " + (i + 1);
      Vessel vessel = main;
      String trouble = "";
      Optional<String> into = step.into();
      Optional<String> phase = step.phase();
      Vessel named = phase.map(vessels::get).orElse(null);
      if (phase.isPresent() && named == null) {
        trouble = "no-such-phase";
      }
      Vessel target = into.map(vessels::get).orElse(null);
      if (into.isPresent() && target == null) {
        trouble = "no-such-phase";
      }
      boolean adding = step.action() == Step.Action.ADD;
      if (target != null) {
        vessel = target;
      } else if (named != null && !adding) {
        vessel = named;
      } else if (named != null) {
        vessel = main != null && main != named ? main : named;
      }
      if (vessel == null) {
        steps.add(new StepState(room, room, Set.of("a phase for " + name), "no-such-phase"));
        continue;
      }
      double before = vessel.temperature;
      Set<String> missingBefore = Set.copyOf(vessel.missingTemperatures);
      for (Map.Entry<Integer, Integer> late : joinsAt.entrySet()) {
        if (late.getValue() == i) {
          Cohort cohort = new Cohort(TemperaturePath.startingAt(vessel.temperature));
          cohort.missingTemperatures.addAll(vessel.missingTemperatures);
          vessel.cohorts.add(cohort);
          joinedAt.put(late.getKey(), clock);
          join(vessel, world.model().recipe().lines().get(late.getKey()), cohort);
        }
      }
      vessel.stage(clock);
      if (adding && named != null && named != vessel) {
        named.stage(clock);
        joinTogether(vessel, named, room);
        merge(world, vessel, named, vessels);
        named.stage(clock);
        vessel.stage(clock);
        main = main == named ? vessel : main;
      }
      double brief = isBrief(step) ? briefly(world) : 0;
      act(step, name, vessel, brief);
      pass(step, vessel, brief);
      steps.add(new StepState(before, vessel.temperature, missingBefore, trouble));
      peak = Math.max(peak, vessel.temperature);
      missing.addAll(vessel.missingTemperatures);
    }
    for (Vessel vessel : vessels.values()) {
      vessel.stage(clock);
    }
    leaveOutWhatNoStepAdds(world.model().recipe(), joinsAt, vessels, main);
  }

  private Vessel vessel(double room, String phase) {
    Vessel vessel = new Vessel(room, new Course(phase));
    vessel.stage(0);
    courses.add(vessel.course);
    return vessel;
  }

  // What stood in the room until now joins the procedure now; what was heated has joined before.
  private void joinTogether(Vessel into, Vessel from, double room) {
    boolean stood =
        from.course.missing().isEmpty()
            && from.course.stages().stream().allMatch(stage -> stage.celsius() == room);
    if (stood) {
      from.lines.forEach(line -> joinedAt.put(line, clock));
    }
    into.lines.addAll(from.lines);
  }

  // The time the step takes passes, on the clock and in the course of its vessel.
  private void pass(Step step, Vessel vessel, double briefly) {
    double over = step.over().map(Quantity::inBase).orElse(0.0);
    double lasting = step.lasting().map(Quantity::inBase).orElse(briefly);
    if (step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL) {
      boolean ramp = step.over().isPresent();
      clock += ramp ? over : lasting;
      vessel.stage(clock);
      clock += ramp ? lasting : 0;
    } else {
      vessel.stage(clock);
      clock += Math.max(lasting, over);
    }
    vessel.stage(clock);
  }

  // A phase that never ends up where the procedure does never joins, whatever is done to it on its
  // own: what the product would live through with it is not known, and the step that adds it is
  // missing.
  private void leaveOutWhatNoStepAdds(
      Recipe recipe,
      Map<Integer, Integer> joinsAt,
      Map<String, Vessel> vessels,
      @Nullable Vessel main) {
    for (Recipe.ResolvedLine line : recipe.lines()) {
      boolean joined = joinsAt.containsKey(line.index());
      if (!joined && vessels.get(line.line().phase()) != main) {
        cohortByLine.remove(line.index());
      }
    }
  }

  // Lines that a step names with "with" join at the first such step; all others are in their phase
  // from the start.
  static Map<Integer, Integer> joins(Model model) {
    Map<Integer, Integer> joins = new LinkedHashMap<>();
    List<Step> method = model.method();
    for (int i = 0; i < method.size(); i++) {
      for (String name : method.get(i).with()) {
        String inci = model.catalogue().find(name).map(found -> found.name()).orElse(name);
        for (Recipe.ResolvedLine line : model.recipe().lines()) {
          boolean same = line.name().equals(inci) || line.line().name().equalsIgnoreCase(name);
          if (same && !joins.containsKey(line.index())) {
            joins.put(line.index(), i);
          }
        }
      }
    }
    return joins;
  }

  // Steps without a phase, and phases added without saying where, go to the vessel the procedure
  // adds into, or else to the one its first step names, or else to the largest.
  private static @Nullable Vessel mainVessel(List<Step> method, Map<String, Vessel> vessels) {
    for (Step step : method) {
      Vessel into = step.into().map(vessels::get).orElse(null);
      if (into != null) {
        return into;
      }
    }
    for (Step step : method) {
      Vessel named = step.phase().map(vessels::get).orElse(null);
      if (named != null) {
        return named;
      }
    }
    return vessels.values().stream()
        .max(Comparator.comparingDouble(vessel -> vessel.massInWater + vessel.massOfOil))
        .orElse(null);
  }

  private void join(Vessel vessel, Recipe.ResolvedLine line, Cohort cohort) {
    vessel.lines.add(line.index());
    cohortByLine.put(line.index(), cohort);
    double mass = Model.percent(line.units());
    boolean oily =
        line.ingredient()
            .flatMap(known -> known.dissolves().toOptional())
            .map(where -> where.equals("oil"))
            .orElse(false);
    // A blend says nothing of its own; its share is small against the water it joins.
    boolean silent =
        line.ingredient()
            .map(known -> known.dissolves().isUnknown() && known.composition().isEmpty())
            .orElse(true);
    if (silent && mass > 0) {
      vessel.missingMedia.add("what " + line.name() + " dissolves in");
    }
    if (oily) {
      vessel.massOfOil += mass;
    } else {
      vessel.massInWater += mass;
    }
  }

  private void merge(World world, Vessel into, Vessel from, Map<String, Vessel> vessels) {
    if (into.temperature != from.temperature) {
      double oil =
          world.withinFactor(
              Practice.HEAT_CAPACITY_OIL,
              Practice.HEAT_CAPACITY_OIL_RANGE,
              "heat capacity of the oils",
              "");
      double[] masses = {into.massInWater, into.massOfOil, from.massInWater, from.massOfOil};
      double[] capacities = {Practice.HEAT_CAPACITY_WATER, oil, Practice.HEAT_CAPACITY_WATER, oil};
      double[] celsius = {into.temperature, into.temperature, from.temperature, from.temperature};
      double total = masses[0] + masses[1] + masses[2] + masses[3];
      double combined =
          total > 0 ? HeatBalance.combined(masses, capacities, celsius) : into.temperature;
      jump(into, combined);
      jump(from, combined);
      // Water takes twice the heat of an oil, so without knowing which it is the mean is not known.
      into.missingTemperatures.addAll(into.missingMedia);
      into.missingTemperatures.addAll(from.missingMedia);
    }
    into.missingMedia.addAll(from.missingMedia);
    combined = Math.max(combined, into.temperature);
    missingCombined.addAll(into.missingTemperatures);
    missingCombined.addAll(from.missingTemperatures);
    into.massInWater += from.massInWater;
    into.massOfOil += from.massOfOil;
    into.missingTemperatures.addAll(from.missingTemperatures);
    into.cohorts.addAll(from.cohorts);
    from.cohorts.clear();
    vessels.replaceAll((phase, vessel) -> vessel == from ? into : vessel);
  }

  private static void jump(Vessel vessel, double celsius) {
    if (vessel.temperature != celsius) {
      vessel.temperature = celsius;
      for (Cohort cohort : vessel.cohorts) {
        cohort.path = cohort.path.jumpTo(celsius);
      }
    }
  }

  /** Whether a step takes its time but does not say how long. */
  private static boolean isBrief(Step step) {
    boolean silent = step.over().isEmpty() && step.lasting().isEmpty();
    return silent
        && switch (step.action()) {
          case DISPERSE, ADD, MIX, HOMOGENISE, ADJUST_PH -> true;
          case HEAT, COOL, HOLD, HYDRATE, FILL -> false;
        };
  }

  private static double briefly(World world) {
    world.source(Practice.SOURCE);
    return world.withinFactor(
        Practice.SILENT_STEP,
        Practice.SILENT_STEP_FACTOR,
        "duration of the steps that say none",
        "the duration of each step");
  }

  private void act(Step step, String name, Vessel vessel, double briefly) {
    Optional<Double> target = step.temperature().map(Quantity::inBase);
    double over = step.over().map(Quantity::inBase).orElse(0.0);
    double lasting = step.lasting().map(Quantity::inBase).orElse(briefly);
    boolean changes = step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL;
    if (changes) {
      if (target.isEmpty()) {
        vessel.missingTemperatures.add("temperature of " + name);
        for (Cohort cohort : vessel.cohorts) {
          cohort.missingTemperatures.add("temperature of " + name);
        }
      } else {
        vessel.missingTemperatures.clear();
      }
      if (step.over().isEmpty() && step.lasting().isEmpty()) {
        missTime(vessel, "duration of " + name);
      }
      if (target.isPresent()) {
        boolean ramp = step.over().isPresent();
        double duration = ramp ? over : lasting;
        for (Cohort cohort : vessel.cohorts) {
          cohort.path = cohort.path.rampTo(target.get(), duration);
        }
        vessel.temperature = target.get();
        hold(vessel, ramp ? lasting : 0);
      }
      return;
    }
    target.ifPresent(
        celsius -> {
          vessel.missingTemperatures.clear();
          jump(vessel, celsius);
        });
    boolean waits = step.action() == Step.Action.HOLD || step.action() == Step.Action.HYDRATE;
    if (waits && step.lasting().isEmpty() && step.over().isEmpty()) {
      missTime(vessel, "duration of " + name);
    }
    hold(vessel, Math.max(lasting, over));
    if (waits) {
      for (Cohort cohort : vessel.cohorts) {
        cohort.hydratedUntil = cohort.path.endSeconds();
      }
    }
  }

  private static void hold(Vessel vessel, double seconds) {
    if (seconds > 0) {
      for (Cohort cohort : vessel.cohorts) {
        cohort.path = cohort.path.hold(seconds);
      }
    }
    for (Cohort cohort : vessel.cohorts) {
      cohort.missingTemperatures.addAll(vessel.missingTemperatures);
    }
  }

  private void missTime(Vessel vessel, String what) {
    missingTimes.add(what);
    for (Cohort cohort : vessel.cohorts) {
      cohort.missingTimes.add(what);
    }
  }
}
