package gelwright.science;

import static gelwright.science.FlowRows.atMost;
import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class HydrationTest {
  private static final double MINUTE = 60;

  private static Hydration gum(double perMinute, double kilojoule) {
    return Hydration.cold(perMinute / MINUTE, 1000 * kilojoule);
  }

  private static final Hydration SCLEROTIUM = gum(0.055, 38);
  private static final Hydration NEEDS_HEAT = new Hydration(0.05 / MINUTE, 30_000, 1, 1, 80);

  static Stream<Arguments> commonPractice() {
    return Stream.of(
        row(
            "sclerotium gum 35 min at 37.5 °C -> 0.97 [common practice, proposed; regression of the"
                + " code, not validation]",
            0.97,
            5e-3,
            () -> SCLEROTIUM.after(37.5, 35 * MINUTE)),
        row(
            "sclerotium gum 35 min at 22 °C -> about 0.80 [common practice, proposed; regression of"
                + " the code, not validation]",
            0.80,
            1.5e-2,
            () -> SCLEROTIUM.after(22, 35 * MINUTE)),
        row(
            "sclerotium gum 60 min at 22 °C -> about 0.93 [common practice, proposed; regression of"
                + " the code, not validation]",
            0.93,
            1.5e-2,
            () -> SCLEROTIUM.after(22, 60 * MINUTE)),
        row(
            "xanthan 30 min at 22 °C -> 0.9 [common practice 15 to 30 min; plausibility]",
            0.9,
            0.05,
            () -> gum(0.08, 25).after(22, 30 * MINUTE)),
        row(
            "cellulose ether 60 min at 22 °C -> 0.9 [common practice 30 to 60 min; plausibility]",
            0.9,
            0.05,
            () -> gum(0.04, 40).after(22, 60 * MINUTE)),
        row(
            "guar 90 min at 22 °C -> 0.9 [common practice 60 to 120 min; plausibility]",
            0.9,
            0.05,
            () -> gum(0.03, 30).after(22, 90 * MINUTE)));
  }

  static Stream<Arguments> handCalculated() {
    return Stream.of(
        row(
            "one time constant -> 1 - 1/e [by hand]",
            0.63212,
            1e-5,
            () -> Hydration.cold(0.01, 0).after(25, 100)),
        row(
            "Weibull shape 0.6 after two time constants -> 0.78035 [by hand]",
            0.78035,
            1e-4,
            () -> new Hydration(0.01, 0, 0.6, 1, Hydration.NO_THRESHOLD).after(25, 200)),
        row(
            "time to 0.9 at one per 100 s -> 230.26 s [by hand]",
            230.26,
            1e-4,
            () -> Hydration.cold(0.01, 0).timeTo(0.9, 25)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource({"commonPractice", "handCalculated"})
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName("worked example of docs/models/hydration.md: 35 min at 22 °C -> 0.81")
  void workedExample() {
    assertEquals(0.0471 / MINUTE, SCLEROTIUM.rate(22), 0.0001 / MINUTE);
    assertEquals(0.807, SCLEROTIUM.after(22, 35 * MINUTE), 0.002);
  }

  @Test
  @DisplayName("at rest the integral agrees with the closed form, over a ramp with fine steps")
  void twoRoutes() {
    TemperaturePath rest = TemperaturePath.startingAt(37.5).hold(1000);
    assertEquals(SCLEROTIUM.after(37.5, 1000), SCLEROTIUM.after(rest), 1e-12);
    TemperaturePath path = TemperaturePath.startingAt(20).rampTo(90, 900).hold(120);
    double dose = 0;
    for (double t = 0.005; t < path.endSeconds(); t += 0.01) {
      dose += NEEDS_HEAT.rate(path.at(t)) * 0.01;
    }
    assertEquals(1 - Math.exp(-dose), NEEDS_HEAT.after(path), 1e-4);
  }

  @Test
  @DisplayName("a gum that needs 80 °C stays raw at 70, hydrates at 80")
  void threshold() {
    assertTrue(NEEDS_HEAT.after(70, 86_400) < 0.01);
    assertTrue(NEEDS_HEAT.after(25, 86_400) < 1e-12);
    assertTrue(NEEDS_HEAT.after(80, 1200) > 0.95);
  }

  @Test
  @DisplayName("random gums and histories: within 0 to the limit, more time never less")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double limit = uniform(random, 0.1, 1);
      Hydration gum =
          new Hydration(
              logUniform(random, 1e-5, 1e-2),
              uniform(random, 0, 60_000),
              uniform(random, 0.6, 1),
              limit,
              random.nextBoolean() ? Hydration.NO_THRESHOLD : uniform(random, 30, 90));
      TemperaturePath path =
          TemperaturePath.startingAt(uniform(random, 0, 95))
              .rampTo(uniform(random, 0, 95), logUniform(random, 1, 1e5));
      double hydrated = gum.after(path);
      assertTrue(hydrated >= 0 && hydrated <= limit, () -> "X " + hydrated);
      atMost(hydrated, gum.after(path.hold(600)), "more time");
      double warmer = gum.after(path.endCelsius() + 5, 600);
      atMost(gum.after(path.endCelsius(), 600), warmer, "warmer");
      double time = gum.timeTo(limit / 2, path.endCelsius());
      if (Double.isFinite(time) && time < 1e15) {
        assertEquals(limit / 2, gum.after(path.endCelsius(), time), 1e-9);
      }
    }
  }

  @Test
  @DisplayName("never more than the limit; nonsense is refused")
  void edges() {
    assertEquals(Double.POSITIVE_INFINITY, SCLEROTIUM.timeTo(1, 25));
    assertEquals(0, SCLEROTIUM.after(25, 0));
    assertThrows(IllegalArgumentException.class, () -> new Hydration(1, 1, 1, 1.5, 20));
    assertThrows(IllegalArgumentException.class, () -> SCLEROTIUM.after(25, -1));
  }
}
