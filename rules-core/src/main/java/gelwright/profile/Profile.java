package gelwright.profile;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.problem.Place;
import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Facts;
import gelwright.rule.Subject;
import gelwright.rule.Truth;
import gelwright.rule.Vocabulary;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The computed properties of one formula. Each is computed once, when it is first asked for; use a
 * profile from one thread at a time.
 *
 * <p>A number's range follows from shifting each doubt it rests on by one standard deviation either
 * way and computing it again (central differences, first-order propagation of JCGM 100:2008).
 */
public final class Profile implements Facts {
  /** The sum over none of the ingredients. */
  private static final Bounded NOTHING = Bounded.exact(0);

  private final Formula formula;
  private final Profiler profiler;
  private final Model model;
  private final World likely;
  private final boolean strangers;
  // By the number of the doubt.
  private @Nullable Shifted[] shifted = {};
  // By slot.
  private final Chosen[] choices = new Chosen[Properties.FORMULA.size()];
  private final @Nullable List<Item>[] items = lists();
  private final @Nullable List<Subject>[] subjects = lists();
  private final Table<Chosen> choicesOfItems = new Table<>(20);
  private final Map<Call, Definition> calls = new HashMap<>();

  /** The worlds with a doubt shifted by one standard deviation either way. */
  private record Shifted(World up, World down) {}

  /** A function called with numbers, and with components where it takes names. */
  private record Call(int slot, List<Object> arguments) {}

  Profile(
      Formula formula,
      Profiler profiler,
      List<AcceptanceState> acceptances,
      Optional<LocalDate> on) {
    this.formula = formula;
    this.profiler = profiler;
    this.model = new Model(formula, profiler.catalogue(), acceptances, on);
    this.likely = new World(model);
    this.strangers = !model.recipe().strangers().isEmpty();
  }

  private Profile(Formula formula, Profile from) {
    int changes = from.model.changes(formula);
    this.formula = formula;
    this.profiler = from.profiler;
    this.model = from.model.with(formula);
    this.strangers = !model.recipe().strangers().isEmpty();
    if ((changes & Model.RECIPE) != 0) {
      // Next to everything rests on the recipe, and what its ingredients are called is no longer
      // the same: the profile starts anew.
      this.likely = new World(model);
      return;
    }
    this.likely = from.likely.carried(model, changes);
    this.shifted = from.shifted.clone();
    for (int i = 0; i < shifted.length; i++) {
      Shifted worlds = shifted[i];
      if (worlds != null) {
        shifted[i] = new Shifted(worlds.up().carried(likely), worlds.down().carried(likely));
      }
    }
    calls.putAll(from.calls);
  }

  /**
   * The profile of a changed formula on the same day. What was computed here and does not rest on
   * what has changed is not computed again: another temperature in the procedure leaves the charge
   * balance alone. A change of the recipe starts anew, since the water makes room for it.
   */
  public Profile with(Formula changed) {
    return new Profile(requireNonNull(changed, "changed"), this);
  }

  /** The profile of one formula; for many of them see {@link Profiler}. */
  public static Profile of(Formula formula, Catalogue catalogue) {
    return Profiler.using(catalogue).profile(formula);
  }

  /** The same for a day: what the law asks for changes with the day the product is sold. */
  public static Profile of(Formula formula, Catalogue catalogue, LocalDate on) {
    return Profiler.using(catalogue).profile(formula, on);
  }

  /** The same profile, telling rules what became of the acceptances on the sheet. */
  public Profile with(List<AcceptanceState> acceptances) {
    if (acceptances.isEmpty() && model.acceptances().isEmpty()) {
      return this;
    }
    return new Profile(formula, profiler, acceptances, model.on());
  }

  /**
   * Names of the doubts that carry the formula's name and yet are about its raw materials as
   * bought, not about one making or one reading of it: two formulas of the same materials share
   * them.
   */
  public Set<String> doubtsOfMaterials() {
    return Set.of(AcidityProperties.ownPHDoubt(formula.name()));
  }

  /** The names and types of all properties. */
  public static Vocabulary vocabulary() {
    return Properties.VOCABULARY;
  }

  /** How the value of a property came about. */
  public enum Origin {
    STATED,
    MEASURED,
    PREDICTED,
    MISSING
  }

