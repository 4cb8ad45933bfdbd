package gelwright.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.profile.GumLaw;
import gelwright.quantity.Unit;
import gelwright.science.FlowCurve;
import gelwright.science.FlowLaw;
import gelwright.science.SpindleReading;
import gelwright.sheets.Bundled;
import gelwright.sheets.Library;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("calibrating a lot of gum")
final class CalibratorTest {
  private static final double WATER = FlowLaw.WATER_VISCOSITY;
  private static final Library LIBRARY = Bundled.load();
  private static final Calibrator CALIBRATOR = Calibrator.using(LIBRARY.catalogue());

  private static final FlowCurve GEL = new FlowCurve.Plastic(5.5, 2.1, 0.28, WATER);

  private static Calibration calibrated(Readings readings) {
    Calibrated answer = CALIBRATOR.calibrate(readings);
    assertEquals(List.of(), answer.problems());
    return answer.value().orElseThrow();
  }

  private static Gum gum(Calibration calibration) {
    return calibration.lot().gum().toOptional().orElseThrow();
  }

  private static double likely(Gum gum, String parameter) {
    Figure figure = gum.parameters().get(parameter);
    return figure.likely();
  }

  @Test
  @DisplayName(
      "one share: the lot gets its prefactors, keeps the exponents, reaches near the share")
  void oneShare() {
    Calibration calibration =
        calibrated(Lab.readings("Sclerotium Gum", 25, List.of(Lab.series(0.5, GEL, 14, 0.02, 1))));
    Gum gum = gum(calibration);
    assertEquals(Calibration.Form.HERSCHEL_BULKLEY, calibration.chosen().form());
    assertEquals(0.5, gum.at());
    assertEquals(5.5, likely(gum, "yield"), 0.3);
    assertEquals(2.1, likely(gum, "consistency"), 0.3);
    assertEquals(0.28, likely(gum, "flow-index"), 0.02);
    // The usual figures of the bundled sheet, with a range from lot to lot.
    assertEquals(2, likely(gum, "yield-power"));
    assertEquals(1.3, likely(gum, "consistency-power"));
    assertTrue(gum.parameters().get("yield-power").deviation() > 0);
    assertTrue(gum.parameters().get("yield-power").sources().contains("engine-practice"));
    // 1.5 times below and above, within 0.15 to 1.5 % of the usual law.
    assertEquals(0.33333, gum.from(), 1e-5);
    assertEquals(0.75, gum.to(), 1e-9);
    assertEquals(new Gum.Rates(0, 200), gum.rates().orElseThrow());
    assertEquals(Source.Standing.MEASURED, calibration.source().standing());
    assertEquals(List.of(calibration.source().id()), gum.parameters().get("yield").sources());
    assertEquals("lot-sclerotium-gum-bench-3", calibration.source().id());
  }

  @Test
  @DisplayName("the strength holds what the readings share: root of the sum of squares of the logs")
  void strength() {
    Calibration calibration =
        calibrated(Lab.readings("Sclerotium Gum", 25, List.of(Lab.series(0.5, GEL, 14, 0.02, 1))));
    double sum = 0;
    for (Calibration.SharedDoubt doubt : calibration.shared()) {
      sum += Math.pow(Math.log(doubt.factor()), 2);
    }
    Figure strength = gum(calibration).strength().orElseThrow();
    assertEquals(1, strength.likely());
    assertEquals(Math.exp(Math.sqrt(sum)), strength.spread(), 1e-4);
    // By hand: instrument 1.1; weighing 2 % and an exponent between 1.3 and 2 give 1.026 to 1.040.
    assertEquals("instrument and sample", calibration.shared().get(0).what());
    assertEquals(1.1, calibration.shared().get(0).factor());
    double weighing = calibration.shared().get(1).factor();
    assertTrue(weighing > 1.026 && weighing < 1.041, "" + weighing);
  }

