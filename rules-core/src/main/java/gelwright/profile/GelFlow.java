package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.GumPair;
import gelwright.ingredient.HydrationData;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Setting;
import gelwright.ingredient.Source;
import gelwright.ingredient.Trait;
import gelwright.quantity.Numbers;
import gelwright.rule.Truth;
import gelwright.science.EthanolViscosity;
import gelwright.science.FlowCurve;
import gelwright.science.FlowLaw;
import gelwright.science.FlowModifiers;
import gelwright.science.GlycerolViscosity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** The flow of the gel as its gums, its water and its procedure predict it. */
final class GelFlow {
  // Each gum gives a concentration that is hydrated (between a least and a most where something is
  // missing) and a law. Below a law's range the end of the range bounds the gel from above, above
  // it from below. A gum of which no law is known leaves the gel unbounded above; the others still
  // bound it from below, since more gum never thins a gel.
  //
  // Then pairs of gums that strengthen each other take their joint law in place of their own two;
  // what is left mixes by the rule of mixtures. Salt, pH and temperature scale each gum before it
  // mixes; drops and grains stiffen the mixture at the end.

  private static final String FLOW_READING = "a flow curve, or the viscosity at 10 /s";

  /** Temperature at which the flow of a product is told, °C. */
  static final double TOLD_AT = 25;

  private GelFlow() {}

  /** Within so many K of 25 °C the gel is taken as it is there. */
  private static final double SAME_TEMPERATURE = 0.05;

  private static final Shared<CurveBound> PREDICTED =
      new Shared<>((world, item) -> predict(world, TOLD_AT));

  /**
   * The flow of the gel as a bound: the thinnest and the thickest it can be, and what is missing.
   * Each is the thickest of several curves: that of all gums together and of each gum alone.
   */
  record CurveBound(
      List<FlowCurve> thinnest, Optional<List<FlowCurve>> thickest, Set<String> missing) {
    /** A curve that is known. */
    static CurveBound of(FlowCurve curve) {
      return new CurveBound(List.of(curve), Optional.of(List.of(curve)), Set.of());
    }

    /** A number that grows with the thickness of the gel. */
    Reading read(java.util.function.ToDoubleFunction<FlowCurve> number) {
      double low = most(thinnest, number);
      double high = thickest.map(curves -> most(curves, number)).orElse(Double.POSITIVE_INFINITY);
      return new Reading(Math.min(low, high), Math.max(low, high), missing);
    }

    private static double most(
        List<FlowCurve> curves, java.util.function.ToDoubleFunction<FlowCurve> number) {
      return curves.stream().mapToDouble(number).max().orElse(0);
    }
  }

  /**
   * What a recipe brings of one gum in one grade.
   *
   * @param component the gum
   * @param grade one that the gum's sheet knows; empty for the usual kind
   * @param parts the lines that bring it, all of one grade and lot
   */
  record Portion(Component component, Optional<String> grade, List<Component.Part> parts) {
    private Component.Part first() {
      return parts.get(0);
    }

    private Optional<Lot> lot() {
      return first().lot();
    }

    /** Name of the gum, with its lot if there is one. */
    String name() {
      return first().lot().isPresent() || first().stranger()
          ? component.name() + ", lot " + first().source().lot().orElse("")
          : component.name();
    }

    double share() {
      long units = 0;
      for (Component.Part part : parts) {
        units += part.units();
      }
      return (double) units / component.units();
    }

    // Who names a lot says that it differs: of one that nobody measured the flow is not known.
    Known<Gum> gum() {
      if (first().stranger()) {
        return Known.unknown();
      }
      Known<Gum> own = own(Ingredient.Grade::gum);
      Known<Gum> usual = own.isUnknown() ? component.ingredient().gum() : own;
      Known<Gum> measured = lot().map(Lot::gum).orElse(Known.unknown());
      return measured.isUnknown()
          ? usual
          : measured.fold(
              lot -> Known.given(usual.toOptional().map(lot::over).orElse(lot)), measured, usual);
    }

    Known<HydrationData> hydration() {
      Known<HydrationData> measured = lot().map(Lot::hydration).orElse(Known.unknown());
      Known<HydrationData> own = measured.isUnknown() ? own(Ingredient.Grade::hydration) : measured;
      return own.isUnknown() ? component.ingredient().hydration() : own;
    }

