package gelwright.sheets;

import static gelwright.sheets.Bench.assertMissing;
import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import java.util.Locale;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the flow of a gel: read, mixed, warmed and set")
final class GelPropertiesTest {
  // 8 Pa and 2.5 Pa s^0.25 at 1 %, each to a factor of two; and one that sets at 50 °C.
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
            parameters: { yield: { is: 8 Pa, within: ×2 }, yield-power: 2, consistency: { is: 2.5 Pa, within: ×2 }, consistency-power: 1.3, flow-index: 0.25 }
            range: 0.1 % to 2 %
            flow-activation-energy: { is: 20 kJ/mol, within: ±4 }
            pairs:
              Dew Partner:
                law: herschel-bulkley
                parameters: { yield: 60 Pa, yield-power: 2, consistency: 10 Pa, consistency-power: 1, flow-index: 0.3 }
                range: 0.1 % to 1 %
                share: 20 % to 80 %
                salt: none
              Dew Stranger: {}
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
          grades:
            strong:
              gum:
                law: herschel-bulkley
                parameters: { yield: 32 Pa, yield-power: 2, consistency: 2.5 Pa, consistency-power: 1.3, flow-index: 0.25 }
                range: 0.1 % to 2 %
        Dew Partner:
          functions: [gum]
          charge: nonionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          gum: { law: newtonian, parameters: { viscosity: 0.01 Pa·s, growth: 1 }, range: 0.01 % to 2 % }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Stranger:
          functions: [gum]
          charge: nonionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          gum: { law: newtonian, parameters: { viscosity: 0.01 Pa·s, growth: 1 }, range: 0.01 % to 2 % }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 0 °C
        Dew Jelly:
          functions: [gum]
          charge: nonionic
          dissolves: water
          source: made-up
          density: 1.5 g/mL
          acid: none
          gum:
            law: herschel-bulkley
            parameters: { yield: 20 Pa, yield-power: 2, consistency: 10 Pa, consistency-power: 1, flow-index: 0.3 }
            range: 0.1 % to 2 %
            sets: { below: { is: 50 °C, within: ±5 }, melts: 60 °C }
          hydration: { rate: 100 /min, activation-energy: 1 kJ/mol, shape: 1 }
          hydrates-from: 70 °C
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
        Dew Mystery Gum: { functions: [gum], charge: nonionic, dissolves: water, source: made-up, density: 1.5 g/mL, acid: none }
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
      "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min }]\n";

  private static Bench gel(String lines, String rest) {
    return Bench.of(
        "ingredients:\n  - { phase: A, name: Aqua, share: rest }\n" + lines + rest, OWN);
  }

  private static String line(String name, String rest) {
    return "  - { phase: A, name: " + name + ", " + rest + " }\n";
  }

  private static Bench measured(String readings) {
    return gel(line("Dew Gel", "share: 1 %"), METHOD + "measured:\n" + readings);
  }

  private static double viscosity(Bench bench, String at) {
    return likely(bench.number("gel.viscosity-" + at));
  }

  private static double doubt(Bounded number) {
    return number.atLeast().high() / number.atLeast().likely();
  }

  // --- Readings
  // ---------------------------------------------------------------------------------------------

  private static String points(double yield, double consistency, double index, double at) {
    StringBuilder points = new StringBuilder("  - { what: flow-curve, points: [");
    for (double rate : new double[] {0.01, 0.03, 0.1, 0.3, 1, 3, 10, 30, 100}) {
      // One part in a hundred of scatter, up and down by turns.
      double scatter = 1 + (points.length() % 3 - 1) * 0.01;
      double stress = (yield + consistency * Math.pow(rate, index)) * scatter;
      points.append(
          String.format(Locale.ROOT, "{ shear-rate: %s /s, stress: %.5f Pa }, ", rate, stress));
    }
    return points + "], at: " + at + " °C }\n";
  }

