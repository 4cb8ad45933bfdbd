package gelwright.science;

import static gelwright.science.FlowRows.atMost;
import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
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

class FlowModifiersTest {
  private static final double RIGID = FlowModifiers.RIGID_SPHERE;

  static Stream<Arguments> published() {
    return Stream.of(
        row(
            "few rigid spheres -> slope 5/2 of the viscosity [Einstein 1906]",
            2.5,
            1e-3,
            () -> (FlowModifiers.kriegerDougherty(1e-5, 0.64, RIGID) - 1) / 1e-5),
        row(
            "exponent of the crowding law at packing 0.64 -> 1.6 [Krieger and Dougherty 1959]",
            1.6,
            1e-9,
            () -> -Math.log(FlowModifiers.kriegerDougherty(0.32, 0.64, RIGID)) / Math.log(0.5)),
        row(
            "bubbles -> intrinsic viscosity 1 [Taylor 1932]",
            1,
            1e-9,
            () -> FlowModifiers.dropIntrinsicViscosity(0, 3)),
        row(
            "drops as thick as the medium -> intrinsic viscosity 7/4 [Taylor 1932]",
            1.75,
            1e-9,
            () -> FlowModifiers.dropIntrinsicViscosity(3, 3)),
        row(
            "xanthan 0.4 % in salt -> not weakened, change of sign near 0.25 % [Pastor et al."
                + " 1994]",
            1, 1e-12, () -> FlowModifiers.xanthanSaltFactor(0.4, 0.1)),
        row(
            "guar scission Ea 117.4 kJ/mol, 25 to 50 °C -> x39.0 [Wang et al. 2000]",
            39.0,
            5e-3,
            () -> 1 / FlowModifiers.temperatureFactor(117_400, 50)),
        row(
            "guar scission Ea 118.6 kJ/mol, 25 to 50 °C -> x40.5 [Wang et al. 2000]",
            40.5,
            5e-3,
            () -> 1 / FlowModifiers.temperatureFactor(118_600, 50)),
        row(
            "guar scission Ea 120.5 kJ/mol, 25 to 50 °C -> x43.0 [Wang et al. 2000]",
            43.0,
            5e-3,
            () -> 1 / FlowModifiers.temperatureFactor(120_500, 50)));
  }

