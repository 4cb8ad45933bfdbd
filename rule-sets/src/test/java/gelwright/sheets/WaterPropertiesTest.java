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

@DisplayName("water phase")
final class WaterPropertiesTest {
  private static Bench water(String lines) {
    return Bench.of("ingredients:\n  - { name: Aqua, share: rest }\n" + lines);
  }

  private static String line(String name, double share) {
    return "  - { name: " + name + ", share: " + share + " % }\n";
  }

  @ParameterizedTest(name = "{0} % of {1} -> water activity {2} [{4}]")
  @CsvSource(
      delimiter = '|',
      value = {
        "20 | Glycerin | 0.951 | 0.002 | Norrish, K 1.16 of the polyol table",
        "30 | Sorbitol | 0.9567 | 0.002 | Norrish, K 1.65 of the polyol table",
        "20 | Sucrose | 0.9859 | 0.002 | Norrish, K 6.47; isopiestic figures agree, from memory",
        "20 | Propylene Glycol | 0.9441 | 0.002 | Raoult, by hand",
        "5.521 | Sodium Chloride | 0.9669 | 0.003 | 1 mol/kg; Robinson and Stokes, from memory",
        "0 | Glycerin | 1 | 1e-9 | water alone"
      })
  void activityOfOne(double share, String name, double expected, double within, String source) {
    Bench bench = share == 0 ? water("") : water(line(name, share));
    assertEquals(expected, likely(bench.number("water-phase.water-activity")), within);
  }

  @Test
  @DisplayName("20 % glycerin and 5 % sorbitol -> 0.9414 [Ross' product of 0.9477 and 0.9934]")
  void activityOfTwo() {
    Bench bench = water(line("Glycerin", 20) + line("Sorbitol", 5));
    assertEquals(0.9414, likely(bench.number("water-phase.water-activity")), 0.001);
  }

  @Test
  @DisplayName("a solute without a constant is in more doubt than glycerin")
  void doubt() {
    Bounded glycol = water(line("Propylene Glycol", 20)).number("water-phase.water-activity");
    Bounded glycerin = water(line("Glycerin", 20)).number("water-phase.water-activity");
    assertTrue(glycol.atLeast().deviation() > glycerin.atLeast().deviation());
  }

  @Test
  @DisplayName("a solute without a molar mass bounds the activity and is named")
  void missingMolarMass() {
    Bounded activity = water(line("Decyl Glucoside", 5)).number("water-phase.water-activity");
    assertMissing("molar-mass of Decyl Glucoside", activity);
    assertEquals(1, activity.atMost().likely(), 1e-12);
    // 5/95 kg of particles of 17 g/mol: 3.096 mol/kg, exp(-0.018015 · 3.096).
    assertEquals(0.9458, activity.atLeast().likely(), 0.001);
  }

  @Test
  @DisplayName("a reading of the water activity beats the prediction")
  void measured() {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Glycerin", 20)
                + "measured: [{ what: water-activity, value: 0.93 }]\n");
    assertEquals(0.93, likely(bench.number("water-phase.water-activity")), 1e-12);
  }

  @Test
  @DisplayName(
      "0.2 mol/kg of an acid half neutralised -> 115 mmol/kg per pH [Van Slyke, 2.303 C/4]")
  void buffer() {
    String own =
        "sources: { made-up: { citation: Made up, standing: from-memory } }\n"
            + "ingredients:\n  Dew Acid:\n    functions: [acid]\n    dissolves: water\n"
            + "    source: made-up\n    molar-mass: 60.05 g/mol\n"
            + "    acid: { pKa: [4.756], charge: 0, counter-ions: 0 }\n";
    // 12.01 g in a kilogram of water; pH 4.649 is that of 0.1 mol of each [Davies].
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Dew Acid", 1.1868)
                + "measured: [{ what: pH, value: 4.65 }]\n",
            own);
    assertEquals(0.1151, likely(bench.number("water-phase.buffer-capacity")), 0.002);
  }

  @Test
  @DisplayName("ions that an adjustment brings count: 0.1 mol/kg of lactate -> about 0.1 mol/kg")
  void strengthAfterAdjustment() {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Lactic Acid", 0.893)
                + "measured: [{ what: pH, value: 6 }]\n");
    assertEquals(0.1, likely(bench.number("water-phase.ionic-strength")), 0.003);
  }

  @Test
  @DisplayName("bicarbonate in citric acid loses its gas and the pH rises")
  void degassed() {
    Bench bench =
        water(
            line("Sodium Bicarbonate", 0.42)
                + line("Citric Acid", 0.4)
                + "measured: [{ what: pH, value: 5.5 }]\n");
    Bounded closed = bench.number("water-phase.pH");
    Bounded degassed = bench.number("water-phase.pH-degassed");
    assertTrue(likely(degassed) > likely(closed) + 0.05, degassed + " against " + closed);
    assertTrue(likely(degassed) < 7, degassed.toString());
  }

  @Test
  @DisplayName("without carbonates the degassed pH is the pH")
  void nothingToLose() {
    Bench bench = water(line("Citric Acid", 0.2));
    assertEquals(
        likely(bench.number("water-phase.pH")), likely(bench.number("water-phase.pH-degassed")));
  }

  @Test
  @DisplayName("bicarbonate alone: how far the gas leaves is not known")
  void alkaline() {
    Bounded degassed = water(line("Sodium Bicarbonate", 0.5)).number("water-phase.pH-degassed");
    assertMissing("how much carbon dioxide leaves above pH 6", degassed);
    assertEquals(8.3, degassed.atLeast().likely(), 0.2);
  }

  @ParameterizedTest(name = "{0} % of ethanol -> flash point {1} °C [{2}]")
  @CsvSource({
    "20, 33, table read as volume: 24.5 %",
    "96, 15.5, table read as volume: 97.4 % at 0.801 g/mL",
  })
  void flashPoint(double share, double expected, String source) {
    assertEquals(
        expected, likely(water(line("Alcohol", share)).number("process.flash-point")), 0.5);
  }

  @Test
  @DisplayName("no ethanol, no flash point")
  void noEthanol() {
    assertMissing("ethanol in the recipe", water("").number("process.flash-point"));
  }
}
