package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Step;
import gelwright.ingredient.Acid;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.HydrationData;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Bounded;
import gelwright.quantity.Estimate;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.rule.Facts;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Small recipes of invented ingredients for tests, and how to ask a profile by name. */
final class Shed {
  private final String name;
  private Known<Set<String>> functions = Known.given(Set.of());
  private Known<String> dissolves = Known.given("water");
  private final Map<Trait, Figure> traits = new EnumMap<>(Trait.class);
  private Known<Acid> acid = Known.none();
  private Known<Gum> gum = Known.none();
  private Known<HydrationData> hydration = Known.unknown();
  private final Map<String, Share> parts = new LinkedHashMap<>();
  private Known<Map<String, Figure>> allergens = Known.unknown();

  private Shed(String name) {
    this.name = name;
  }

  static Shed ingredient(String name) {
    return new Shed(name);
  }

  Shed functions(String... names) {
    functions = Known.given(Set.of(names));
    return this;
  }

  Shed functionsUnknown() {
    functions = Known.unknown();
    return this;
  }

  Shed dissolves(String where) {
    dissolves = Known.given(where);
    return this;
  }

  Shed trait(Trait trait, double base) {
    traits.put(trait, exact(base));
    return this;
  }

  /** Molar mass in g/mol, pKa list, charge of the fully protonated form, strong counter-ions. */
  Shed acid(double molarMass, List<Double> pKa, int charge, int counterIons) {
    traits.put(Trait.MOLAR_MASS, exact(Unit.GRAM_PER_MOL.toBase(molarMass)));
    acid =
        Known.given(
            new Acid(
                pKa.stream().map(Shed::exact).toList(),
                charge,
                counterIons,
                "",
                1,
                Optional.empty(),
                false));
    return this;
  }

  /** A yield-stress gum: 8 Pa at 1 %, growing with the square, known to a factor of two. */
  Shed gum(double from, double to) {
    functions("gum");
    gum =
        Known.given(
            new Gum(
                "herschel-bulkley",
                Map.of(
                    "yield", factor(8, 2),
                    "yield-power", exact(2),
                    "consistency", factor(2.5, 2),
                    "consistency-power", exact(1.3),
                    "flow-index", exact(0.25)),
                from,
                to,
                Known.none()));
    hydration =
        Known.given(
            new HydrationData(
                exact(Unit.PER_MINUTE.toBase(0.055)), exact(Unit.KILOJOULE_PER_MOL.toBase(38)), 1));
    traits.put(Trait.HYDRATION_THRESHOLD, exact(0));
    return this;
  }

  Shed madeOf(String part, String percent) {
    parts.put(part, share(percent));
    return this;
  }

  /** An allergen in % of the ingredient. */
  Shed allergen(String declaredAs, double percent) {
    Map<String, Figure> all = new LinkedHashMap<>(allergens.toOptional().orElse(Map.of()));
    all.put(declaredAs, exact(percent));
    allergens = Known.given(all);
    return this;
  }

  Ingredient known() {
    return new Ingredient(
        name,
        List.of(),
        "",
        functions,
        Known.given("none"),
        dissolves,
        traits,
        acid,
        Known.<List<HeatLimit>>none(),
        gum,
        hydration,
        Known.none(),
        Known.none(),
        Map.of(),
        Map.of(),
        Map.of(),
        parts,
        allergens,
        Map.of(),
        "",
        false);
  }

  static Figure exact(double base) {
    return new Figure(base, Unit.NONE, 0, Estimate.Scale.LINEAR, List.of("shed"));
  }

  static Figure factor(double base, double factor) {
    return new Figure(base, Unit.NONE, factor, Estimate.Scale.FACTOR, List.of("shed"));
  }

  static Share share(String percent) {
    return Share.ofPercent(new BigDecimal(percent)).orElseThrow();
  }

  static Catalogue catalogue(Shed... ingredients) {
    List<Ingredient> all = new ArrayList<>();
    all.add(ingredient("Aqua").functions("solvent").known());
    Arrays.stream(ingredients).map(Shed::known).forEach(all::add);
    return Catalogue.of(all, List.of());
  }

  static Line line(String phase, String name, String percent) {
    Amount amount = percent.equals("rest") ? new Amount.Rest() : new Amount.Stated(share(percent));
    return Line.of(phase, name, amount);
  }

  static Line line(String phase, String name, String percent, String strength) {
    Line plain = line(phase, name, percent);
    return new Line(
        phase,
        name,
        plain.amount(),
        Optional.of(share(strength)),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  static Formula formula(List<Line> lines, Step... method) {
    return formula(lines, List.of(), method);
  }

  static Formula formula(List<Line> lines, List<Measurement> measured, Step... method) {
    return new Formula(
        "shed gel",
        "1",
        Brief.NONE,
        Optional.empty(),
        new Equipment(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.of(Quantity.of(20, Unit.CELSIUS)),
            Optional.empty()),
        lines,
        List.of(method),
        Optional.empty(),
        measured,
        List.of(),
        Map.of());
  }

  static Step step(Step.Action action, String phase) {
    return new Step(
        action,
        Optional.of(phase),
        List.of(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  static Step at(Step step, double celsius) {
    return new Step(
        step.action(),
        step.phase(),
        step.with(),
        step.into(),
        Optional.of(Quantity.of(celsius, Unit.CELSIUS)),
        step.pH(),
        step.over(),
        step.lasting(),
        step.stir());
  }

  static Step lasting(Step step, double minutes) {
    return new Step(
        step.action(),
        step.phase(),
        step.with(),
        step.into(),
        step.temperature(),
        step.pH(),
        step.over(),
        Optional.of(Quantity.of(minutes, Unit.MINUTE)),
        step.stir());
  }

  static Step into(Step step, String phase) {
    return new Step(
        step.action(),
        step.phase(),
        step.with(),
        Optional.of(phase),
        step.temperature(),
        step.pH(),
        step.over(),
        step.lasting(),
        step.stir());
  }

  static Step with(Step step, String name) {
    return new Step(
        step.action(),
        step.phase(),
        List.of(name),
        step.into(),
        step.temperature(),
        step.pH(),
        step.over(),
        step.lasting(),
        step.stir());
  }

  /** A number of the formula. */
  static Bounded number(Profile profile, String name) {
    return profile.number(Profile.vocabulary().property(name).orElseThrow().slot());
  }

  /** A number of an ingredient of the recipe. */
  static Bounded number(Profile profile, String ingredient, String property) {
    var kind = Profile.vocabulary().kind("ingredient").orElseThrow();
    for (Facts.Item item : profile.items(kind.slot())) {
      if (item.name().equals(ingredient)) {
        return item.facts().number(kind.properties().get(property).slot());
      }
    }
    throw new IllegalArgumentException("no such ingredient in the recipe: " + ingredient);
  }
}