  /**
   * A property with its value and what it rests on.
   *
   * @param name of the property
   * @param value in base units
   * @param unit it is printed in
   * @param origin how it came about
   * @param sources ids of the sources of the figures it rests on, sorted
   */
  public record Value(String name, Bounded value, Unit unit, Origin origin, List<String> sources) {
    public Value {
      sources = List.copyOf(sources);
    }
  }

  /**
   * A number of the formula as a whole, in base units.
   *
   * @throws IllegalArgumentException when there is no such number
   */
  public Bounded value(String property) {
    for (Definition definition : Properties.FORMULA) {
      if (definition.name().equals(property) && definition.isNumber()) {
        return number(definition, 0);
      }
    }
    throw new IllegalArgumentException("no such number: " + property);
  }

  /** All numbers of the formula as a whole, in the order of their names. */
  public List<Value> values() {
    List<Value> all = new ArrayList<>(Properties.NUMBERS.size());
    for (Definition definition : Properties.NUMBERS.values()) {
      all.add(value(definition));
    }
    return List.copyOf(all);
  }

  /**
   * Numbers of one item.
   *
   * @param item name of the ingredient, the step, the line …
   * @param membership whether it is of the kind
   * @param values in the order of their definition, by their names without the kind
   */
  public record OfItem(String item, Odds membership, List<Value> values) {
    public OfItem {
      requireNonNull(item, "item");
      requireNonNull(membership, "membership");
      values = List.copyOf(values);
    }
  }

  /**
   * Numbers of all items that are or may be of a kind, in the order of the sheet.
   *
   * @param kind as rules write it, such as {@code preservative}
   * @param properties names without the kind; those that are no numbers are passed over
   * @throws IllegalArgumentException when there is no such kind
   */
  public List<OfItem> values(String kind, Set<String> properties) {
    Properties.Kind found = kind(kind);
    List<OfItem> all = new ArrayList<>();
    for (int i = 0; i < found.family().size().applyAsInt(model); i++) {
      Truth membership = found.membership().apply(model, i);
      if (membership.odds().high() == 0) {
        continue;
      }
      List<Value> values = new ArrayList<>();
      for (Definition definition : found.family().definitions()) {
        if (definition.isNumber() && properties.contains(definition.name())) {
          values.add(value(definition, i));
        }
      }
      all.add(new OfItem(found.family().itemName().apply(model, i), membership.odds(), values));
    }
    return List.copyOf(all);
  }

  private static Properties.Kind kind(String name) {
    for (Properties.Kind candidate : Properties.KINDS) {
      if (candidate.name().equals(name)) {
        return candidate;
      }
    }
    throw new IllegalArgumentException("no such kind: " + name);
  }

  /**
   * Apparent viscosity at 25 °C: by readings as far as they reach, else by the flow laws.
   *
   * @param shearRate 1/s, positive
   */
  public Bounded viscosity(double shearRate) {
    if (!(shearRate > 0)) {
      throw new IllegalArgumentException("shearRate must be positive, is " + shearRate);
    }
    return number(
        Definition.once(
            Estimate.Scale.FACTOR, (world, item) -> GelProperties.viscosityAt(world, shearRate)),
        0);
  }

  /**
   * Undissociated part of an ingredient at a pH, %.
   *
   * @param ingredient its name in the recipe
   * @param pH any finite number
   * @throws IllegalArgumentException when the recipe has no such ingredient
   */
  public Bounded undissociated(String ingredient, double pH) {
    Component component = component(ingredient);
    Reading reading = Reading.of(pH);
    return number(
        Definition.once(
            Estimate.Scale.LINEAR,
            (world, item) -> AcidityProperties.undissociated(world, component, () -> reading)),
        0);
  }

  /**
   * Share of the recipe, %, that an adjuster takes to bring the water phase to a pH; the start is
   * the water phase without any adjuster.
   *
   * @param adjuster its name in the recipe; it is taken as pure
   * @param pH any finite number
   * @throws IllegalArgumentException when the recipe has no such ingredient
   */
  public Bounded shareToReach(String adjuster, double pH) {
    Component component = component(adjuster);
    return number(
        Definition.once(
            Estimate.Scale.LINEAR,
            (world, item) -> AdjusterProperties.shareToReach(world, component, pH)),
        0);
  }

