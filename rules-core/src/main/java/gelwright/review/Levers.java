package gelwright.review;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Trait;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.rule.CompiledRule;
import gelwright.rule.RuleBook;
import gelwright.rule.Table;
import gelwright.rule.Text;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** What a rule's levers come to in one formula: what can be turned, and what can be chosen. */
final class Levers {
  /** So many substitutes and new ingredients are looked at, the most alike first. */
  private static final int MOST_ALIKE = 40;

  private static final int MOST_NEW = 4;

  /**
   * Where the search for a pH begins when neither the recipe nor the brief gives one; it is told to
   * nobody. Common practice, no source: skin is about there.
   */
  private static final double FROM_PH = 5.5;

  private final Formula formula;
  private final Catalogue catalogue;
  private final RuleBook rules;
  private final Profile profile;
  private final RemedyTables tables;
  private final Optional<Water> water;
  private final Share grid;

  /** One change that is made or not. */
  record Choice(List<Edit> edits, double effort) {
    Choice {
      edits = List.copyOf(edits);
    }
  }

  /** All there is for one finding. */
  record Found(Set<Knob> knobs, Set<Choice> choices) {}

  Levers(Profile profile, Knowledge knowledge) {
    this.profile = profile;
    this.formula = profile.formula();
    this.catalogue = knowledge.catalogue();
    this.rules = knowledge.rules();
    this.tables = RemedyTables.of(knowledge);
    this.water = Water.of(formula, catalogue);
    this.grid = Grid.share(formula);
  }

  /** What the levers of a rule come to for a subject. */
  Found of(CompiledRule rule, Subject subject) {
    Found found = new Found(new LinkedHashSet<>(), new LinkedHashSet<>());
    for (Text lever : rule.rule().levers()) {
      String written = lever.text().strip();
      int space = written.indexOf(' ');
      String verb = written.substring(0, space);
      String what = written.substring(space + 1).strip();
      switch (verb) {
        case "raise", "lower" -> turn(rule, subject, verb.equals("raise"), what, found);
        case "change" -> change(rule, subject, what, found);
        case "replace" -> replace(rule, subject, what, found);
        default -> reorder(subject, what, found);
      }
    }
    return found;
  }

  /**
   * A number that can be moved either way.
   *
   * @param what which
   * @param now where it stands
   * @param grid the step it is moved in
   * @param down towards less, where it can be
   * @param up towards more, where it can be
   */
  record Movable(
      Headroom.What what, Quantity now, Quantity grid, Optional<Knob> down, Optional<Knob> up) {
    /** How many steps lie between nothing and where it stands. */
    double stepsFromNothing() {
      return Math.abs(now.value() / grid.value());
    }

    /** Where it stands after so many steps of one of its knobs. */
    Quantity at(Knob knob, long steps) {
      for (Edit edit : knob.edits(steps)) {
        if (edit instanceof Edit.OfAmount each
            && what instanceof Headroom.What.ShareOf share
            && each.line() == share.line()) {
          return percent(((Amount.Stated) each.to()).share());
        }
        if (edit instanceof Edit.OfPH each) {
          return Quantity.of(each.to(), Unit.PH);
        }
        if (edit instanceof Edit.OfStep each) {
          return each.to();
        }
      }
      throw new IllegalArgumentException("knob does not move " + what.text());
    }
  }

  private static Quantity percent(Share share) {
    return Quantity.of(share.percent(), Unit.PERCENT);
  }

  /** What headroom is asked of: stated shares, the pH, temperatures of the procedure. */
  List<Movable> movables() {
    List<Movable> all = new ArrayList<>();
    for (int i = 0; i < formula.lines().size(); i++) {
      Optional<Knob> down = share(i, false, false);
      Optional<Knob> up = share(i, true, false);
      Line line = formula.lines().get(i);
      if ((down.isPresent() || up.isPresent()) && line.amount() instanceof Amount.Stated stated) {
        all.add(
            new Movable(
                new Headroom.What.ShareOf(i, line.name()),
                percent(stated.share()),
                percent(grid),
                down,
                up));
      }
    }
    // How far a pH can move that nobody knows is not known either.
    if (pHNow().isPresent()) {
      all.add(
          new Movable(
              new Headroom.What.PH(),
              Quantity.of(pHNow().get(), Unit.PH),
              Quantity.of(Grid.PH, Unit.PH),
              pH(false, true).stream().findFirst(),
              pH(true, true).stream().findFirst()));
    }
    for (List<Integer> plateau : plateaus()) {
      int first = plateau.get(0);
      all.add(
          new Movable(
              new Headroom.What.Temperature(first),
              Quantity.of(
                  formula.method().get(first).temperature().orElseThrow().in(Unit.CELSIUS),
                  Unit.CELSIUS),
              Quantity.of(1, Unit.CELSIUS),
              Optional.of(new Knobs.Temperature(formula.method(), plateau, false)),
              Optional.of(new Knobs.Temperature(formula.method(), plateau, true))));
    }
    return all;
  }

