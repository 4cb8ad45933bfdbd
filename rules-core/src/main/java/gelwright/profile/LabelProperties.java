package gelwright.profile;

import gelwright.formula.Label;
import gelwright.ingredient.Ingredient;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What the label says, held against the recipe.
 *
 * <p>Order: whatever is at 1 % or more stands in descending order and before all that is below;
 * what is below 1 % stands in any order; colourants may stand behind everything else (Regulation
 * (EC) No 1223/2009, Article 19(1)(g)). So an entry is out of place exactly when it is at 1 % or
 * more and an entry before it is smaller. Colourants that only colourants follow are left out.
 *
 * <p>Perfume and aromatic materials may stand together as Parfum or Aroma; an ingredient whose
 * function is fragrance is on the list when it or one of the two words is. An entry that is a known
 * fragrance material and not in the recipe may come with a perfume that is: whether it does is not
 * known here.
 */
final class LabelProperties {
  private static final String FRAGRANCE = "fragrance";
  private static final String COLOURANT = "colourant";
  private static final Set<String> PERFUME = Set.of("parfum", "aroma");
  private static final String LIST = "the ingredient list of the label (label.ingredients)";
  private static final String WARNINGS = "the label (label.warnings)";

  static final List<Definition> ALL =
      List.of(
          Definition.truth(
              "label.given",
              true,
              "whether the sheet carries the label",
              (model, item) -> Truth.of(model.label().isPresent())),
          Definition.truth(
              "label.lists-ingredients",
              true,
              "whether the sheet carries the label's ingredient list",
              (model, item) -> Truth.of(!entries(model).isEmpty())));

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          Definition.truth(
              "is-on-the-label",
              false,
              "whether the label's ingredient list names it; a fragrance also as Parfum or Aroma",
              (model, item) -> isOnTheLabel(model, model.component(item))));

  static final List<Definition> OF_ENTRIES =
      List.of(
          Definition.choice(
              "name",
              Set.of(),
              true,
              "entry as written",
              (model, item) -> Chosen.of(entries(model).get(item))),
          Definition.truth(
              "is-in-the-recipe",
              false,
              "whether the recipe brings what the entry names",
              (model, item) -> isInTheRecipe(model, entries(model).get(item))),
          Definition.truth(
              "is-repeated",
              true,
              "whether the same ingredient stands earlier in the list",
              (model, item) -> Truth.of(isRepeated(model, item))),
          Definition.number(
              "share",
              Unit.PERCENT,
              "share of the ingredient the entry names; of Parfum all fragrances not named beside",
              (world, item) -> share(world, entries(world.model()).get(item))),
          Definition.number(
              "least-before",
              Unit.PERCENT,
              "smallest share of the entries before it, colourants at the end of the list left "
                  + "out; 100 % for the first",
              LabelProperties::leastBefore));

  private LabelProperties() {}

  /** The label's ingredient list; empty when the sheet has none. */
  static List<String> entries(Model model) {
    return model.label().map(Label::ingredients).orElse(List.of());
  }

  /** The entry as written, with its number where the same words stand there twice. */
  static String itemName(Model model, int item) {
    List<String> entries = entries(model);
    String entry = entries.get(item);
    return entries.indexOf(entry) == item ? entry : entry + " (entry " + (item + 1) + ")";
  }

  // The INCI name an entry stands for, as far as the catalogue knows it.
  private static String inci(Model model, String entry) {
    return model.catalogue().find(entry).map(Ingredient::name).orElse(entry);
  }

  private static Optional<Component> component(Model model, String entry) {
    String inci = inci(model, entry);
    return model.recipe().components().stream()
        .filter(each -> each.name().equalsIgnoreCase(inci))
        .findFirst();
  }

  private static boolean isPerfume(String entry) {
    return PERFUME.contains(entry.strip().toLowerCase(Locale.ROOT));
  }

  private static Truth isOnTheLabel(Model model, Component component) {
    List<String> entries = entries(model);
    if (entries.isEmpty()) {
      return Truth.open(Set.of(LIST));
    }
    boolean named =
        entries.stream().anyMatch(entry -> inci(model, entry).equalsIgnoreCase(component.name()));
    if (named) {
      return Truth.CERTAIN;
    }
    return entries.stream().anyMatch(LabelProperties::isPerfume)
        ? component.has(FRAGRANCE)
        : Truth.IMPOSSIBLE;
  }

  private static Truth isInTheRecipe(Model model, String entry) {
    if (component(model, entry).isPresent()) {
      return Truth.CERTAIN;
    }
    Truth fragrance = Truth.IMPOSSIBLE;
    for (Component component : model.recipe().components()) {
      fragrance = fragrance.or(component.has(FRAGRANCE));
    }
    if (isPerfume(entry)) {
      return fragrance;
    }
    boolean knownFragrance =
        model
            .catalogue()
            .find(entry)
            .flatMap(found -> found.functions().toOptional())
            .map(functions -> functions.contains(FRAGRANCE))
            .orElse(false);
    return knownFragrance && fragrance.odds().high() > 0
        ? Truth.open(Set.of("whether the perfume brings " + inci(model, entry)))
        : Truth.IMPOSSIBLE;
  }

  private static boolean isRepeated(Model model, int item) {
    List<String> entries = entries(model);
    String inci = inci(model, entries.get(item));
    return entries.subList(0, item).stream()
        .anyMatch(entry -> inci(model, entry).equalsIgnoreCase(inci));
  }

  private static Reading share(World world, String entry) {
    Model model = world.model();
    Optional<Component> component = component(model, entry);
    if (!isPerfume(entry)) {
      return component
          .map(found -> world.of(IngredientProperties.SHARE, found.index()))
          .orElseGet(() -> Reading.unknown(0, 100, "share of " + entry));
    }
    Set<String> named = new HashSet<>();
    for (String each : entries(model)) {
      if (!isPerfume(each)) {
        named.add(inci(model, each).toLowerCase(Locale.ROOT));
      }
    }
    Reading sum = Reading.of(0);
    for (Component each : model.recipe().components()) {
      boolean hidden =
          each.has(FRAGRANCE).odds().high() > 0
              && !named.contains(each.name().toLowerCase(Locale.ROOT));
      if (hidden) {
        sum = sum.plus(world.of(IngredientProperties.SHARE, each.index()));
      }
    }
    return sum;
  }

  private static Reading leastBefore(World world, int item) {
    Model model = world.model();
    List<String> entries = entries(model);
    if (isTrailingColourant(model, item)) {
      return Reading.of(100);
    }
    Reading least = Reading.of(100);
    for (String entry : entries.subList(0, item)) {
      if (isInTheRecipe(model, entry).odds().high() > 0) {
        least = least.min(share(world, entry));
      }
    }
    return least;
  }

  private static boolean isTrailingColourant(Model model, int item) {
    return entries(model).subList(item, entries(model).size()).stream()
        .allMatch(
            entry ->
                component(model, entry)
                    .map(found -> found.has(COLOURANT).odds().low() == 1)
                    .orElse(false));
  }

  /** How many warnings say one of the texts; case, spaces, punctuation and "the" do not count. */
  static Reading warningsSaying(Model model, Set<?> texts) {
    Optional<Label> label = model.label();
    if (label.isEmpty()) {
      return Reading.unknown(0, Double.POSITIVE_INFINITY, WARNINGS);
    }
    long count =
        label.get().warnings().stream()
            .map(LabelProperties::plain)
            .filter(warning -> texts.stream().anyMatch(text -> warning.contains(plain(text))))
            .count();
    return Reading.of((double) count);
  }

  /** How many entries of the ingredient list are one of the ingredients named. */
  static Reading entriesOf(Model model, Set<?> names) {
    if (entries(model).isEmpty()) {
      return Reading.unknown(0, Double.POSITIVE_INFINITY, LIST);
    }
    Set<String> wanted = new HashSet<>();
    for (Object name : names) {
      wanted.add(inci(model, String.valueOf(name)).toLowerCase(Locale.ROOT));
    }
    long count =
        entries(model).stream()
            .filter(entry -> wanted.contains(inci(model, entry).toLowerCase(Locale.ROOT)))
            .count();
    return Reading.of((double) count);
  }

  private static String plain(Object text) {
    return String.valueOf(text)
        .toLowerCase(Locale.ROOT)
        .replaceAll("[^\\p{L}\\p{N}]+", " ")
        .replaceAll("\\bthe ", "")
        .strip();
  }
}
