package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import gelwright.science.WaterActivity.SaturatedSalt;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class WaterActivityTest {

  private static final double GLYCEROL = 92.09; // g/mol
  private static final double SUCROSE = 342.30; // g/mol
  private static final double SORBITOL = 182.17; // g/mol
  private static final double K_GLYCEROL = 1.16; // review of polyols, read
  private static final double K_SORBITOL = 1.65; // read
  private static final double K_SUCROSE = 6.47; // Chirife, from memory

  private static double percent(double weightPercent, double molarMass, double k) {
    return WaterActivity.norrish(
        WaterActivity.moleFraction(weightPercent, 100 - weightPercent, molarMass), k);
  }

  private static double molal(double molality, double molarMass, double k) {
    return WaterActivity.norrish(
        WaterActivity.moleFraction(molality * molarMass, 1000, molarMass), k);
  }

  /** Humidity above glycerol and water from its relative density (HortTechnology 2:52, memory). */
  private static double forneyAndBrandl(double relativeDensity) {
    return (19.9 - Math.pow(relativeDensity, 1 / 0.0806)) / 0.189 / 100;
  }

  static Stream<Arguments> solutions() {
    return Stream.of(
        arguments(
            "sucrose 1 mol/kg -> 0.9806 [isopiestic, Robinson & Stokes, from memory]",
            0.9806,
            molal(1, SUCROSE, K_SUCROSE),
            0.002),
        arguments(
            "sucrose 3 mol/kg -> 0.933 [isopiestic, Robinson & Stokes, from memory]",
            0.933,
            molal(3, SUCROSE, K_SUCROSE),
            0.002),
        arguments(
            "sucrose 6 mol/kg -> 0.8503 [isopiestic, Robinson & Stokes, from memory]",
            0.8503,
            molal(6, SUCROSE, K_SUCROSE),
            0.002),
        arguments(
            "glycerol 30 %, relative density 1.0747 [Forney & Brandl 1992, from memory]",
            forneyAndBrandl(1.0747), percent(30, GLYCEROL, K_GLYCEROL), 0.015),
        arguments(
            "glycerol 50 %, relative density 1.12845 [Forney & Brandl 1992, from memory]",
            forneyAndBrandl(1.12845), percent(50, GLYCEROL, K_GLYCEROL), 0.015),
        arguments(
            "glycerol 60 %, relative density 1.15605 [Forney & Brandl 1992, from memory]",
            forneyAndBrandl(1.15605), percent(60, GLYCEROL, K_GLYCEROL), 0.015),
        arguments(
            "NaCl 6 mol/kg, osmotic coefficient 1.271 -> 0.760 [meter handbook after R&S, read]",
            0.76,
            WaterActivity.electrolyte(12, 1.271),
            0.0005),
        arguments(
            "NaCl 0.1 mol/kg, coefficient unknown -> 0.9966 [Robinson & Stokes, from memory]",
            0.9966,
            WaterActivity.electrolyte(0.2, WaterActivity.OSMOTIC_COEFFICIENT),
            0.0005),
        arguments(
            "NaCl 0.5 mol/kg, coefficient unknown -> 0.9835 [Robinson & Stokes, from memory]",
            0.9835,
            WaterActivity.electrolyte(1.0, WaterActivity.OSMOTIC_COEFFICIENT),
            0.0005),
        arguments(
            "NaCl 1 mol/kg, coefficient unknown -> 0.9669 [Robinson & Stokes, from memory]",
            0.9669,
            WaterActivity.electrolyte(2, WaterActivity.OSMOTIC_COEFFICIENT),
            0.001),
        arguments(
            "NaCl 3 mol/kg, coefficient unknown -> 0.8932 [Robinson & Stokes, from memory]",
            0.8932,
            WaterActivity.electrolyte(6, WaterActivity.OSMOTIC_COEFFICIENT),
            0.015));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("solutions")
  @DisplayName("solutions against measured water activities")
  void solution(String name, double expected, double actual, double tolerance) {
    assertEquals(expected, actual, tolerance, name);
  }

  static Stream<Arguments> salts() {
    return Stream.of(
        arguments(
            "saturated MgCl2 at 25 C -> 33 % [CRC Handbook, read]",
            SaturatedSalt.MAGNESIUM_CHLORIDE, 33, 0.55),
        arguments(
            "saturated MgCl2 at 25 C -> 32.78 %, 2 % allowed [Greenspan 1977, from memory]",
            SaturatedSalt.MAGNESIUM_CHLORIDE, 32.78, 2),
        arguments(
            "saturated NaBr at 25 C -> 58 % [CRC Handbook, read]",
            SaturatedSalt.SODIUM_BROMIDE, 58, 0.55),
        arguments(
            "saturated NaCl at 25 C -> 75 % [CRC Handbook, read]",
            SaturatedSalt.SODIUM_CHLORIDE, 75, 0.55),
        arguments(
            "saturated NaCl at 25 C -> 75.29 %, 2 % allowed [Greenspan 1977, from memory]",
            SaturatedSalt.SODIUM_CHLORIDE, 75.29, 2),
        arguments(
            "saturated (NH4)2SO4 at 25 C -> 81 % [CRC Handbook, read]",
            SaturatedSalt.AMMONIUM_SULFATE, 81, 0.55),
        arguments(
            "saturated KCl at 25 C -> 84 % [CRC Handbook, read]",
            SaturatedSalt.POTASSIUM_CHLORIDE, 84, 0.55),
        arguments(
            "saturated KCl at 25 C -> 84.34 %, 2 % allowed [Greenspan 1977, from memory]",
            SaturatedSalt.POTASSIUM_CHLORIDE, 84.34, 2),
        arguments(
            "saturated BaCl2 at 25 C -> 90 % [CRC Handbook, read]",
            SaturatedSalt.BARIUM_CHLORIDE, 90, 0.55),
        arguments(
            "saturated KNO3 at 25 C -> 92 % [CRC Handbook, read]",
            SaturatedSalt.POTASSIUM_NITRATE, 92, 0.55),
        arguments(
            "saturated KNO3 at 25 C -> 93.58 %, 2 % allowed [Greenspan 1977, from memory]",
            SaturatedSalt.POTASSIUM_NITRATE, 93.58, 2),
        arguments(
            "saturated K2SO4 at 25 C -> 97 % [CRC Handbook, read]",
            SaturatedSalt.POTASSIUM_SULFATE, 97, 0.55),
        arguments(
            "saturated K2SO4 at 25 C -> 97.30 %, 2 % allowed [Greenspan 1977, from memory]",
            SaturatedSalt.POTASSIUM_SULFATE, 97.3, 2));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("salts")
  @DisplayName("humidity above saturated salts")
  void salt(String name, SaturatedSalt salt, double humidity, double tolerance) {
    assertTrue(salt.covers(25));
    assertEquals(humidity, 100 * salt.waterActivity(25), tolerance, name);
  }

  @Test
  @DisplayName("worked example: 20 glycerol + 5 sorbitol + 75 water -> 0.9414 [by hand]")
  void workedExample() {
    double glycerol =
        WaterActivity.norrish(WaterActivity.moleFraction(20, 75, GLYCEROL), K_GLYCEROL);
    double sorbitol =
        WaterActivity.norrish(WaterActivity.moleFraction(5, 75, SORBITOL), K_SORBITOL);
    assertEquals(0.9477, glycerol, 0.0001);
    assertEquals(0.9934, sorbitol, 0.0001);
    assertEquals(0.9414, WaterActivity.ross(glycerol, sorbitol), 0.0001);
  }

  @Test
  @DisplayName("pure water is 1, pure solute 0, more glycerol means less, nonsense is refused")
  void ends() {
    assertEquals(1, WaterActivity.norrish(0, 5));
    assertEquals(0, WaterActivity.norrish(1, 5));
    assertEquals(1, WaterActivity.ross());
    double last = 1.1;
    for (int w = 0; w < 100; w++) {
      double aw = percent(w, GLYCEROL, K_GLYCEROL);
      assertTrue(aw < last);
      last = aw;
    }
    assertEquals(
        SaturatedSalt.SODIUM_CHLORIDE.waterActivity(40),
        SaturatedSalt.SODIUM_CHLORIDE.waterActivity(90));
    assertThrows(IllegalArgumentException.class, () -> WaterActivity.norrish(1.2, 1));
    assertThrows(IllegalArgumentException.class, () -> WaterActivity.moleFraction(1, 0, 92));
    assertThrows(IllegalArgumentException.class, () -> WaterActivity.electrolyte(-1, 0.9));
  }
}
