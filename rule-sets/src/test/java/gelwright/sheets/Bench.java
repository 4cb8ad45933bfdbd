package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.rule.Facts;
import gelwright.rule.Vocabulary;
import gelwright.sheets.tree.Read;
import java.util.List;
import java.util.Set;

/** A formula with the bundled ingredients and some of its own, and what is computed of it. */
final class Bench {
  private static final Catalogue BUNDLED = Bundled.load().catalogue();

  private final Profile profile;

  private Bench(Profile profile) {
    this.profile = profile;
  }

  /** A formula sheet without its name. */
  static Bench of(String sheet) {
    return of(sheet, "ingredients: {}\n");
  }

  /** A formula sheet without its name, and an ingredient sheet. */
  static Bench of(String sheet, String ingredients) {
    Read<Formula> formula =
        new FormulaReader().read(Samples.utf8("formula: bench\n" + sheet), "bench.yaml");
    assertEquals(List.of(), formula.problems());
    Read<IngredientSheet> own = new IngredientReader().read(Samples.utf8(ingredients), "own.yaml");
    assertEquals(List.of(), own.problems());
    IngredientSheet known = own.value().orElseThrow();
    return new Bench(
        Profile.of(
            formula.value().orElseThrow(), BUNDLED.with(known.ingredients(), known.sources())));
  }

  /** A property of the formula. */
  Bounded number(String name) {
    Vocabulary.Property property = Profile.vocabulary().property(name).orElseThrow();
    return profile.number(property.slot());
  }

  /** A property of an item of a kind. */
  Bounded number(String kind, String item, String name) {
    Vocabulary.ItemKind items = Profile.vocabulary().kind(kind).orElseThrow();
    for (Facts.Item each : profile.items(items.slot())) {
      if (each.name().equals(item)) {
        return each.facts().number(items.properties().get(name).slot());
      }
    }
    throw new IllegalArgumentException("no " + kind + " " + item);
  }

  /** The likely value of what is known. */
  static double likely(Bounded number) {
    assertTrue(number.isKnown(), "missing " + number.missing());
    return number.atLeast().likely();
  }

  /** Whether something is not known, and among what is missing is this. */
  static void assertMissing(String what, Bounded number) {
    assertTrue(!number.isKnown(), "is known: " + number);
    Set<String> missing = number.missing();
    assertTrue(missing.contains(what), "missing is " + missing);
  }
}
