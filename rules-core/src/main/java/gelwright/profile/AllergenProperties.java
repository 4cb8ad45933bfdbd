package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Known;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Declarable fragrance allergens, added up over all ingredients that carry them. */
final class AllergenProperties {
  // An oil or a perfume brings many allergens, an allergen comes by many ways: the shares of all
  // carriers add up, because the law asks for the share in the product. Of what is scented and says
  // nothing of its allergens, all of it could be any of them; what has no scent is taken to bring
  // none (common practice).
  static final List<Definition> OF_ALLERGENS =
      List.of(
          Definition.choice(
              "name",
              Set.of(),
              true,
              "name it is declared under; of an ingredient that says nothing of its allergens, that",
              (model, item) -> Chosen.of(model.allergens().get(item).name())),
          Definition.number(
              "share",
              Unit.PERCENT,
              "share of the allergen in the recipe, by itself and through all that carries it",
              AllergenProperties::share),
          Definition.choices(
              "carriers",
              Set.of(),
              true,
              "ingredients that bring it",
              (model, item) -> {
                Set<String> names = new TreeSet<>();
                for (Component carrier : model.allergens().get(item).carriers()) {
                  names.add(carrier.name());
                }
                return Chosen.of(names);
              }));

  private AllergenProperties() {}

  /** The allergens of a recipe by name, then the ingredients that say nothing of theirs. */
  static List<Model.AllergenItem> items(List<Component> components) {
    Map<String, List<Component>> carriers = new TreeMap<>();
    List<Model.AllergenItem> silent = new ArrayList<>();
    for (Component component : components) {
      if (isSilent(component)) {
        String what = component.missing("allergens");
        silent.add(new Model.AllergenItem(what, List.of(component), Truth.open(Set.of(what))));
      }
      for (String name : allergens(component).keySet()) {
        carriers.computeIfAbsent(name, key -> new ArrayList<>()).add(component);
      }
    }
    List<Model.AllergenItem> items = new ArrayList<>();
    carriers.forEach(
        (name, all) -> items.add(new Model.AllergenItem(name, List.copyOf(all), Truth.CERTAIN)));
    items.addAll(silent);
    return List.copyOf(items);
  }

  private static Map<String, Figure> allergens(Component component) {
    return component.ingredient().allergens().toOptional().orElse(Map.of());
  }

  /** Whether it may well carry allergens, and its sheet does not say which. */
  private static boolean isSilent(Component component) {
    Known<Map<String, Figure>> allergens = component.ingredient().allergens();
    return allergens.isUnknown() && component.has("fragrance").odds().high() > 0;
  }

  private static Reading share(World world, int item) {
    Model.AllergenItem allergen = world.model().allergens().get(item);
    Reading sum = Reading.of(0);
    for (Component component : world.model().recipe().components()) {
      if (isSilent(component)) {
        Reading all = world.of(IngredientProperties.SHARE, component.index());
        boolean named = allergen.membership().equals(Truth.CERTAIN);
        if (named || allergen.carriers().contains(component)) {
          sum = sum.plus(Reading.unknown(0, all.high(), component.missing("allergens")));
        }
        continue;
      }
      Optional<Figure> part = Optional.ofNullable(allergens(component).get(allergen.name()));
      if (part.isPresent()) {
        double percent =
            world.value(
                part.get(),
                allergen.name() + " in " + component.name(),
                "the supplier's list of allergens in " + component.name());
        // A doubt may reach below nothing or above all; the share of a whole does not.
        double within = Math.max(0, Math.min(100, percent));
        sum =
            sum.plus(
                world
                    .of(IngredientProperties.SHARE, component.index())
                    .map(share -> share * within / 100));
      }
    }
    return sum;
  }
}