  // --- Raise and lower
  // -------------------------------------------------------------------------------

  private void turn(CompiledRule rule, Subject subject, boolean up, String what, Found found) {
    switch (what) {
      case "step.stir" -> stirred(subject).forEach(i -> add(found, stirring(i, up)));
      case "step.for" -> times(up, found);
      case "step.to", "step.at" -> {
        for (List<Integer> plateau : plateaus()) {
          add(found, new Knobs.Temperature(formula.method(), plateau, up));
        }
      }
      case "particle.size" -> sizes(subject, found);
      case "batch.mass" -> formula.batch().ifPresent(batch -> add(found, new Knobs.Batch(batch)));
      default -> shares(rule, subject, up, what, found);
    }
  }

  private static void add(Found found, Knob knob) {
    if (knob.most() > 0) {
      found.knobs().add(knob);
    }
  }

  private void shares(CompiledRule rule, Subject subject, boolean up, String what, Found found) {
    List<Integer> lines = linesOf(rule, subject, what);
    List<Integer> stated = new ArrayList<>();
    for (int line : lines) {
      Optional<Knob> knob = share(line, up, true);
      if (knob.isPresent()) {
        add(found, knob.get());
        stated.add(line);
      }
    }
    if (stated.size() > 1 && water.isPresent()) {
      add(found, new Knobs.ShareOfLines(formula, stated, up, grid, water.get()));
    }
    if (lines.isEmpty() && up && what.endsWith(".share")) {
      additions(function(what), found);
    }
  }

  private Optional<Knob> share(int index, boolean up, boolean mayLeaveOut) {
    Line line = formula.lines().get(index);
    if (water.isEmpty()
        || water.get().line() == index
        || !(line.amount() instanceof Amount.Stated stated)
        || stated.share().units() <= 0) {
      return Optional.empty();
    }
    Knob knob =
        new Knobs.ShareOfLine(
            line,
            index,
            stated.share(),
            up,
            grid,
            water.get(),
            mayLeaveOut && !isNamedInAStep(line));
    return knob.most() > 0 ? Optional.of(knob) : Optional.empty();
  }

  private boolean isNamedInAStep(Line line) {
    return formula.method().stream()
        .anyMatch(step -> step.with().stream().anyMatch(name -> same(name, line.name())));
  }

  private boolean same(String one, String other) {
    return one.equals(other)
        || catalogue
            .find(one)
            .flatMap(each -> catalogue.find(other).filter(each::equals))
            .isPresent();
  }

  private void additions(String function, Found found) {
    if (water.isEmpty()) {
      return;
    }
    String phase = formula.lines().get(water.get().line()).phase();
    int place = Knobs.endOf(formula, phase);
    alike(Optional.empty(), function).stream()
        .filter(each -> each.trait(Trait.USE_LEAST).isPresent())
        .limit(MOST_NEW)
        .forEach(
            each ->
                add(
                    found,
                    new Knobs.NewIngredient(
                        each.name(),
                        phase,
                        place,
                        least(each),
                        each.trait(Trait.USE_MOST).map(most -> Share.nearest(most.likely())),
                        grid,
                        water.get())));
  }

  private static Share least(Ingredient ingredient) {
    return ingredient
        .trait(Trait.USE_LEAST)
        .map(figure -> Share.nearest(figure.likely()))
        .orElse(Share.ZERO);
  }

  private Knob stirring(int step, boolean up) {
    return new Knobs.Stirring(formula, step, up);
  }

  // The subject's own step, or all that stir.
  private List<Integer> stirred(Subject subject) {
    List<Integer> steps = new ArrayList<>();
    Optional<Integer> own = step(subject);
    for (int i = 0; i < formula.method().size(); i++) {
      if (formula.method().get(i).stir().isPresent() && (own.isEmpty() || own.get() == i)) {
        steps.add(i);
      }
    }
    return steps;
  }