  /**
   * Share of the recipe, %, of an adjuster that moves the pH by a tenth: the slope of the titration
   * at a pH.
   *
   * @param adjuster its name in the recipe; it is taken as pure
   * @param pH any finite number
   * @throws IllegalArgumentException when the recipe has no such ingredient
   */
  public Bounded sharePerTenth(String adjuster, double pH) {
    Component component = component(adjuster);
    return number(
        Definition.once(
            Estimate.Scale.LINEAR,
            (world, item) -> AdjusterProperties.sharePerTenth(world, component, pH)),
        0);
  }

  private Component component(String ingredient) {
    return model
        .recipe()
        .component(ingredient)
        .orElseThrow(() -> new IllegalArgumentException("not in the recipe: " + ingredient));
  }

  /**
   * What a line of the recipe comes to.
   *
   * @param name INCI name, or the name as written when it is not known
   * @param share exact share of the raw material; of an amount to be solved for none
   * @param brings the ingredient it brings, where it brings one besides water
   * @param strength part of the raw material that this ingredient makes up
   */
  public record OfLine(
      String name, Share share, Optional<String> brings, Optional<Share> strength) {}

  /** What the lines of the recipe come to, in their order. */
  public List<OfLine> lines() {
    List<OfLine> all = new ArrayList<>();
    for (Recipe.ResolvedLine line : model.recipe().lines()) {
      List<Component> brought =
          model.recipe().components().stream()
              .filter(each -> !each.name().equals(Recipe.WATER))
              .filter(each -> each.parts().stream().anyMatch(part -> part.line() == line.index()))
              .toList();
      Optional<String> brings = Optional.empty();
      Optional<Share> strength = Optional.empty();
      if (brought.size() == 1) {
        String name = brought.get(0).name();
        brings = Optional.of(name);
        Share ofBlend =
            line.ingredient()
                .map(blend -> blend.composition().getOrDefault(name, Share.ALL))
                .orElse(Share.ALL);
        strength = Optional.of(line.line().strength().map(ofBlend::part).orElse(ofBlend));
      }
      all.add(new OfLine(line.name(), new Share(line.units()), brings, strength));
    }
    return List.copyOf(all);
  }

  /**
   * How warm a phase is.
   *
   * @param phase as the recipe calls it
   * @param stages in the order of time; between two of them the temperature runs straight
   * @param missing what is missing to know how it goes on; empty where nothing is
   */
  public record Course(String phase, List<Stage> stages, Set<String> missing) {
    public Course {
      requireNonNull(phase, "phase");
      stages = List.copyOf(stages);
      missing = java.util.Collections.unmodifiableSet(new java.util.TreeSet<>(missing));
    }
  }

  /**
   * A temperature at a time.
   *
   * @param seconds from the start of the procedure, its steps one after the other
   * @param celsius temperature, °C
   */
  public record Stage(double seconds, Bounded celsius) {}

  /**
   * The phases over the procedure, each until it is combined with another; none without a
   * procedure.
   */
  public List<Course> courses() {
    if (formula.method().isEmpty()) {
      return List.of();
    }
    List<Procedure.Course> inLikely = ProcessProperties.procedure(likely).courses();
    List<Course> all = new ArrayList<>();
    for (int phase = 0; phase < inLikely.size(); phase++) {
      List<Stage> stages = new ArrayList<>();
      for (int i = 0; i < inLikely.get(phase).stages().size(); i++) {
        stages.add(new Stage(inLikely.get(phase).stages().get(i).seconds(), temperature(phase, i)));
      }
      all.add(new Course(inLikely.get(phase).phase(), stages, inLikely.get(phase).missing()));
    }
    return List.copyOf(all);
  }

  private Bounded temperature(int phase, int stage) {
    return number(
        Definition.once(
            Estimate.Scale.LINEAR,
            (world, item) ->
                Reading.of(
                    ProcessProperties.procedure(world)
                        .courses()
                        .get(phase)
                        .stages()
                        .get(stage)
                        .celsius())),
        0);
  }

  /** Durations of steps that are missing; each counts as none. Sorted. */
  public Set<String> missingDurations() {
    return formula.method().isEmpty()
        ? Set.of()
        : new java.util.TreeSet<>(ProcessProperties.procedure(likely).missingTimes());
  }

  /** When the procedure ends, s, its steps one after the other; 0 without one. */
  public double procedureSeconds() {
    return formula.method().isEmpty() ? 0 : ProcessProperties.procedure(likely).endSeconds();
  }