  @Test
  @DisplayName("a flow curve of 20 Pa + 6 Pa s^0.4 -> 20 Pa and 20/10 + 6 · 10^-0.6 Pa s at 10 /s")
  void flowCurve() {
    Bench bench = measured(points(20, 6, 0.4, 25));
    assertEquals(20, likely(bench.number("gel.yield-stress")), 1);
    assertEquals(2 + 6 * Math.pow(10, -0.6), viscosity(bench, "pouring"), 0.1);
    // The instrument's own 10 % on top of the scatter, not the gum's factor of two.
    double left = doubt(bench.number("gel.viscosity-pouring"));
    assertTrue(left > 1.09 && left < 1.2, () -> "doubt is ×" + left);
  }

  @Test
  @DisplayName("faster than the readings the prediction goes on, with more doubt the farther away")
  void beyondTheCurve() {
    Bench bench = measured(points(20, 6, 0.4, 25));
    double last = 20 + 6 * Math.pow(100, 0.4);
    double ratio =
        (8 + 2.5 * Math.pow(1000, 0.25) + 0.89) / (8 + 2.5 * Math.pow(100, 0.25) + 0.089);
    assertEquals(last * ratio / 1000, viscosity(bench, "rubbing"), last * ratio / 1000 * 0.03);
    double near = doubt(bench.number("gel.viscosity-pouring"));
    double far = doubt(bench.number("gel.viscosity-rubbing"));
    double farther = doubt(bench.number("gel.viscosity-spraying"));
    assertTrue(near < far && far < farther, () -> near + " < " + far + " < " + farther);
  }

  // The readings end at 10 /s, far above the plateau: no yield stress can be read off them.
  @Test
  @DisplayName("a power law read between 10 and 1000 /s says nothing of a yield stress")
  void noYieldRead() {
    StringBuilder points = new StringBuilder("  - { what: flow-curve, points: [");
    int turn = 0;
    for (double rate : new double[] {10, 20, 50, 100, 200, 500, 1000}) {
      double stress = 12 * Math.pow(rate, 0.3) * (turn++ % 2 == 0 ? 1.01 : 0.99);
      points.append(
          String.format(Locale.ROOT, "{ shear-rate: %s /s, stress: %.5f Pa }, ", rate, stress));
    }
    Bench bench = measured(points + "], at: 25 °C }\n");
    assertEquals(12 * Math.pow(10, 0.3) / 10, viscosity(bench, "pouring"), 0.05);
    Bounded yield = bench.number("gel.yield-stress");
    // The default law moved to the slowest reading: 8 of its 8 + 2.5 · 10^0.25 Pa at 10 /s.
    double slowest = 12 * Math.pow(10, 0.3);
    double share = 8 / (8 + 2.5 * Math.pow(10, 0.25) + 0.0089);
    assertEquals(slowest * share, likely(yield), slowest * share * 0.03);
    assertTrue(doubt(yield) > 1.2, () -> "doubt is ×" + doubt(yield));
  }

  @Test
  @DisplayName(
      "one viscosity moves the default law through it: twice the stress at 1 /s, all twice")
  void oneViscosity() {
    double predicted = 8 + 2.5 + 0.00089;
    Bench bench =
        measured(
            String.format(
                Locale.ROOT,
                "  - { what: viscosity, value: %.6f Pa·s, shear-rate: 1 /s, at: 25 °C }\n",
                2 * predicted - 0.00089));
    assertEquals(16, likely(bench.number("gel.yield-stress")), 0.01);
    assertEquals(1.6 + 5 * Math.pow(10, -0.75), viscosity(bench, "pouring"), 0.01);
    Bounded before = gel(line("Dew Gel", "share: 1 %"), METHOD).number("gel.viscosity-pouring");
    assertTrue(doubt(bench.number("gel.viscosity-pouring")) < doubt(before));
  }

  @Test
  @DisplayName("a reading at the asked shear rate is the answer")
  void readingIsTheAnswer() {
    Bench bench =
        measured("  - { what: viscosity, value: 7 Pa·s, shear-rate: 10 /s, at: 25 °C }\n");
    assertEquals(7, viscosity(bench, "pouring"), 1e-9);
    assertEquals(1.1, doubt(bench.number("gel.viscosity-pouring")), 0.001);
  }