  @Test
  @DisplayName("several shares: the exponents come from the readings, the range is what was read")
  void severalShares() {
    FlowLaw truth = new FlowLaw.HerschelBulkley(7, 1.7, 2.3, 1.15, 0.3, new FlowLaw.Range(0.1, 2));
    List<Readings.Series> series = new ArrayList<>();
    for (double share : new double[] {0.4, 0.7, 1.2}) {
      series.add(Lab.series(share, truth.at(share), 9, 0.02, Math.round(1000 * share)));
    }
    Gum gum = gum(calibrated(Lab.readings("Sclerotium Gum", 25, series)));
    assertEquals(0.4, gum.from());
    assertEquals(1.2, gum.to());
    assertEquals(Math.cbrt(0.4 * 0.7 * 1.2), gum.at(), 1e-4);
    for (String name : List.of("yield-power", "consistency-power")) {
      Figure figure = gum.parameters().get(name);
      double expected = name.equals("yield-power") ? 1.7 : 1.15;
      double logs = 0;
      for (Map<String, Double> doubt : gum.together()) {
        logs += Math.pow(Math.log(doubt.getOrDefault(name, 1.0)), 2);
      }
      double spread = Math.exp(Math.sqrt(logs));
      assertTrue(spread > 1.001 && spread < 1.1, name + " " + spread);
      assertEquals(0, Math.log(expected / figure.likely()), 2 * Math.log(spread), name);
    }
  }

  // The doubts that a lot carries, against what comes out when the same gel is read 400 times anew:
  // the standard deviation of the logarithm of the fitted stress. That of 400 is itself good to
  // 1/sqrt(800) = 3.5 %; three times that is allowed, and 3 % for the curvature of the law.
  @Test
  @DisplayName("the lot's doubts of its fit are those of 400 repeats, at every shear rate")
  void doubtsTogether() {
    int repeats = 400;
    double[] rates = {0.05, 0.3, 1, 10, 60, 200};
    double[] sum = new double[rates.length];
    double[] squares = new double[rates.length];
    double[] told = new double[rates.length];
    double student = new TDistribution(14 - 3).inverseCumulativeProbability(0.95);
    for (int repeat = 0; repeat < repeats; repeat++) {
      Gum gum =
          gum(
              calibrated(
                  Lab.readings(
                      "Sclerotium Gum",
                      25,
                      List.of(Lab.series(0.5, GEL, 14, 0.02, 1000 + repeat)))));
      for (int i = 0; i < rates.length; i++) {
        double log = Math.log(GumLaw.likely(gum).at(0.5).stress(rates[i]));
        sum[i] += log;
        squares[i] += log * log;
        for (int j = 0; j < gum.together().size(); j++) {
          double up = GumLaw.together(gum, j, 0.5).at(0.5).stress(rates[i]);
          double down = GumLaw.together(gum, j, -0.5).at(0.5).stress(rates[i]);
          told[i] += Math.pow(Math.log(up / down) / student, 2);
        }
      }
    }
    for (int i = 0; i < rates.length; i++) {
      double seen = Math.sqrt(squares[i] / repeats - Math.pow(sum[i] / repeats, 2));
      assertEquals(seen, Math.sqrt(told[i] / repeats), 0.135 * seen, "at " + rates[i] + " /s");
    }
  }

  @Test
  @DisplayName("readings at 40 °C are carried to 25 °C by the gum's activation energy")
  void warm() {
    // Sclerotium Gum: 5 kJ/mol on the bundled sheet. By hand: 5000/8.314 (1/313.15 - 1/298.15) =
    // -0.0966, so the gel at 40 °C has 0.908 of its strength at 25 °C.
    double factor = Math.exp(-0.0966);
    FlowCurve warm = new FlowCurve.Plastic(5.5 * factor, 2.1 * factor, 0.28, 0.653e-3);
    Calibration calibration =
        calibrated(Lab.readings("Sclerotium Gum", 40, List.of(Lab.series(1, warm, 14, 0, 1))));
    assertEquals(5.5, likely(gum(calibration), "yield"), 0.01);
    assertEquals(2.1, likely(gum(calibration), "consistency"), 0.01);
    assertTrue(
        calibration.shared().stream().anyMatch(doubt -> doubt.what().startsWith("way from")));
  }

