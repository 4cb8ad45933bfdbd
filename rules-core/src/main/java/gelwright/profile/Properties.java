package gelwright.profile;

import gelwright.rule.Vocabulary;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.ToIntFunction;

/** All definitions, and the vocabulary they give to rules. */
final class Properties {
  /** A family of items: how many there are, what they are called, and their properties. */
  record Family(
      String name,
      ToIntFunction<Model> size,
      BiFunction<Model, Integer, String> itemName,
      List<Definition> definitions) {}

  /**
   * A kind of item a rule can go through.
   *
   * @param name as rules write it
   * @param family whose items it picks from
   * @param membership whether an item is of the kind
   * @param always whether the membership is always known
   */
  record Kind(
      String name,
      Family family,
      BiFunction<Model, Integer, gelwright.rule.Truth> membership,
      boolean always) {}

  static final List<Definition> FORMULA = formula();

  /** The numbers among them, by name. */
  static final SortedMap<String, Definition> NUMBERS = numbers();

  static final List<Kind> KINDS = kinds();
  static final Vocabulary VOCABULARY = vocabulary();

  private Properties() {}

  private static List<Definition> formula() {
    List<Definition> all = new ArrayList<>();
    all.addAll(BriefProperties.ALL);
    all.addAll(CompositionProperties.ALL);
    all.addAll(ProcessProperties.ALL);
    all.addAll(AcidityProperties.ALL);
    all.addAll(GelProperties.ALL);
    all.addAll(WaterProperties.ALL);
    all.addAll(PreservationProperties.ALL);
    all.addAll(CarryingProperties.ALL);
    all.addAll(HeatProperties.ALL);
    all.addAll(LabelProperties.ALL);
    all.addAll(StirringProperties.ALL);
    return List.copyOf(all);
  }

  private static SortedMap<String, Definition> numbers() {
    SortedMap<String, Definition> numbers = new TreeMap<>();
    for (Definition definition : FORMULA) {
      if (definition.isNumber()) {
        numbers.put(definition.name(), definition);
      }
    }
    return Collections.unmodifiableSortedMap(numbers);
  }

  private static List<Kind> kinds() {
    List<Definition> ofIngredients = new ArrayList<>();
    ofIngredients.addAll(IngredientProperties.ALL);
    ofIngredients.add(ProcessProperties.PEAK_OF_INGREDIENT);
    ofIngredients.add(ProcessProperties.JOINS);
    ofIngredients.addAll(AcidityProperties.OF_INGREDIENTS);
    ofIngredients.addAll(GelProperties.OF_INGREDIENTS);
    ofIngredients.addAll(PreservationProperties.OF_INGREDIENTS);
    ofIngredients.addAll(CarryingProperties.OF_INGREDIENTS);
    ofIngredients.addAll(HeatProperties.OF_INGREDIENTS);
    ofIngredients.addAll(SolubilityProperties.OF_INGREDIENTS);
    ofIngredients.addAll(LabelProperties.OF_INGREDIENTS);
    Family ingredients =
        new Family(
            "ingredient",
            model -> model.recipe().components().size(),
            (model, item) -> model.component(item).name(),
            List.copyOf(ofIngredients));
    Family lines =
        new Family(
            "line",
            model -> model.recipe().lines().size(),
            (model, item) -> CompositionProperties.lineName(model, item),
            CompositionProperties.OF_LINES);
    Family steps =
        new Family(
            "step",
            model -> model.method().size(),
            (model, item) -> "step " + (item + 1),
            ProcessProperties.OF_STEPS);
    Family heat =
        new Family(
            "heat-limit",
            model -> model.heatLimits().size(),
            (model, item) -> model.heatLimits().get(item).name(),
            ProcessProperties.OF_HEAT_LIMITS);
    Family allergens =
        new Family(
            "allergen",
            model -> model.allergens().size(),
            (model, item) -> model.allergens().get(item).name(),
            AllergenProperties.OF_ALLERGENS);
    Family adjusters =
        new Family(
            "adjuster",
            model -> model.adjusters().size(),
            (model, item) -> model.adjusters().get(item).name(),
            AdjusterProperties.OF_ADJUSTERS);
    Family acceptances =
        new Family(
            "acceptance",
            model -> model.acceptances().size(),
            (model, item) -> model.acceptances().get(item).name(),
            CompositionProperties.OF_ACCEPTANCES);
    Family markets =
        new Family(
            "market",
            model -> model.brief().markets().size(),
            (model, item) -> model.brief().markets().get(item),
            BriefProperties.OF_MARKETS);
    Family entries =
        new Family(
            "label-entry",
            model -> LabelProperties.entries(model).size(),
            (model, item) -> LabelProperties.itemName(model, item),
            LabelProperties.OF_ENTRIES);
    List<Kind> kinds = new ArrayList<>();
    kinds.add(certain("ingredient", ingredients));
    for (String function :
        List.of(
            "gum",
            "oil",
            "preservative",
            "particle",
            "active",
            "emulsifier",
            "solubiliser",
            "chelator",
            "fragrance",
            "electrolyte",
            "surfactant")) {
      kinds.add(
          new Kind(
              function, ingredients, (model, item) -> model.component(item).has(function), false));
    }
    kinds.add(
        new Kind(
            "acid", ingredients, (model, item) -> AcidityProperties.isAcid(model, item), false));
    kinds.add(certain("line", lines));
    kinds.add(certain("step", steps));
    kinds.add(
        new Kind(
            "heat-limit",
            heat,
            (model, item) ->
                model.heatLimits().get(item).limit().isPresent()
                    ? gelwright.rule.Truth.CERTAIN
                    : gelwright.rule.Truth.open(
                        java.util.Set.of(
                            model.heatLimits().get(item).component().missing("heat limits"))),
            false));
    kinds.add(
        new Kind(
            "allergen",
            allergens,
            (model, item) -> model.allergens().get(item).membership(),
            false));
    kinds.add(certain("adjuster", adjusters));
    kinds.add(certain("acceptance", acceptances));
    kinds.add(certain("market", markets));
    kinds.add(certain("label-entry", entries));
    return List.copyOf(kinds);
  }

  private static Kind certain(String name, Family family) {
    return new Kind(name, family, (model, item) -> gelwright.rule.Truth.CERTAIN, true);
  }

  private static Vocabulary vocabulary() {
    Vocabulary.Builder builder = Vocabulary.builder();
    for (Definition definition : FORMULA) {
      builder.property(
          definition.name(),
          definition.type(),
          definition.unit(),
          definition.alwaysKnown(),
          definition.meaning());
    }
    for (Kind kind : KINDS) {
      List<Vocabulary.Property> properties = new ArrayList<>();
      for (Definition definition : kind.family().definitions()) {
        properties.add(
            new Vocabulary.Property(
                definition.name(),
                definition.type(),
                definition.unit(),
                definition.alwaysKnown(),
                definition.meaning(),
                properties.size()));
      }
      builder.kind(kind.name(), kind.always(), properties);
    }
    for (Functions.Function function : Functions.ALL) {
      builder.function(
          function.name(),
          function.parameters(),
          function.result(),
          function.unit(),
          function.meaning(),
          function.names() == Functions.Names.INGREDIENTS);
    }
    return builder.build();
  }
}
