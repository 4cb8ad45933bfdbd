package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.hipparchus.analysis.MultivariateFunction;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.optim.InitialGuess;
import org.hipparchus.optim.MaxEval;
import org.hipparchus.optim.SimpleValueChecker;
import org.hipparchus.optim.nonlinear.scalar.GoalType;
import org.hipparchus.optim.nonlinear.scalar.ObjectiveFunction;
import org.hipparchus.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.hipparchus.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("fitting the flow law of a lot")
final class LotFitTest {
  private static final double WATER = FlowLaw.WATER_VISCOSITY;
  private static final int REPEATS = 1000;
  private static final double NOISE = 0.03;

  /** Gels as truth: a form, its parameters at the reference, and exponents (none: one share). */
  private record Truth(FlowFit.Form form, double[] values, double[] shares) {
    boolean several() {
      return shares.length > 1;
    }

    FlowCurve curve(double share) {
      double reference = reference();
      int size = form.parameters().size();
      double first = several() ? Math.pow(share / reference, values[size]) : 1;
      double second =
          several() && values.length > size + 1 ? Math.pow(share / reference, values[size + 1]) : 1;
      return switch (form) {
        case POWER_LAW -> new FlowCurve.Plastic(0, values[0] * first, values[1], WATER);
        case HERSCHEL_BULKLEY ->
            new FlowCurve.Plastic(values[2] * second, values[0] * first, values[1], WATER);
        case CROSS -> new FlowCurve.Coil(values[0] * first, values[2] * second, values[1], WATER);
      };
    }

    double reference() {
      double sum = 0;
      for (double share : shares) {
        sum += Math.log(share);
      }
      return Math.exp(sum / shares.length);
    }

    List<LotFit.Point> readings(double noise, Random random) {
      List<LotFit.Point> points = new ArrayList<>();
      int each = several() ? 8 : 16;
      for (double share : shares) {
        FlowCurve curve = curve(share);
        for (int i = 0; i < each; i++) {
          double rate = 0.01 * Math.pow(1e5, i / (each - 1.0));
          double factor = Math.exp(noise * random.nextGaussian());
          points.add(new LotFit.Point(share, rate, curve.stress(rate) * factor));
        }
      }
      return points;
    }
  }

  private static final Truth POWER =
      new Truth(FlowFit.Form.POWER_LAW, new double[] {6, 0.4}, new double[] {0.5});
  private static final Truth GEL =
      new Truth(FlowFit.Form.HERSCHEL_BULKLEY, new double[] {6, 0.33, 8}, new double[] {1});
  private static final Truth COIL =
      new Truth(FlowFit.Form.CROSS, new double[] {20, 0.75, 1.5}, new double[] {1});
  private static final Truth GELS =
      new Truth(
          FlowFit.Form.HERSCHEL_BULKLEY,
          new double[] {6, 0.33, 8, 1.4, 1.9},
          new double[] {0.5, 0.8, 1.2});
  private static final Truth COILS =
      new Truth(
          FlowFit.Form.CROSS, new double[] {20, 0.75, 1.5, 3.4, 1.8}, new double[] {0.6, 1, 1.5});

  static Stream<Arguments> truths() {
    return Stream.of(
        Arguments.of("power law at one share", POWER),
        Arguments.of("Herschel-Bulkley at one share", GEL),
        Arguments.of("Cross at one share", COIL),
        Arguments.of("Herschel-Bulkley at three shares", GELS),
        Arguments.of("Cross at three shares", COILS));
  }

  @ParameterizedTest(name = "{0}: exact readings give their own parameters back")
  @MethodSource("truths")
  void exact(String name, Truth truth) {
    LotFit.Fit fit = LotFit.all(truth.readings(0, new Random(1)), WATER).get(0);
    assertEquals(truth.form(), fit.form());
    assertEquals(truth.reference(), fit.reference(), 1e-12);
    for (int i = 0; i < truth.values().length; i++) {
      assertEquals(truth.values()[i], fit.estimates().get(i).value(), 1e-4 * truth.values()[i]);
    }
  }