    private <T> Known<T> own(java.util.function.Function<Ingredient.Grade, Known<T>> datum) {
      return grade
          .map(name -> component.ingredient().grades().get(name))
          .map(datum)
          .orElse(Known.unknown());
    }
  }

  /** What a recipe brings of a gum, by grade and lot. */
  static List<Portion> portions(Component component) {
    Map<String, List<Component.Part>> alike = new TreeMap<>();
    for (Component.Part part : component.parts()) {
      if (part.units() > 0 || component.units() == 0) {
        String lot =
            part.lot().isPresent() || part.stranger() ? part.source().lot().orElse("") : "";
        String key = grade(component, part).orElse("") + "\n" + lot;
        alike.computeIfAbsent(key, unused -> new ArrayList<>()).add(part);
      }
    }
    List<Portion> portions = new ArrayList<>();
    for (List<Component.Part> parts : alike.values()) {
      portions.add(new Portion(component, grade(component, parts.get(0)), List.copyOf(parts)));
    }
    return portions;
  }

  /** The grade of a part, if the gum's sheet knows it. */
  private static Optional<String> grade(Component component, Component.Part part) {
    return part.source().grade().filter(component.ingredient().grades()::containsKey);
  }

  /**
   * A gum with as much of it as flows at least and at most.
   *
   * @param present the most there is of it; {@code high} is not below the range of its law
   */
  private record Piece(
      Portion portion,
      Gum gum,
      FlowLaw law,
      double low,
      double high,
      double present,
      Reading left,
      boolean sure) {
    String name() {
      return portion.component().name();
    }

    /** Whether its law was read in one's own workshop. */
    boolean measured(World world) {
      return gum.parameters().values().stream()
          .flatMap(figure -> figure.sources().stream())
          .anyMatch(
              id ->
                  world
                      .model()
                      .catalogue()
                      .source(id)
                      .filter(source -> source.standing() == Source.Standing.MEASURED)
                      .isPresent());
    }

    double concentration(boolean thick) {
      return thick ? high : sure ? low : 0;
    }

    /** What there is of it for a pair with another. */
    double forPair(boolean thick) {
      return thick ? present : concentration(false);
    }

    FlowLaw.Part part(double concentration, boolean thick) {
      return GumModifiers.part(law, concentration, thick ? left.high() : left.low());
    }
  }

  /** What turns up on the way: what is missing, and whether the gel may be however thick. */
  private static final class Notes {
    final Set<String> missing = new TreeSet<>();
    boolean unbounded;
    boolean joint;
  }

  /** The predicted flow at 25 °C, computed once. */
  static CurveBound predicted(World world) {
    return world.of(PREDICTED);
  }

  /** The predicted flow at a temperature, °C. */
  static CurveBound predicted(World world, double celsius) {
    return celsius == TOLD_AT ? predicted(world) : predict(world, celsius);
  }

  private static CurveBound predict(World world, double celsius) {
    Notes notes = new Notes();
    List<Piece> pieces = new ArrayList<>();
    for (Component component : world.model().recipe().possibly("gum")) {
      Truth gum = component.has("gum");
      boolean sure = gum.odds().low() == 1;
      if (!sure) {
        notes.missing.addAll(gum.missing());
      }
      for (Portion portion : portions(component)) {
        piece(world, portion, celsius, sure, notes).ifPresent(pieces::add);
      }
    }
    // By name, so that the order of the lines does not matter.
    pieces.sort(
        Comparator.comparing(Piece::name)
            .thenComparing(piece -> piece.portion().grade().orElse(""))
            .thenComparing(piece -> piece.portion().name()));
    world.predicted();
    Reading solvent = solvent(world, celsius);
    notes.missing.addAll(solvent.missing());
    List<FlowCurve> thin =
        loaded(
            world,
            covered(world, pieces, curves(world, pieces, false, celsius, solvent.low(), notes)),
            false,
            notes.missing);
    List<FlowCurve> mixed =
        covered(world, pieces, curves(world, pieces, true, celsius, solvent.high(), notes));
    if (!pieces.isEmpty() && !notes.joint && pieces.stream().allMatch(p -> p.measured(world))) {
      world.measured();
    }
    if (notes.unbounded) {
      return new CurveBound(thin, Optional.empty(), notes.missing);
    }
    return new CurveBound(
        thin, Optional.of(loaded(world, mixed, true, notes.missing)), notes.missing);
  }

