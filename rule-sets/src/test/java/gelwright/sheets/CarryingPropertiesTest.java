package gelwright.sheets;

import static gelwright.sheets.Bench.assertMissing;
import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import gelwright.science.Dispersion;
import gelwright.science.FlowCurve;
import gelwright.science.Stirring;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("drops and grains in the gel")
final class CarryingPropertiesTest {
  // A gel of 10 Pa and 10 Pa s^0.3, a gum that adds 1 Pa s whatever the shear, and grains.
  private static final String OWN =
      """
      sources: { made-up: { citation: Made up, standing: from-memory } }
      ingredients:
        Dew Gel:
          functions: [gum]
          charge: nonionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          oil-per-gum: 10
          acid: none
          gum:
            law: herschel-bulkley
            parameters: { yield: 10 Pa, yield-power: 2, consistency: 10 Pa, consistency-power: 1, flow-index: 0.3 }
            range: 0.1 % to 2 %
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Syrup:
          functions: [gum]
          charge: nonionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          oil-per-gum: 10
          acid: none
          gum: { law: newtonian, parameters: { viscosity: 0.1 Pa·s, growth: 2.397895 }, range: 0.1 % to 2 % }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Salt Grain: { functions: [particle], dissolves: neither, source: made-up, density: 2.165 g/mL }
        Dew Oil:
          functions: [oil]
          dissolves: oil
          source: made-up
          density: 0.9 g/mL
          viscosity: 30 mPa·s
          interfacial-tension: 30 mN/m
          acid: none
      """;

  private static final String METHOD =
      """
      method:
        - { do: disperse, phase: A, with: Dew Gel, stir: 3000 rpm }
        - { do: hydrate, phase: A, at: 25 °C, for: 60 min }
        - { do: add, phase: B, into: A, stir: 800 rpm, for: 5 min }
        - { do: mix, stir: 300 rpm, for: 5 min }
      """;

  private static final String STIRRER =
      "equipment: { stirrer: { type: propeller, diameter: 50 mm } }\n";

  private static Bench gelWithOil(String rest) {
    return Bench.of(
        "product: { shelf-life: 12 months }\n"
            + "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + "  - { phase: A, name: Dew Gel, share: 1 % }\n"
            + "  - { phase: B, name: Dew Oil, share: 0.1 % }\n"
            + rest,
        OWN);
  }

  private static Bench grains(String gum, String line, String rest) {
    return Bench.of(
        "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + "  - { phase: A, name: "
            + gum
            + ", share: 1 % }\n"
            + "  - { phase: A, name: Dew Salt Grain, share: 0.1 %, "
            + line
            + " }\n"
            + "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min }]\n"
            + rest,
        OWN);
  }

  @Test
  @DisplayName("800 rpm of a 50 mm propeller in 10 Pa + 10 Pa s^0.3 -> the drop of the model")
  void dropSize() {
    FlowCurve gel = new FlowCurve.Plastic(10, 10, 0.3, 0.00089);
    double expected =
        Dispersion.stirredDrop(
            Stirring.Impeller.PROPELLER,
            gel,
            0.03,
            0.03,
            1003,
            800 / 60.0,
            0.05,
            0.05 * 0.05 * 0.05,
            2e-3);
    Bounded size = gelWithOil(STIRRER + METHOD).number("oil.drop-size");
    assertEquals(expected, likely(size), expected * 0.02);
    // The model is known to a factor of 2, and nothing else is in doubt here.
    assertEquals(2, size.atLeast().high() / size.atLeast().likely(), 0.05);
  }

  @Test
  @DisplayName("stirring before the oil joins does nothing to its drops")
  void onlyAfterJoining() {
    double slow =
        likely(gelWithOil(STIRRER + METHOD.replace("3000 rpm", "200 rpm")).number("oil.drop-size"));
    assertEquals(slow, likely(gelWithOil(STIRRER + METHOD).number("oil.drop-size")));
    double fast =
        likely(gelWithOil(STIRRER + METHOD.replace("800 rpm", "1500 rpm")).number("oil.drop-size"));
    assertTrue(fast < slow);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "no stirrer | '' | type of the stirrer (equipment.stirrer)",
        "no diameter | equipment: { stirrer: { type: anchor } } "
            + "| diameter of the stirrer (equipment.stirrer)"
      })
  void missingStirrer(String name, String equipment, String missing) {
    assertMissing(missing, gelWithOil(equipment + "\n" + METHOD).number("oil.drop-size"));
  }

