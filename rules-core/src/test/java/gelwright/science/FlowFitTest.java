package gelwright.science;

import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

class FlowFitTest {

  private static List<FlowFit.Point> points(FlowCurve curve, double noise, Random random) {
    List<FlowFit.Point> points = new ArrayList<>();
    for (double rate = 0.01; rate < 1500; rate *= 2.5) {
      double factor = Math.exp(noise * random.nextGaussian());
      points.add(new FlowFit.Point(rate, curve.stress(rate) * factor));
    }
    return points;
  }

  @Test
  @DisplayName("exact readings give their own parameters back and the right form")
  void exact() {
    Random random = FlowRows.random();
    for (int i = 0; i < 60; i++) {
      double n = uniform(random, 0.2, 0.7);
      double consistency = logUniform(random, 0.5, 50);
      double yield = consistency * uniform(random, 0.5, 2);
      FlowFit.Fit gel =
          FlowFit.all(points(new FlowCurve.Plastic(yield, consistency, n, 0), 0, random), 1e-3)
              .get(0);
      assertEquals(FlowFit.Form.HERSCHEL_BULKLEY, gel.form());
      assertEquals(consistency, gel.parameters().get(0).value(), 1e-4 * consistency);
      assertEquals(n, gel.parameters().get(1).value(), 1e-4);
      assertEquals(yield, gel.parameters().get(2).value(), 1e-4 * yield);
      FlowFit.Fit power =
          FlowFit.all(points(new FlowCurve.Plastic(0, consistency, n, 0), 0, random), 1e-3).get(0);
      assertEquals(FlowFit.Form.POWER_LAW, power.form());
      assertEquals(n, power.parameters().get(1).value(), 1e-6);
      double time = logUniform(random, 0.05, 5);
      double m = uniform(random, 0.6, 0.85);
      FlowFit.Fit coil =
          FlowFit.all(points(new FlowCurve.Coil(consistency, time, m, 1e-3), 0, random), 1e-3)
              .get(0);
      assertEquals(FlowFit.Form.CROSS, coil.form());
      assertEquals(consistency, coil.parameters().get(0).value(), 1e-4 * consistency);
      assertEquals(m, coil.parameters().get(1).value(), 1e-4);
      assertEquals(time, coil.parameters().get(2).value(), 1e-4 * time);
    }
  }

  @Test
  @DisplayName("the independent doubts of a fit add up to the standard errors of its parameters")
  void independentDoubts() {
    Random random = FlowRows.random();
    List<FlowFit.Point> points = points(new FlowCurve.Plastic(0, 7, 0.4, 0), 0.05, random);
    FlowFit.Fit fit = FlowFit.fit(FlowFit.Form.POWER_LAW, points, 0);
    assertTrue(fit.isFixed());
    FlowCurve.Plastic middle = (FlowCurve.Plastic) fit.curve();
    double index = 0;
    double consistency = 0;
    for (int i = 0; i < 2; i++) {
      FlowCurve.Plastic shifted = (FlowCurve.Plastic) fit.shifted(i, 0.01);
      index += Math.pow((shifted.flowIndex() - middle.flowIndex()) / 0.01, 2);
      consistency += Math.pow((shifted.consistency() - middle.consistency()) / 0.01, 2);
    }
    double indexError = fit.parameters().get(1).standardError();
    double consistencyError = fit.parameters().get(0).standardError();
    assertEquals(indexError, Math.sqrt(index), 0.01 * indexError);
    assertEquals(consistencyError, Math.sqrt(consistency), 0.01 * consistencyError);
  }

