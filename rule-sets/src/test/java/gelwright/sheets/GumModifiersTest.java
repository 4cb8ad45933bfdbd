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

@DisplayName("gums in salt, acid and alcohol")
final class GumModifiersTest {
  // Each gum as bundled, but hydrated at once, so that nothing else moves its yield stress.
  private static final String OWN =
      """
      sources: { made-up: { citation: Made up, standing: from-memory } }
      ingredients:
        Dew Polyacid:
          functions: [gum]
          charge: anionic
          dissolves: water
          source: made-up
          density: 1.4 g/mL
          molar-mass: 72.06 g/mol
          acid: { pKa: [6], charge: 0, counter-ions: 0, slope: 2 }
          gum:
            law: herschel-bulkley
            parameters: { yield: 170 Pa, yield-power: 1.25, consistency: 60 Pa, consistency-power: 1.1, flow-index: 0.4 }
            range: 0.1 % to 1 %
            salt: { effect: collapses, half-at: { is: 60 mmol/kg, within: ×2 }, opens-at: 0.1 }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Stiff Gum:
          functions: [gum]
          charge: anionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          ethanol-to: 20 %
          gum:
            law: herschel-bulkley
            parameters: { yield: 8 Pa, yield-power: 2, consistency: 6 Pa, consistency-power: 1, flow-index: 0.3 }
            range: 0.05 % to 2 %
            salt: { effect: thins, left: 0.7, up-to: 0.15 %, none-from: 0.3 %, salted-from: 20 mmol/kg }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Coil:
          functions: [gum]
          charge: anionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          gum:
            law: cross
            parameters: { zero-shear-viscosity: 2 Pa·s, zero-shear-power: 3, time: 0.1 s, time-power: 1, cross-exponent: 0.7 }
            range: 0.05 % to 2 %
            salt: { effect: screens, unsalted-up-to: 3, salted-from: 50 mmol/kg }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Silent Gum:
          functions: [gum]
          charge: anionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          gum:
            law: herschel-bulkley
            parameters: { yield: 8 Pa, yield-power: 2, consistency: 6 Pa, consistency-power: 1, flow-index: 0.3 }
            range: 0.05 % to 2 %
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
      """;

  private static Bench gel(String gum, double share, double salt, String rest) {
    return Bench.of(
        "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + "  - { phase: A, name: "
            + gum
            + ", share: "
            + share
            + " % }\n"
            + (salt > 0 ? "  - { phase: A, name: Sodium Chloride, share: " + salt + " % }\n" : "")
            + rest
            + "method: [{ do: hydrate, phase: A, at: 38 °C, for: 10 h }]\n",
        OWN);
  }

  private static String sodiumHydroxide(double share) {
    return "  - { phase: A, name: Sodium Hydroxide, share: " + share + " % }\n";
  }

  // 0.5 % are 69.4 mmol of groups; 0.139 % of sodium hydroxide are 34.8 mmol, half of them.
  @Test
  @DisplayName("a polyacid half neutralised without salt does not thin itself: 170 · 0.5^1.25 Pa")
  void saltFree() {
    Bench bench = gel("Dew Polyacid", 0.5, 0, sodiumHydroxide(0.139));
    assertEquals(6, likely(bench.number("water-phase.pH")), 0.1);
    assertEquals(71.5, likely(bench.number("gel.yield-stress")), 0.5);
    assertTrue(likely(bench.number("water-phase.ionic-strength")) < 1e-4);
  }

  // 15 mM halves 0.25 %, so 30 mM halves 0.5 %; 0.1 % of sodium chloride is 17.2 mmol/kg.
  @ParameterizedTest(name = "{0} % sodium chloride leaves {1} of a 0.5 % gel [30/(30 + mmol/kg)]")
  @CsvSource({"0.1, 0.635", "0.5, 0.258", "1, 0.148"})
  void salted(double salt, double expected) {
    Bench bench = gel("Dew Polyacid", 0.5, salt, sodiumHydroxide(0.139));
    assertEquals(expected, likely(bench.number("gel.yield-stress")) / 71.5, expected * 0.03);
  }

  // At pH 3 alpha is 1/(1 + 10^1.5) = 0.0307; 1 - exp(-0.307²) = 0.0899.
  @Test
  @DisplayName("a polyacid at pH 3 is a ninth of its gel")
  void notNeutralised() {
    Bench bench =
        Bench.of(
            "ingredients:\n"
                + "  - { phase: A, name: Aqua, share: rest }\n"
                + "  - { phase: A, name: Dew Polyacid, share: 0.5 % }\n"
                + "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min }]\n"
                + "measured: [{ what: pH, value: 3 }]\n",
            OWN);
    double left = likely(bench.number("gel.yield-stress")) / 71.5;
    assertEquals(0.09, left, 0.01);
  }

  @ParameterizedTest(name = "{0} % of salt does nothing to sclerotium gum")
  @CsvSource({"0.1", "1"})
  void sclerotium(double salt) {
    double without = likely(gel("Sclerotium Gum", 1, 0, "").number("gel.yield-stress"));
    double with = likely(gel("Sclerotium Gum", 1, salt, "").number("gel.yield-stress"));
    // Salt adds to the water phase, so the gum is a little more dilute in none: the same share.
    assertEquals(without, with, without * 1e-6);
  }

  @ParameterizedTest(name = "{0} % of stiff gum in {1} % of salt: {2} left")
  @CsvSource({"0.1, 0.5, 0.7", "0.5, 0.5, 1", "0.1, 0, 1"})
  void stiff(double gum, double salt, double expected) {
    double full = 8 * gum * gum;
    double yield = likely(gel("Dew Stiff Gum", gum, salt, "").number("gel.yield-stress"));
    assertEquals(expected, yield / full, 0.01);
  }

  @Test
  @DisplayName("a coil without salt is one to three times as thick as its law, in salt as its law")
  void coil() {
    Bounded bare = gel("Dew Coil", 1, 0, "").number("gel.viscosity-at-rest");
    Bounded salted = gel("Dew Coil", 1, 0.5, "").number("gel.viscosity-at-rest");
    assertEquals(2, likely(salted), 0.03);
    assertEquals(2, bare.atLeast().low(), 0.05);
    assertEquals(6, bare.atLeast().high(), 0.15);
  }

  @Test
  @DisplayName("a charged gum whose sheet is silent on salt is in doubt in salt only")
  void silent() {
    Bounded bare = gel("Dew Silent Gum", 1, 0, "").number("gel.yield-stress");
    Bounded salted = gel("Dew Silent Gum", 1, 1, "").number("gel.yield-stress");
    assertEquals(bare.atLeast().likely(), likely(salted), 1e-6);
    assertEquals(1, bare.atLeast().high() / bare.atLeast().low(), 0.01);
    assertEquals(4, salted.atLeast().high() / salted.atLeast().low(), 0.05);
  }

  @Test
  @DisplayName("beyond the ethanol a gum bears its flow is not known, up to it it is")
  void ethanol() {
    String alcohol = "  - { phase: A, name: Alcohol, share: %s %% }\n";
    Bounded beyond =
        gel("Dew Stiff Gum", 1, 0, String.format(java.util.Locale.ROOT, alcohol, 25))
            .number("gel.yield-stress");
    assertMissing("flow of Dew Stiff Gum in more than 20 % of ethanol", beyond);
    assertEquals(0, beyond.atLeast().likely());
    Bounded within =
        gel("Dew Stiff Gum", 1, 0, String.format(java.util.Locale.ROOT, alcohol, 15))
            .number("gel.yield-stress");
    assertEquals(8, likely(within), 0.01);
  }
}
