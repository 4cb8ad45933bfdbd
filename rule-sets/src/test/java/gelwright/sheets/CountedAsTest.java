package gelwright.sheets;

import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import gelwright.ingredient.Ingredient;
import gelwright.quantity.Bounded;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("shares counted as the law counts them")
final class CountedAsTest {
  private static Bench of(String name, double share, String more) {
    return Bench.of(
        "ingredients:\n  - { name: Aqua, share: rest }\n  - { name: "
            + name
            + ", share: "
            + share
            + " %"
            + (more == null ? "" : ", " + more)
            + " }\n");
  }

  // The opinion's zinc gluconate is a dihydrate, its two zinc sulphates the anhydrous salt and the
  // heptahydrate. Tolerances are half the last digit printed.
  @ParameterizedTest(name = "{1} % of {0} {5} -> {3} % {2} [{6}]")
  @CsvSource({
    "Zinc Acetate, 1, share-as-zinc, 0.3564, 0.0001, hydrate: anhydrous, SCCS/1657/23",
    "Zinc Chloride, 1, share-as-zinc, 0.4798, 0.0001, , SCCS/1657/23",
    "Zinc Gluconate, 1, share-as-zinc, 0.1329, 0.0001, hydrate: di, SCCS/1657/23",
    "Zinc Sulfate, 1, share-as-zinc, 0.4050, 0.0001, hydrate: anhydrous, SCCS/1657/23",
    "Zinc Sulfate, 1, share-as-zinc, 0.2274, 0.0001, hydrate: hepta, SCCS/1657/23",
    "CI 77947, 1, share-as-zinc, 0.803, 0.0006, , from memory",
    "Zinc PCA, 1, share-as-zinc, 0.203, 0.0006, , from memory",
    "Retinyl Palmitate, 0.55, share-as-retinol, 0.30, 0.005, , VKM 2013",
    "Retinyl Palmitate, 1, share-as-retinol, 0.546, 0.0006, , from memory",
    "Retinyl Acetate, 1, share-as-retinol, 0.872, 0.0006, , from memory",
    "Retinol, 0.3, share-as-retinol, 0.3, 1e-12, , computed",
    "Sodium Metabisulfite, 1, share-as-sulfur-dioxide, 0.674, 0.0006, , data sheet of a laboratory supplier",
    "Sodium Sulfite, 1, share-as-sulfur-dioxide, 0.508, 0.0006, , from memory",
    "Sodium Benzoate, 1.180, share-as-acid, 1, 0.001, , food additive sheet of the trade",
    "Potassium Sorbate, 1, share-as-acid, 0.7464, 0.0002, , from memory",
    "Sodium Salicylate, 1, share-as-acid, 0.8627, 0.0002, , from memory",
    "Propylparaben, 0.19, share-as-acid, 0.14, 0.007, , SCCS/1348/10",
    "Butylparaben, 0.19, share-as-acid, 0.14, 0.007, , SCCS/1348/10",
    "Sodium Dehydroacetate, 1, share-as-acid, 0.8844, 0.0002, hydrate: anhydrous, computed",
    "Sodium Dehydroacetate, 1, share-as-acid, 0.8078, 0.0002, hydrate: mono, computed"
  })
  void countedAs(
      String name,
      double share,
      String property,
      double expected,
      double tolerance,
      String more,
      String source) {
    Bounded found = of(name, share, more).number("ingredient", name, property);
    assertEquals(expected, likely(found), tolerance);
  }

  @Test
  @DisplayName("what does not say how much it counts is not known, at most all of it")
  void silent() {
    Bounded found = of("Glycerin", 5, null).number("ingredient", "Glycerin", "share-as-zinc");
    assertFalse(found.isKnown());
    assertEquals(5, found.atMost().likely());
  }

  @Test
  @DisplayName("every bundled zinc compound, retinyl ester and sulfite says how much it counts")
  void complete() {
    Pattern counted = Pattern.compile("Zinc .*|Retin(ol|al|yl .*)|.* Sulfite|.*bisulfite");
    List<String> silent =
        BundledRuleSets.load().catalogue().ingredients().stream()
            .filter(ingredient -> counted.matcher(ingredient.name()).matches())
            .filter(ingredient -> ingredient.countsAs().isEmpty())
            .map(Ingredient::name)
            .toList();
    assertEquals(List.of(), silent);
  }
}
