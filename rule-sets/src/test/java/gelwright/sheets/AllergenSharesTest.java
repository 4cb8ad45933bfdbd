package gelwright.sheets;

import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.ingredient.Ingredient;
import gelwright.quantity.Bounded;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("declarable allergens through their carriers")
final class AllergenSharesTest {
  private static Bench of(String name, double share) {
    return Bench.of(
        "ingredients:\n  - { name: Aqua, share: rest }\n  - { name: "
            + name
            + ", share: "
            + share
            + " % }\n");
  }

  // The standards give limits of a profile; the middle is the likely value, the limits the range.
  @ParameterizedTest(name = "{1} % of {0} -> {3} to {4} % {2} [{5}]")
  @CsvSource({
    "Lavandula Angustifolia Oil, 0.3, Linalool, 0.06, 0.129, ISO 3515:2002",
    "Lavandula Angustifolia Oil, 0.3, Linalyl Acetate, 0.075, 0.141, ISO 3515:2002",
    "Melaleuca Alternifolia Leaf Oil, 0.5, Terpinolene, 0.0075, 0.025, ISO 4730",
    "Citrus Limon Peel Oil, 0.1, Limonene, 0.056, 0.078, Ph. Eur. 6.2",
    "Mentha Piperita Oil, 0.2, Menthol, 0.06, 0.11, Ph. Eur.",
    "Pelargonium Graveolens Flower Oil, 0.2, Citronellol, 0.07, 0.116, ISO 4731",
    "Benzyl Alcohol, 0.8, Benzyl Alcohol, 0.8, 0.8, Regulation (EU) 2023/1545"
  })
  void throughOil(
      String oil, double share, String allergen, double low, double high, String source) {
    Bounded found = of(oil, share).number("allergen", allergen, "share");
    assertEquals((low + high) / 2, likely(found), 1e-12);
    assertEquals(low, found.atLeast().low(), 1e-9);
    assertEquals(high, found.atMost().high(), 1e-9);
  }

  @Test
  @DisplayName("0.5 % of perfume: what allergens it brings is not known, at most 0.5 % of any")
  void perfume() {
    Bounded found = of("Parfum", 0.5).number("allergen", "allergens of Parfum", "share");
    assertFalse(found.isKnown());
    assertEquals(0, found.atLeast().likely());
    assertEquals(0.5, found.atMost().likely(), 1e-15);
  }

  @Test
  @DisplayName("no oil carries more than 100 % of allergens at the least it may carry")
  void noMoreThanAll() {
    for (Ingredient ingredient : BundledRuleSets.load().catalogue().ingredients()) {
      double least =
          ingredient.allergens().toOptional().orElse(java.util.Map.of()).entrySet().stream()
              // The oil itself is declared beside what it carries.
              .filter(entry -> entry.getValue().likely() < 100)
              .mapToDouble(entry -> entry.getValue().likely() - entry.getValue().spread())
              .sum();
      assertTrue(least < 100, () -> ingredient.name() + ": " + least + " %");
    }
  }
}