  // Beyond the shear rates that readings of the gums cover, the slope of the curve is in doubt.
  private static List<FlowCurve> covered(World world, List<Piece> pieces, List<FlowCurve> curves) {
    double from = 0;
    double to = Double.POSITIVE_INFINITY;
    Set<String> names = new TreeSet<>();
    for (Piece piece : pieces) {
      if (piece.gum().rates().isPresent()) {
        Gum.Rates rates = piece.gum().rates().get();
        from = Math.max(from, rates.from());
        to = Math.min(to, rates.to());
        names.add(piece.portion().name());
      }
    }
    if (names.isEmpty()) {
      return curves;
    }
    double tilt =
        world.within(
            0,
            Practice.TILT,
            "slope of the flow curve away from the readings of " + String.join("; ", names),
            "a flow curve at more shear rates");
    if (tilt == 0) {
      return curves;
    }
    // Readings of two gums that have no shear rate in common cover none of the mixture's.
    double low = from <= to ? from : Math.sqrt(from * to);
    double high = Math.max(low, to);
    return curves.stream()
        .<FlowCurve>map(
            curve -> new FlowCurve.Joined(curve, low, high, curve.tilted(tilt), curve.tilted(tilt)))
        .toList();
  }

  private static Optional<Piece> piece(
      World world, Portion portion, double celsius, boolean sure, Notes notes) {
    Component component = portion.component();
    Optional<Gum> data = portion.gum().toOptional();
    if (data.isEmpty()) {
      notes.missing.add("flow law of " + portion.name());
      notes.unbounded = true;
      return Optional.empty();
    }
    Gum gum = data.get();
    Reading concentration =
        GelProperties.concentration(world, component).map(c -> c * portion.share());
    Reading hydrated = GelProperties.hydration(world, portion, false);
    notes.missing.addAll(concentration.missing());
    notes.missing.addAll(hydrated.missing());
    double low = FlowModifiers.effectiveConcentration(concentration.low(), hydrated.low() / 100);
    double high =
        FlowModifiers.effectiveConcentration(
            Math.min(concentration.high(), 100), hydrated.high() / 100);
    if (gum.setting().isPresent()) {
      State state = state(world, List.of(portion), gum.setting().get(), celsius, component.name());
      notes.missing.addAll(state.missing());
      if (state.missing().isEmpty()) {
        world.source(gum.setting().get().below().sources().get(0));
      } else {
        low = 0;
        notes.unbounded |= state.maySetLater();
      }
    }
    String range = outside(portion.name(), gum);
    double present = high;
    if (high < gum.from()) {
      notes.missing.add(range);
      high = gum.from();
      low = 0;
    } else if (low < gum.from() && !(hydrated.isKnown() && concentration.isKnown())) {
      low = 0;
    }
    if (high > gum.to()) {
      notes.missing.add(range);
      notes.unbounded = true;
      low = Math.min(low, gum.to());
    }
    Reading left = GumModifiers.factor(world, component, gum, high);
    notes.missing.addAll(left.missing());
    double warm = warmth(world, gum, component.name(), celsius);
    double strength =
        gum.strength()
            .map(
                figure ->
                    world.value(
                        figure, "readings of " + portion.name(), "more readings of the lot"))
            .orElse(1.0);
    Reading factor = left.map(value -> value * warm * strength);
    FlowLaw law = law(world, portion.name(), gum);
    return Optional.of(new Piece(portion, gum, law, low, high, present, factor, sure));
  }

  private static String outside(String name, Gum gum) {
    return "flow of "
        + name
        + " outside "
        + Numbers.plain(gum.from())
        + " to "
        + Numbers.plain(gum.to())
        + " %";
  }

  /** How much thinner (below 1) or thicker a gum is at a temperature than at 25 °C. */
  private static double warmth(World world, Gum gum, String name, double celsius) {
    if (celsius == TOLD_AT) {
      return 1;
    }
    return FlowModifiers.temperatureFactor(energy(world, gum.flowEnergy(), name), celsius);
  }