  /**
   * What an ingredient of the recipe bears.
   *
   * @param ingredient its name
   * @param kind what happens above the limit, such as {@code degrades}
   * @param celsius highest process temperature, °C
   * @param fromSeconds when the first line that brings it joins the procedure; what stands in the
   *     room until its phase is added joins then
   */
  public record Bearing(String ingredient, String kind, Bounded celsius, double fromSeconds) {}

  /** What the ingredients bear, as far as that is known, in the order of the recipe. */
  public List<Bearing> bearings() {
    List<Bearing> all = new ArrayList<>();
    for (int i = 0; i < model.heatLimits().size(); i++) {
      Model.HeatItem item = model.heatLimits().get(i);
      if (item.limit().isEmpty()) {
        continue;
      }
      double from = Double.POSITIVE_INFINITY;
      for (Component.Part part : item.component().parts()) {
        from =
            Math.min(
                from,
                formula.method().isEmpty()
                    ? 0
                    : ProcessProperties.procedure(likely).joinedAt(part.line()));
      }
      all.add(
          new Bearing(
              item.component().name(),
              item.limit().get().kind().word(),
              number(ProcessProperties.HEAT_LIMIT, i),
              from));
    }
    return List.copyOf(all);
  }

  private Value value(Definition definition) {
    return value(definition, 0);
  }

  private Value value(Definition definition, int item) {
    Bounded bounded = number(definition, item);
    World.Basis basis = likely.node(definition, item).basis();
    Origin origin =
        !bounded.isKnown()
            ? Origin.MISSING
            : basis.measured ? Origin.MEASURED : basis.predicted ? Origin.PREDICTED : Origin.STATED;
    return new Value(definition.name(), bounded, definition.unit(), origin, likely.sources(basis));
  }

  /** Ids of the sources that a property of the formula, or of an item, rests on, sorted. */
  public List<String> sourcesOf(String property) {
    Definition definition = Properties.NUMBERS.get(property);
    if (definition == null) {
      return List.of();
    }
    number(definition, 0);
    return likely.sources(likely.node(definition, 0).basis());
  }

  /** The same for a property of an item, such as {@code undissociated} of a preservative. */
  public List<String> sourcesOf(String kind, String item, String property) {
    for (Properties.Kind candidate : Properties.KINDS) {
      if (!candidate.name().equals(kind)) {
        continue;
      }
      Properties.Family family = candidate.family();
      for (int i = 0; i < family.size().applyAsInt(model); i++) {
        if (!family.itemName().apply(model, i).equals(item)) {
          continue;
        }
        for (Definition definition : family.definitions()) {
          if (definition.name().equals(property) && definition.isNumber()) {
            number(definition, i);
            return likely.sources(likely.node(definition, i).basis());
          }
        }
      }
    }
    return List.of();
  }

  /** Where the sheet speaks of an item, for findings; the recipe line, the step, the acceptance. */
  public Place place(String kind, String item) {
    for (Properties.Kind candidate : Properties.KINDS) {
      if (candidate.name().equals(kind)) {
        Properties.Family family = candidate.family();
        for (int i = 0; i < family.size().applyAsInt(model); i++) {
          if (family.itemName().apply(model, i).equals(item)) {
            return formula.place(pointer(family.name(), i));
          }
        }
      }
    }
    return Place.NOWHERE;
  }

  private String pointer(String family, int item) {
    return switch (family) {
      case "ingredient" -> "/ingredients/" + model.component(item).first().line();
      case "line" -> "/ingredients/" + item;
      case "heat-limit" ->
          "/ingredients/" + model.heatLimits().get(item).component().first().line();
      case "allergen" ->
          "/ingredients/" + model.allergens().get(item).carriers().get(0).first().line();
      case "adjuster" -> "/ingredients/" + model.adjusters().get(item).first().line();
      case "step" -> "/method/" + item;
      case "market" -> "/product/markets/" + item;
      case "label-entry" -> "/label/ingredients/" + item;
      default -> "/accepted/" + item;
    };
  }

  // --- Facts
  // ---------------------------------------------------------------------------------------

  @Override
  public Bounded number(int slot) {
    return number(Properties.FORMULA.get(slot), 0);
  }

  @Override
  public Chosen choice(int slot) {
    if (choices[slot] == null) {
      choices[slot] = Properties.FORMULA.get(slot).chosen(model, 0);
    }
    return choices[slot];
  }