  @Test
  @DisplayName("a salted neutralised carbomer: the lot's law is that without the salt")
  void salted() {
    // Half is left at 60 mmol/kg for each %: 0.5 % in 30 mmol/kg is half of itself.
    FlowCurve half = new FlowCurve.Plastic(25, 12, 0.4, WATER);
    Readings plain = Lab.readings("Carbomer", 25, List.of(Lab.series(0.5, half, 14, 0, 1)));
    Readings salted =
        new Readings(
            plain.gum(),
            plain.grade(),
            plain.lot(),
            plain.date(),
            plain.instrument(),
            plain.celsius(),
            0.03,
            plain.weighing(),
            plain.series(),
            plain.place());
    Gum gum = gum(calibrated(salted));
    assertEquals(50, likely(gum, "yield"), 0.1);
    assertTrue(
        gum.strength().orElseThrow().spread()
            > gum(calibrated(plain)).strength().orElseThrow().spread());
  }

  @Test
  @DisplayName("a coil: Cross is chosen, at one share with the exponents of the coil's own law")
  void coil() {
    FlowCurve coil = new FlowCurve.Coil(20, 1.5, 0.75, WATER);
    Calibration calibration =
        calibrated(Lab.readings("Guar Gum", 25, List.of(Lab.series(1, coil, 16, 0.02, 5))));
    assertEquals(Calibration.Form.CROSS, calibration.chosen().form());
    Gum gum = gum(calibration);
    assertEquals("cross", gum.law());
    assertEquals(20, likely(gum, "zero-shear-viscosity"), 2);
    // The Rouse time goes as the viscosity over the share: one power less.
    assertEquals(likely(gum, "zero-shear-power") - 1, likely(gum, "time-power"), 0.01);
  }

  @Test
  @DisplayName("no yield stress in the readings: none, up to what they would have shown, and said")
  void noYield() {
    FlowCurve liquid = new FlowCurve.Plastic(0, 4, 0.4, WATER);
    Calibration calibration =
        calibrated(
            Lab.readings("Sclerotium Gum", 25, List.of(Lab.series(0.5, liquid, 14, 0.02, 2))));
    Gum gum = gum(calibration);
    assertEquals(Calibration.Form.POWER_LAW, calibration.chosen().form());
    Figure yield = gum.parameters().get("yield");
    assertEquals(0, yield.likely());
    assertTrue(yield.spread() > 0 && yield.spread() <= liquid.stress(0.05) * 1.1, "" + yield);
    assertEquals(0.05, gum.rates().orElseThrow().from(), 1e-9);
    assertTrue(
        calibration.remarks().stream().anyMatch(each -> each.contains("show no yield stress")));
  }

  @Test
  @DisplayName("spindle readings of a power-law gel give its law; their table is a doubt")
  void spindle() {
    FlowCurve gel = new FlowCurve.Plastic(0, 9, 0.35, WATER);
    List<Readings.SpindlePoint> points = new ArrayList<>();
    for (double speed : new double[] {2, 5, 10, 20, 50, 100}) {
      double torque =
          100 * SpindleReading.displayed(gel, 4, speed) * speed / SpindleReading.fullScale(4);
      points.add(new Readings.SpindlePoint(speed, torque, Place.NOWHERE));
    }
    Calibration calibration =
        calibrated(
            Lab.readings(
                "Sclerotium Gum",
                25,
                List.of(
                    new Readings.Spindle(
                        1, 4, SpindleReading.TYPE_A_TORQUE, points, Place.NOWHERE))));
    Gum gum = gum(calibration);
    assertEquals(9, likely(gum, "consistency"), 0.3);
    assertEquals(0.35, likely(gum, "flow-index"), 0.01);
    assertTrue(
        calibration.shared().stream().anyMatch(each -> each.what().equals("table of the spindle")));
  }

  @Test
  @DisplayName("the likely curve of the picture is that of the lot's law, within its range")
  void curve() {
    Calibration calibration =
        calibrated(Lab.readings("Sclerotium Gum", 25, List.of(Lab.series(0.5, GEL, 14, 0.02, 1))));
    var drawn = calibration.curve().series().get(0).points();
    for (var point : drawn) {
      assertTrue(point.low() < GEL.stress(point.x()) && GEL.stress(point.x()) < point.high());
      assertEquals(GEL.stress(point.x()), point.likely(), 0.04 * point.likely());
    }
    assertEquals(14, calibration.residuals().size());
    assertEquals(new Place("bench.yaml", 10, 5, ""), calibration.residuals().get(0).place());
    for (Calibration.Residual residual : calibration.residuals()) {
      assertEquals(residual.off(), residual.stress() / residual.fitted() - 1, 1e-12);
      assertTrue(Math.abs(residual.off()) < 0.08);
    }
  }