  /**
   * How much thicker the gel is after a step than at 25 °C, at a shear rate: as its prediction is.
   * A missing temperature, or a gum that melts in between, leaves it open.
   */
  static Reading warmth(World world, double celsius, double rate) {
    Set<String> missing = ProcessProperties.procedure(world).missing();
    if (!missing.isEmpty()) {
      return new Reading(0, Double.POSITIVE_INFINITY, missing);
    }
    if (Math.abs(celsius - TOLD_AT) < SAME_TEMPERATURE) {
      return Reading.of(1);
    }
    CurveBound told = predicted(world);
    CurveBound warm = predicted(world, celsius);
    Set<String> unknown = new TreeSet<>(warm.missing());
    unknown.removeAll(told.missing());
    if (warm.thickest().isEmpty() || told.thickest().isEmpty() || !unknown.isEmpty()) {
      return new Reading(
          0, Double.POSITIVE_INFINITY, Reading.union(warm.missing(), told.missing()));
    }
    return Reading.of(
        thickest(warm.thickest().get(), rate).viscosity(rate)
            / thickest(told.thickest().get(), rate).viscosity(rate));
  }

  /** The thickest of several curves at a shear rate. */
  static FlowCurve thickest(List<FlowCurve> curves, double shearRate) {
    FlowCurve thickest = curves.get(0);
    for (FlowCurve each : curves) {
      boolean thicker = each.viscosity(shearRate) > thickest.viscosity(shearRate);
      thickest = thicker ? each : thickest;
    }
    return thickest;
  }

  /**
   * Activation energy of flow, J/mol: of a gum that has none on its sheet that of its water, with a
   * range from nothing to twice that.
   */
  static double energy(World world, Optional<Figure> known, String name) {
    String what = world.model().named("flow activation energy", name);
    String settledBy = "the viscosity at two temperatures";
    if (known.isPresent()) {
      return Math.max(0, world.value(known.get(), what, settledBy));
    }
    world.source(Practice.SOURCE);
    return Math.max(
        0, world.within(Practice.FLOW_ENERGY, Practice.FLOW_ENERGY_RANGE, what, settledBy));
  }

  // --- Setting and melting
  // ---------------------------------------------------------------------------------------------

  /** Whether a gum that sets on cooling has set: nothing is missing if it surely has. */
  private record State(Set<String> missing, boolean maySetLater) {
    static final State SET = new State(Set.of(), false);
  }

  // The law is that of the gum set and stirred through its setting. Hot it is a liquid, thinner
  // than that. A batch that ends above the setting point sets later in its package, unstirred: to
  // a jelly nothing here describes.
  private static State state(
      World world, List<Portion> portions, Setting setting, double celsius, String name) {
    double sets = setting.below().likely();
    double surely = sets - spread(setting.below());
    double melts = setting.melts().likely() - spread(setting.melts());
    if (celsius > Math.max(surely, Math.min(melts, sets))) {
      boolean melted = celsius >= setting.melts().likely() + spread(setting.melts());
      return new State(
          Set.of(
              "flow of "
                  + name
                  + (melted ? " melted, above " : " near where it sets and melts, above ")
                  + Numbers.plain(surely)
                  + " °C"),
          false);
    }
    Set<String> missing = new TreeSet<>();
    boolean later = false;
    for (Portion portion : portions) {
      for (Component.Part part : portion.parts()) {
        Optional<Procedure.Cohort> cohort = ProcessProperties.procedure(world).cohort(part.line());
        if (world.model().method().isEmpty() || cohort.isEmpty()) {
          continue; // hydration says so
        }
        missing.addAll(cohort.get().missingTemperatures);
        double dissolves =
            portion
                .component()
                .ingredient()
                .trait(Trait.HYDRATION_THRESHOLD)
                .map(Figure::likely)
                .filter(threshold -> threshold > sets)
                .orElse(Double.POSITIVE_INFINITY);
        double coolest =
            cohort.get().path.coolestSince(Math.min(dissolves, setting.melts().likely()));
        if (coolest > surely) {
          missing.add(
              "cooling " + name + " to " + Numbers.plain(surely) + " °C while it is stirred");
          later |= coolest > sets;
        }
      }
    }
    return missing.isEmpty() ? State.SET : new State(missing, later);
  }

  private static double spread(Figure figure) {
    return figure.scale() == gelwright.quantity.Estimate.Scale.LINEAR ? figure.spread() : 0;
  }