  @Override
  public Truth truth(int slot) {
    return Properties.FORMULA.get(slot).truth(model, 0);
  }

  @Override
  public Bounded call(int slot, List<Argument> arguments) {
    Object[] plain = new Object[arguments.size()];
    Set<String> missing = Set.of();
    for (int i = 0; i < plain.length; i++) {
      Argument argument = arguments.get(i);
      if (argument instanceof Argument.Number number) {
        if (!number.value().isKnown()) {
          return Bounded.unknown(number.value().missing());
        }
        plain[i] = number.value().atLeast().likely();
      } else if (argument instanceof Argument.Names names) {
        missing = Reading.union(missing, names.value().missing());
        if (Functions.ALL.get(slot).names() == Functions.Names.WORDS) {
          plain[i] = names.value().names();
          continue;
        }
        BitSet components = components(names);
        if (components.isEmpty() && plain.length == 1 && missing.isEmpty() && !strangers) {
          return NOTHING;
        }
        plain[i] = components;
      }
    }
    if (!missing.isEmpty()) {
      return Bounded.unknown(missing);
    }
    return number(calls.computeIfAbsent(new Call(slot, List.of(plain)), Profile::definition), 0);
  }

  private static Definition definition(Call call) {
    Functions.Function function = Functions.ALL.get(call.slot());
    List<Object> arguments = call.arguments();
    return Definition.once(function.scale(), (world, item) -> function.body().of(world, arguments));
  }

  // Numbers of the components that are named. Most names of a table are of none.
  private BitSet components(Argument.Names names) {
    Set<String> meaning = profiler.meaning(names.value().names(), names.lasting());
    Recipe recipe = model.recipe();
    BitSet found = new BitSet(recipe.components().size());
    if (meaning.size() < recipe.components().size()) {
      for (String name : meaning) {
        int index = recipe.indexOf(name);
        if (index >= 0) {
          found.set(index);
        }
      }
    } else {
      for (Component component : recipe.components()) {
        if (meaning.contains(component.name())) {
          found.set(component.index());
        }
      }
    }
    return found;
  }

  @Override
  public List<Item> items(int kind) {
    List<Item> known = items[kind];
    if (known == null) {
      known = findItems(kind);
      items[kind] = known;
    }
    return known;
  }

  @Override
  public List<Subject> subjects(int kind) {
    List<Subject> known = subjects[kind];
    if (known == null) {
      known = Facts.super.subjects(kind);
      subjects[kind] = known;
    }
    return known;
  }

  // One list for each kind.
  @SuppressWarnings({"unchecked", "rawtypes"})
  private static <T> @Nullable List<T>[] lists() {
    return new List[Properties.KINDS.size()];
  }

  private List<Item> findItems(int slot) {
    Properties.Kind kind = Properties.KINDS.get(slot);
    List<Item> found = new ArrayList<>();
    int size = kind.family().size().applyAsInt(model);
    for (int i = 0; i < size; i++) {
      Truth membership = kind.membership().apply(model, i);
      if (membership.odds().high() > 0) {
        found.add(new ProfileItem(kind.family(), i, membership));
      }
    }
    return List.copyOf(found);
  }

  private Chosen choiceOfItem(Definition definition, int item) {
    Chosen choice = choicesOfItems.get(definition, item);
    if (choice == null) {
      choice = definition.chosen(model, item);
      choicesOfItems.put(definition, item, choice);
    }
    return choice;
  }

  private Bounded number(Definition definition, int item) {
    World.Node node = likely.node(definition, item);
    Bounded range = node.range();
    if (range == null) {
      range = range(definition, node);
      node.range(range);
    }
    return range;
  }

  // Computes something in the worlds of all its doubts, one after the other, after all that it is
  // computed from: a processor that does the same thing many times over is done sooner.
  private void settle(World.Node node) {
    if (node.isSettled()) {
      return;
    }
    node.settled();
    node.uses().forEach(this::settle);
    for (World.NumberedDoubt doubt : node.basis().doubts) {
      Shifted worlds = shifted(doubt);
      worlds.up().here(node);
      worlds.down().here(node);
    }
  }

