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

@DisplayName("what is added to reach a pH")
final class AdjusterPropertiesTest {
  private static Bench of(String acid, String share, String adjuster, String pH) {
    return Bench.of(
        "batch: 500 g\n"
            + "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + ("  - { phase: A, name: " + acid + ", share: " + share + " }\n")
            + ("  - { phase: B, name: " + adjuster + ", share: to-pH }\n")
            + ("method:\n  - { do: adjust-pH, with: " + adjuster + ", to: " + pH + " }\n"));
  }

  // 0.1983 mol/kg acetic acid, half of it neutralised: pH = 4.756 - 0.107
  // (docs/models/acid-base.md);
  // 1.177 / 60.05 / 2 = 0.0098 mol per 100 g, times 40.00 g/mol.
  @Test
  @DisplayName(
      "half of 1.177 % acetic acid -> 0.392 % sodium hydroxide, 1.96 g for 500 g [by hand]")
  void amount() {
    Bench bench = of("Acetic Acid", "1.177 %", "Sodium Hydroxide", "4.649");
    Bounded share = bench.number("adjuster", "Sodium Hydroxide", "share-needed");
    assertEquals(0.392, likely(share), 0.001);
    Bounded amount = bench.number("adjuster", "Sodium Hydroxide", "amount-needed");
    assertEquals(1.96, likely(amount) * 1000, 0.005);
    // Raw materials bring ±0.3 pH of their own: between 10^-0.3 and 10^0.3 of the ratio 1.
    double low = 1.177 / 60.05 * 40.00 * 0.334;
    double high = 1.177 / 60.05 * 40.00 * 0.666;
    assertEquals(low, share.atLeast().low(), 0.02);
    assertEquals(high, share.atMost().high(), 0.02);
  }

  @ParameterizedTest(name = "{0} {1} to pH {3} with {2}: {4}")
  @CsvSource({
    "Lactic Acid, 2 %, Sodium Hydroxide, 4.5, reaches",
    "Lactic Acid, 2 %, Citric Acid, 4.5, wrong way",
    "Sodium Benzoate, 0.5 %, Citric Acid, 4.5, reaches",
    "Sodium Benzoate, 0.5 %, Sodium Hydroxide, 4.5, wrong way",
    "Sodium Carbonate, 1 %, Lactic Acid, 5, reaches",
    "Sodium Carbonate, 1 %, Potassium Hydroxide, 5, wrong way"
  })
  void directions(String acid, String share, String adjuster, String pH, String outcome) {
    Bench bench = of(acid, share, adjuster, pH);
    Bounded needed = bench.number("adjuster", adjuster, "share-needed");
    Bounded before = bench.number("adjuster", adjuster, "pH-before");
    boolean base = adjuster.endsWith("Hydroxide");
    boolean below = likely(before) < Double.parseDouble(pH);
    if (outcome.equals("reaches")) {
      assertTrue(likely(needed) > 0);
      assertEquals(base, below, "starts on the side the adjuster moves from");
    } else {
      assertMissing("an amount of " + adjuster + " that reaches pH " + Double.valueOf(pH), needed);
      assertEquals(base, !below);
    }
  }

  @Test
  @DisplayName("without acid-base behaviour of an ingredient the amount is not known, and says why")
  void unknown() {
    Bench bench = of("Somethingol", "1 %", "Citric Acid", "5");
    assertMissing(
        "acid–base behaviour of Somethingol",
        bench.number("adjuster", "Citric Acid", "amount-needed"));
  }
}
