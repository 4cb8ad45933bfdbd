package gelwright.science;

import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("flow curves: read, joined, turned")
class FlowCurveTest {
  private static final FlowCurve GEL = new FlowCurve.Plastic(8, 2.5, 0.25, 0.89e-3);

  @Test
  @DisplayName("readings of 20 Pa at 1 /s and 50 Pa at 100 /s -> √1000 Pa at 10 /s [by hand]")
  void readings() {
    FlowCurve read = new FlowCurve.Readings(List.of(1.0, 100.0), List.of(20.0, 50.0));
    assertEquals(20, read.stress(1), 1e-12);
    assertEquals(Math.sqrt(1000), read.stress(10), 1e-9);
    assertEquals(50, read.stress(100), 1e-9);
  }

  @Test
  @DisplayName("readings that fall, or do not ascend, are refused")
  void refused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new FlowCurve.Readings(List.of(1.0, 10.0), List.of(20.0, 19.0)));
    assertThrows(
        IllegalArgumentException.class,
        () -> new FlowCurve.Readings(List.of(10.0, 1.0), List.of(20.0, 30.0)));
    assertThrows(
        IllegalArgumentException.class, () -> new FlowCurve.Readings(List.of(1.0), List.of(20.0)));
  }

  @Test
  @DisplayName("a joined curve is the known one inside, never falls, and has no step at its ends")
  void joined() {
    Random random = FlowRows.random();
    for (int i = 0; i < 500; i++) {
      double index = uniform(random, 0.1, 0.9);
      FlowCurve known =
          new FlowCurve.Plastic(
              uniform(random, 0, 30), logUniform(random, 0.1, 50), index, 0.89e-3);
      double from = logUniform(random, 0.01, 1);
      double to = logUniform(random, 1, 1000);
      FlowCurve below = new FlowCurve.Plastic(uniform(random, 0, 9), 3, 0.3, 1e-3);
      FlowCurve above = new FlowCurve.Coil(logUniform(random, 0.1, 10), 0.2, 0.7, 1e-3);
      FlowCurve joined = new FlowCurve.Joined(known, from, to, below, above);
      double inside = Math.sqrt(from * to);
      assertEquals(known.stress(inside), joined.stress(inside), 1e-9 * known.stress(inside));
      for (double end : new double[] {from, to}) {
        double just = joined.stress(end * (1 - 1e-9));
        assertEquals(just, joined.stress(end * (1 + 1e-9)), 1e-6 * just);
      }
      double last = joined.yieldStress();
      for (double rate = 1e-4; rate < 1e6; rate *= 3) {
        double stress = joined.stress(rate);
        assertTrue(stress >= last * (1 - 1e-9), "stress falls at " + rate);
        assertEquals(
            Math.log(rate), Math.log(joined.shearRateAt(stress)), 0.05, "inverted at " + rate);
        last = stress;
      }
    }
  }

  @Test
  @DisplayName(
      "turned by 0.1 a power law is 10^0.1 as thick at 10 /s and the same at 1 /s [by hand]")
  void tilted() {
    FlowCurve turned = GEL.tilted(0.1);
    assertEquals(GEL.stress(1), turned.stress(1), 1e-12);
    double before = GEL.gumViscosity(10);
    assertEquals(Math.pow(10, 0.1), turned.gumViscosity(10) / before, 1e-9);
    assertEquals(8, turned.yieldStress());
  }

  @Test
  @DisplayName("another yield stress, another solvent: the rest stays")
  void withOthers() {
    FlowCurve coil = new FlowCurve.Coil(2, 0.1, 0.7, 1e-3);
    for (FlowCurve each :
        List.of(
            GEL,
            coil,
            new FlowCurve.Joined(coil, 0.1, 10, coil, coil),
            new FlowCurve.Blend(3, List.of(GEL, coil), List.of(0.5, 0.5), 1, 1e-3))) {
      FlowCurve firmer = each.withYield(12);
      assertEquals(12, firmer.yieldStress(), 1e-9);
      assertEquals(each.gumViscosity(7), firmer.gumViscosity(7), 1e-9);
    }
    assertEquals(5e-3, GEL.inSolvent(5e-3).solventViscosity());
    assertEquals(5e-3, coil.inSolvent(5e-3).solventViscosity());
  }

  @Test
  @DisplayName("coolest since 60 °C: 25 after heating to 80 and cooling, 75 when heated again")
  void coolestSince() {
    TemperaturePath path = TemperaturePath.startingAt(20).rampTo(80, 600);
    assertEquals(80, path.coolestSince(60));
    TemperaturePath cooled = path.rampTo(25, 600);
    assertEquals(25, cooled.coolestSince(60));
    assertEquals(75, cooled.rampTo(75, 600).coolestSince(60));
    assertEquals(20, cooled.coolestSince(90));
  }
}
