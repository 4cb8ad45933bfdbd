package gelwright.science;

import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.row;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class DispensingTest {

  static Stream<Arguments> rows() {
    return Stream.of(
        row(
            "brush 0.5 m/s over 200 µm -> 2500 /s [worked examples of a rheometer maker, read]",
            2500,
            1e-9,
            () -> Dispensing.filmShear(0.5, 200e-6)),
        row(
            "tube, 1 cm³/s through 6 mm -> 47.2 /s [worked examples of a rheometer maker, read]",
            47.2,
            2e-3,
            () -> Dispensing.tubeShear(1e-6, 3e-3)),
        row(
            "10 Pa holds a film of 1.02 mm [by hand]",
            1.02e-3,
            2e-3,
            () -> Dispensing.clingThickness(10, 1000)),
        row(
            "neck of 5 mm radius pours below 24.5 Pa [by hand]",
            24.5,
            2e-3,
            () -> Dispensing.pourLimit(5e-3, 1000)),
        row(
            "peak of 10 mm -> 30 to 50 Pa [by hand]",
            40,
            0.25,
            () -> Dispensing.peakYield(10e-3, 1000)),
        row(
            "5 mPa.s, 30 mN/m, 0.3 mm -> Oh 0.0527 [by hand]",
            0.0527,
            2e-3,
            () -> Dispensing.ohnesorge(5e-3, 1000, 0.03, 0.3e-3)),
        row(
            "50 mPa.s, 30 mN/m, 0.3 mm -> Oh 0.527 [by hand]",
            0.527,
            2e-3,
            () -> Dispensing.ohnesorge(50e-3, 1000, 0.03, 0.3e-3)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rows")
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName("worked example of docs/models/dispensing.md: a 10 Pa gel clings 1.02 mm thick")
  void workedExample() {
    assertEquals(1.02e-3, Dispensing.clingThickness(10, 1000), 0.005e-3);
  }

  @Test
  @DisplayName("nonsense is refused by name")
  void nonsense() {
    assertThrows(IllegalArgumentException.class, () -> Dispensing.tubeShear(1, 0));
    assertThrows(IllegalArgumentException.class, () -> Dispensing.ohnesorge(1, 0, 1, 1));
  }
}