  @Test
  @DisplayName("a yield stress that is read moves the whole law; with a viscosity both are kept")
  void yieldRead() {
    Bench alone = measured("  - { what: yield-stress, value: 16 Pa, at: 25 °C }\n");
    assertEquals(16, likely(alone.number("gel.yield-stress")), 1e-9);
    assertEquals(1.6 + 5 * Math.pow(10, -0.75), viscosity(alone, "pouring"), 0.01);
    Bench both =
        measured(
            "  - { what: yield-stress, value: 16 Pa, at: 25 °C }\n"
                + "  - { what: viscosity, value: 4 Pa·s, shear-rate: 10 /s, at: 25 °C }\n");
    assertEquals(16, likely(both.number("gel.yield-stress")), 1e-9);
    assertEquals(4, viscosity(both, "pouring"), 1e-9);
  }

  @Test
  @DisplayName("two viscosities are joined by a line on double-log paper")
  void twoViscosities() {
    Bench bench =
        measured(
            "  - { what: viscosity, value: 20 Pa·s, shear-rate: 1 /s, at: 25 °C }\n"
                + "  - { what: viscosity, value: 0.5 Pa·s, shear-rate: 100 /s, at: 25 °C }\n");
    // Stress 20 Pa at 1 /s and 50 Pa at 100 /s: √(20 · 50) at 10 /s.
    assertEquals(Math.sqrt(1000) / 10, viscosity(bench, "pouring"), 1e-6);
  }

  @Test
  @DisplayName("readings whose stress falls with the shear rate do not agree, and that is said")
  void readingsDisagree() {
    Bounded pouring =
        measured(
                "  - { what: viscosity, value: 20 Pa·s, shear-rate: 1 /s, at: 25 °C }\n"
                    + "  - { what: viscosity, value: 0.1 Pa·s, shear-rate: 100 /s, at: 25 °C }\n")
            .number("gel.viscosity-pouring");
    assertTrue(
        pouring
            .missing()
            .contains("viscosity readings that agree: their stress falls with the shear rate"),
        () -> "missing is " + pouring.missing());
  }

  // exp(20000/8.314 · (1/298.15 - 1/288.15)) = 0.756.
  @Test
  @DisplayName("a reading at 15 °C counts 0.756 of itself at 25 °C [Arrhenius, 20 kJ/mol]")
  void colderReading() {
    Bench bench =
        measured("  - { what: viscosity, value: 10 Pa·s, shear-rate: 10 /s, at: 15 °C }\n");
    assertEquals(7.56, viscosity(bench, "pouring"), 0.02);
    double at25 =
        doubt(
            measured("  - { what: viscosity, value: 10 Pa·s, shear-rate: 10 /s, at: 25 °C }\n")
                .number("gel.viscosity-pouring"));
    assertTrue(doubt(bench.number("gel.viscosity-pouring")) > at25);
  }

  @Test
  @DisplayName("a reading that says no temperature is taken at 25 °C, with a doubt of 3 K")
  void unknownTemperature() {
    Bench bench = measured("  - { what: viscosity, value: 10 Pa·s, shear-rate: 10 /s }\n");
    assertEquals(10, viscosity(bench, "pouring"), 1e-9);
    double left = doubt(bench.number("gel.viscosity-pouring"));
    assertTrue(left > 1.105 && left < 1.2, () -> "doubt is ×" + left);
  }

  @Test
  @DisplayName("with no flow law a reading still bounds: viscosity does not rise, stress not fall")
  void readingWithoutLaw() {
    Bench bench =
        gel(
            line("Dew Mystery Gum", "share: 1 %"),
            METHOD
                + "measured: [{ what: viscosity, value: 10 Pa·s, shear-rate: 10 /s, at: 25 °C }]\n");
    assertEquals(10, viscosity(bench, "pouring"), 1e-9);
    Bounded rubbing = bench.number("gel.viscosity-rubbing");
    assertMissing("flow law of Dew Mystery Gum", rubbing);
    assertEquals(0.1, rubbing.atLeast().likely(), 1e-9);
    assertEquals(10, rubbing.atMost().likely(), 1e-9);
    Bounded yield = bench.number("gel.yield-stress");
    assertEquals(0, yield.atLeast().likely());
    assertEquals(100, yield.atMost().likely(), 1e-6);
  }