  private static Optional<Integer> step(Subject subject) {
    String start = "step ";
    return subject.kind().equals("step") && subject.name().startsWith(start)
        ? Optional.of(Integer.parseInt(subject.name().substring(start.length())) - 1)
        : Optional.empty();
  }

  private void times(boolean up, Found found) {
    boolean any = false;
    for (int i = 0; i < formula.method().size(); i++) {
      if (isHold(formula.method().get(i))) {
        any = true;
        add(found, new Knobs.Lasting(formula.method(), i, up));
      }
    }
    if (!any && up) {
      swelling(found);
    }
  }

  private static boolean isHold(Step step) {
    return step.action() == Step.Action.HYDRATE || step.action() == Step.Action.HOLD;
  }

  // Where nothing waits for the gum to swell, a step that does, after it was dispersed.
  private void swelling(Found found) {
    for (int i = 0; i < formula.method().size(); i++) {
      Step step = formula.method().get(i);
      if (step.action() == Step.Action.DISPERSE) {
        for (int minutes : List.of(15, 30, 60, 120, 240, 720)) {
          Step hydrate =
              new Step(
                  Step.Action.HYDRATE,
                  step.phase(),
                  List.of(),
                  Optional.empty(),
                  temperatureBefore(i),
                  Optional.empty(),
                  Optional.empty(),
                  Optional.of(Quantity.of(minutes, Unit.MINUTE)),
                  Optional.empty());
          found.choices().add(new Choice(List.of(new Edit.Insertion(i + 1, hydrate)), Effort.STEP));
        }
      }
    }
  }

  private Optional<Quantity> temperatureBefore(int step) {
    for (int i = step; i >= 0; i--) {
      Optional<Quantity> temperature = formula.method().get(i).temperature();
      if (temperature.isPresent()) {
        return temperature;
      }
    }
    return formula.equipment().roomTemperature();
  }

  private void sizes(Subject subject, Found found) {
    for (int i = 0; i < formula.lines().size(); i++) {
      Line line = formula.lines().get(i);
      if (!subject.isFormula() && !isNamed(line, subject)) {
        continue;
      }
      Optional<Quantity> usual =
          catalogue
              .find(line.name())
              .flatMap(each -> each.trait(Trait.SIZE))
              .map(figure -> Quantity.ofBase(figure.likely(), Unit.MICROMETRE));
      Optional<Quantity> now = line.size().isPresent() ? line.size() : usual;
      int index = i;
      now.ifPresent(size -> add(found, new Knobs.Size(line, index, size, line.size())));
    }
  }

  // Steps at one temperature, from a heating to the next cooling.
  private List<List<Integer>> plateaus() {
    List<List<Integer>> all = new ArrayList<>();
    List<Integer> current = new ArrayList<>();
    double at = Double.NaN;
    for (int i = 0; i < formula.method().size(); i++) {
      Step step = formula.method().get(i);
      if (step.action() == Step.Action.COOL || step.temperature().isEmpty()) {
        if (step.action() == Step.Action.COOL) {
          at = Double.NaN;
        }
        continue;
      }
      double temperature = step.temperature().get().in(Unit.CELSIUS);
      boolean warms =
          step.action() == Step.Action.HEAT
              || isHold(step)
              || step.action() == Step.Action.DISPERSE;
      if (temperature == at) {
        current.add(i);
      } else if (warms) {
        current = new ArrayList<>(List.of(i));
        all.add(current);
        at = temperature;
      }
    }
    return all.stream().map(List::copyOf).toList();
  }

  // --- Change
  // ---------------------------------------------------------------------------------------

  private void change(CompiledRule rule, Subject subject, String what, Found found) {
    switch (what) {
      case "pH" -> pH(rule, found);
      case "product.dispensing" ->
          promise(Edit.Promise.DISPENSING, formula.brief().dispensing(), found);
      case "product.texture" -> promise(Edit.Promise.TEXTURE, formula.brief().texture(), found);
      case "product.area" -> areas(found);
      case "share of Aqua" -> rest(found);
      case "step.to" ->
          step(subject)
              .filter(i -> formula.method().get(i).temperature().isPresent())
              .ifPresent(
                  i -> {
                    add(found, new Knobs.Temperature(formula.method(), List.of(i), false));
                    add(found, new Knobs.Temperature(formula.method(), List.of(i), true));
                  });
      default -> {
        // Not to be turned by one number; the message says what to do.
      }
    }
  }

