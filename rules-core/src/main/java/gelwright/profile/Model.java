package gelwright.profile;

import gelwright.formula.Formula;
import gelwright.formula.Measurement;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.Known;
import gelwright.rule.Truth;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A formula resolved against a catalogue: everything about it that is not in doubt. */
final class Model {
  private final Formula formula;
  private final Catalogue catalogue;
  private final Recipe recipe;
  private final List<HeatItem> heatLimits;
  private final List<AllergenItem> allergens;
  private final List<Component> adjusters;
  private final List<AcceptanceState> acceptances;
  private final Optional<LocalDate> on;

  /**
   * A heat limit of an ingredient of the recipe, or that its heat limits are not known.
   *
   * @param component the ingredient
   * @param limit what is known, or empty when its heat limits are not known
   */
  record HeatItem(Component component, Optional<HeatLimit> limit) {
    String name() {
      return limit
          .map(known -> component.name() + ", " + known.kind().word())
          .orElse(component.name());
    }
  }

  /**
   * A declarable allergen that ingredients of the recipe bring, or an ingredient of which it is not
   * known what allergens it brings.
   *
   * @param name of the allergen, or of what is not known
   * @param carriers the ingredients that bring it; never empty
   * @param membership certain for an allergen, open for what is not known
   */
  record AllergenItem(String name, List<Component> carriers, Truth membership) {}

  Model(
      Formula formula,
      Catalogue catalogue,
      List<AcceptanceState> acceptances,
      Optional<LocalDate> on) {
    this.formula = formula;
    this.catalogue = catalogue;
    this.recipe = new Recipe(formula, catalogue);
    this.acceptances = List.copyOf(acceptances);
    this.on = on;
    List<HeatItem> items = new ArrayList<>();
    for (Component component : recipe.components()) {
      Known<List<HeatLimit>> heat = component.ingredient().heat();
      if (heat.isUnknown()) {
        items.add(new HeatItem(component, Optional.empty()));
      }
      for (HeatLimit limit : heat.toOptional().orElse(List.of())) {
        items.add(new HeatItem(component, Optional.of(limit)));
      }
    }
    this.heatLimits = List.copyOf(items);
    this.allergens = AllergenProperties.items(recipe.components());
    this.adjusters = AdjusterProperties.items(recipe, formula.method());
  }

  Formula formula() {
    return formula;
  }

  Catalogue catalogue() {
    return catalogue;
  }

  Recipe recipe() {
    return recipe;
  }

  List<HeatItem> heatLimits() {
    return heatLimits;
  }

  /** What is added to reach a pH. */
  List<Component> adjusters() {
    return adjusters;
  }

  List<AllergenItem> allergens() {
    return allergens;
  }

  List<AcceptanceState> acceptances() {
    return acceptances;
  }

  /** The day the formula is reviewed for; empty when no review asks. */
  Optional<LocalDate> on() {
    return on;
  }

  Component component(int index) {
    return recipe.components().get(index);
  }

  /** The last reading of something taken on the product, which is the one that counts. */
  Optional<Measurement> measured(String what) {
    Optional<Measurement> last = Optional.empty();
    for (Measurement measurement : formula.measured()) {
      if (measurement.what().equals(what)) {
        last = Optional.of(measurement);
      }
    }
    return last;
  }

  static double percent(long units) {
    return (double) units / gelwright.quantity.Share.PER_PERCENT;
  }
}