  // A count of successes of known probability p in 1000 repeats has the standard deviation
  // sqrt(1000 p (1 - p)) (binomial distribution): 9.5 at 90 %, 14.8 at 68.27 %. Beyond 3.29 of them
  // it falls once in 1000. Student's distribution is exact for a straight line; the curvature of
  // the laws over one standard error, here 1 to 5 % of a parameter, is far below that.
  @ParameterizedTest(
      name = "{0}: 1,000 noisy repeats, the truth lies in the 90 % and 68 % ranges so often")
  @MethodSource("truths")
  void coverage(String name, Truth truth) {
    Random random = new Random(20261129);
    int size = truth.values().length;
    int[] inNinety = new int[size];
    int[] inOne = new int[size];
    for (int repeat = 0; repeat < REPEATS; repeat++) {
      LotFit.Fit fit = LotFit.fit(truth.form(), truth.readings(NOISE, random), WATER);
      double one =
          new TDistribution(fit.estimates().get(0).freedom())
              .inverseCumulativeProbability(0.5 + 0.6827 / 2);
      for (int i = 0; i < size; i++) {
        LotFit.Estimate estimate = fit.estimates().get(i);
        double off = Math.abs(estimate.value() - truth.values()[i]);
        inNinety[i] += off <= estimate.ninetyPercent() ? 1 : 0;
        inOne[i] += off <= one * estimate.standardError() ? 1 : 0;
      }
    }
    for (int i = 0; i < size; i++) {
      binomial(0.9, inNinety[i], name + ", parameter " + i);
      binomial(0.6827, inOne[i], name + ", parameter " + i);
    }
  }

  private static void binomial(double probability, int count, String what) {
    double deviation = Math.sqrt(REPEATS * probability * (1 - probability));
    assertEquals(REPEATS * probability, count, 3.29 * deviation, what);
  }

  @ParameterizedTest(
      name = "{0}: a search without derivatives finds the same parameters, errors from curvature")
  @MethodSource("truths")
  void secondRoute(String name, Truth truth) {
    Random random = new Random(7);
    for (int repeat = 0; repeat < 5; repeat++) {
      List<LotFit.Point> points = truth.readings(NOISE, random);
      LotFit.Fit fit = LotFit.fit(truth.form(), points, WATER);
      // Nelder-Mead in the logarithms of all parameters, started at the truth, not at the fit.
      MultivariateFunction squares = at -> squares(truth, points, at);
      double[] start = new double[truth.values().length];
      for (int i = 0; i < start.length; i++) {
        start[i] = Math.log(truth.values()[i]);
      }
      double[] best = start;
      for (int round = 0; round < 4; round++) {
        best =
            new SimplexOptimizer(new SimpleValueChecker(1e-15, 1e-15))
                .optimize(
                    new MaxEval(20_000),
                    new ObjectiveFunction(squares),
                    GoalType.MINIMIZE,
                    new InitialGuess(best),
                    new NelderMeadSimplex(start.length, 0.05))
                .getPoint();
      }
      double[] errors = errors(squares, best, points.size() - start.length);
      for (int i = 0; i < start.length; i++) {
        LotFit.Estimate estimate = fit.estimates().get(i);
        double value = Math.exp(best[i]);
        // Both routes stop within a hundredth of a standard error of the optimum.
        assertEquals(value, estimate.value(), 0.01 * estimate.standardError(), name + " " + i);
        // The curvature of the sum has a term in the residuals that JᵀJ leaves out: some percent.
        assertEquals(
            value * errors[i], estimate.standardError(), 0.15 * estimate.standardError(), name);
      }
    }
  }

  private static double squares(Truth truth, List<LotFit.Point> points, double[] logs) {
    double[] values = new double[logs.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(logs[i]);
    }
    if (truth.form() == FlowFit.Form.CROSS && values[1] > 1) {
      return 1e9;
    }
    Truth guess = new Truth(truth.form(), values, truth.shares());
    double sum = 0;
    for (LotFit.Point point : points) {
      double off = Math.log(point.stress() / guess.curve(point.share()).stress(point.shearRate()));
      sum += off * off;
    }
    return sum;
  }