  @Test
  @DisplayName("a reading of a melted gel says nothing of the gel")
  void meltedReading() {
    Bounded pouring =
        gel(
                line("Dew Jelly", "share: 1 %"),
                "method: [{ do: hydrate, phase: A, at: 80 °C, for: 60 min },"
                    + " { do: cool, phase: A, to: 25 °C, over: 30 min }]\n"
                    + "measured: [{ what: viscosity, value: 1 Pa·s, shear-rate: 10 /s, at: 70 °C }]\n")
            .number("gel.viscosity-pouring");
    assertTrue(
        pouring.missing().contains("a reading at 25 °C: one at 70 °C is of melted Dew Jelly"),
        () -> "missing is " + pouring.missing());
  }

  @Test
  @DisplayName("a measured density is that of the gel: drift of a grain changes with it")
  void densityRead() {
    String oil = "  - { phase: B, name: Dew Oil, share: 5 % }\n";
    String stir =
        "equipment: { stirrer: { type: propeller, diameter: 50 mm } }\n"
            + "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min },"
            + " { do: add, phase: B, into: A, stir: 800 rpm, for: 5 min }]\n";
    double before =
        likely(gel(line("Dew Gel", "share: 1 %") + oil, stir).number("oil.yield-needed"));
    // 1/1.05 = 0.05/0.9 + 0.95/x, x = 1.0594; by ideal volumes it is 1.0007.
    double after =
        likely(
            gel(
                    line("Dew Gel", "share: 1 %") + oil,
                    stir + "measured: [{ what: density, value: 1.05 g/mL, at: 25 °C }]\n")
                .number("oil.yield-needed"));
    assertEquals((1.0594 - 0.9) / (1.0007 - 0.9), after / before, 0.05);
  }

  // --- Gums together
  // ---------------------------------------------------------------------------------------------

  @Test
  @DisplayName("two gums with a joint law flow by it: 60 · 0.8² Pa at 0.8 % of both")
  void pair() {
    Bench bench =
        gel(line("Dew Gel", "share: 0.4 %") + line("Dew Partner", "share: 0.4 %"), METHOD);
    assertEquals(60 * 0.64, likely(bench.number("gel.yield-stress")), 0.01);
  }

  @ParameterizedTest(name = "{0} % of the one and {1} % of the other: bounded by the joint law")
  @CsvSource({"0.05, 0.75", "0.75, 0.05"})
  void pairOutsideItsWindow(String first, String second) {
    Bench bench =
        gel(
            line("Dew Gel", "share: " + first + " %")
                + line("Dew Partner", "share: " + second + " %"),
            METHOD);
    Bounded yield = bench.number("gel.yield-stress");
    assertMissing("flow of Dew Gel with Dew Partner outside 20 to 80 % of the first", yield);
    assertTrue(yield.atMost().likely() <= 60 * 0.64, () -> "at most " + yield.atMost());
    assertTrue(yield.atMost().likely() > yield.atLeast().likely());
  }

  @Test
  @DisplayName("two gums known to strengthen each other, but not by how much: a bound from below")
  void pairWithoutLaw() {
    Bench bench =
        gel(line("Dew Gel", "share: 0.5 %") + line("Dew Stranger", "share: 0.5 %"), METHOD);
    Bounded yield = bench.number("gel.yield-stress");
    assertMissing("flow of Dew Gel with Dew Stranger", yield);
    assertEquals(2, yield.atLeast().likely(), 0.01);
    assertTrue(Double.isInfinite(yield.atMost().likely()));
  }

  @Test
  @DisplayName(
      "xanthan with locust bean gum heated to 85 °C is thicker than either; cold it is not")
  void heatedPair() {
    String lines =
        line("Xanthan Gum", "share: 0.25 %") + line("Ceratonia Siliqua Gum", "share: 0.25 %");
    String hot =
        "method: [{ do: hydrate, phase: A, at: 85 °C, for: 40 min },"
            + " { do: cool, phase: A, to: 25 °C, over: 40 min }]\n";
    double heated = likely(gel(lines, hot).number("gel.yield-stress"));
    // 60 · 0.5^1.8 = 17.2 Pa; xanthan alone at 0.5 % 2.1 Pa.
    assertEquals(17.2, heated, 1);
    Bounded cold = gel(lines, METHOD).number("gel.yield-stress");
    assertTrue(cold.atMost().likely() < heated / 5, () -> "cold " + cold);
  }

