package gelwright.profile;

import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.formula.Label;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Step;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.Known;
import gelwright.quantity.Quantity;
import gelwright.rule.Truth;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A formula resolved against a catalogue: everything about it that is not in doubt.
 *
 * <p>Whoever asks for a part leaves a mark, so that what was computed from it can be told from what
 * was not; see {@link #touched}.
 */
final class Model {
  // Parts of a formula, a bit each.
  static final int RECIPE = 1;
  static final int METHOD = 1 << 1;
  static final int BRIEF = 1 << 2;
  static final int EQUIPMENT = 1 << 3;
  static final int BATCH = 1 << 4;
  static final int READINGS = 1 << 5;
  static final int LABEL = 1 << 6;
  static final int ACCEPTED = 1 << 7;
  static final int NAME = 1 << 8;

  private final Formula formula;
  private final Catalogue catalogue;
  private final Recipe recipe;
  private final List<HeatItem> heatLimits;
  private final List<AllergenItem> allergens;
  private final List<Component> adjusters;
  private final List<AcceptanceState> acceptances;
  private final Optional<LocalDate> on;
  private final Map<String, Map<String, String>> names = new HashMap<>();
  private @Nullable Map<Integer, Integer> joins;
  private int touched;

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
    this.heatLimits = heatLimits(recipe);
    this.allergens = AllergenProperties.items(recipe.components());
    this.adjusters = AdjusterProperties.items(recipe, formula.method());
  }

  /** The same recipe in a formula that is otherwise another. */
  private Model(Formula formula, Model other) {
    this.formula = formula;
    this.catalogue = other.catalogue;
    this.recipe = other.recipe;
    this.acceptances = other.acceptances;
    this.on = other.on;
    this.heatLimits = other.heatLimits;
    this.allergens = other.allergens;
    this.adjusters = AdjusterProperties.items(recipe, formula.method());
  }

  /** This model for a changed formula; what is the same stays the same. */
  Model with(Formula changed) {
    return (changes(changed) & RECIPE) == 0
        ? new Model(changed, this)
        : new Model(changed, catalogue, acceptances, on);
  }

  /** The parts in which another formula differs, a bit each. */
  int changes(Formula other) {
    int changes = 0;
    changes |= formula.lines().equals(other.lines()) ? 0 : RECIPE;
    changes |= formula.method().equals(other.method()) ? 0 : METHOD;
    changes |= formula.brief().equals(other.brief()) ? 0 : BRIEF;
    changes |= formula.equipment().equals(other.equipment()) ? 0 : EQUIPMENT;
    changes |= formula.batch().equals(other.batch()) ? 0 : BATCH;
    changes |= formula.measured().equals(other.measured()) ? 0 : READINGS;
    changes |= formula.label().equals(other.label()) ? 0 : LABEL;
    changes |= formula.accepted().equals(other.accepted()) ? 0 : ACCEPTED;
    changes |= formula.name().equals(other.name()) ? 0 : NAME;
    return changes;
  }

  private static List<HeatItem> heatLimits(Recipe recipe) {
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
    return List.copyOf(items);
  }

  /** The parts asked for since the marks were last set, a bit each. */
  int touched() {
    return touched;
  }

  void touched(int parts) {
    touched = parts;
  }

  String name() {
    touched |= NAME;
    return formula.name();
  }

  List<Line> lines() {
    touched |= RECIPE;
    return formula.lines();
  }

  List<Step> method() {
    touched |= METHOD;
    return formula.method();
  }

  /** The steps at which lines join that a step names, by the number of the line. */
  Map<Integer, Integer> joins() {
    touched |= RECIPE | METHOD;
    Map<Integer, Integer> known = joins;
    if (known == null) {
      known = Collections.unmodifiableMap(Procedure.joins(this));
      joins = known;
    }
    return known;
  }

  Brief brief() {
    touched |= BRIEF;
    return formula.brief();
  }

  Equipment equipment() {
    touched |= EQUIPMENT;
    return formula.equipment();
  }

  Optional<Quantity> batch() {
    touched |= BATCH;
    return formula.batch();
  }

  List<Measurement> readings() {
    touched |= READINGS;
    return formula.measured();
  }

  Optional<Label> label() {
    touched |= LABEL;
    return formula.label();
  }

  Catalogue catalogue() {
    return catalogue;
  }

  Recipe recipe() {
    touched |= RECIPE;
    return recipe;
  }

  List<HeatItem> heatLimits() {
    touched |= RECIPE;
    return heatLimits;
  }

  /** What is added to reach a pH. */
  List<Component> adjusters() {
    touched |= RECIPE | METHOD;
    return adjusters;
  }

  List<AllergenItem> allergens() {
    touched |= RECIPE;
    return allergens;
  }

  List<AcceptanceState> acceptances() {
    touched |= ACCEPTED;
    return acceptances;
  }

  /** The day the formula is reviewed for; empty when no review asks. */
  Optional<LocalDate> on() {
    return on;
  }

  /**
   * What is in doubt of something, in words: "consistency of Xanthan Gum". Asked for in every
   * shifted world, so put together once.
   */
  String named(String what, String name) {
    Map<String, String> ofName = names.computeIfAbsent(name, key -> new HashMap<>());
    String known = ofName.get(what);
    if (known == null) {
      known = what + " of " + name;
      ofName.put(what, known);
    }
    return known;
  }

  List<String> ingredients() {
    touched |= RECIPE;
    return recipe.components().stream().map(Component::name).toList();
  }

  Component component(int index) {
    return recipe().components().get(index);
  }

  /** The last reading of something taken on the product, which is the one that counts. */
  Optional<Measurement> measured(String what) {
    Optional<Measurement> last = Optional.empty();
    for (Measurement measurement : readings()) {
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
