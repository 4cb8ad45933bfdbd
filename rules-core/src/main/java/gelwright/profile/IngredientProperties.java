package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** What each ingredient is, as far as its sheet tells. */
final class IngredientProperties {
  static final Definition SHARE =
      Definition.number(
          "share",
          Unit.PERCENT,
          "share of the ingredient in the recipe, blends and strengths expanded",
          (world, item) -> AcidityProperties.share(world, item));

  static final Definition DENSITY =
      trait("density", Trait.DENSITY, Unit.GRAM_PER_MILLILITRE, "density at 20 to 25 °C");

  static final List<Definition> ALL = all();

  private IngredientProperties() {}

  private static List<Definition> all() {
    List<Definition> all = new ArrayList<>();
    all.add(SHARE);
    all.add(DENSITY);
    all.add(trait("use-from", Trait.USE_LEAST, Unit.PERCENT, "least share at which it works"));
    all.add(trait("use-to", Trait.USE_MOST, Unit.PERCENT, "greatest share usually used"));
    all.add(trait("pH-from", Trait.PH_LEAST, Unit.PH, "lowest pH at which it keeps or works"));
    all.add(trait("pH-to", Trait.PH_MOST, Unit.PH, "highest pH at which it keeps or works"));
    all.add(
        trait("solubility", Trait.SOLUBILITY, Unit.GRAM_PER_LITRE, "solubility in water at 25 °C"));
    all.add(
        Definition.number(
            "size",
            Unit.MICROMETRE,
            "diameter of the grains: as on the line, else the usual one",
            (world, item) -> size(world, world.model().component(item))));
    all.add(
        Definition.choice(
            "name",
            Set.of(),
            true,
            "INCI name, or the name as written when it is not known",
            (model, item) -> Chosen.of(model.component(item).name())));
    all.add(
        Definition.choice(
            "charge",
            Set.copyOf(Ingredient.CHARGES),
            false,
            "electric charge in the water phase",
            (model, item) -> {
              Component component = model.component(item);
              Known<String> charge = component.ingredient().charge();
              return charge.isUnknown()
                  ? Chosen.unknown(Set.of(component.missing("charge")))
                  : Chosen.of(charge.toOptional().orElse("none"));
            }));
    all.add(
        Definition.choices(
            "functions",
            Set.copyOf(Ingredient.FUNCTIONS),
            false,
            "what it is used for",
            (model, item) -> {
              Component component = model.component(item);
              Known<Set<String>> functions = component.ingredient().functions();
              return functions.isUnknown()
                  ? Chosen.unknown(Set.of(component.missing("functions")))
                  : Chosen.of(functions.toOptional().orElse(Set.of()));
            }));
    all.add(
        Definition.choice(
            "dissolves",
            Set.copyOf(Ingredient.DISSOLVES),
            false,
            "what it dissolves in",
            (model, item) ->
                model
                    .component(item)
                    .ingredient()
                    .dissolves()
                    .fold(
                        Chosen::of,
                        Chosen.of("neither"),
                        Chosen.unknown(
                            Set.of("what " + model.component(item).name() + " dissolves in")))));
    return List.copyOf(all);
  }

  private static Definition trait(String name, Trait trait, Unit unit, String meaning) {
    return Definition.number(
        name, unit, meaning, (world, item) -> trait(world, world.model().component(item), trait));
  }

  /** Diameter of the grains: as on the line, else the usual one. */
  static Reading size(World world, Component component) {
    return component
        .first()
        .source()
        .size()
        .map(size -> Reading.of(size.inBase()))
        .orElseGet(() -> trait(world, component, Trait.SIZE));
  }

  /** A number from an ingredient's sheet, or what is physically possible for it. */
  static Reading trait(World world, Component component, Trait trait) {
    Optional<Figure> figure = component.ingredient().trait(trait);
    if (figure.isEmpty()) {
      return Reading.unknown(trait.least(), trait.most(), component.missing(trait.key()));
    }
    return Reading.of(
        world.value(figure.get(), component.missing(trait.key()), component.missing(trait.key())));
  }
}
