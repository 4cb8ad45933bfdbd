package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class GlycerolViscosityTest {

  static Stream<Arguments> table() {
    return Stream.of(
        arguments(
            "water at 0 C -> 1.7921 mPa s [International Critical Tables, read]",
            0,
            0,
            1.7921,
            0.02),
        arguments(
            "water at 10 C -> 1.3097 mPa s [International Critical Tables, read]",
            0,
            10,
            1.3097,
            0.02),
        arguments(
            "water at 20 C -> 1.0087 mPa s [International Critical Tables, read]",
            0,
            20,
            1.0087,
            0.02),
        arguments(
            "water at 25 C -> 0.8949 mPa s [International Critical Tables, read]",
            0,
            25,
            0.8949,
            0.02),
        arguments(
            "water at 30 C -> 0.8004 mPa s [International Critical Tables, read]",
            0,
            30,
            0.8004,
            0.02),
        arguments(
            "water at 35 C -> 0.7208 mPa s [International Critical Tables, read]",
            0,
            35,
            0.7208,
            0.02),
        arguments(
            "glycerol at 25 C -> 934 mPa s [public table of liquids, read]", 100, 25, 934, 0.06),
        arguments(
            "glycerol 10 % at 20 C -> 1.31 mPa s [Glycerine Producers 1963, from memory]",
            10, 20, 1.31, 0.06),
        arguments(
            "glycerol 20 % at 20 C -> 1.76 mPa s [Glycerine Producers 1963, from memory]",
            20, 20, 1.76, 0.06),
        arguments(
            "glycerol 30 % at 20 C -> 2.5 mPa s [Glycerine Producers 1963, from memory]",
            30, 20, 2.5, 0.06),
        arguments(
            "glycerol 40 % at 20 C -> 3.72 mPa s [Glycerine Producers 1963, from memory]",
            40, 20, 3.72, 0.06),
        arguments(
            "glycerol 50 % at 20 C -> 6.0 mPa s [Glycerine Producers 1963, from memory]",
            50, 20, 6.0, 0.06),
        arguments(
            "glycerol 60 % at 20 C -> 10.8 mPa s [Glycerine Producers 1963, from memory]",
            60, 20, 10.8, 0.06),
        arguments(
            "glycerol 70 % at 20 C -> 22.5 mPa s [Glycerine Producers 1963, from memory]",
            70, 20, 22.5, 0.06),
        arguments(
            "glycerol 80 % at 20 C -> 60.1 mPa s [Glycerine Producers 1963, from memory]",
            80, 20, 60.1, 0.06),
        arguments(
            "glycerol 90 % at 20 C -> 219 mPa s [Glycerine Producers 1963, from memory]",
            90, 20, 219, 0.06),
        arguments(
            "glycerol 100 % at 20 C -> 1410 mPa s [Glycerine Producers 1963, from memory]",
            100, 20, 1410, 0.06));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("table")
  @DisplayName("glycerol in water against tables")
  void table(String name, double percent, double celsius, double expected, double tolerance) {
    double actual = GlycerolViscosity.milliPascalSeconds(percent / 100, celsius);
    assertEquals(expected, actual, tolerance * expected, name);
  }

  @Test
  @DisplayName("worked example: 50 % at 20 C -> 6.00 mPa s [by hand]")
  void workedExample() {
    // a = 0.671; b = 5.62·0.671^2.5 = 2.0727; α = 0.5 + 0.3477/1.3719 = 0.7534;
    // μ(w) = 1.005, μ(g) = 1414; 1.005^0.7534 · 1414^0.2466 = 6.00
    assertEquals(6.00, GlycerolViscosity.milliPascalSeconds(0.5, 20), 0.02);
  }

  @Test
  @DisplayName("thicker with glycerol, thinner with heat; the ends of the range are held")
  void shape() {
    for (int i = 0; i <= 20; i++) {
      double share = i / 20.0;
      for (int t = 5; t <= 100; t += 5) {
        double here = GlycerolViscosity.milliPascalSeconds(share, t);
        assertTrue(here < GlycerolViscosity.milliPascalSeconds(share, t - 5));
        if (i > 0) {
          assertTrue(here > GlycerolViscosity.milliPascalSeconds((i - 1) / 20.0, t));
        }
      }
    }
    assertEquals(
        GlycerolViscosity.milliPascalSeconds(0.3, 0),
        GlycerolViscosity.milliPascalSeconds(0.3, -100));
    assertThrows(
        IllegalArgumentException.class, () -> GlycerolViscosity.milliPascalSeconds(-0.1, 20));
  }
}