  private record Slip(String gum, double celsius, double salt, List<Readings.Series> series) {
    Readings readings() {
      return new Readings(
          gum,
          Optional.empty(),
          "bench 3",
          Optional.empty(),
          "",
          Optional.of(celsius),
          salt,
          Optional.empty(),
          series,
          new Place("bench.yaml", 1, 1, ""));
    }
  }

  private static Place at(int line) {
    return new Place("bench.yaml", line, 7, "");
  }

  private static Readings.Flow flow(double share, double[]... points) {
    List<Readings.FlowPoint> read = new ArrayList<>();
    for (int i = 0; i < points.length; i++) {
      read.add(new Readings.FlowPoint(points[i][0], points[i][1], at(20 + i)));
    }
    return new Readings.Flow(share, read, at(19));
  }

  private static Readings.Spindle spindle(int number, double[]... points) {
    List<Readings.SpindlePoint> read = new ArrayList<>();
    for (int i = 0; i < points.length; i++) {
      read.add(new Readings.SpindlePoint(points[i][0], points[i][1], at(20 + i)));
    }
    return new Readings.Spindle(1, number, 0.7187, read, at(19));
  }

  private static double[] p(double a, double b) {
    return new double[] {a, b};
  }

  private static final Readings.Flow GOOD =
      flow(1, p(0.1, 6.6), p(1, 7.6), p(10, 9.5), p(50, 12), p(100, 13.6), p(200, 15));

  private static Slip series(Readings.Series... series) {
    return new Slip("Sclerotium Gum", 25, 0, List.of(series));
  }

