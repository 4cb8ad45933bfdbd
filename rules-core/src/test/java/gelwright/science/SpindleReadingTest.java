package gelwright.science;

import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
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

class SpindleReadingTest {

  static Stream<Arguments> fromMemory() {
    List<Arguments> rows = new ArrayList<>();
    for (int spindle = 1; spindle <= 7; spindle++) {
      int number = spindle;
      double tolerance = spindle == 7 ? 0.067 : 0.034;
      rows.add(
          row(
              "spindle "
                  + spindle
                  + ": a Newtonian oil reads its own viscosity within "
                  + tolerance
                  + " [nominal ranges of ISO 2555 type A, from memory]",
              2.0,
              tolerance,
              () -> SpindleReading.displayed(FlowCurve.Coil.newtonian(0, 2), number, 10)));
    }
    double[] indices = {0.1, 0.2, 0.3, 0.5, 0.8, 1.0};
    for (double n : indices) {
      rows.add(
          row(
              "n = "
                  + n
                  + ": average of spindles 2 to 7 within 6 % of Briggs and Steffe 1997 [both from"
                  + " memory]",
              0.263 * Math.pow(1 / n, 0.771),
              0.06,
              () -> {
                double sum = 0;
                for (int spindle = 2; spindle <= 7; spindle++) {
                  sum += SpindleReading.rateFactor(spindle, n);
                }
                return sum / 6;
              }));
    }
    return rows.stream();
  }

  static Stream<Arguments> handCalculated() {
    List<Arguments> rows = new ArrayList<>();
    double[][] average = {
      {0.1, 1.552}, {0.2, 0.910}, {0.3, 0.665}, {0.5, 0.449}, {0.8, 0.312}, {1, 0.263}
    };
    for (double[] pair : average) {
      rows.add(
          row(
              "Briggs-Steffe n = " + pair[0] + " -> " + pair[1] + " per rpm [by hand]",
              pair[1],
              2e-3,
              () -> SpindleReading.averageRateFactor(pair[0])));
    }
    double[] selfCheck = {0.997, 1.022, 1.033, 1.029, 1.033, 0.987, 1.066};
    for (int spindle = 1; spindle <= 7; spindle++) {
      int number = spindle;
      rows.add(
          row(
              "spindle "
                  + spindle
                  + ": 100 k_tau/k_gd over the range -> "
                  + selfCheck[spindle - 1]
                  + " [by hand]",
              selfCheck[spindle - 1],
              1e-3,
              () ->
                  100
                      * SpindleReading.stressPerPercent(number)
                      / SpindleReading.rateFactor(number, 1)
                      / SpindleReading.fullScale(number)));
    }
    rows.add(
        row(
            "between n 0.3 and 0.4, spindle 4 at 0.35 -> 0.587 [by hand]",
            0.587,
            3e-3,
            () -> SpindleReading.rateFactor(4, 0.35)));
    rows.add(
        row(
            "carbomer 40 Pa.s on spindle 7 at 20 rpm means 20 % of torque, 168 Pa [by hand]",
            168,
            1e-9,
            () ->
                SpindleReading.flowPoints(
                    7, SpindleReading.TYPE_A_TORQUE, new double[] {10, 20}, new double[] {15, 20})[
                    1][1]));
    return rows.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource({"fromMemory", "handCalculated"})
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName(
      "worked example of docs/models/spindle-reading.md: spindle 4, 28.28 % at 10 /min -> 4.45 /s,"
          + " 15.24 Pa")
  void workedExample() {
    double[][] points =
        SpindleReading.flowPoints(
            4, SpindleReading.TYPE_A_TORQUE, new double[] {5, 10}, new double[] {20, 28.28});
    assertEquals(4.45, points[0][1], 0.01);
    assertEquals(15.24, points[1][1], 0.01);
  }

  @Test
  @DisplayName("a power-law gel read at many speeds gives back its own curve")
  void roundTrip() {
    Random random = FlowRows.random();
    for (int i = 0; i < 300; i++) {
      int spindle = 1 + random.nextInt(7);
      double n = uniform(random, 0.15, 0.95);
      FlowCurve gel = new FlowCurve.Plastic(0, logUniform(random, 0.5, 50), n, 0);
      double[] speeds = {1, 2, 5, 10, 20, 50};
      double[] torques = new double[speeds.length];
      for (int j = 0; j < speeds.length; j++) {
        torques[j] =
            100
                * SpindleReading.displayed(gel, spindle, speeds[j])
                * speeds[j]
                / SpindleReading.fullScale(spindle);
      }
      double[][] points =
          SpindleReading.flowPoints(spindle, SpindleReading.TYPE_A_TORQUE, speeds, torques);
      for (int j = 0; j < speeds.length; j++) {
        assertEquals(gel.stress(points[0][j]), points[1][j], 1e-4 * points[1][j]);
      }
    }
  }

  @Test
  @DisplayName("random gels and spindles: the display is finite, positive and falls with speed")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      int spindle = 1 + random.nextInt(7);
      FlowCurve gel =
          new FlowCurve.Plastic(
              uniform(random, 0, 100), logUniform(random, 0.1, 50), uniform(random, 0.2, 1), 1e-3);
      double speed = logUniform(random, 0.3, 100);
      double shown = SpindleReading.displayed(gel, spindle, speed);
      assertTrue(shown > 0 && Double.isFinite(shown));
      double factor = SpindleReading.rateFactor(spindle, uniform(random, -1, 2));
      assertTrue(factor > 0.19 && factor < 2);
    }
  }

  @Test
  @DisplayName("nonsense is refused by name")
  void nonsense() {
    assertThrows(IllegalArgumentException.class, () -> SpindleReading.stressPerPercent(8));
    double[] falling = {10, 5};
    double[] torques = {20, 30};
    assertThrows(
        IllegalArgumentException.class,
        () -> SpindleReading.flowPoints(4, 0.7187, falling, torques));
  }
}
