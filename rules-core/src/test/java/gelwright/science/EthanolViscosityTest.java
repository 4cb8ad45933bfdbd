package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EthanolViscosityTest {
  // Another table than the one in the model: Lange's Handbook of Chemistry, from memory.
  @ParameterizedTest(
      name = "ethanol {0} % w/w at 25 °C -> {1} mPa·s [Lange's Handbook, from memory]")
  @CsvSource({
    "0, 0.893",
    "10, 1.323",
    "20, 1.815",
    "30, 2.18",
    "40, 2.35",
    "50, 2.40",
    "60, 2.24",
    "70, 2.037",
    "80, 1.748",
    "90, 1.424",
    "100, 1.096"
  })
  void at25(double percent, double expected) {
    double actual = EthanolViscosity.milliPascalSeconds(percent / 100, 25);
    assertEquals(expected, actual, 0.04 * expected);
  }

  @Test
  @DisplayName("worked example of docs/models/ethanol-viscosity.md: 15 % at 20 °C -> 1.823 times")
  void workedExample() {
    assertEquals(1.823, EthanolViscosity.relative(0.15, 20), 0.001);
  }

  @Test
  @DisplayName("water is once as thick as itself at any temperature; 45 % is thickest of all")
  void ends() {
    for (double celsius = -10; celsius < 90; celsius += 7) {
      assertEquals(1, EthanolViscosity.relative(0, celsius), 1e-12);
    }
    double greatest = EthanolViscosity.relative(EthanolViscosity.GREATEST_AT, 25);
    for (double fraction = 0; fraction <= 1; fraction += 0.05) {
      assertTrue(EthanolViscosity.relative(Math.min(1, fraction), 25) <= greatest * 1.01);
    }
    assertEquals(EthanolViscosity.relative(0.3, 70), EthanolViscosity.relative(0.3, 200), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> EthanolViscosity.relative(1.1, 25));
    assertThrows(IllegalArgumentException.class, () -> EthanolViscosity.relative(0.1, Double.NaN));
  }
}