  /** Standard errors of the logarithms: s² times the inverse of half the second derivatives. */
  private static double[] errors(MultivariateFunction squares, double[] best, int freedom) {
    int size = best.length;
    double step = 1e-3;
    double[][] half = new double[size][size];
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        double second = 0;
        for (int a = -1; a <= 1; a += 2) {
          for (int b = -1; b <= 1; b += 2) {
            double[] at = best.clone();
            at[i] += a * step;
            at[j] += b * step;
            second += a * b * squares.value(at);
          }
        }
        half[i][j] = second / (8 * step * step);
      }
    }
    double[][] inverse =
        new org.hipparchus.linear.LUDecomposition(
                new org.hipparchus.linear.Array2DRowRealMatrix(half))
            .getSolver()
            .getInverse()
            .getData();
    double variance = squares.value(best) / freedom;
    double[] errors = new double[size];
    for (int i = 0; i < size; i++) {
      errors[i] = Math.sqrt(variance * inverse[i][i]);
    }
    return errors;
  }

  @Test
  @DisplayName("without water between the gum the fits of one share are those of FlowFit")
  void asFlowFit() {
    Random random = new Random(3);
    List<LotFit.Point> points = new ArrayList<>();
    List<FlowFit.Point> same = new ArrayList<>();
    FlowCurve curve = new FlowCurve.Plastic(8, 6, 0.33, 0);
    for (double rate = 0.01; rate < 1500; rate *= 2.5) {
      double stress = curve.stress(rate) * Math.exp(NOISE * random.nextGaussian());
      points.add(new LotFit.Point(1, rate, stress));
      same.add(new FlowFit.Point(rate, stress));
    }
    for (FlowFit.Form form : FlowFit.Form.values()) {
      LotFit.Fit fit = LotFit.fit(form, points, 0);
      FlowFit.Fit other = FlowFit.fit(form, same, 0);
      assertEquals(other.criterion(), fit.criterion(), 1e-6);
      for (int i = 0; i < form.parameters().size(); i++) {
        double value = other.parameters().get(i).value();
        assertEquals(value, fit.estimates().get(i).value(), 1e-6 * value);
      }
    }
  }

  @Test
  @DisplayName("too few points are refused, and offer no form")
  void tooFew() {
    List<LotFit.Point> four = POWER.readings(0, new Random(1)).subList(0, 4);
    assertTrue(LotFit.all(four, WATER).isEmpty());
    assertThrows(
        IllegalArgumentException.class, () -> LotFit.fit(FlowFit.Form.POWER_LAW, four, WATER));
  }

  @Test
  @DisplayName("random readings, even senseless ones: every number is defined, ranking is ordered")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < 40; i++) {
      List<LotFit.Point> points = new ArrayList<>();
      int size = 5 + random.nextInt(10);
      for (int j = 0; j < size; j++) {
        double share = i % 2 == 0 ? 1 : 0.5 + random.nextInt(3);
        double rate = i % 5 == 0 ? 1 : FlowRows.logUniform(random, 1e-3, 1e4);
        points.add(new LotFit.Point(share, rate, FlowRows.logUniform(random, 0.01, 1000)));
      }
      double before = Double.NEGATIVE_INFINITY;
      for (LotFit.Fit fit : LotFit.all(points, WATER)) {
        assertFalse(Double.isNaN(fit.criterion()) || Double.isNaN(fit.scatter()));
        assertTrue(fit.criterion() >= before);
        before = fit.criterion();
        for (LotFit.Estimate estimate : fit.estimates()) {
          assertTrue(Double.isFinite(estimate.value()));
          assertTrue(estimate.standardError() >= 0);
        }
        assertTrue(Double.isFinite(LotFit.curve(fit, 1, WATER).stress(10)));
      }
    }
  }
}