  @Test
  @DisplayName(
      "a power law agrees with the textbook straight line through the logarithms, errors too")
  void againstRegression() {
    Random random = FlowRows.random();
    List<FlowFit.Point> points = points(new FlowCurve.Plastic(0, 7, 0.4, 0), 0.05, random);
    double size = points.size();
    double meanX = points.stream().mapToDouble(p -> Math.log(p.shearRate())).sum() / size;
    double meanY = points.stream().mapToDouble(p -> Math.log(p.stress())).sum() / size;
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (FlowFit.Point point : points) {
      double x = Math.log(point.shearRate()) - meanX;
      double y = Math.log(point.stress()) - meanY;
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
    double slope = xy / xx;
    double intercept = meanY - slope * meanX;
    double variance = (yy - slope * xy) / (size - 2);
    double slopeError = Math.sqrt(variance / xx);
    double interceptError = Math.sqrt(variance * (1 / size + meanX * meanX / xx));
    FlowFit.Fit fit = FlowFit.fit(FlowFit.Form.POWER_LAW, points, 1e-3);
    assertEquals(slope, fit.parameters().get(1).value(), 1e-7);
    assertEquals(Math.exp(intercept), fit.parameters().get(0).value(), 1e-6);
    assertEquals(slopeError, fit.parameters().get(1).standardError(), 1e-6);
    assertEquals(
        interceptError * Math.exp(intercept), fit.parameters().get(0).standardError(), 1e-4);
  }

  @Test
  @DisplayName("with 3 % scatter the truth lies within two standard errors about 19 times in 20")
  void coverage() {
    Random random = FlowRows.random();
    int inside = 0;
    int trials = 200;
    for (int i = 0; i < trials; i++) {
      FlowCurve truth = new FlowCurve.Plastic(8, 6, 0.33, 0);
      FlowFit.Fit fit =
          FlowFit.fit(FlowFit.Form.HERSCHEL_BULKLEY, points(truth, 0.03, random), 1e-3);
      FlowFit.Parameter yield = fit.parameters().get(2);
      assertEquals("yield stress", yield.name());
      if (Math.abs(yield.value() - 8) < 2 * yield.standardError()) {
        inside++;
      }
    }
    assertTrue(inside > 0.88 * trials && inside < trials, "inside " + inside + " of " + trials);
  }

  @Test
  @DisplayName(
      "a yield stress the readings do not show comes back with an error as large as itself")
  void hiddenYield() {
    Random random = FlowRows.random();
    FlowCurve truth = new FlowCurve.Plastic(0, 6, 0.4, 0);
    FlowFit.Fit fit = FlowFit.fit(FlowFit.Form.HERSCHEL_BULKLEY, points(truth, 0.03, random), 0);
    FlowFit.Parameter yield = fit.parameters().get(2);
    assertTrue(yield.value() < 3 * yield.standardError());
  }

  @Test
  @DisplayName("worked example of docs/models/flow-fit.md: five points of K 2, n 0.5")
  void workedExample() {
    List<FlowFit.Point> points = new ArrayList<>();
    for (double rate : new double[] {1, 4, 16, 64, 256}) {
      points.add(new FlowFit.Point(rate, 2 * Math.sqrt(rate)));
    }
    List<FlowFit.Fit> fits = FlowFit.all(points, 1e-3);
    assertEquals(1, fits.size());
    assertEquals(2, fits.get(0).parameters().get(0).value(), 1e-8);
    assertEquals(0.5, fits.get(0).parameters().get(1).value(), 1e-8);
  }

  @Test
  @DisplayName("random readings, even senseless ones: every number is defined, ranking is ordered")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < 150; i++) {
      List<FlowFit.Point> points = new ArrayList<>();
      int size = random.nextInt(12);
      for (int j = 0; j < size; j++) {
        double rate = i % 5 == 0 ? 1 : logUniform(random, 1e-3, 1e4);
        points.add(new FlowFit.Point(rate, logUniform(random, 0.01, 1000)));
      }
      List<FlowFit.Fit> fits = FlowFit.all(points, 1e-3);
      assertEquals(size >= 5, !fits.isEmpty());
      double before = Double.NEGATIVE_INFINITY;
      for (FlowFit.Fit fit : fits) {
        assertFalse(Double.isNaN(fit.criterion()) || Double.isNaN(fit.scatter()));
        assertTrue(fit.criterion() >= before);
        before = fit.criterion();
        for (FlowFit.Parameter parameter : fit.parameters()) {
          assertTrue(parameter.value() >= 0 && Double.isFinite(parameter.value()));
          assertTrue(parameter.standardError() >= 0);
        }
        assertTrue(Double.isFinite(fit.curve().stress(10)));
      }
    }
  }

  @Test
  @DisplayName("one reading rescales a default curve so that it passes through the reading")
  void scaling() {
    FlowCurve expected = new FlowCurve.Plastic(8, 6, 0.33, 1e-3);
    FlowFit.Point reading = new FlowFit.Point(60, 45);
    double factor = FlowFit.scaleFactor(expected, reading);
    assertEquals(45, expected.scaled(factor, factor).stress(60), 1e-9);
    assertEquals(0, FlowFit.scaleFactor(expected, new FlowFit.Point(60, 0.01)));
    assertEquals(1, FlowFit.scaleFactor(FlowCurve.Coil.newtonian(0, 1e-3), reading));
  }

  @Test
  @DisplayName("too few points are refused")
  void tooFew() {
    List<FlowFit.Point> one = List.of(new FlowFit.Point(1, 1));
    assertThrows(
        IllegalArgumentException.class, () -> FlowFit.fit(FlowFit.Form.POWER_LAW, one, 1e-3));
    assertTrue(FlowFit.all(one, 1e-3).isEmpty());
  }
}