  // --- Mixing
  // ---------------------------------------------------------------------------------------------

  private static List<FlowCurve> curves(
      World world, List<Piece> pieces, boolean thick, double celsius, double solvent, Notes notes) {
    List<Piece> left = new ArrayList<>(pieces);
    left.removeIf(piece -> piece.concentration(thick) <= 0);
    List<FlowLaw.Part> parts = new ArrayList<>();
    List<FlowCurve> bounds = new ArrayList<>();
    for (int i = 0; i < left.size(); i++) {
      for (int j = 0; j < left.size(); j++) {
        Optional<GumPair> pair = i == j ? Optional.empty() : pair(left.get(i), left.get(j));
        if (pair.isEmpty()) {
          continue;
        }
        Optional<FlowLaw.Part> joint =
            joint(
                world,
                left.get(i),
                left.get(j),
                pair.get(),
                thick,
                celsius,
                solvent,
                bounds,
                notes);
        if (joint.isPresent()) {
          parts.add(joint.get());
          Piece second = left.get(j);
          left.remove(i);
          left.remove(second);
          i = -1;
          break;
        }
      }
    }
    for (Piece piece : left) {
      parts.add(piece.part(piece.concentration(thick), thick));
    }
    List<FlowCurve> curves = new ArrayList<>(mix(world, parts, solvent));
    curves.addAll(bounds);
    return curves;
  }

  /** What is known of two gums together: what the first says of the second. */
  private static Optional<GumPair> pair(Piece first, Piece second) {
    Map<String, GumPair> own = first.gum().pairs();
    if (own.isEmpty()) {
      // What is known of a gum holds for its grades.
      own =
          first
              .portion()
              .component()
              .ingredient()
              .gum()
              .fold(Gum::pairs, Map.<String, GumPair>of(), Map.<String, GumPair>of());
    }
    return Optional.ofNullable(own.get(second.name()));
  }

  // The joint law of two gums, where it is known for how much there is of each; else what is known
  // of the two together is a bound from above, and the mixture without synergy one from below.
  private static Optional<FlowLaw.Part> joint(
      World world,
      Piece first,
      Piece second,
      GumPair pair,
      boolean thick,
      double celsius,
      double solvent,
      List<FlowCurve> bounds,
      Notes notes) {
    String name = first.name() + " with " + second.name();
    double a = first.forPair(thick);
    double b = second.forPair(thick);
    double total = a + b;
    if (Math.min(a, b) <= NEGLIGIBLE * NEGLIGIBLE * total) {
      return Optional.empty();
    }
    double share = 100 * a / total;
    pair.sources().forEach(world::source);
    if (pair.gum().isEmpty()) {
      if (share >= pair.least() && share <= pair.most()) {
        notes.missing.add("flow of " + name);
        notes.unbounded = true;
      }
      return Optional.empty();
    }
    Gum gum = pair.gum().get();
    Reading left = GumModifiers.ofPair(world, first.portion().component(), gum, total, name);
    double warm = warmth(world, gum, name, celsius);
    double factor = (thick ? left.high() : left.low()) * warm;
    FlowLaw law = law(world, name, gum);
    notes.joint = true;
    boolean within = share >= pair.least() && share <= pair.most();
    if (!within) {
      // Of the scarcer gum each part draws in as much of the other as the window allows.
      double drawn = share < pair.least() ? a / (pair.least() / 100) : b / (1 - pair.most() / 100);
      if (drawn > NEGLIGIBLE * total) {
        notes.missing.add(
            "flow of "
                + name
                + " outside "
                + Numbers.plain(pair.least())
                + " to "
                + Numbers.plain(pair.most())
                + " % of the first");
        if (thick) {
          Piece major = share < pair.least() ? second : first;
          List<FlowLaw.Part> both =
              List.of(
                  GumModifiers.part(law, drawn, factor),
                  major.part(
                      Math.max(0, Math.max(total, major.concentration(true)) - drawn), true));
          bounds.addAll(mix(world, both, solvent));
          bounds.add(GumModifiers.part(law, drawn, factor).law().at(drawn, solvent));
        }
      }
      return Optional.empty();
    }
    notes.missing.addAll(left.missing());
    if (gum.setting().isPresent()) {
      State state =
          state(
              world,
              List.of(first.portion(), second.portion()),
              gum.setting().get(),
              celsius,
              name);
      if (!state.missing().isEmpty()) {
        notes.missing.addAll(state.missing());
        notes.unbounded |= state.maySetLater();
        return thick
            ? Optional.of(GumModifiers.part(law, Math.max(total, gum.from()), factor))
            : Optional.empty();
      }
    }
    if (total < gum.from()) {
      notes.missing.add(outside(name, gum));
      return thick ? Optional.of(GumModifiers.part(law, gum.from(), factor)) : Optional.empty();
    }
    if (total > gum.to()) {
      notes.missing.add(outside(name, gum));
      notes.unbounded = true;
      return Optional.of(GumModifiers.part(law, thick ? total : gum.to(), factor));
    }
    return Optional.of(GumModifiers.part(law, total, factor));
  }