  private void pH(CompiledRule rule, Found found) {
    boolean aboutThePromise = rule.inputs().contains("product.pH-from");
    for (boolean up : List.of(false, true)) {
      if (aboutThePromise && formula.method().isEmpty() && aim().isPresent()) {
        // Without a procedure the pH is adjusted to what is promised; to move it would move that.
        if (pHNow().isEmpty() || up == aim().get() > pHNow().get()) {
          adjusters(up)
              .forEach(each -> found.choices().add(new Choice(List.of(each), Effort.INGREDIENT)));
        }
      } else {
        pH(up, aboutThePromise).forEach(knob -> add(found, knob));
      }
    }
  }

  private Optional<Double> pHNow() {
    Bounded pH = profile.value("water-phase.pH");
    return pH.isKnown() && !isMeasured()
        ? Optional.of(pH.atLeast().likely())
        : Optional.<Double>empty();
  }

  private Optional<Double> aim() {
    return formula.brief().pH().map(Span::middle);
  }

  private boolean isMeasured() {
    return formula.measured().stream().anyMatch(each -> each.what().equals("pH"));
  }

  private boolean isAdjusted() {
    return formula.method().stream().anyMatch(step -> step.action() == Step.Action.ADJUST_PH)
        || formula.lines().stream().anyMatch(line -> line.amount() instanceof Amount.ToPH);
  }

  private List<Edit.Addition> adjusters(boolean up) {
    if (isAdjusted() || isMeasured()) {
      return List.of();
    }
    return (up ? tables.bases() : tables.acids())
        .stream()
            .map(
                each ->
                    new Edit.Addition(
                        formula.lines().size(),
                        Knobs.newPhase(formula),
                        inci(each),
                        new Amount.ToPH()))
            .toList();
  }

  /** The pH one way, once for each of the adjusters that could take it there, in their order. */
  private List<Knob> pH(boolean up, boolean keepPromise) {
    if (isMeasured()) {
      return List.of();
    }
    Optional<Double> now = pHNow();
    double start = now.or(this::aim).orElse(FROM_PH);
    long tenths = up ? (long) Math.floor(start * 10 + 1e-9) : (long) Math.ceil(start * 10 - 1e-9);
    List<Optional<Edit.Addition>> adjusters =
        isAdjusted()
            ? List.of(Optional.empty())
            : adjusters(up).stream().map(Optional::of).toList();
    return adjusters.stream()
        .<Knob>map(each -> new Knobs.PH(formula, now, tenths, up, each, keepPromise))
        .toList();
  }

  private static void promise(Edit.Promise promise, Optional<String> now, Found found) {
    for (String word : Knobs.words(promise)) {
      if (!now.filter(word::equals).isPresent()) {
        found
            .choices()
            .add(
                new Choice(
                    List.of(new Edit.OfBrief(promise, now.orElse(""), word)), Effort.PROMISE));
      }
    }
  }

  private void areas(Found found) {
    List<String> areas = formula.brief().area();
    if (areas.size() < 2) {
      return;
    }
    for (String leftOut : areas) {
      List<String> rest = areas.stream().filter(each -> !each.equals(leftOut)).toList();
      found
          .choices()
          .add(
              new Choice(
                  List.of(
                      new Edit.OfBrief(
                          Edit.Promise.AREA, String.join(", ", areas), String.join(", ", rest))),
                  Effort.PROMISE));
    }
  }

  private void rest(Found found) {
    water
        .filter(each -> each.stated().isPresent())
        .ifPresent(
            each ->
                found
                    .choices()
                    .add(
                        new Choice(
                            List.of(
                                new Edit.OfAmount(
                                    each.line(),
                                    each.name(),
                                    formula.lines().get(each.line()).amount(),
                                    new Amount.Rest())),
                            Effort.SPELLING)));
  }

  // --- Replace
  // --------------------------------------------------------------------------------------

  private void replace(CompiledRule rule, Subject subject, String what, Found found) {
    if (what.equals("product.dispensing")) {
      promise(Edit.Promise.DISPENSING, formula.brief().dispensing(), found);
      return;
    }
    String kind = what.substring(0, what.indexOf('.'));
    for (int line : linesOf(rule, subject, kind + ".share")) {
      Line old = formula.lines().get(line);
      if (kind.equals("line")) {
        spelled(line, old, found);
      } else {
        substitutes(line, old, kind, found);
      }
    }
  }

