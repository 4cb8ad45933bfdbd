package gelwright.sheets;

import static gelwright.sheets.Bench.assertMissing;
import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("what stays dissolved, and what can be weighed")
final class SolubilityAndWeighingTest {
  private static Bench of(String name, double share, String rest) {
    return Bench.of(
        "ingredients:\n  - { name: Aqua, share: rest }\n  - { name: "
            + name
            + ", share: "
            + share
            + " % }\n"
            + rest);
  }

  // pKa + log(C/S0 - 1) without activities is 3.59, 4.36 and 3.87; the ions of the product lower
  // the pKa by 0.075, 0.06 and 0.05 (Davies).
  @ParameterizedTest(name = "{1} % of {0}: crystals below pH {2} [by hand, apparent pKa]")
  @CsvSource({
    "Sodium Benzoate, 0.5, 3.52",
    "Potassium Sorbate, 0.3, 4.30",
    "Salicylic Acid, 2, 3.83"
  })
  void lowestPH(String name, double share, double expected) {
    Bounded pH = of(name, share, "").number("acid", name, "lowest-pH-before-crystals");
    assertEquals(expected, likely(pH), 0.03);
  }

  // Half the solubility: log(4.26/1.7 - 1) = 0.178 against log(4.26/3.4 - 1) = -0.597.
  @Test
  @DisplayName("half as soluble at 5 °C: sodium benzoate 0.5 % holds from pH 4.31 instead of 3.53")
  void cold() {
    Bounded pH =
        of("Sodium Benzoate", 0.5, "")
            .number("acid", "Sodium Benzoate", "lowest-pH-before-crystals-in-the-cold");
    assertEquals(4.31, likely(pH), 0.02);
  }

  @Test
  @DisplayName("what dissolves as the acid makes no crystals at any pH")
  void never() {
    Bounded pH =
        of("Sodium Benzoate", 0.2, "")
            .number("acid", "Sodium Benzoate", "lowest-pH-before-crystals");
    assertEquals(-1, likely(pH));
  }

  // 0.2 % of allantoin is 2 g/L, and 5 °C leaves 1.8 to 4 g/L of 5.3 to 5.7: its pKa of 8.96 lies
  // above any cosmetic, so there are crystals at every pH or at none.
  @Test
  @DisplayName("where the solubility decides whether there are crystals at all, that is said")
  void edge() {
    Bounded pH =
        of("Allantoin", 0.2, "")
            .number("acid", "Allantoin", "lowest-pH-before-crystals-in-the-cold");
    assertEquals(-1, pH.atLeast().likely());
    assertTrue(pH.atMost().likely() > 7 && pH.atMost().likely() <= 15);
    assertEquals(java.util.Set.of("solubility of Allantoin at 5 °C"), pH.missing());
  }

  // 3.4 g/L (1 + 10^(4 - 4.129)) = 5.93 g/L, in 99.5 % of water.
  @Test
  @DisplayName("benzoic acid at pH 4: 0.59 % stays dissolved [by hand, apparent pKa 4.13]")
  void limit() {
    Bounded limit =
        of("Sodium Benzoate", 0.5, "measured: [{ what: pH, value: 4 }]\n")
            .number("ingredient", "Sodium Benzoate", "dissolved-limit");
    assertEquals(0.59, likely(limit), 0.01);
  }

  @Test
  @DisplayName("allantoin: 5.3 to 5.7 g/L are half a percent of the recipe")
  void neutral() {
    Bounded limit = of("Allantoin", 0.2, "").number("ingredient", "Allantoin", "dissolved-limit");
    assertTrue(limit.atLeast().likely() > 0.4 && limit.atLeast().likely() < 0.65);
  }

  @ParameterizedTest(name = "{0} on steps of 0.01 g: {1} g at least [USP 41: 2 · 0.41 d/tolerance]")
  @CsvSource({"Sodium Benzoate, 0.82", "Glycerin, 0.164"})
  void minimumMass(String name, double expected) {
    Bounded mass =
        of(name, 0.5, "equipment: { balance: 0.01 g }\n").number("line", name, "minimum-mass");
    assertEquals(expected / 1000, likely(mass), 1e-9);
  }

  @Test
  @DisplayName("no balance on the sheet, no least mass")
  void noBalance() {
    assertMissing(
        "balance (equipment.balance)",
        of("Glycerin", 4, "").number("line", "Glycerin", "minimum-mass"));
  }
}
