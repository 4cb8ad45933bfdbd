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

class DensityTest {

  static Stream<Arguments> ethanol() {
    return Stream.of(
        arguments("ethanol 1 % -> 0.99636 g/mL [Perry, read]", 1, 0.99636, 0.0002),
        arguments("ethanol 2 % -> 0.99453 g/mL [Perry, read]", 2, 0.99453, 0.0002),
        arguments("ethanol 3 % -> 0.99275 g/mL [Perry, read]", 3, 0.99275, 0.0002),
        arguments("ethanol 4 % -> 0.99103 g/mL [Perry, read]", 4, 0.99103, 0.0002),
        arguments("ethanol 5 % -> 0.98938 g/mL [Perry, read]", 5, 0.98938, 0.0002),
        arguments("ethanol 6 % -> 0.98780 g/mL [Perry, read]", 6, 0.9878, 0.0002),
        arguments("ethanol 7 % -> 0.98627 g/mL [Perry, read]", 7, 0.98627, 0.0002),
        arguments("ethanol 8 % -> 0.98478 g/mL [Perry, read]", 8, 0.98478, 0.0002),
        arguments("ethanol 9 % -> 0.98331 g/mL [Perry, read]", 9, 0.98331, 0.0002),
        arguments("ethanol 10 % -> 0.98187 g/mL [Perry, read]", 10, 0.98187, 0.0002),
        arguments("ethanol 11 % -> 0.98047 g/mL [Perry, read]", 11, 0.98047, 0.0002),
        arguments("ethanol 12 % -> 0.97910 g/mL [Perry, read]", 12, 0.9791, 0.0002),
        arguments(
            "ethanol 15 % -> 0.975 g/mL [public table with three decimals, read]",
            15, 0.975, 0.0011),
        arguments(
            "ethanol 20 % -> 0.968 g/mL [public table with three decimals, read]",
            20, 0.968, 0.0011),
        arguments(
            "ethanol 25 % -> 0.962 g/mL [public table with three decimals, read]",
            25, 0.962, 0.0011),
        arguments(
            "ethanol 30 % -> 0.954 g/mL [public table with three decimals, read]",
            30, 0.954, 0.0011),
        arguments(
            "ethanol 35 % -> 0.945 g/mL [public table with three decimals, read]",
            35, 0.945, 0.0011),
        arguments(
            "ethanol 40 % -> 0.935 g/mL [public table with three decimals, read]",
            40, 0.935, 0.0011),
        arguments(
            "ethanol 45 % -> 0.925 g/mL [public table with three decimals, read]",
            45, 0.925, 0.0011),
        arguments(
            "ethanol 50 % -> 0.914 g/mL [public table with three decimals, read]",
            50, 0.914, 0.0011),
        arguments(
            "ethanol 55 % -> 0.902 g/mL [public table with three decimals, read]",
            55, 0.902, 0.0011),
        arguments(
            "ethanol 60 % -> 0.891 g/mL [public table with three decimals, read]",
            60, 0.891, 0.0011),
        arguments(
            "ethanol 65 % -> 0.879 g/mL [public table with three decimals, read]",
            65, 0.879, 0.0011),
        arguments(
            "ethanol 70 % -> 0.867 g/mL [public table with three decimals, read]",
            70, 0.867, 0.0011),
        arguments(
            "ethanol 75 % -> 0.856 g/mL [public table with three decimals, read]",
            75, 0.856, 0.0011),
        arguments(
            "ethanol 80 % -> 0.843 g/mL [public table with three decimals, read]",
            80, 0.843, 0.0011),
        arguments(
            "ethanol 85 % -> 0.831 g/mL [public table with three decimals, read]",
            85, 0.831, 0.0011),
        arguments(
            "ethanol 90 % -> 0.818 g/mL [public table with three decimals, read]",
            90, 0.818, 0.0011),
        arguments(
            "ethanol 95 % -> 0.805 g/mL [public table with three decimals, read]",
            95, 0.805, 0.0011));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("ethanol")
  @DisplayName("ethanol in water at 20 C")
  void ethanol(String name, double percent, double density, double tolerance) {
    assertEquals(density, Density.ethanolWater(percent / 100), tolerance, name);
  }

  static Stream<Arguments> byVolume() {
    return Stream.of(
        arguments(
            "ethanol 5 % by weight -> 6.24 % by volume at 15.56 C [USP alcoholometric table, read]",
            5, 6.24, 0.15),
        arguments(
            "ethanol 10 % by weight -> 12.39 % by volume at 15.56 C [USP alcoholometric table,"
                + " read]",
            10, 12.39, 0.15),
        arguments(
            "ethanol 20 % by weight -> 24.47 % by volume at 15.56 C [USP alcoholometric table,"
                + " read]",
            20, 24.47, 0.15),
        arguments(
            "ethanol 30 % by weight -> 36.18 % by volume at 15.56 C [USP alcoholometric table,"
                + " read]",
            30, 36.18, 0.15),
        arguments("ethanol 40 % by weight -> 47.4 % by volume [CRC, from memory]", 40, 47.4, 0.06),
        arguments("ethanol 50 % by weight -> 57.9 % by volume [CRC, from memory]", 50, 57.9, 0.06),
        arguments("ethanol 60 % by weight -> 67.7 % by volume [CRC, from memory]", 60, 67.7, 0.06),
        arguments("ethanol 70 % by weight -> 76.9 % by volume [CRC, from memory]", 70, 76.9, 0.06),
        arguments("ethanol 80 % by weight -> 85.5 % by volume [CRC, from memory]", 80, 85.5, 0.06),
        arguments("ethanol 90 % by weight -> 93.3 % by volume [CRC, from memory]", 90, 93.3, 0.06));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("byVolume")
  @DisplayName("alcohol by volume")
  void byVolume(String name, double weight, double volume, double tolerance) {
    assertEquals(volume, 100 * Density.alcoholByVolume(weight / 100), tolerance, name);
  }

  static Stream<Arguments> glycerol() {
    return Stream.of(
        arguments(
            "glycerol 10 % -> 1.0221 g/mL [Glycerine Producers 1963, from memory]", 10, 1.0221),
        arguments(
            "glycerol 20 % -> 1.0469 g/mL [Glycerine Producers 1963, from memory]", 20, 1.0469),
        arguments(
            "glycerol 30 % -> 1.0727 g/mL [Glycerine Producers 1963, from memory]", 30, 1.0727),
        arguments(
            "glycerol 40 % -> 1.0993 g/mL [Glycerine Producers 1963, from memory]", 40, 1.0993),
        arguments(
            "glycerol 50 % -> 1.1263 g/mL [Glycerine Producers 1963, from memory]", 50, 1.1263),
        arguments(
            "glycerol 60 % -> 1.1538 g/mL [Glycerine Producers 1963, from memory]", 60, 1.1538),
        arguments(
            "glycerol 70 % -> 1.1813 g/mL [Glycerine Producers 1963, from memory]", 70, 1.1813),
        arguments(
            "glycerol 80 % -> 1.2085 g/mL [Glycerine Producers 1963, from memory]", 80, 1.2085),
        arguments(
            "glycerol 90 % -> 1.2351 g/mL [Glycerine Producers 1963, from memory]", 90, 1.2351),
        arguments(
            "glycerol 100 % -> 1.2611 g/mL [Glycerine Producers 1963, from memory]", 100, 1.2611));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("glycerol")
  @DisplayName("glycerol in water at 20 C: another table")
  void glycerol(String name, double percent, double density) {
    assertEquals(density, Density.glycerolWater(percent / 100), 0.0004, name);
  }

  @Test
  @DisplayName("glycerol between the points: the closed form of Volk & Kaehler 2018 [from memory]")
  void glycerolClosedForm() {
    for (int i = 1; i < 100; i++) {
      double w = i / 100.0;
      double water = 1000 * (1 - Math.pow((20 - 4) / 622.0, 1.7));
      double glycerol = 1273.3 - 0.6121 * 20;
      double a = 1.78e-6 * 400 - 1.82e-4 * 20 + 1.41e-2;
      double contraction = 1 + a * Math.pow(Math.sin(Math.pow(w, 1.31) * Math.PI), 0.81);
      double expected =
          contraction * (water + (glycerol - water) / (1 + glycerol / water * (1 / w - 1)));
      assertEquals(expected / 1000, Density.glycerolWater(w), 0.001, "w = " + w);
    }
  }

  @Test
  @DisplayName(
      "worked example: 60 % ethanol -> 67.7 % by volume; ideal volumes 3.5 % low [by hand]")
  void workedExample() {
    // 0.60 · 0.89113/0.78934 = 0.6774
    assertEquals(0.6774, Density.alcoholByVolume(0.6), 0.0001);
    // 1/(0.5/0.78934 + 0.5/0.99821) = 0.8816 against 0.9138 of the table
    double ideal = Density.idealMixture(new double[] {1, 1}, new double[] {0.78934, 0.99821});
    assertEquals(0.8816, ideal, 0.0001);
    assertEquals(-0.035, ideal / Density.ethanolWater(0.5) - 1, 0.0005);
  }

  @Test
  @DisplayName("smooth: no jump in slope at the table points, monotone throughout")
  void smooth() {
    double step = 1e-6;
    for (int i = 1; i < 20; i++) {
      double w = 0.05 * i;
      double before = Density.ethanolWater(w) - Density.ethanolWater(w - step);
      double after = Density.ethanolWater(w + step) - Density.ethanolWater(w);
      assertEquals(before / step, after / step, 1e-5);
    }
    for (int i = 1; i <= 1000; i++) {
      double w = i / 1000.0;
      assertTrue(Density.ethanolWater(w) < Density.ethanolWater(w - 0.001));
      assertTrue(Density.glycerolWater(w) > Density.glycerolWater(w - 0.001));
    }
    assertEquals(Density.ETHANOL, Density.ethanolWater(1), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> Density.ethanolWater(1.01));
    assertThrows(
        IllegalArgumentException.class,
        () -> Density.idealMixture(new double[] {0}, new double[] {1}));
  }
}