  private void spelled(int index, Line line, Found found) {
    if (catalogue.find(line.name()).isPresent()) {
      return;
    }
    double effort = Effort.SPELLING;
    for (String name : catalogue.closest(line.name(), 3)) {
      String inci = catalogue.find(name).map(Ingredient::name).orElse(name);
      found
          .choices()
          .add(
              new Choice(
                  List.of(
                      new Edit.Substitution(
                          index, line.name(), inci, line.amount(), line.amount())),
                  effort));
      effort += Effort.SPELLING;
    }
  }

  private void substitutes(int index, Line old, String kind, Found found) {
    Optional<Ingredient> ingredient = catalogue.find(old.name());
    if (ingredient.isEmpty() || (water.isPresent() && water.get().line() == index)) {
      return;
    }
    boolean any =
        kind.equals("ingredient") || kind.equals("adjuster") || kind.equals("electrolyte");
    List<String> functions =
        kind.equals("adjuster")
            ? List.of("acid", "base")
            : any
                ? ingredient.get().functions().toOptional().stream()
                    .flatMap(Set::stream)
                    .filter(tables.replaceable()::contains)
                    .sorted()
                    .limit(2)
                    .toList()
                : tables.replaceable().contains(kind) ? List.of(kind) : List.of();
    int count = 0;
    for (String function : functions) {
      for (Ingredient candidate : alike(ingredient, function)) {
        if (count++ >= MOST_ALIKE) {
          return;
        }
        substitute(index, old, candidate, found);
      }
    }
  }

  private void substitute(int index, Line old, Ingredient candidate, Found found) {
    if (!(old.amount() instanceof Amount.Stated stated)) {
      found
          .choices()
          .add(
              new Choice(
                  List.of(
                      new Edit.Substitution(
                          index, old.name(), candidate.name(), old.amount(), old.amount())),
                  Effort.SUBSTITUTION));
      return;
    }
    if (water.isEmpty()) {
      return;
    }
    double share = stated.share().percent();
    double least = candidate.trait(Trait.USE_LEAST).map(Figure::likely).orElse(share);
    double most = candidate.trait(Trait.USE_MOST).map(Figure::likely).orElse(share);
    double used = Math.max(least, Math.min(share, most));
    Share to =
        used == share
            ? stated.share()
            : new Share(
                Math.max(1, Math.round(used * Share.PER_PERCENT / grid.units())) * grid.units());
    Share more = to.minus(stated.share());
    if (more.compareTo(water.get().share()) >= 0) {
      return;
    }
    found
        .choices()
        .add(
            new Choice(
                water
                    .get()
                    .balance(
                        List.of(
                            new Edit.Substitution(
                                index,
                                old.name(),
                                candidate.name(),
                                old.amount(),
                                new Amount.Stated(to))),
                        more),
                Effort.SUBSTITUTION + Effort.factor(share, to.percent())));
  }

  // Ingredients with a function that the recipe does not have, those most like one first.
  private List<Ingredient> alike(Optional<Ingredient> old, String function) {
    Set<String> present = new HashSet<>();
    for (Line line : formula.lines()) {
      catalogue.find(line.name()).ifPresent(each -> present.add(each.name()));
    }
    record Scored(Ingredient ingredient, int score) {}
    List<Scored> all = new ArrayList<>();
    for (Ingredient each : catalogue.ingredients()) {
      boolean fits =
          each.functions().toOptional().filter(set -> set.contains(function)).isPresent()
              && each.composition().isEmpty()
              && !each.measured()
              && !present.contains(each.name());
      if (fits) {
        all.add(new Scored(each, likeness(old, each)));
      }
    }
    all.sort(
        Comparator.<Scored>comparingInt(each -> -each.score())
            .thenComparing(each -> each.ingredient().name()));
    return all.stream().map(Scored::ingredient).limit(MOST_ALIKE).toList();
  }