  // --- Setting
  // ---------------------------------------------------------------------------------------------

  @Test
  @DisplayName(
      "a gel cooled through its setting point has set; one filled hot has not, and may be stiffer")
  void setting() {
    String lines = line("Dew Jelly", "share: 1 %");
    Bench cooled =
        gel(
            lines,
            "method: [{ do: hydrate, phase: A, at: 80 °C, for: 60 min },"
                + " { do: cool, phase: A, to: 30 °C, over: 30 min }]\n");
    assertEquals(20, likely(cooled.number("gel.yield-stress")), 0.01);
    Bounded hot =
        gel(lines, "method: [{ do: hydrate, phase: A, at: 80 °C, for: 60 min }]\n")
            .number("gel.yield-stress");
    assertMissing("cooling Dew Jelly to 45 °C while it is stirred", hot);
    assertEquals(0, hot.atLeast().likely());
    assertTrue(Double.isInfinite(hot.atMost().likely()));
  }

  @Test
  @DisplayName("heated again to add something, it has to be cooled again")
  void meltedAgain() {
    String again =
        "method: [{ do: hydrate, phase: A, at: 80 °C, for: 60 min },"
            + " { do: cool, phase: A, to: 30 °C, over: 30 min },"
            + " { do: heat, phase: A, to: 75 °C, over: 30 min }%s]\n";
    String lines = line("Dew Jelly", "share: 1 %");
    assertMissing(
        "cooling Dew Jelly to 45 °C while it is stirred",
        gel(lines, String.format(Locale.ROOT, again, "")).number("gel.yield-stress"));
    String cooled = ", { do: cool, phase: A, to: 30 °C, over: 30 min }";
    assertEquals(
        20,
        likely(gel(lines, String.format(Locale.ROOT, again, cooled)).number("gel.yield-stress")),
        0.01);
  }

  // --- Neutralised polymers
  // ---------------------------------------------------------------------------------------------

  private static Bench carbomer(double salt, String extra) {
    String lines = line("Carbomer", "share: 0.5 %");
    if (salt > 0) {
      lines += line("Sodium Chloride", "share: " + salt + " %");
    }
    return gel(
        lines + line("Sodium Hydroxide", "share: 0.15 %"),
        "method: [{ do: hydrate, phase: A, at: 25 °C, for: 10 h }]\n" + extra);
  }

  @Test
  @DisplayName(
      "a neutralised carbomer without salt has the yield stress of its law, 170 · 0.5^1.25 Pa")
  void carbomerOpens() {
    Bench bench = carbomer(0, "");
    assertEquals(170 * Math.pow(0.5, 1.25), likely(bench.number("gel.yield-stress")), 1.5);
    assertTrue(likely(bench.number("gel.viscosity-pouring")) > 10);
  }

  @Test
  @DisplayName("1 % of salt leaves a carbomer gel a seventh; a sclerotium gel all of it")
  void salt() {
    double bare = likely(carbomer(0, "").number("gel.yield-stress"));
    double salted = likely(carbomer(1, "").number("gel.yield-stress"));
    // 30/(30 + 173) mmol/kg.
    assertEquals(0.148, salted / bare, 0.006);
    String gum = line("Sclerotium Gum", "share: 0.5 %");
    String long10 = "method: [{ do: hydrate, phase: A, at: 25 °C, for: 10 h }]\n";
    double without = likely(gel(gum, long10).number("gel.yield-stress"));
    double with =
        likely(gel(gum + line("Sodium Chloride", "share: 1 %"), long10).number("gel.yield-stress"));
    assertEquals(without, with, without * 1e-6);
  }

