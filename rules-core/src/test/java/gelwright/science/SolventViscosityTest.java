package gelwright.science;

import static gelwright.science.FlowRows.atMost;
import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;

import java.util.Random;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class SolventViscosityTest {

  static Stream<Arguments> rows() {
    return Stream.of(
        row(
            "water 20 °C -> 1.002 mPa.s [ISO/TR 3666:1998, from memory]",
            1.002e-3,
            5e-3,
            () -> SolventViscosity.glycerinInWater(0, 20)),
        row(
            "water 25 °C -> 0.890 mPa.s [IAPWS 2008, from memory]",
            0.890e-3,
            1e-2,
            () -> SolventViscosity.glycerinInWater(0, 25)),
        row(
            "water 40 °C -> 0.653 mPa.s [IAPWS 2008, from memory]",
            0.653e-3,
            1e-2,
            () -> SolventViscosity.glycerinInWater(0, 40)),
        row(
            "glycerin 50 %, 20 °C -> 6.00 mPa.s [Segur and Oberstar 1951, from memory]",
            6.00e-3, 2e-2, () -> SolventViscosity.glycerinInWater(0.5, 20)),
        row(
            "glycerin 80 %, 20 °C -> 60.1 mPa.s [Segur and Oberstar 1951, from memory]",
            60.1e-3, 3e-2, () -> SolventViscosity.glycerinInWater(0.8, 20)),
        row(
            "glycerin, 20 °C -> 1410 mPa.s [Segur and Oberstar 1951, from memory]",
            1.410,
            1e-2,
            () -> SolventViscosity.glycerinInWater(1, 20)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("rows")
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName("worked example of docs/models/solvent-viscosity.md: glycerin 50 % -> 6.0 mPa.s")
  void workedExample() {
    check(6.0e-3, 1e-2, () -> SolventViscosity.glycerinInWater(0.5, 20));
  }

  @Test
  @DisplayName("more glycerin is never thinner, more heat never thicker")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double c = uniform(random, -0.1, 1.1);
      double t = uniform(random, -5, 105);
      double viscosity = SolventViscosity.glycerinInWater(c, t);
      atMost(viscosity, SolventViscosity.glycerinInWater(c + 0.01, t), "more glycerin");
      atMost(SolventViscosity.glycerinInWater(c, t + 1), viscosity, "more heat");
    }
  }
}