  // A point for each thing alike, and for each thing known: what is not known is not checked.
  private static int likeness(Optional<Ingredient> old, Ingredient each) {
    int score = 0;
    score += each.trait(Trait.USE_LEAST).isPresent() ? 1 : 0;
    score += each.trait(Trait.USE_MOST).isPresent() ? 1 : 0;
    score += each.acid().isUnknown() ? 0 : 1;
    score += each.heat().isUnknown() ? 0 : 1;
    score += each.gum().toOptional().isPresent() ? 2 : 0;
    score += each.hydration().toOptional().isPresent() ? 1 : 0;
    score += each.inhibitory().toOptional().isPresent() ? 2 : 0;
    if (old.isEmpty()) {
      return score + (each.dissolves().toOptional().filter("water"::equals).isPresent() ? 2 : 0);
    }
    score += each.charge().equals(old.get().charge()) ? 2 : 0;
    score += each.dissolves().equals(old.get().dissolves()) ? 2 : 0;
    Set<String> shared = new HashSet<>(each.functions().toOptional().orElse(Set.of()));
    shared.retainAll(old.get().functions().toOptional().orElse(Set.of()));
    return score + shared.size();
  }

  // --- Reorder
  // --------------------------------------------------------------------------------------

  private void reorder(Subject subject, String what, Found found) {
    if (what.equals("step.do")) {
      step(subject).ifPresent(step -> moves(step, found));
      return;
    }
    for (int i = 0; i < formula.lines().size(); i++) {
      Line line = formula.lines().get(i);
      if (isNamed(line, subject)) {
        phases(i, line, found);
      }
    }
  }

  private void moves(int step, Found found) {
    for (int to = 0; to < formula.method().size(); to++) {
      if (to != step) {
        found
            .choices()
            .add(
                new Choice(
                    List.of(new Edit.Move(step, to)),
                    Effort.ORDER * (1 + Math.abs(to - step) / 10.0)));
      }
    }
  }

  private void phases(int index, Line line, Found found) {
    for (String phase : Knobs.phases(formula)) {
      if (!phase.equals(line.phase())) {
        found
            .choices()
            .add(
                new Choice(
                    List.of(new Edit.OfPhase(index, line.name(), line.phase(), phase)),
                    Effort.ORDER));
      }
    }
    for (int step = 0; step < formula.method().size(); step++) {
      Step added = formula.method().get(step);
      if (added.action() == Step.Action.ADD
          && added.phase().filter(line.phase()::equals).isPresent()) {
        moves(step, found);
      }
    }
    stepOfItsOwn(index, line, found);
  }

  // A phase of its own, added last of all at the temperature reached by then.
  private void stepOfItsOwn(int index, Line line, Found found) {
    Optional<Step> adding =
        formula.method().stream()
            .filter(step -> step.action() == Step.Action.ADD && step.into().isPresent())
            .reduce((first, second) -> second);
    String phase = Knobs.newPhase(formula);
    if (adding.isEmpty() || phase.isEmpty()) {
      return;
    }
    int place = place();
    Step step =
        new Step(
            Step.Action.ADD,
            Optional.of(phase),
            List.of(),
            adding.get().into(),
            temperatureBefore(place - 1),
            Optional.empty(),
            Optional.empty(),
            adding.get().lasting(),
            adding.get().stir());
    found
        .choices()
        .add(
            new Choice(
                List.of(
                    new Edit.OfPhase(index, line.name(), line.phase(), phase),
                    new Edit.Insertion(place, step)),
                Effort.STEP));
  }

  // Before the pH is set and the product is filled, after everything else.
  private int place() {
    for (int i = 0; i < formula.method().size(); i++) {
      Step.Action action = formula.method().get(i).action();
      if (action == Step.Action.ADJUST_PH || action == Step.Action.FILL) {
        return i;
      }
    }
    return formula.method().size();
  }

  // --- Which lines
  // ----------------------------------------------------------------------------------

  private static String function(String what) {
    String word = what.substring(0, what.indexOf('.'));
    return word.equals("particles") ? "particle" : word;
  }

