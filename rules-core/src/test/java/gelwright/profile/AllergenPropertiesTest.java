package gelwright.profile;

import static gelwright.profile.Shed.catalogue;
import static gelwright.profile.Shed.formula;
import static gelwright.profile.Shed.ingredient;
import static gelwright.profile.Shed.line;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.quantity.Bounded;
import gelwright.quantity.Odds;
import gelwright.rule.Facts;
import gelwright.rule.Vocabulary;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("allergens")
final class AllergenPropertiesTest {
  private static final Vocabulary.ItemKind KIND =
      Profile.vocabulary().kind("allergen").orElseThrow();

  private final Catalogue catalogue =
      catalogue(
          ingredient("Oil of Meadow").functions("fragrance").allergen("Linalool", 35),
          ingredient("Oil of Lemon Tree")
              .functions("fragrance")
              .allergen("Limonene", 70)
              .allergen("Linalool", 0.5),
          ingredient("Linalool").functions("fragrance").allergen("Linalool", 100),
          ingredient("Scented Blend").madeOf("Oil of Meadow", "10").madeOf("Aqua", "90"),
          ingredient("Perfume of the House").functions("fragrance"),
          ingredient("Salt").functions("electrolyte"));

  private List<Facts.Item> items(Line... lines) {
    return Profile.of(formula(List.of(lines)), catalogue).items(KIND.slot());
  }

  private static List<String> names(List<Facts.Item> items) {
    return items.stream().map(Facts.Item::name).toList();
  }

  private static Bounded share(Facts.Item item) {
    return item.facts().number(KIND.properties().get("share").slot());
  }

  @Test
  @DisplayName("0.3 % of an oil with 35 % linalool -> 0.105 % linalool [arithmetic]")
  void throughACarrier() {
    List<Facts.Item> items = items(line("A", "Aqua", "rest"), line("A", "Oil of Meadow", "0.3"));
    assertEquals(List.of("Linalool"), names(items));
    assertEquals(Odds.CERTAIN, items.get(0).membership());
    assertEquals(0.105, share(items.get(0)).atLeast().likely(), 1e-15);
    assertTrue(share(items.get(0)).isKnown());
  }

  @Test
  @DisplayName("an allergen adds up over its carriers, a blend's parts and the substance itself")
  void addsUp() {
    List<Facts.Item> items =
        items(
            line("A", "Aqua", "rest"),
            line("A", "Oil of Lemon Tree", "0.2"),
            line("A", "Scented Blend", "1"),
            line("A", "Linalool", "0.01"));
    assertEquals(List.of("Limonene", "Linalool"), names(items));
    assertEquals(0.14, share(items.get(0)).atLeast().likely(), 1e-15);
    assertEquals(0.2 * 0.005 + 0.1 * 0.35 + 0.01, share(items.get(1)).atLeast().likely(), 1e-15);
    assertEquals(
        Set.of("Linalool", "Oil of Lemon Tree", "Oil of Meadow"),
        items.get(1).facts().choice(KIND.properties().get("carriers").slot()).names());
  }

  @Test
  @DisplayName(
      "a perfume that says nothing could bring any allergen: nothing is known to be absent")
  void silentPerfume() {
    List<Facts.Item> items =
        items(
            line("A", "Aqua", "rest"),
            line("A", "Oil of Meadow", "0.3"),
            line("A", "Perfume of the House", "0.5"));
    assertEquals(List.of("Linalool", "allergens of Perfume of the House"), names(items));
    Bounded linalool = share(items.get(0));
    assertFalse(linalool.isKnown());
    assertEquals(0.105, linalool.atLeast().likely(), 1e-15);
    assertEquals(0.605, linalool.atMost().likely(), 1e-15);
    assertEquals(Set.of("allergens of Perfume of the House"), linalool.missing());
    assertEquals(Odds.OPEN, items.get(1).membership());
    assertEquals(Set.of("allergens of Perfume of the House"), items.get(1).membershipMissing());
    assertEquals(0.5, share(items.get(1)).atMost().likely(), 1e-15);
  }

  @Test
  @DisplayName(
      "an ingredient the catalogue does not have could bring any; one without scent brings none")
  void unknownAndUnscented() {
    assertEquals(
        List.of("allergens of Something Else"),
        names(items(line("A", "Aqua", "rest"), line("A", "Something Else", "1"))));
    assertEquals(List.of(), names(items(line("A", "Aqua", "rest"), line("A", "Salt", "1"))));
  }
}