  static Stream<Arguments> slips() {
    return Stream.of(
        row("no readings", series(), "too-few-points", 1, "no readings"),
        row("two points", series(flow(1, p(1, 7), p(10, 9))), "too-few-points", 1, "needs 5"),
        row(
            "five points at two shares",
            series(flow(1, p(1, 7), p(10, 9), p(99, 13)), flow(0.5, p(1, 2), p(10, 3))),
            "too-few-points",
            1,
            "needs 6"),
        row(
            "one shear rate",
            series(flow(1, p(1, 7), p(1, 7.1), p(1, 7.2), p(1, 7.3), p(1, 7.4))),
            "one-shear-rate",
            1,
            "All readings are of one shear rate, 1 /s"),
        row(
            "hardly more than one shear rate",
            series(flow(1, p(1, 7), p(1.2, 7.1), p(1.5, 7.2), p(1.8, 7.3), p(2, 7.4))),
            "one-shear-rate",
            1,
            "from 1 to 2 /s only"),
        row(
            "viscosities taken for stresses",
            series(flow(1, p(0.1, 66), p(1, 7.6), p(10, 0.95), p(50, 0.24), p(100, 0.14))),
            "falling-stress",
            19,
            "falls with the shear rate"),
        row("a shear rate of zero", series(flow(1, p(0, 7), p(1, 8))), "out-of-range", 20, "0 /s"),
        row("a negative stress", series(flow(1, p(1, 7), p(9, -8))), "out-of-range", 21, "0 Pa"),
        row("a stress in mPa", series(flow(1, p(1, 7e6), p(9, 8e6))), "out-of-range", 20, "no gel"),
        row(
            "a copy of a reading",
            series(flow(1, p(1, 7), p(10, 9), p(1, 7))),
            "duplicate-point",
            22,
            "here twice"),
        row("a share of zero", series(flow(0, p(1, 7), p(9, 8))), "out-of-range", 19, "share"),
        row("a share of 90 %", series(flow(90, p(1, 7), p(9, 8))), "out-of-range", 19, "share"),
        row(
            "a torque of 3 %",
            series(spindle(4, p(5, 3), p(10, 28))), "torque-outside-scale", 20, "10 to 100 %"),
        row(
            "a torque of 120 %",
            series(spindle(4, p(5, 90), p(10, 120))),
            "torque-outside-scale",
            21,
            "smaller spindle"),
        row("spindle 9", series(spindle(9, p(5, 20), p(10, 28))), "out-of-range", 19, "1 to 7"),
        row("one speed", series(spindle(4, p(5, 20))), "too-few-points", 19, "two speeds"),
        row(
            "a speed twice",
            series(spindle(4, p(5, 20), p(5, 21), p(9, 30))),
            "duplicate-point",
            21,
            "5 rpm"),
        row(
            "water",
            series(flow(1, p(1, 0.0009), p(10, 0.009), p(100, 0.09), p(200, 0.18), p(300, 0.27))),
            "thinner-than-water",
            20,
            "that of water"),
        row(
            "an unknown gum",
            new Slip("Sclerotum Gum", 25, 0, List.of(GOOD)),
            "unknown-ingredient",
            1,
            "Sclerotium Gum"),
        row("no gum", new Slip("Glycerin", 25, 0, List.of(GOOD)), "not-a-gum", 1, "Glycerin"),
        row(
            "a gum of which no law is known, at one share",
            new Slip("Agar", 20, 0, List.of(GOOD)),
            "no-flow-law",
            1,
            "two shares"),
        row(
            "a share far outside the usual law",
            series(flow(3, p(0.1, 66), p(1, 76), p(10, 95), p(50, 120), p(100, 136))),
            "share-outside-law",
            1,
            "0.15 to 1.5 %"),
        row(
            "80 °C",
            new Slip("Sclerotium Gum", 80, 0, List.of(GOOD)),
            "out-of-range",
            1,
            "from 5 to 60 °C"),
        row(
            "a melted gel",
            new Slip("Gellan Gum", 58, 0, List.of(GOOD)),
            "melted",
            1,
            "melted or near it"),
        row(
            "sea salt in mol/kg for mmol/kg",
            new Slip("Sclerotium Gum", 25, 30, List.of(GOOD)),
            "out-of-range",
            1,
            "0 and 1 mol/kg"),
        row(
            "dust on the display",
            series(
                flow(
                    1,
                    p(0.1, 6),
                    p(0.5, 90),
                    p(1, 0.4),
                    p(5, 300),
                    p(10, 2),
                    p(50, 800),
                    p(100, 5),
                    p(200, 60))),
            "",
            1,
            ""));
  }

  private static Arguments row(String name, Slip slip, String code, int line, String says) {
    return Arguments.of(name, slip, code, line, says);
  }

  @ParameterizedTest(name = "{0} -> {2}")
  @MethodSource("slips")
  void refused(String name, Slip slip, String code, int line, String says) {
    Calibrated answer = CALIBRATOR.calibrate(slip.readings());
    assertTrue(answer.value().isEmpty(), name);
    if (code.isEmpty()) {
      // Which of several things is wrong with noise does not matter, as long as it is refused.
      return;
    }
    List<Problem> fitting =
        answer.problems().stream()
            .filter(problem -> problem.code().equals(code))
            .filter(problem -> problem.place().line() == line)
            .filter(problem -> (problem.message() + " " + problem.hint()).contains(says))
            .toList();
    assertEquals(1, fitting.size(), answer.problems().toString());
  }

  @Test
  @DisplayName("all that is wrong comes at once")
  void atOnce() {
    Calibrated answer =
        CALIBRATOR.calibrate(
            new Slip("Glycerine Gum", 90, 0, List.of(flow(0, p(0, 7), p(1, -8)))).readings());
    assertEquals(
        List.of(
            "out-of-range", "unknown-ingredient", "out-of-range", "out-of-range", "out-of-range"),
        answer.problems().stream().map(Problem::code).toList());
  }

  @Test
  @DisplayName("units of the parameters are those of ingredient sheets")
  void units() {
    Calibration calibration =
        calibrated(Lab.readings("Sclerotium Gum", 25, List.of(Lab.series(0.5, GEL, 14, 0.02, 1))));
    assertEquals(
        List.of(Unit.PASCAL, Unit.NONE, Unit.PASCAL),
        calibration.chosen().parameters().stream().map(Calibration.Parameter::unit).toList());
  }
}