  /** Part of two gums below which what they do together does not show. Engine value. */
  private static final double NEGLIGIBLE = 0.02;

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

  /**
   * Viscosity of the water between the gums with the polyols and the ethanol in it, Pa·s, at a
   * temperature.
   */
  static Reading solvent(World world, double celsius) {
    Reading polyol = CompositionProperties.sumOf(world, "polyol");
    Reading ethanol = CompositionProperties.sumOf(world, "ethanol");
    Reading water = world.of(CompositionProperties.WATER);
    double least = share(polyol.low(), water.high());
    double most = share(polyol.high(), water.low());
    double doubt = 1;
    if (most > 0) {
      world.source("cheng-2008");
      doubt =
          world.withinFactor(
              1, Practice.POLYOL_FACTOR, "viscosity of the polyols in water", FLOW_READING);
    }
    double reference = GlycerolViscosity.milliPascalSeconds(0, TOLD_AT);
    double pure =
        FlowLaw.WATER_VISCOSITY * GlycerolViscosity.milliPascalSeconds(0, celsius) / reference;
    double thin =
        FlowLaw.WATER_VISCOSITY * GlycerolViscosity.milliPascalSeconds(least, celsius) / reference;
    double thick =
        FlowLaw.WATER_VISCOSITY * GlycerolViscosity.milliPascalSeconds(most, celsius) / reference;
    double weakest = share(ethanol.low(), water.high());
    double strongest = share(ethanol.high(), water.low());
    double weak = EthanolViscosity.relative(weakest, celsius);
    double strong = EthanolViscosity.relative(strongest, celsius);
    double peak =
        weakest < EthanolViscosity.GREATEST_AT && strongest > EthanolViscosity.GREATEST_AT
            ? EthanolViscosity.relative(EthanolViscosity.GREATEST_AT, celsius)
            : 1;
    if (strongest > 0) {
      world.source("bingham-jackson");
    }
    // What the polyols add is in doubt, not the water.
    boolean known = least == most && weakest == strongest;
    double low = (pure + (thin - pure) * doubt) * Math.min(weak, strong);
    double high =
        (pure + (thick - pure) * doubt) * (known ? weak : Math.max(peak, Math.max(weak, strong)));
    return known
        ? Reading.of(low)
        : new Reading(
            low,
            high,
            Reading.union(Reading.union(polyol.missing(), ethanol.missing()), water.missing()));
  }

  private static double share(double solute, double water) {
    return solute <= 0 ? 0 : Math.min(1, solute / (solute + Math.max(0, water)));
  }

  // --- Laws
  // ---------------------------------------------------------------------------------------------

  private static FlowLaw law(World world, String name, Gum gum) {
    double[] parts = new double[gum.together().size()];
    for (int i = 0; i < parts.length; i++) {
      parts[i] =
          world.within(
              0,
              1,
              "fit to the readings of " + name + (i == 0 ? "" : ", doubt " + (i + 1)),
              "more readings of the lot");
    }
    return GumLaw.of(
        gum,
        parameter ->
            world.value(GumLaw.parameter(gum, parameter), parameter + " of " + name, FLOW_READING)
                * GumLaw.moved(gum, parameter, parts),
        () -> relaxation(world, name));
  }

  /** The molar mass of a coil enters its relaxation time alone, which is good to this factor. */
  private static double relaxation(World world, String name) {
    return world.withinFactor(
        1, Practice.RELAXATION_FACTOR, world.model().named("relaxation time", name), FLOW_READING);
  }
}
