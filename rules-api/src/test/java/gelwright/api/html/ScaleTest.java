package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Unit;
import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("a number and its limit on one line")
final class ScaleTest {
  private static Shown shown(double low, double likely, double high, Unit unit) {
    return new Shown("number", low, likely, high, unit, Set.of());
  }

  private static Shown exact(double value, Unit unit) {
    return shown(value, value, value, unit);
  }

  private static Optional<Scale> scale(Shown observed, Shown limit) {
    return Scale.of(new Scale.Compared(observed, limit, Scale.Side.NEITHER), List.of());
  }

  private static double at(String percent) {
    assertTrue(percent.endsWith("%"), percent);
    return Double.parseDouble(percent.substring(0, percent.length() - 1));
  }

  @ParameterizedTest(name = "{0} to {2} {4} against {3} -> equal steps are equal factors: {5}")
  @CsvSource({
    "6.2, 15.5, 38.8, 10, Pa, true",
    "2.5, 3.5, 4.5, 10, %, false",
    "0.01, 0.02, 0.03, 10, %, true",
    "0, 1, 2, 100, %, false",
    "1, 2, 9, 1.5, pH, false",
    "20, 30, 900, 40, °C, false",
    "90, 100, 130, 95, g, false",
  })
  void factor(double low, double likely, double high, double limit, String symbol, boolean is) {
    Unit unit = Unit.of(symbol).orElseThrow();
    Scale scale = scale(shown(low, likely, high, unit), exact(limit, unit)).orElseThrow();
    assertEquals(is, scale.factor());
  }

  @Test
  @DisplayName("everything is in its order from left to right, and nothing beyond the edges")
  void order() {
    for (double limit : new double[] {0.3, 6.2, 10, 15.5, 40, 9_000}) {
      Scale scale =
          scale(shown(6.2, 15.5, 38.8, Unit.PASCAL), exact(limit, Unit.PASCAL)).orElseThrow();
      double left = at(scale.range().x());
      double right = left + at(scale.range().width());
      double likely = at(scale.likely().orElseThrow().x());
      double mark = at(scale.limitMark().orElseThrow().x());
      assertTrue(0 <= left && left < likely && likely < right && right <= 100.01);
      assertEquals(limit < 15.5, mark < likely, () -> "limit " + limit);
      assertEquals(limit > 38.8, mark > right, () -> "limit " + limit);
      assertEquals(limit < 6.2, mark < left, () -> "limit " + limit);
      assertTrue(scale.ticks().size() >= 2, () -> "ticks at " + limit + ": " + scale.ticks());
      assertTrue(scale.ticks().size() <= 8, () -> "ticks at " + limit + ": " + scale.ticks());
      List<Double> places = new ArrayList<>();
      scale.ticks().forEach(tick -> places.add(at(tick.x())));
      assertEquals(places.stream().sorted().toList(), places);
      assertTrue(places.get(0) >= 0 && places.get(places.size() - 1) <= 100);
    }
  }

  @Test
  @DisplayName("on equal steps a place is in proportion: 5 of 0 to 10 is in the middle of the two")
  void proportion() {
    Scale scale = scale(exact(5, Unit.GRAM), shown(0, 10, 10, Unit.GRAM)).orElseThrow();
    double zero = at(scale.limitRange().orElseThrow().x());
    double ten = at(scale.limitMark().orElseThrow().x());
    assertEquals((zero + ten) / 2, at(scale.likely().orElseThrow().x()), 0.01);
  }

  @Test
  @DisplayName("on equal factors 10 is in the middle of 1 and 100")
  void proportionOfFactors() {
    Scale scale = scale(shown(1, 10, 100, Unit.PASCAL), exact(10, Unit.PASCAL)).orElseThrow();
    double left = at(scale.range().x());
    double right = left + at(scale.range().width());
    assertEquals((left + right) / 2, at(scale.limitMark().orElseThrow().x()), 0.01);
    assertTrue(scale.limitRange().isEmpty(), "a limit that is certain has no range");
  }

  @Test
  @DisplayName("a bound has a bar without a likely value, as far as it is known")
  void bound() {
    Scale scale =
        scale(
                shown(0, Double.NaN, Double.POSITIVE_INFINITY, Unit.MICROMETRE),
                exact(1000, Unit.MICROMETRE))
            .orElseThrow();
    assertTrue(scale.likely().isEmpty());
    assertEquals(100, at(scale.range().x()) + at(scale.range().width()), 0.01);
    assertEquals("at least 0 µm", scale.observed().replace('\u00a0', ' '));
  }

  @Test
  @DisplayName("counts, a limit that is not known and numbers that are all the same are not drawn")
  void notDrawn() {
    assertTrue(scale(exact(2, Unit.NONE), exact(1, Unit.NONE)).isEmpty());
    assertTrue(scale(exact(2, Unit.GRAM), shown(1, Double.NaN, 3, Unit.GRAM)).isEmpty());
    assertTrue(scale(exact(2, Unit.GRAM), exact(2, Unit.GRAM)).isEmpty());
    assertFalse(scale(exact(2.5, Unit.NONE), exact(1, Unit.NONE)).isEmpty());
  }

  @Test
  @DisplayName("numbers beneath each other stand on the same line")
  void beside() {
    Scale.Compared one =
        new Scale.Compared(exact(1, Unit.PERCENT), exact(10, Unit.PERCENT), Scale.Side.NEITHER);
    Scale.Compared other =
        new Scale.Compared(exact(4, Unit.PERCENT), exact(10, Unit.PERCENT), Scale.Side.NEITHER);
    Scale.Compared mass =
        new Scale.Compared(exact(400, Unit.GRAM), exact(10, Unit.GRAM), Scale.Side.NEITHER);
    List<Scale.Compared> all = List.of(one, other, mass);
    Scale first = Scale.of(one, all).orElseThrow();
    Scale second = Scale.of(other, all).orElseThrow();
    assertEquals(first.ticks(), second.ticks());
    assertEquals(first.limitMark(), second.limitMark());
  }

  @Test
  @DisplayName("the side that is not allowed is barred from the limit to the edge, and said")
  void barred() {
    Scale.Compared above =
        new Scale.Compared(exact(12, Unit.PERCENT), exact(10, Unit.PERCENT), Scale.Side.ABOVE);
    Scale scale = Scale.of(above, List.of()).orElseThrow();
    String limit = scale.limitMark().orElseThrow().x();
    assertEquals(new Scale.Span(limit, "100.00%"), scale.barred().orElseThrow());
    assertTrue(scale.telling().endsWith("limit 10\u00a0%, more is not allowed."), scale.telling());
    Scale.Compared below =
        new Scale.Compared(exact(3, Unit.PERCENT), exact(10, Unit.PERCENT), Scale.Side.BELOW);
    Scale other = Scale.of(below, List.of()).orElseThrow();
    assertEquals("0.00%", other.barred().orElseThrow().from());
    assertEquals(other.limitMark().orElseThrow().x(), other.barred().orElseThrow().to());
    assertTrue(
        scale(exact(3, Unit.PERCENT), exact(10, Unit.PERCENT)).orElseThrow().barred().isEmpty());
  }
}