  @Test
  @DisplayName("carbomer powder given 2 minutes to wet is far from wetted, in 30 it nearly is")
  void wetting() {
    String lines = line("Carbomer", "share: 0.5 %");
    String method = "method: [{ do: hydrate, phase: A, at: 25 °C, for: %d min }]\n";
    double brief =
        likely(
            gel(lines, String.format(Locale.ROOT, method, 2))
                .number("gum", "Carbomer", "hydration"));
    double practice =
        likely(
            gel(lines, String.format(Locale.ROOT, method, 30))
                .number("gum", "Carbomer", "hydration"));
    assertEquals(18, brief, 1);
    assertEquals(95, practice, 1);
  }

  // --- Procedure
  // ---------------------------------------------------------------------------------------------

  private static Bench sclerotium(String step) {
    return gel(line("Sclerotium Gum", "share: 1 %"), "method: [" + step + "]\n");
  }

  @Test
  @DisplayName("sclerotium gum 35 min at 37 °C is thicker than 35 min at 22 °C, in 95 of 100 cases")
  void warmOrCold() {
    Bounded warm =
        sclerotium("{ do: hydrate, phase: A, at: 37 °C, for: 35 min }").number("gel.yield-stress");
    Bounded cold =
        sclerotium("{ do: hydrate, phase: A, at: 22 °C, for: 35 min }").number("gel.yield-stress");
    double odds = cold.lessThan(warm).low();
    assertTrue(odds > 0.95, () -> "odds are " + odds);
    // The gum's own factor of 2.5 is the same in both and does not blur the comparison.
    assertTrue(warm.atLeast().low() < cold.atLeast().high());
  }

  @Test
  @DisplayName("a gum on two lines in two grades is both of them")
  void twoGrades() {
    String weak = line("Dew Gel", "share: 0.5 %");
    String strong = line("Dew Gel", "share: 0.5 %, grade: strong");
    double both = likely(gel(weak + strong, METHOD).number("gel.yield-stress"));
    double turned = likely(gel(strong + weak, METHOD).number("gel.yield-stress"));
    assertEquals(both, turned, 1e-9);
    // The strong half alone gives 32 · 0.5² = 8 Pa; √(8 · 32) is the mean of both at 1 %.
    assertEquals(16, both, 0.1);
  }

  @Test
  @DisplayName("a gum of which half joins late is as hydrated as its halves are on average")
  void halfJoinsLate() {
    Bench bench =
        gel(
            line("Sclerotium Gum", "share: 0.5 %")
                + "  - { phase: B, name: Sclerotium Gum, share: 0.5 % }\n",
            "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min },"
                + " { do: add, phase: B, into: A, for: 1 s }]\n");
    double early =
        likely(
            sclerotium("{ do: hydrate, phase: A, at: 25 °C, for: 60 min }")
                .number("gel.hydration"));
    assertEquals(early / 2, likely(bench.number("gel.hydration")), 1.5);
  }

  @Test
  @DisplayName("a phase that is heated but never added is not in the product")
  void neverAdded() {
    Bench bench =
        gel(
            "  - { phase: B, name: Sclerotium Gum, share: 1 % }\n",
            "method: [{ do: hold, phase: A, for: 5 min },"
                + " { do: heat, phase: B, to: 40 °C, over: 35 min }]\n");
    assertMissing("the step that adds Sclerotium Gum", bench.number("gel.yield-stress"));
  }

  @Test
  @DisplayName("a step that says no time takes some minutes, and that is a doubt")
  void silentStep() {
    Bounded silent = sclerotium("{ do: disperse, phase: A, at: 25 °C }").number("gel.hydration");
    double three =
        likely(
            sclerotium("{ do: disperse, phase: A, at: 25 °C, for: 3 min }")
                .number("gel.hydration"));
    assertEquals(three, likely(silent), 1e-9);
    assertTrue(silent.atLeast().high() > 1.5 * three);
  }

  // --- Oil
  // ---------------------------------------------------------------------------------------------

  private static Bench syrupWithOil(String gum, String product) {
    return Bench.of(
        product
            + "equipment: { stirrer: { type: propeller, diameter: 50 mm } }\n"
            + "ingredients:\n  - { phase: A, name: Aqua, share: rest }\n"
            + line(gum, "share: 1 %")
            + "  - { phase: B, name: Dew Oil, share: 0.1 % }\n"
            + "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min },"
            + " { do: add, phase: B, into: A, stir: 800 rpm, for: 5 min }]\n",
        OWN);
  }

