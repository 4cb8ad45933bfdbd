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

@DisplayName("preservatives at work")
final class PreservationPropertiesTest {
  // log10 0.067, the coefficient of phenol between liquid paraffin and water.
  private static final String OWN =
      "sources: { made-up: { citation: Made up, standing: from-memory } }\n"
          + "ingredients:\n"
          + "  Dew Phenol: { functions: [preservative], dissolves: water, source: made-up,"
          + " acid: none, log-Kow: -1.173925, inhibitory: none }\n"
          + "  Dew Oil: { functions: [oil], dissolves: oil, source: made-up, density: 1 g/mL,"
          + " oil-over-octanol: 1, acid: none }\n"
          + "  Dew Silent Oil: { functions: [oil], dissolves: oil, source: made-up,"
          + " density: 1 g/mL, acid: none }\n";

  private static Bench bench(String lines) {
    return Bench.of("ingredients:\n  - { name: Aqua, share: rest }\n" + lines, OWN);
  }

  private static String line(String name, double share) {
    return "  - { name: " + name + ", share: " + share + " % }\n";
  }

  @ParameterizedTest(
      name = "0.4 % phenol, oil over water {0} -> {2} % in the water [J. Soc. Cosmet. Chem. 16:18]")
  @CsvSource({
    "0.2, 16.6667, 0.474",
    "1.0, 50, 0.750",
    "2.5, 71.4286, 1.199",
    "5.0, 83.3333, 1.799",
    "10.0, 90.9091, 2.636"
  })
  void partition(double ratio, double oil, double expected) {
    Bench bench = bench(line("Dew Oil", oil) + line("Dew Phenol", 0.4));
    assertEquals(
        expected,
        likely(bench.number("preservative", "Dew Phenol", "active-in-water")),
        expected * 0.002);
  }

  @ParameterizedTest(name = "{0} between {1} and water: K {2} [J. Soc. Cosmet. Chem. 23:713]")
  @CsvSource({
    "Methylparaben, Glycine Soja Oil, 7.5, 1.5",
    "Propylparaben, Glycine Soja Oil, 80, 1.5",
    "Butylparaben, Glycine Soja Oil, 280, 1.5",
    "Methylparaben, Paraffinum Liquidum, 0.02, 3",
    "Propylparaben, Paraffinum Liquidum, 0.5, 3",
    "Butylparaben, Paraffinum Liquidum, 3, 3"
  })
  void coefficients(String preservative, String oil, double expected, double within) {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line(oil, 50)
                + line(preservative, 0.1)
                + "measured: [{ what: pH, value: 5 }]\n");
    double free = likely(bench.number("preservative", preservative, "free")) / 100;
    double density = likely(bench.number("oil", oil, "density")) / 1000;
    double coefficient = (1 / free - 1) * density;
    assertTrue(
        coefficient < expected * within && coefficient > expected / within,
        coefficient + " against " + expected);
  }

  @ParameterizedTest(name = "{0} in 5 % polysorbate 80: {1} % free [Patel 1958, from memory]")
  @CsvSource({"Methylparaben, 22, 1", "Propylparaben, 4.5, 0.3"})
  void binding(String preservative, double expected, double within) {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Polysorbate 80", 5)
                + line(preservative, 0.1)
                + "measured: [{ what: pH, value: 5 }]\n");
    assertEquals(expected, likely(bench.number("preservative", preservative, "free")), within);
  }

  @Test
  @DisplayName("a surfactant whose binding is not known leaves between nothing and all")
  void unknownBinding() {
    Bounded free =
        bench(line("Polysorbate 20", 2) + line("Phenoxyethanol", 0.8))
            .number("preservative", "Phenoxyethanol", "free");
    assertMissing("how Polysorbate 20 binds Phenoxyethanol (binding)", free);
    assertEquals(0, free.atLeast().likely());
    assertEquals(100, free.atMost().likely(), 1e-9);
  }

  @Test
  @DisplayName("an oil whose sheet is silent takes up nothing to as much as octanol")
  void unknownOil() {
    Bounded free =
        bench(line("Dew Silent Oil", 50) + line("Dew Phenol", 0.4))
            .number("preservative", "Dew Phenol", "free");
    assertMissing("what Dew Silent Oil takes up of preservatives (oil-over-octanol)", free);
    assertEquals(100 / 1.067, free.atLeast().likely(), 0.01);
    assertEquals(100, free.atMost().likely(), 1e-9);
  }

  // 0.5 % of salt is 0.4237 % of acid; at 0.035 mol/kg the pKa of 4.204 shows as 4.129, and at pH 5
  // 11.87 % is undissociated: 0.0503 %, 1.86 times the 270 ppm that stop A. niger.
  @Test
  @DisplayName("0.5 % sodium benzoate at pH 5 -> 0.0503 % at work, 1.86 times the level for moulds")
  void benzoate() {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Sodium Benzoate", 0.5)
                + "measured: [{ what: pH, value: 5 }]\n");
    assertEquals(
        0.0503, likely(bench.number("preservative", "Sodium Benzoate", "active-in-water")), 5e-4);
    assertEquals(
        1.86, likely(bench.number("preservative", "Sodium Benzoate", "inhibited-mould")), 0.03);
    assertEquals(1.86, likely(bench.number("preservation.mould")), 0.03);
  }

  @Test
  @DisplayName("fractions of two preservatives add up")
  void sum() {
    Bench bench =
        Bench.of(
            "ingredients:\n  - { name: Aqua, share: rest }\n"
                + line("Sodium Benzoate", 0.5)
                + line("Phenoxyethanol", 0.66)
                + "measured: [{ what: pH, value: 5 }]\n");
    // 0.66 % over 3300 ppm is 2.
    assertEquals(3.86, likely(bench.number("preservation.mould")), 0.05);
  }

  @Test
  @DisplayName("a preservative without a level bounds the sum from below")
  void gap() {
    Bounded sum =
        Bench.of(
                "ingredients:\n  - { name: Aqua, share: rest }\n"
                    + line("Phenoxyethanol", 0.72)
                    + line("Ethylparaben", 0.1)
                    + "measured: [{ what: pH, value: 5 }]\n")
            .number("preservation.gram-negative");
    assertMissing("inhibitory level of Ethylparaben against gram-negative bacteria", sum);
    // 0.72 % over 3600 ppm is 2.
    assertEquals(2, sum.atLeast().likely(), 0.01);
    assertEquals(Double.POSITIVE_INFINITY, sum.atMost().likely());
  }

  @Test
  @DisplayName("no preservative, no protection")
  void none() {
    assertEquals(0, likely(bench("").number("preservation.yeast")));
  }
}
