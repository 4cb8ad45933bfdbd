package gelwright.science;

import static gelwright.science.FlowRows.atMost;
import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class FlowLawTest {
  private static final FlowLaw.Range WIDE = new FlowLaw.Range(0.05, 40);

  // Parameters of the gum table; proposed, so these rows check the code and the plausibility only.
  private static final FlowLaw XANTHAN = new FlowLaw.HerschelBulkley(8, 1.9, 6, 1.4, 0.33, WIDE);
  private static final FlowLaw SCLEROTIUM =
      new FlowLaw.HerschelBulkley(8, 2.0, 2.5, 1.3, 0.25, WIDE);
  private static final FlowLaw CARBOMER =
      new FlowLaw.HerschelBulkley(170, 1.25, 60, 1.1, 0.40, WIDE);
  private static final FlowLaw STARCH = FlowLaw.HerschelBulkley.powerLaw(0.05, 2.8, 0.4, WIDE);
  private static final FlowLaw HYDROXYETHYL = new FlowLaw.Cross(6, 4, 0.15, 2, 0.72, WIDE);
  private static final FlowLaw CELLULOSE_GUM = new FlowLaw.Cross(3, 3.5, 0.10, 2, 0.65, WIDE);
  private static final FlowLaw KONJAC = new FlowLaw.Cross(30, 3.4, 0.8, 2, 0.76, WIDE);
  private static final FlowLaw.RandomCoil GUAR =
      new FlowLaw.RandomCoil(10, 2.5, 1.3, 5.1, 1500, 0.76, WIDE);
  private static final FlowLaw ACACIA = new FlowLaw.Exponential(1e-3, 0.175, WIDE);
  private static final FlowLaw PULLULAN = new FlowLaw.NewtonianPower(0.7, 3.5, WIDE);

  private static FlowLaw.CoilSeries hyaluronate(double molarMass) {
    return new FlowLaw.CoilSeries(
        FlowLaw.CoilSeries.hyaluronateIntrinsicViscosity(molarMass),
        0.4,
        7.77e-3,
        4.18,
        molarMass,
        0.75,
        WIDE);
  }

  private static FlowLaw.RandomCoil morris(double intrinsicViscosity) {
    return FlowLaw.RandomCoil.morris(intrinsicViscosity, 200, WIDE);
  }

  /** Polymer part of the viscosity: the regression figures are without the solvent. */
  private static double gum(FlowLaw law, double concentration, double shearRate) {
    FlowCurve curve = law.at(concentration);
    return curve.viscosity(shearRate) - curve.solventViscosity();
  }

  static Stream<Arguments> published() {
    return Stream.of(
        row(
            "coil at c[eta] = 4 -> specific viscosity about 10 [Morris et al. 1981]",
            10,
            0.01,
            () -> morris(1).specificViscosity(4)),
        row(
            "coil well below the break -> slope 1.4 [Morris et al. 1981]",
            1.4,
            1e-6,
            () -> slope(morris(1), 0.5, 1)),
        row(
            "coil well above the break -> slope 3.3 [Morris et al. 1981]",
            3.3,
            1e-6,
            () -> slope(morris(1), 8, 16)),
        row(
            "doubling the concentration of hyaluronate -> 10 times the viscosity, Morris's coil"
                + " [Acta Otolaryngol. Suppl. 442:25, 1987]",
            10,
            0.05,
            () -> morris(17.2).specificViscosity(2) / morris(17.2).specificViscosity(1)),
        row(
            "alginate above the break -> (cM)^3.4 within 5 % of the exponent [Biorheology 29(4),"
                + " 1992]",
            3.4, 0.05, () -> slope(morris(7), 1, 2)),
        row(
            "sclerotium gum, [eta] 12.1 dL/g, network onset at 0.35 % -> near the coil break, where"
                + " the specific viscosity is 10 [Moresi et al. 2001]",
            10, 0.25, () -> morris(12.1).specificViscosity(0.35)),
        row(
            "tamarind gum, [eta] 4.7 dL/g, break at 4.23/[eta] -> near the coil break, where the"
                + " specific viscosity is 10 [Food Hydrocoll. 26:334, 2012]",
            10,
            0.25,
            () -> morris(4.7).specificViscosity(4.23 / 4.7)),
        row(
            "konjac 0.100 % at 10 /s -> 1.189e-2 x 10^(0.9388-1) Pa.s within the factor 2.5"
                + " [Gong et al. 2003]",
            0,
            Math.log(2.5),
            () -> Math.log(KONJAC.at(0.100).viscosity(10) / (1.189e-2 * Math.pow(10, -0.0612)))),
        row(
            "konjac 0.150 % at 10 /s -> 2.778e-2 x 10^(0.8897-1) Pa.s within the factor 2.5"
                + " [Gong et al. 2003]",
            0,
            Math.log(2.5),
            () -> Math.log(KONJAC.at(0.150).viscosity(10) / (2.778e-2 * Math.pow(10, -0.1103)))),
        row(
            "konjac 0.200 % at 10 /s -> 1.583e-1 x 10^(0.7229-1) Pa.s within the factor 2.5"
                + " [Gong et al. 2003]",
            0,
            Math.log(2.5),
            () -> Math.log(KONJAC.at(0.200).viscosity(10) / (1.583e-1 * Math.pow(10, -0.2771)))),
        row(
            "acacia 25 % -> 60 to 100 mPa.s [trade specification]",
            0.080, 0.25, () -> ACACIA.at(25).viscosity(10)),
        row(
            "hyaluronate [eta] at 0.1 million -> 3.0 dL/g [table after Laurent]",
            3.0,
            0.06,
            () -> hyaluronate(100).intrinsicViscosity()),
        row(
            "hyaluronate [eta] at 0.5 million -> 10.0 dL/g [table after Laurent]",
            10.0,
            0.06,
            () -> hyaluronate(500).intrinsicViscosity()),
        row(
            "hyaluronate [eta] at 1 million -> 17.3 dL/g [table after Laurent]",
            17.3,
            0.06,
            () -> hyaluronate(1000).intrinsicViscosity()),
        row(
            "hyaluronate [eta] at 1.5 million -> 23.6 dL/g [table after Laurent]",
            23.6,
            0.06,
            () -> hyaluronate(1500).intrinsicViscosity()),
        row(
            "hyaluronate [eta] at 2 million -> 29.6 dL/g [table after Laurent]",
            29.6,
            0.06,
            () -> hyaluronate(2000).intrinsicViscosity()),
        row(
            "hyaluronate [eta] at 3 million -> 40.6 dL/g [table after Laurent]",
            40.6,
            0.06,
            () -> hyaluronate(3000).intrinsicViscosity()),
        row(
            "hyaluronate series law: doubling c -> 10 times, within its own factor of 2 [Acta"
                + " Otolaryngol. Suppl. 442:25, 1987]",
            0,
            Math.log(2),
            () ->
                Math.log(
                    hyaluronate(1000).specificViscosity(2)
                        / hyaluronate(1000).specificViscosity(1)
                        / 10)));
  }

  private static double slope(FlowLaw.RandomCoil coil, double low, double high) {
    return Math.log(coil.specificViscosity(high) / coil.specificViscosity(low))
        / Math.log(high / low);
  }

  static Stream<Arguments> handCalculated() {
    Stream<Arguments> coil =
        Stream.of(
                new double[] {1, 1.44},
                new double[] {2, 3.79},
                new double[] {4, 10.0},
                new double[] {8, 98.5},
                new double[] {12.1, 386},
                new double[] {14.7, 733},
                new double[] {20, 2026})
            .map(
                pair ->
                    row(
                        "Morris coil at c[eta] = " + pair[0] + " -> " + pair[1] + " [by hand]",
                        pair[1],
                        3e-3,
                        () -> morris(1).specificViscosity(pair[0])));
    Stream<Arguments> thinning =
        Stream.of(
                new double[] {0.01, 0.971},
                new double[] {0.1, 0.852},
                new double[] {1, 0.500},
                new double[] {10, 0.148},
                new double[] {18.01, 0.100})
            .map(
                pair ->
                    row(
                        "coil at " + pair[0] + " of the half rate -> " + pair[1] + " [by hand]",
                        pair[1],
                        4e-3,
                        () -> new FlowCurve.Coil(1, 1, 0.76, 0).viscosity(pair[0])));
    Stream<Arguments> single =
        Stream.of(
            row(
                "konjac power law 0.1583 x 10^(0.7229-1) -> 0.0836 Pa.s [by hand]",
                0.0836,
                1e-3,
                () -> new FlowCurve.Plastic(0, 0.1583, 0.7229, 0).viscosity(10)),
            row(
                "guar 1 % -> rest viscosity 10.5 Pa.s [by hand]",
                10.5, 5e-3, () -> GUAR.at(1).viscosity(1e-9)),
            row(
                "guar 0.5 % -> rest viscosity 0.31 Pa.s [by hand]",
                0.31, 2e-2, () -> GUAR.at(0.5).viscosity(1e-9)),
            row(
                "guar 1 % -> Rouse time 0.39 s [by hand]",
                0.39, 2e-2, () -> ((FlowCurve.Coil) GUAR.at(1)).timeConstant()),
            row("guar 1 % at 8 /s -> 3.1 Pa.s [by hand]", 3.1, 2e-2, () -> GUAR.at(1).viscosity(8)),
            row(
                "hyaluronate 1 million, 1 % -> 1.14 Pa.s [by hand]",
                1.14, 1e-2, () -> hyaluronate(1000).at(1).viscosity(1e-9)),
            row(
                "hyaluronate 1.5 million, 1 % -> 4.0 Pa.s [by hand]",
                4.0, 1.5e-2, () -> hyaluronate(1500).at(1).viscosity(1e-9)),
            row(
                "hyaluronate 2 million, 1 % -> 10.1 Pa.s [by hand]",
                10.1, 1e-2, () -> hyaluronate(2000).at(1).viscosity(1e-9)),
            row(
                "lambda-carrageenan, [eta] 14.7 dL/g, 1 % -> 0.65 Pa.s [by hand]",
                0.65, 1e-2, () -> morris(14.7).at(1).viscosity(1e-9)),
            row(
                "xanthan 1 % at 60 /s -> stress 31 Pa [by hand]",
                31, 2e-2, () -> XANTHAN.at(1, 0).stress(60)),
            row(
                "carbomer 0.5 % at 17 /s -> stress 158 Pa [by hand]",
                158, 1e-2, () -> CARBOMER.at(0.5, 0).stress(17)));
    return Stream.of(coil, thinning, single).flatMap(rows -> rows);
  }

  static Stream<Arguments> regression() {
    List<Arguments> rows = new ArrayList<>();
    Object[][] table = {
      {"xanthan", XANTHAN, 0.2, 0.376, 1.01, 0.172, 0.0326, 0.00654},
      {"xanthan", XANTHAN, 0.5, 2.14, 4.42, 0.700, 0.125, 0.0244},
      {"xanthan", XANTHAN, 1.0, 8.00, 14.0, 2.08, 0.354, 0.0666},
      {"sclerotium gum", SCLEROTIUM, 0.5, 2.00, 3.02, 0.381, 0.0521, 0.00771},
      {"sclerotium gum", SCLEROTIUM, 1.0, 8.00, 10.5, 1.24, 0.159, 0.0221},
      {"carbomer", CARBOMER, 0.2, 22.7, 33.0, 4.84, 0.872, 0.185},
      {"carbomer", CARBOMER, 0.5, 71.5, 99.5, 14.2, 2.48, 0.515},
      {"hydroxyethylcellulose", HYDROXYETHYL, 1.0, 0.0, 4.781, 2.566, 0.748, 0.159},
      {"cellulose gum", CELLULOSE_GUM, 1.0, 0.0, 2.451, 1.500, 0.550, 0.144},
      {"konjac", KONJAC, 0.5, 0.0, 2.196, 1.056, 0.265, 0.051},
    };
    for (Object[] line : table) {
      FlowLaw law = (FlowLaw) line[1];
      double c = (double) line[2];
      boolean cross = law instanceof FlowLaw.Cross;
      String head = line[0] + " " + c + " % -> ";
      String tail = " [regression of the code, not validation]";
      double yield = (double) line[3];
      rows.add(
          row(head + "yield " + yield + " Pa" + tail, yield, 3e-3, () -> law.at(c).yieldStress()));
      for (int i = 0; i < 4; i++) {
        double rate = Math.pow(10, i);
        double expected = (double) line[4 + i];
        rows.add(
            row(
                head + expected + " Pa.s at " + rate + " /s" + tail,
                expected,
                cross ? 1e-2 : 6e-3,
                () -> cross ? law.at(c, 1e-3).viscosity(rate) : gum(law, c, rate)));
      }
    }
    return rows.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource({"published", "handCalculated", "regression"})
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName("worked example of docs/models/flow-law.md: xanthan 0.5 % at 10 /s -> 0.701 Pa.s")
  void workedExample() {
    FlowCurve curve = XANTHAN.at(0.5);
    assertEquals(2.14, curve.yieldStress(), 0.01);
    assertEquals(0.701, curve.viscosity(10), 0.002);
  }

  @Test
  @DisplayName("a single gum in a mixture keeps its own curve")
  void singleGum() {
    FlowCurve mixed = FlowLaw.mix(List.of(part(XANTHAN, 0.5), part(GUAR, 0)), 1e-3);
    assertEquals(XANTHAN.at(0.5, 1e-3), mixed);
    assertEquals(1e-3, FlowLaw.mix(List.of(), 1e-3).viscosity(10));
  }

  @Test
  @DisplayName("two gels half and half -> geometric mean of yield and consistency at the total")
  void twoGels() {
    FlowCurve mixed = FlowLaw.mix(List.of(part(XANTHAN, 0.5), part(SCLEROTIUM, 0.5)), 1e-3);
    FlowCurve.Plastic curve = (FlowCurve.Plastic) mixed;
    assertEquals(8, curve.yieldStress(), 1e-12);
    assertEquals(Math.sqrt(6 * 2.5), curve.consistency(), 1e-12);
    assertEquals(0.29, curve.flowIndex(), 1e-12);
  }

  @Test
  @DisplayName("gel and coil -> pointwise geometric mean, and the same as the closed form for gels")
  void pointwise() {
    FlowCurve mixed = FlowLaw.mix(List.of(part(XANTHAN, 0.4), part(HYDROXYETHYL, 0.6)), 1e-3);
    double expected =
        Math.exp(
            0.4 * Math.log(XANTHAN.at(1, 0).gumViscosity(7))
                + 0.6 * Math.log(HYDROXYETHYL.at(1, 0).gumViscosity(7)));
    assertEquals(expected, mixed.gumViscosity(7), 1e-12);
    FlowCurve blend =
        new FlowCurve.Blend(
            8, List.of(XANTHAN.at(1), SCLEROTIUM.at(1)), List.of(0.5, 0.5), 1, 1e-3);
    FlowCurve closed = FlowLaw.mix(List.of(part(XANTHAN, 0.5), part(SCLEROTIUM, 0.5)), 1e-3);
    assertEquals(closed.viscosity(13), blend.viscosity(13), 1e-12);
  }

  @Test
  @DisplayName("a trace of a second gum changes nothing by a jump")
  void continuousMixing() {
    for (FlowLaw second : List.of(STARCH, HYDROXYETHYL, ACACIA, GUAR, CARBOMER)) {
      FlowCurve pure = FlowLaw.mix(List.of(part(XANTHAN, 1)), 1e-3);
      FlowCurve trace = FlowLaw.mix(List.of(part(XANTHAN, 1), part(second, 1e-9)), 1e-3);
      for (double rate : new double[] {1e-3, 1, 1e3}) {
        assertEquals(pure.stress(rate), trace.stress(rate), 1e-6 * pure.stress(rate));
      }
    }
  }

  private static FlowLaw.Part part(FlowLaw law, double concentration) {
    return new FlowLaw.Part(law, concentration);
  }

  private static FlowLaw randomLaw(Random random) {
    double m = uniform(random, 0.4, 1);
    return switch (random.nextInt(7)) {
      case 0 ->
          new FlowLaw.HerschelBulkley(
              logUniform(random, 1, 200),
              uniform(random, 1, 2.5),
              logUniform(random, 1, 60),
              uniform(random, 1, 2.5),
              uniform(random, 0.2, 0.9),
              WIDE);
      case 1 ->
          FlowLaw.HerschelBulkley.powerLaw(
              logUniform(random, 0.01, 10), uniform(random, 1, 3), uniform(random, 0.2, 0.9), WIDE);
      case 2 ->
          new FlowLaw.Cross(
              logUniform(random, 0.1, 30),
              uniform(random, 3, 4),
              logUniform(random, 0.01, 1),
              uniform(random, 1, 2),
              m,
              WIDE);
      case 3 ->
          new FlowLaw.RandomCoil(
              uniform(random, 1, 20), 4, 1.4, uniform(random, 3, 5), 500, m, WIDE);
      case 4 -> new FlowLaw.CoilSeries(uniform(random, 2, 40), 0.4, 7.77e-3, 4.18, 1000, m, WIDE);
      case 5 -> new FlowLaw.Exponential(1e-3, uniform(random, 0.05, 0.3), WIDE);
      default -> new FlowLaw.NewtonianPower(uniform(random, 0.1, 2), uniform(random, 2, 5), WIDE);
    };
  }

  @Test
  @DisplayName("random gums: finite, above the solvent, thinning, more gum never thinner")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      FlowLaw law = randomLaw(random);
      double c = random.nextInt(20) == 0 ? 0 : logUniform(random, 0.01, 10);
      double solvent = logUniform(random, 5e-4, 0.1);
      double rate = logUniform(random, 1e-3, 1e6);
      FlowCurve curve = law.at(c, solvent);
      double viscosity = curve.viscosity(rate);
      assertTrue(Double.isFinite(viscosity) && Double.isFinite(curve.stress(rate)));
      atMost(solvent, viscosity, "solvent under gel");
      atMost(curve.viscosity(rate * 1.1), viscosity, "thinning");
      atMost(curve.stress(rate), curve.stress(rate * 1.1), "stress rises with rate");
      if (law.monotoneInConcentration()) {
        atMost(viscosity, law.at(c * 1.05 + 1e-6, solvent).viscosity(rate), "more gum");
      }
      if (!(law instanceof FlowLaw.HerschelBulkley)) {
        assertEquals(0, curve.yieldStress());
      }
      assertEquals(curve.stress(rate), rate * viscosity, 1e-9 * curve.stress(rate));
    }
  }

  @Test
  @DisplayName("random mixtures: finite, above the solvent, order of the gums does not matter")
  void mixtureProperties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      FlowLaw.Part one = part(randomLaw(random), logUniform(random, 0.01, 3));
      FlowLaw.Part two = part(randomLaw(random), logUniform(random, 0.01, 3));
      double rate = logUniform(random, 1e-3, 1e6);
      double viscosity = FlowLaw.mix(List.of(one, two), 1e-3).viscosity(rate);
      assertTrue(Double.isFinite(viscosity));
      atMost(1e-3, viscosity, "solvent under gel");
      assertEquals(
          viscosity, FlowLaw.mix(List.of(two, one), 1e-3).viscosity(rate), 1e-9 * viscosity);
    }
  }

  @Test
  @DisplayName("random curves: the shear rate at a stress gives that stress back")
  void inversion() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      FlowLaw.Part one = part(randomLaw(random), logUniform(random, 0.05, 3));
      FlowLaw.Part two = part(randomLaw(random), random.nextInt(2) * 0.7);
      FlowCurve curve = FlowLaw.mix(List.of(one, two), 1e-3);
      double rate = logUniform(random, 1e-3, 1e6);
      double stress = curve.stress(rate);
      assertEquals(stress, curve.stress(curve.shearRateAt(stress)), 1e-10 * stress);
      assertEquals(0, curve.shearRateAt(curve.yieldStress() * 0.999));
      double index = curve.localFlowIndex(rate);
      assertTrue(index >= 0 && index <= 1 + 1e-6, () -> "index " + index);
    }
  }

  @Test
  @DisplayName("another unit of stress (1 Pa = 10 dyn/cm²) scales every result alike")
  void unitInvariance() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double yield = logUniform(random, 0.1, 100);
      double consistency = logUniform(random, 0.1, 100);
      double n = uniform(random, 0.2, 1);
      double rate = logUniform(random, 1e-3, 1e6);
      FlowCurve pascal = new FlowCurve.Plastic(yield, consistency, n, 1e-3);
      FlowCurve dyne = new FlowCurve.Plastic(10 * yield, 10 * consistency, n, 1e-2);
      assertEquals(10 * pascal.stress(rate), dyne.stress(rate), 1e-9 * dyne.stress(rate));
      double stress = pascal.stress(rate);
      double back = pascal.shearRateAt(stress);
      assertEquals(back, dyne.shearRateAt(10 * stress), 1e-6 * back);
    }
  }

  @Test
  @DisplayName("the range of a law contains its ends, and a steep time law is not monotone")
  void ranges() {
    assertTrue(XANTHAN.range().contains(0.05) && XANTHAN.range().contains(40));
    assertFalse(XANTHAN.range().contains(0.04));
    assertSame(WIDE, PULLULAN.range());
    assertFalse(new FlowLaw.Cross(1, 1, 1, 2, 0.9, WIDE).monotoneInConcentration());
    assertTrue(KONJAC.monotoneInConcentration());
  }

  @Test
  @DisplayName("nonsense is refused by name")
  void nonsense() {
    assertThrows(IllegalArgumentException.class, () -> XANTHAN.at(-1));
    assertThrows(IllegalArgumentException.class, () -> XANTHAN.at(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> XANTHAN.at(1).viscosity(-1));
    assertThrows(IllegalArgumentException.class, () -> new FlowLaw.Range(2, 1));
  }
}
