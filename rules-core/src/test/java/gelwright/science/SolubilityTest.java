package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class SolubilityTest {

  // pH below which crystals come, worked out beforehand from S0 (g/L) and pKa: a check on the
  // arithmetic. S0 of benzoic acid 3.4 and sorbic acid 1.6 read; salicylic acid 2.2 and
  // dehydroacetic
  // acid 0.69 from memory.
  static Stream<Arguments> crystals() {
    return Stream.of(
        arguments("sodium benzoate 0.50 % -> 3.59 [computed]", 4.24, 3.4, 4.204, 3.59),
        arguments("sodium benzoate 0.59 % -> 3.87 [computed]", 5.0, 3.4, 4.204, 3.87),
        arguments("potassium sorbate 0.30 % -> 4.36 [computed]", 2.24, 1.60, 4.76, 4.36),
        arguments("potassium sorbate 0.80 % -> 5.20 [computed]", 5.97, 1.60, 4.76, 5.20),
        arguments("sodium dehydroacetate 0.30 % -> 5.72 [computed]", 2.653, 0.69, 5.27, 5.72),
        arguments("salicylic acid 0.5 % -> 3.06 [computed]", 5.0, 2.2, 2.97, 3.06),
        arguments("salicylic acid 2 % -> 3.87 [computed]", 20.0, 2.2, 2.97, 3.87));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("crystals")
  @DisplayName("lowest pH without crystals")
  void lowest(String name, double total, double intrinsic, double pKa, double expected) {
    double actual = Solubility.lowestPH(total, intrinsic, pKa).orElseThrow();
    assertEquals(expected, actual, 0.015, name);
  }

  @Test
  @DisplayName("a saturated benzoic acid solution has pH 2.8 [excipients handbook, read]")
  void saturatedBenzoicAcid() {
    double molality = 3.4 / 122.12; // 3.4 g/L, read; g/mol
    double pH =
        AcidBase.solve(
                AcidBase.Mixture.of(AcidBase.Weak.acid(molality, 4.204)), AcidBase.Options.STANDARD)
            .pH();
    assertEquals(2.8, pH, 0.1);
  }

  @Test
  @DisplayName(
      "worked example: 0.50 % sodium benzoate, 4.24 g/L acid, crystals below 3.60 [by hand]")
  void workedExample() {
    // 4.24/3.4 − 1 = 0.2471; log = −0.607; 4.204 − 0.607 = 3.597
    assertEquals(3.597, Solubility.lowestPH(4.24, 3.4, 4.204).orElseThrow(), 0.0005);
    // In the refrigerator S0 is 1.7: 4.24/1.7 − 1 = 1.494; log = 0.174; 4.378
    double cold = 3.4 * Solubility.COLD_FACTOR;
    assertEquals(4.378, Solubility.lowestPH(4.24, cold, 4.204).orElseThrow(), 0.0005);
  }

  @Test
  @DisplayName("1 g of sodium bicarbonate frees about 290 mL of gas at 25 C [molar volume]")
  void gas() {
    assertEquals(0.290, Solubility.carbonDioxideLitres(1 / 84.01, 25), 0.003);
    assertEquals(22.414, Solubility.carbonDioxideLitres(1, 0), 0.001); // CODATA molar volume
  }

  @Test
  @DisplayName("the two functions undo each other; below S0 nothing crystallises")
  void consistent() {
    for (double pH = 1; pH < 9; pH += 0.5) {
      double s = Solubility.total(2.2, pH, 2.97);
      assertEquals(pH, Solubility.lowestPH(s, 2.2, 2.97).orElseThrow(), 1e-6);
    }
    assertTrue(Solubility.lowestPH(2.2, 2.2, 2.97).isEmpty());
    assertTrue(Double.isFinite(Solubility.total(1e9, 1e9, 4)));
    assertThrows(IllegalArgumentException.class, () -> Solubility.total(0, 5, 4));
    assertThrows(IllegalArgumentException.class, () -> Solubility.lowestPH(-1, 1, 4));
  }
}