  private List<Integer> linesOf(CompiledRule rule, Subject subject, String what) {
    String of = "share of ";
    if (what.startsWith(of)) {
      List<Integer> named =
          linesThat(line -> brings(line, Set.of(inci(what.substring(of.length())))));
      return named.isEmpty() ? linesThat(line -> isMentioned(rule, subject, line)) : named;
    }
    String function = function(what);
    boolean aboutOne =
        subject.kind().equals(function)
            || (Set.of("ingredient", "line", "heat-limit").contains(subject.kind())
                && function.equals(subject.kind()))
            || (subject.kind().equals("ingredient") && has(subject.name(), function))
            || (function.equals("ingredient") && !subject.isFormula() && !isRow(rule));
    if (aboutOne) {
      return linesThat(line -> isNamed(line, subject));
    }
    List<Integer> mentioned =
        linesThat(
            line ->
                isMentioned(rule, subject, line)
                    && (function.equals("ingredient") || has(line.name(), function)));
    return mentioned.isEmpty() && !function.equals("ingredient")
        ? linesThat(line -> has(line.name(), function))
        : mentioned;
  }

  private interface Which {
    boolean is(Line line);
  }

  private List<Integer> linesThat(Which which) {
    List<Integer> lines = new ArrayList<>();
    for (int i = 0; i < formula.lines().size(); i++) {
      if (which.is(formula.lines().get(i))) {
        lines.add(i);
      }
    }
    return lines;
  }

  /** The INCI name of an ingredient, or the name as written. */
  String inci(String name) {
    return catalogue.find(name).map(Ingredient::name).orElse(name);
  }

  private boolean has(String name, String function) {
    return catalogue
        .find(name)
        .filter(
            each ->
                each.functions().toOptional().orElse(Set.of()).contains(function)
                    || each.composition().keySet().stream()
                        .anyMatch(
                            part ->
                                catalogue
                                    .find(part)
                                    .flatMap(inner -> inner.functions().toOptional())
                                    .filter(set -> set.contains(function))
                                    .isPresent()))
        .isPresent();
  }

  // Items are called like their ingredient, some with what the limit is about behind a comma, or
  // the number of the line in parentheses.
  private boolean isNamed(Line line, Subject subject) {
    String name = subject.name();
    int comma = name.lastIndexOf(", ");
    String bare =
        subject.kind().equals("heat-limit") && comma > 0 ? name.substring(0, comma) : name;
    int bracket = bare.lastIndexOf(" (line ");
    return brings(line, Set.of(inci(bracket > 0 ? bare.substring(0, bracket) : bare)));
  }

  private boolean brings(Line line, Set<String> names) {
    String inci = inci(line.name());
    if (names.contains(inci)) {
      return true;
    }
    return catalogue
        .find(line.name())
        .filter(
            each ->
                each.composition().keySet().stream().anyMatch(part -> names.contains(inci(part))))
        .isPresent();
  }

  private static boolean isRow(CompiledRule rule) {
    return rule.rule()
        .forEach()
        .filter(each -> each.text().strip().startsWith("row of "))
        .isPresent();
  }

  // Whether the rule or the row it is about names what a line brings.
  private boolean isMentioned(CompiledRule rule, Subject subject, Line line) {
    Set<String> names = new HashSet<>();
    if (isRow(rule)) {
      String table =
          rule.rule()
              .forEach()
              .map(each -> each.text().strip().substring("row of ".length()).strip())
              .orElse("");
      Table rows = rules.tables().get(table);
      if (rows != null) {
        for (Table.Row row : rows.rows()) {
          if (row.key().equals(subject.name())) {
            row.cells().values().forEach(cell -> collect(cell, names));
          }
        }
      }
    }
    if (brings(line, names)) {
      return true;
    }
    String text =
        rule.rule().require().map(Text::text).orElse("")
            + " "
            + rule.rule().when().map(Text::text).orElse("");
    String inci = inci(line.name()).toLowerCase(Locale.ROOT);
    return text.toLowerCase(Locale.ROOT).contains('"' + inci + '"')
        || containsWord(text.toLowerCase(Locale.ROOT), inci);
  }

  private void collect(Table.Cell cell, Set<String> names) {
    if (cell instanceof Table.Cell.Names several) {
      several.names().forEach(name -> names.add(inci(name)));
    }
  }

  // A name of one word stands bare in a list.
  private static boolean containsWord(String text, String word) {
    if (word.indexOf(' ') >= 0) {
      return false;
    }
    int at = text.indexOf(word);
    while (at >= 0) {
      int end = at + word.length();
      boolean starts = at > 0 && "[ ".indexOf(text.charAt(at - 1)) >= 0;
      boolean ends = end < text.length() && ",]".indexOf(text.charAt(end)) >= 0;
      if (starts && ends) {
        return true;
      }
      at = text.indexOf(word, at + 1);
    }
    return false;
  }
}