  private Bounded range(Definition definition, World.Node middle) {
    Reading reading = (Reading) middle.value();
    List<World.NumberedDoubt> doubts = middle.basis().doubts;
    if (doubts.isEmpty()) {
      Estimate low = Estimate.exact(reading.low());
      return reading.isKnown()
          ? Bounded.of(low)
          : new Bounded(low, Estimate.exact(reading.high()), reading.missing());
    }
    boolean byFactor = definition.scale() == Estimate.Scale.FACTOR;
    boolean point = reading.low() == reading.high();
    if (isFixed(reading.low(), byFactor) && (point || isFixed(reading.high(), byFactor))) {
      // No doubt moves a bound that is no number, or that is zero on the scale of factors.
      Estimate low = Estimate.exact(reading.low());
      return new Bounded(low, point ? low : Estimate.exact(reading.high()), reading.missing());
    }
    settle(middle);
    int count = doubts.size();
    Doubt[] moved = new Doubt[count];
    double[] lowMoves = new double[count];
    double[] highMoves = new double[count];
    for (int i = 0; i < count; i++) {
      World.NumberedDoubt doubt = doubts.get(i);
      Shifted worlds = shifted(doubt);
      Reading above = (Reading) worlds.up().here(middle);
      Reading below = (Reading) worlds.down().here(middle);
      moved[i] = doubt.doubt();
      lowMoves[i] = move(below.low(), above.low(), byFactor);
      highMoves[i] = point ? 0 : move(below.high(), above.high(), byFactor);
    }
    Estimate low = estimate(reading.low(), definition.scale(), moved, lowMoves);
    Estimate high = point ? low : estimate(reading.high(), definition.scale(), moved, highMoves);
    return new Bounded(low, high, reading.missing());
  }

  private static boolean isFixed(double bound, boolean byFactor) {
    return Double.isInfinite(bound) || (byFactor && bound == 0);
  }

  private Shifted shifted(World.NumberedDoubt doubt) {
    int number = doubt.number();
    if (number >= shifted.length) {
      shifted = Arrays.copyOf(shifted, 2 * number + 16);
    }
    Shifted worlds = shifted[number];
    if (worlds == null) {
      worlds = new Shifted(likely.shift(doubt, 1), likely.shift(doubt, -1));
      shifted[number] = worlds;
    }
    return worlds;
  }

  // Central difference: half of what moving the doubt from one deviation below to one above does;
  // nothing where a bound is no number or no factor.
  private static double move(double below, double above, boolean byFactor) {
    if (Double.isInfinite(below) || Double.isInfinite(above)) {
      return 0;
    }
    if (!byFactor) {
      return (above - below) / 2;
    }
    return below > 0 && above > 0 ? Math.log(above / below) / 2 : 0;
  }

  private static Estimate estimate(
      double likely, Estimate.Scale scale, Doubt[] doubts, double[] moves) {
    return Double.isInfinite(likely)
        ? Estimate.exact(likely)
        : Estimate.of(likely, scale, doubts, moves, moves.length);
  }

  private final class ProfileItem implements Item, Facts {
    private final Properties.Family family;
    private final int index;
    private final Truth membership;

    ProfileItem(Properties.Family family, int index, Truth membership) {
      this.family = family;
      this.index = index;
      this.membership = membership;
    }

    @Override
    public String name() {
      return family.itemName().apply(model, index);
    }

    @Override
    public Odds membership() {
      return membership.odds();
    }

    @Override
    public Set<String> membershipMissing() {
      return membership.missing();
    }

    @Override
    public Facts facts() {
      return this;
    }

    @Override
    public Bounded number(int slot) {
      return Profile.this.number(family.definitions().get(slot), index);
    }

    @Override
    public Chosen choice(int slot) {
      return choiceOfItem(family.definitions().get(slot), index);
    }

    @Override
    public Truth truth(int slot) {
      return family.definitions().get(slot).truth(model, index);
    }

    @Override
    public Bounded call(int slot, List<Argument> arguments) {
      throw new IllegalArgumentException("functions are asked of the formula, not of an item");
    }

    @Override
    public List<Item> items(int kind) {
      throw new IllegalArgumentException("items are asked of the formula, not of an item");
    }
  }

  /** INCI names of the ingredients, blends and solutions taken apart, in the recipe's order. */
  public List<String> ingredients() {
    return model.ingredients();
  }

  /** Whether the catalogue has all ingredients of the recipe. */
  public boolean knowsAllIngredients() {
    return !strangers;
  }

  /** The formula this is the profile of. */
  public Formula formula() {
    return formula;
  }
}