  static Stream<Arguments> handCalculated() {
    List<Arguments> rows = new ArrayList<>();
    double[][] crowding = {
      {0.05, 1.139}, {0.1, 1.312}, {0.2, 1.821}, {0.3, 2.751}, {0.4, 4.803}, {0.5, 11.38}
    };
    for (double[] pair : crowding) {
      rows.add(
          row(
              "Krieger-Dougherty, packing 0.64, phi " + pair[0] + " -> " + pair[1] + " [by hand]",
              pair[1],
              1e-3,
              () -> FlowModifiers.kriegerDougherty(pair[0], 0.64, RIGID)));
    }
    double[][] yield = {{0.05, 1.041}, {0.1, 1.088}, {0.2, 1.217}, {0.3, 1.425}, {0.4, 1.834}};
    for (double[] pair : yield) {
      rows.add(
          row(
              "Chateau-Ovarlez-Trung yield, phi " + pair[0] + " -> " + pair[1] + " [by hand]",
              pair[1],
              1e-3,
              () -> FlowModifiers.yieldRatio(pair[0], RIGID)));
    }
    rows.add(
        row(
            "carbomer 0.25 % with 0.1 % sodium chloride (17 mM) -> 0.47 left [by hand]",
            0.469, 1e-2, () -> FlowModifiers.carbomerSaltFactor(0.25, 0.0171)));
    rows.add(
        row(
            "carbomer 0.25 % with 1 % sodium chloride (171 mM) -> 0.08 left [by hand]",
            0.081, 1e-2, () -> FlowModifiers.carbomerSaltFactor(0.25, 0.171)));
    rows.add(
        row(
            "carbomer at alpha 0.1 -> 1 - 1/e = 0.632 [by hand]",
            0.632,
            1e-3,
            () -> FlowModifiers.carbomerNeutralisationFactor(0.1)));
    rows.add(
        row(
            "temperature factor, Ea 25 kJ/mol at 40 °C -> 0.617 [by hand]",
            0.617,
            2e-3,
            () -> FlowModifiers.temperatureFactor(25_000, 40)));
    rows.add(
        row(
            "consistency ratio, phi 0.2, n 0.4 -> 1.439 [by hand]",
            1.439,
            2e-3,
            () -> FlowModifiers.consistencyRatio(0.2, RIGID, 0.4)));
    return rows.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource({"published", "handCalculated"})
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName(
      "worked example of docs/models/flow-modifiers.md: phi 0.2 raises a yield of 10 to 12.2")
  void workedExample() {
    FlowCurve gel = new FlowCurve.Plastic(10, 5, 0.4, 0.89e-3);
    FlowCurve.Plastic loaded = (FlowCurve.Plastic) FlowModifiers.loaded(gel, 0.2, RIGID);
    assertEquals(12.17, loaded.yieldStress(), 0.02);
    assertEquals(7.20, loaded.consistency(), 0.05);
  }

  @Test
  @DisplayName(
      "worked example of docs/models/flow-modifiers.md: 1 % salt leaves 0.148, 15 °C counts 0.756")
  void workedSaltAndWarmth() {
    assertEquals(0.148, FlowModifiers.carbomerSaltFactor(0.5, 0.173), 0.0005);
    assertEquals(0.756, 1 / FlowModifiers.temperatureFactor(20_000, 15), 0.0005);
  }

  @Test
  @DisplayName("yield and consistency ratios are those of the homogenised curve")
  void oneHomogenisation() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double n = uniform(random, 0.2, 1);
      double phi = uniform(random, 0, 0.5);
      double intrinsic = uniform(random, 1, 2.5);
      FlowCurve gel = new FlowCurve.Plastic(3, 7, n, 1e-3);
      FlowCurve.Plastic loaded = (FlowCurve.Plastic) FlowModifiers.loaded(gel, phi, intrinsic);
      assertEquals(3 * FlowModifiers.yieldRatio(phi, intrinsic), loaded.yieldStress(), 1e-9);
      double consistency = 7 * FlowModifiers.consistencyRatio(phi, intrinsic, n);
      assertEquals(consistency, loaded.consistency(), 1e-9 * consistency);
    }
  }

  @Test
  @DisplayName("a Newtonian liquid with particles follows Krieger and Dougherty exactly")
  void newtonianLimit() {
    FlowCurve loaded = FlowModifiers.loaded(FlowCurve.Coil.newtonian(2, 1e-3), 0.3, RIGID);
    assertEquals(
        2.001 * FlowModifiers.kriegerDougherty(0.3, 0.57, RIGID), loaded.viscosity(9), 1e-9);
  }

  @Test
  @DisplayName("random input: finite, factors in bounds, more salt never stiffer")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double phi = random.nextDouble();
      double c = uniform(random, 0, 2);
      double salt = random.nextInt(10) == 0 ? 0 : logUniform(random, 1e-6, 5);
      assertTrue(Double.isFinite(FlowModifiers.kriegerDougherty(phi, 0.64, RIGID)));
      assertTrue(Double.isFinite(FlowModifiers.yieldRatio(phi, RIGID)));
      double factor = FlowModifiers.carbomerSaltFactor(c, salt);
      assertTrue(factor >= 0 && factor <= 1);
      atMost(FlowModifiers.carbomerSaltFactor(c, salt * 1.1), factor, "more salt");
      double xanthan = FlowModifiers.xanthanSaltFactor(c, salt);
      assertTrue(xanthan >= 0.7 - 1e-12 && xanthan <= 1);
      double open = FlowModifiers.carbomerNeutralisationFactor(random.nextDouble());
      assertTrue(open >= 0 && open <= 1);
      double bound = FlowModifiers.unsaltedCoilBound(salt);
      assertTrue(bound >= 1 && bound <= 3);
      double effective = FlowModifiers.effectiveConcentration(c, uniform(random, -0.1, 1.1));
      atMost(effective, c, "effective gum");
    }
  }

  @Test
  @DisplayName("no salt leaves a carbomer alone, no gum leaves nothing to weaken")
  void edges() {
    assertEquals(1, FlowModifiers.carbomerSaltFactor(0.3, 0));
    assertEquals(1, FlowModifiers.carbomerSaltFactor(0, 0));
    assertEquals(0, FlowModifiers.carbomerSaltFactor(0, 0.1));
    assertEquals(0, FlowModifiers.carbomerNeutralisationFactor(0));
    assertTrue(FlowModifiers.crowded(0.63, 0.64));
    assertEquals(FlowModifiers.Solvent.BORNE, FlowModifiers.solvent(10, 20, 5, 60));
    assertEquals(FlowModifiers.Solvent.BOTH_TOO_HIGH, FlowModifiers.solvent(30, 20, 70, 60));
    assertEquals(FlowModifiers.Solvent.ETHANOL_TOO_HIGH, FlowModifiers.solvent(30, 20, 5, 60));
    assertEquals(FlowModifiers.Solvent.POLYOL_TOO_HIGH, FlowModifiers.solvent(0, 20, 70, 60));
  }
}