  @Test
  @DisplayName("a gum without yield stress carries no oil for a year: its drops drift away")
  void syrupForAYear() {
    Bench bench = syrupWithOil("Dew Syrup", "product: { shelf-life: 12 months }\n");
    assertTrue(likely(bench.number("oil.drift")) > 0.02);
    assertTrue(likely(bench.number("gel.oil-capacity")) < 1);
  }

  @Test
  @DisplayName("over a second the same syrup carries all it would by practice")
  void syrupForASecond() {
    Bench bench = syrupWithOil("Dew Syrup", "product: { shelf-life: 1 s }\n");
    assertTrue(likely(bench.number("oil.drift")) < 1e-4);
    assertEquals(10, likely(bench.number("gel.oil-capacity")), 0.01);
  }

  @Test
  @DisplayName("without a shelf life nobody can tell what a gum without yield stress carries")
  void syrupForHowLong() {
    Bounded capacity = syrupWithOil("Dew Syrup", "").number("gel.oil-capacity");
    assertMissing("shelf life (product.shelf-life)", capacity);
    assertEquals(0, capacity.atLeast().likely(), 1e-3);
    assertEquals(10, capacity.atMost().likely(), 0.01);
  }

  // --- Warmth
  // ---------------------------------------------------------------------------------------------

  @Test
  @DisplayName("stirred at 60 °C the gel is thinner, so the drops come out larger")
  void warmStirring() {
    String sheet =
        "equipment: { stirrer: { type: propeller, diameter: 50 mm } }\n"
            + "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min },"
            + " { do: add, phase: B, into: A, at: %s °C, stir: 800 rpm, for: 5 min }]\n";
    String lines =
        line("Dew Gel", "share: 1.9 %") + "  - { phase: B, name: Dew Oil, share: 0.1 % }\n";
    double cold = likely(gel(lines, String.format(Locale.ROOT, sheet, 25)).number("oil.drop-size"));
    double warm = likely(gel(lines, String.format(Locale.ROOT, sheet, 60)).number("oil.drop-size"));
    assertTrue(warm > 1.1 * cold, () -> cold + " -> " + warm);
  }

  // exp(20000/8.314 · (1/313.15 - 1/298.15)) = 0.679.
  @Test
  @DisplayName("filled at 40 °C the gel is 0.679 times as thick as at 25 °C [Arrhenius, 20 kJ/mol]")
  void filledWarm() {
    Bench bench =
        gel(
            line("Dew Gel", "share: 1 %"),
            "method: [{ do: hydrate, phase: A, at: 25 °C, for: 60 min },"
                + " { do: heat, phase: A, to: 40 °C, over: 10 min }, { do: fill }]\n");
    double told = viscosity(bench, "pouring");
    assertEquals(0.679, likely(bench.number("step", "step 3", "viscosity")) / told, 0.002);
    assertEquals(1, likely(bench.number("step", "step 1", "viscosity")) / told, 1e-9);
  }

  @Test
  @DisplayName(
      "filled above its melting point nobody knows how thick a jelly is, only that it is less")
  void filledMolten() {
    Bench bench =
        gel(
            line("Dew Jelly", "share: 1 %"),
            "method: [{ do: hydrate, phase: A, at: 80 °C, for: 60 min }, { do: fill }]\n");
    Bounded filled = bench.number("step", "step 2", "viscosity");
    assertTrue(!filled.isKnown());
    assertTrue(
        filled.missing().contains("flow of Dew Jelly melted, above 45 °C"),
        () -> "missing is " + filled.missing());
  }

  @ParameterizedTest(name = "{0} % glycerin thickens the water between the gum")
  @ValueSource(strings = {"10", "30"})
  void polyols(String share) {
    double without = viscosity(gel(line("Dew Gel", "share: 1 %"), METHOD), "spraying");
    double with =
        viscosity(
            gel(line("Dew Gel", "share: 1 %") + line("Glycerin", "share: " + share + " %"), METHOD),
            "spraying");
    assertTrue(with > without);
    assertFalse(with > 4 * without);
  }
}