  @Test
  @DisplayName("a step that says no speed leaves only an upper bound")
  void silentStep() {
    Bounded size =
        gelWithOil(STIRRER + METHOD.replace("do: mix, stir: 300 rpm", "do: mix"))
            .number("oil.drop-size");
    assertMissing("stirring speed of step 4 (stir)", size);
    assertEquals(0, size.atLeast().likely());
    assertTrue(size.atMost().likely() < 2e-3);
  }

  @Test
  @DisplayName("a measured drop size beats the prediction")
  void measuredDrop() {
    Bench bench = gelWithOil(METHOD + "measured: [{ what: drop-size, value: 40 µm }]\n");
    assertEquals(40e-6, likely(bench.number("oil.drop-size")), 1e-12);
  }

  // 0.0477 and 0.2 of g · 1162 kg/m³ · 500 µm are 0.272 and 1.14 Pa; the middle is 0.557.
  @Test
  @DisplayName("salt grain of 500 µm -> 0.27 to 1.14 Pa [Beris 1985; Chhabra, from memory]")
  void yieldNeeded() {
    Bounded needed =
        grains("Dew Gel", "size: 500 µm", "").number("particle", "Dew Salt Grain", "yield-needed");
    assertEquals(0.557, likely(needed), 0.006);
    assertEquals(0.272, needed.atLeast().low(), 0.006);
    assertEquals(1.14, needed.atLeast().high(), 0.02);
  }

  @Test
  @DisplayName("a grain without a size needs a yield stress nobody knows")
  void missingSize() {
    assertMissing(
        "size of Dew Salt Grain",
        grains("Dew Gel", "grade: any", "").number("particle", "Dew Salt Grain", "yield-needed"));
  }

  // Stokes: 1162 · 9.80665 · (1 µm)²/(18 · 1.00089) = 6.325e-10 m/s, 19.96 mm in a year, less 0.5
  // %.
  @Test
  @DisplayName("1 µm grain in 1 Pa s over 12 months -> 19.9 mm [Stokes by hand]")
  void drift() {
    Bounded drift =
        grains("Dew Syrup", "size: 1 µm", "product: { shelf-life: 12 months }\n")
            .number("particle", "Dew Salt Grain", "drift");
    assertEquals(19.9e-3, likely(drift), 0.3e-3);
  }

  @Test
  @DisplayName("without a shelf life nobody knows how far a grain drifts")
  void missingShelfLife() {
    assertMissing(
        "shelf life (product.shelf-life)",
        grains("Dew Syrup", "size: 1 µm", "").number("particle", "Dew Salt Grain", "drift"));
  }

  @Test
  @DisplayName("held grains drift less than a micrometre")
  void held() {
    Bounded drift =
        grains("Dew Gel", "size: 100 µm", "product: { shelf-life: 12 months }\n")
            .number("particle", "Dew Salt Grain", "drift");
    assertEquals(1e-6, likely(drift), 1e-12);
  }

  @Test
  @DisplayName("a gel with a yield stress carries ten parts per part of gum; a syrup carries none")
  void capacity() {
    assertEquals(10, likely(gelWithOil(STIRRER + METHOD).number("gel.oil-capacity")), 1e-6);
    Bench syrup =
        Bench.of(
            "product: { shelf-life: 24 months }\n"
                + "ingredients:\n"
                + "  - { phase: A, name: Aqua, share: rest }\n"
                + "  - { phase: A, name: Dew Syrup, share: 1 % }\n"
                + "  - { phase: B, name: Dew Oil, share: 0.1 % }\n"
                + STIRRER
                + METHOD.replace("Dew Gel", "Dew Syrup"),
            OWN);
    assertEquals(0, likely(syrup.number("gel.oil-capacity")), 0.01);
  }
}
