package gelwright.science;

import static gelwright.science.FlowRows.atMost;
import static gelwright.science.FlowRows.check;
import static gelwright.science.FlowRows.logUniform;
import static gelwright.science.FlowRows.row;
import static gelwright.science.FlowRows.uniform;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.DoubleSupplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class HeatModelsTest {
  private static final double MINUTE = 60;
  private static final double HOUR = 3600;
  private static final double DAY = 86_400;

  // Rate constants as printed, in 1/s.
  private static final Degradation.Rate UREA =
      new Degradation.Arrhenius(4.29e-5 / HOUR, 40, 137_160);
  private static final Degradation.Rate BROMELAIN =
      Degradation.Arrhenius.fromPrefactor(1.37e50 / MINUTE, 326_000);
  private static final Degradation.Rate PAPAIN = new Degradation.Eyring(91_400, -49.6);
  private static final Degradation.Rate ANTHOCYANIN_PH3 =
      Degradation.Arrhenius.fromPrefactor(Math.exp(26.878) / HOUR, 84_900);
  private static final Degradation.Rate ANTHOCYANIN_PH6 =
      Degradation.Arrhenius.fromPrefactor(Math.exp(24.516) / HOUR, 74_100);

  // Heat capacities in kJ/(kg K): handbook values; glass and oil from memory.
  private static final double WATER = 4.18;
  private static final double GLYCERIN = 2.42;
  private static final double OIL = 1.9;
  private static final double GLASS = 0.84;

  static Stream<Arguments> published() {
    List<Arguments> rows = new ArrayList<>();
    rows.add(
        row(
            "crude fruit bromelain 60 min at 50 °C -> 83 % left, from the rate law of pineapple"
                + " juice [Jutamongkon 2010 against Sriwatanapongse 2000]",
            0.83, 0.03, () -> Degradation.fractionLeft(BROMELAIN, 50, HOUR)));
    rows.add(
        row(
            "crude fruit bromelain 60 min at 40 °C -> no loss [Jutamongkon 2010]",
            1,
            0.01,
            () -> Degradation.fractionLeft(BROMELAIN, 40, HOUR)));
    rows.add(
        row(
            "crude fruit bromelain 8 min at 80 °C -> almost all lost [Jutamongkon 2010]",
            0,
            0.01,
            () -> Degradation.fractionLeft(BROMELAIN, 80, 8 * MINUTE)));
    rows.add(
        row(
            "papain: enthalpy and entropy give dG 108.5 kJ/mol inside 60 to 90 °C [Park 1979]",
            108_500,
            2e-3,
            () -> {
              double kelvin = 75 + 273.15;
              double frequency = 1.380649e-23 * kelvin / 6.62607015e-34;
              return -8.314462618 * kelvin * Math.log(PAPAIN.at(75) / frequency);
            }));
    rows.add(
        row(
            "urea 25 °C from the rate at 40 °C -> 3.03e-6 /h [Panyachariwat and Steckel 2014]",
            3.03e-6,
            0.01,
            () -> UREA.at(25) * HOUR));
    rows.add(
        row(
            "urea Ea from its rates at 25 and 40 °C -> 32 kcal/mol within 5 % [older urea work,"
                + " from memory]",
            32 * 4184, 0.05, () -> Degradation.activationEnergy(3.03e-6, 25, 4.29e-5, 40)));
    double[][] acid = {{50, 0.009}, {60, 0.026}, {70, 0.047}, {80, 0.146}};
    double[][] mild = {{50, 0.044}, {60, 0.111}, {70, 0.249}, {80, 0.452}};
    for (double[] pair : acid) {
      rows.add(
          row(
              "anthocyanin pH 3 at " + pair[0] + " °C -> " + pair[1] + " /h [Antioxidants 10:1337]",
              pair[1],
              0.25,
              () -> ANTHOCYANIN_PH3.at(pair[0]) * HOUR));
    }
    for (double[] pair : mild) {
      rows.add(
          row(
              "anthocyanin pH 6 at " + pair[0] + " °C -> " + pair[1] + " /h [Antioxidants 10:1337]",
              pair[1],
              0.25,
              () -> ANTHOCYANIN_PH6.at(pair[0]) * HOUR));
    }
    rows.add(
        row(
            "vitamin C in orange, z 27.15 K -> Q10 2.34 [Van den Broeck 1998]",
            2.34,
            5e-3,
            () -> Degradation.tenKelvinFactor(27.15)));
    rows.add(
        row(
            "vitamin C in tomato, z 30.15 K -> Q10 2.15 [Van den Broeck 1998]",
            2.15,
            5e-3,
            () -> Degradation.tenKelvinFactor(30.15)));
    rows.add(
        row(
            "hyaluronate 1.44e6 g/mol, pH 3, 105 °C, 500 min -> about 5e3 g/mol [microwave study]",
            5.0,
            0.05,
            () ->
                2
                    * Degradation.molarMassAfterScission(
                        720,
                        0.401,
                        new Degradation.Arrhenius(3.2e-4 / MINUTE, 105, 0),
                        TemperaturePath.startingAt(105).hold(500 * MINUTE))));
    double[][] flash = {
      {5, 62}, {10, 49}, {20, 36}, {30, 29}, {40, 26}, {50, 24}, {60, 22}, {70, 21}, {80, 20},
      {90, 17}, {96, 17}
    };
    for (double[] pair : flash) {
      rows.add(
          row(
              "ethanol " + pair[0] + " % read as volume -> " + pair[1] + " °C [flash-point table]",
              pair[1],
              1e-9,
              () -> FlashPoint.table(pair[0])));
    }
    double[][] steam = {{25, 23.76}, {40, 55.32}, {60, 149.4}, {80, 355.1}, {100, 760}};
    for (double[] pair : steam) {
      rows.add(
          row(
              "water at " + pair[0] + " °C -> " + pair[1] + " mmHg [CRC Handbook, from memory]",
              pair[1],
              5e-3,
              () -> Evaporation.vapourPressure(pair[0])));
    }
    return rows.stream();
  }

  static Stream<Arguments> handCalculated() {
    List<Arguments> rows = new ArrayList<>();
    rows.add(
        row(
            "70 water + 5 glycerin + 15 oil at 75 °C, 10 water at 22 °C -> 69.1 °C [by hand]",
            69.1,
            1e-3,
            () ->
                HeatBalance.combined(
                    new double[] {70, 5, 15, 10},
                    new double[] {WATER, GLYCERIN, OIL, WATER},
                    new double[] {75, 75, 75, 22})));
    rows.add(
        row(
            "40 water at 80 °C, 55 water + 5 glycerin at 20 °C -> 44.5 °C [by hand]",
            44.5,
            1e-3,
            () ->
                HeatBalance.combined(
                    new double[] {40, 55, 5},
                    new double[] {WATER, WATER, GLYCERIN},
                    new double[] {80, 20, 20})));
    rows.add(
        row(
            "the same in a 150 g glass at 60 °C -> 48.2 °C [by hand]",
            48.2,
            1e-3,
            () ->
                HeatBalance.combined(
                    new double[] {40, 55, 5, 150},
                    new double[] {WATER, WATER, GLYCERIN, GLASS},
                    new double[] {80, 20, 20, 60})));
    rows.add(
        row(
            "500 g water 22 to 75 °C, 400 W, half useful -> 9.2 min [by hand]",
            9.2 * MINUTE,
            5e-3,
            () -> HeatBalance.heatingTime(0.5 * 4180, 53, 400, 0.5)));
    rows.add(
        row(
            "10 g urea (15.4 kJ/mol) in 100 g water -> -6.1 K [by hand]",
            -6.1,
            1e-2,
            () -> HeatBalance.changeOnDissolving(10 / 60.06, 15_400, 100 * 4.18)));
    rows.add(
        row(
            "75 to 45 °C in 30 min, room 22 °C -> time constant 35.9 min [by hand]",
            35.9 * MINUTE,
            2e-3,
            () -> NewtonCooling.timeConstantFrom(75, 22, 45, 30 * MINUTE)));
    rows.add(
        row(
            "the same reaches 40 °C after 38.8 min [by hand]",
            38.8 * MINUTE,
            2e-3,
            () -> NewtonCooling.timeTo(40, 75, 22, 35.94 * MINUTE)));
    double base = Math.PI / 4 * 0.085 * 0.085;
    double height = 0.5 / (974.8 * base);
    double area = Math.PI * 0.085 * height + base;
    rows.add(
        row(
            "500 g of water (974.8 kg/m³) in an 85 mm beaker, wall and surface, h 10 -> 117 min [by"
                + " hand]",
            117 * MINUTE,
            5e-3,
            () -> NewtonCooling.timeConstant(0.5, 4180, 10, area)));
    double[][] flux = {{40, 1.0}, {60, 3.6}, {70, 6.7}, {75, 9.3}, {80, 13.4}};
    for (double[] pair : flux) {
      rows.add(
          row(
              "still air, 22 °C, 50 %: water at "
                  + pair[0]
                  + " °C -> "
                  + pair[1]
                  + " kg/(m² h)"
                  + " [by hand]",
              pair[1],
              2e-2,
              () -> Evaporation.flux(pair[0], 22, 0.5, 0) * HOUR));
    }
    rows.add(
        row(
            "85 mm beaker 20 min at 75 °C -> 17.6 g [by hand]",
            17.6e-3,
            1e-2,
            () ->
                Evaporation.loss(
                    TemperaturePath.startingAt(75).hold(20 * MINUTE), 0.00567, 1, 22, 0.5, 0)));
    rows.add(
        row(
            "natural convection with Stefan flux at 75 °C -> 10 (9 to 11) kg/(m² h) [by hand]",
            10,
            0.1,
            () -> Evaporation.flux(75, 22, 0.5, 0) * HOUR));
    rows.add(
        row(
            "100 g that lose 10 g -> everything else times 1.111 [by hand]",
            1.1111,
            1e-4,
            () -> Evaporation.concentrationFactor(100, 10)));
    rows.add(
        row(
            "ethanol 20 % w/w = 24.54 % by volume -> 32.8 °C, not 36 [by hand]",
            32.82, 1e-2, () -> FlashPoint.ofEthanol(20)));
    rows.add(
        row(
            "urea 30 min at 75 °C -> 0.43 % lost [by hand]",
            0.0043, 1.2e-2, () -> 1 - Degradation.fractionLeft(UREA, 75, 30 * MINUTE)));
    rows.add(
        row(
            "urea 12 months at 25 °C -> 2.6 % lost [by hand]",
            0.026, 2e-2, () -> 1 - Degradation.fractionLeft(UREA, 25, 365 * DAY)));
    rows.add(
        row(
            "urea 3 months at 40 °C -> 9.0 % lost [by hand]",
            0.090, 2e-2, () -> 1 - Degradation.fractionLeft(UREA, 40, 91 * DAY)));
    rows.add(
        row(
            "urea overage for 12 months at 25 °C -> 2.7 % [by hand]",
            2.7, 2e-2, () -> Degradation.overagePercent(UREA, 25, 365 * DAY)));
    double[][] bromelain = {{50, 250}, {55, 39}, {60, 6.6}, {67, 0.6}};
    for (double[] pair : bromelain) {
      rows.add(
          row(
              "bromelain at " + pair[0] + " °C -> half-life " + pair[1] + " min [by hand]",
              pair[1],
              4e-2,
              () -> Degradation.halfLife(BROMELAIN, pair[0]) / MINUTE));
    }
    double[][] papain = {{60, 139}, {70, 52}, {80, 20}, {90, 8}};
    for (double[] pair : papain) {
      rows.add(
          row(
              "papain at " + pair[0] + " °C -> half-life " + pair[1] + " min [by hand]",
              pair[1],
              6.3e-2,
              () -> Degradation.halfLife(PAPAIN, pair[0]) / MINUTE));
    }
    rows.add(
        row(
            "anthocyanin pH 3, 20 min at 75 °C -> 2.9 % lost [by hand]",
            0.029, 3e-2, () -> 1 - Degradation.fractionLeft(ANTHOCYANIN_PH3, 75, 20 * MINUTE)));
    rows.add(
        row(
            "anthocyanin pH 6, 20 min at 75 °C -> 10.6 % lost [by hand]",
            0.106, 2e-2, () -> 1 - Degradation.fractionLeft(ANTHOCYANIN_PH6, 75, 20 * MINUTE)));
    rows.add(
        row(
            "catechin, k 1.06e-7 /s -> 0.9 % lost in a day [by hand]",
            0.0091,
            1e-2,
            () ->
                1 - Degradation.fractionLeft(new Degradation.Arrhenius(1.06e-7, 25, 0), 25, DAY)));
    rows.add(
        row(
            "catechin, k 1.06e-7 /s -> 56 % lost in 90 days [by hand]",
            0.56,
            1e-2,
            () ->
                1
                    - Degradation.fractionLeft(
                        new Degradation.Arrhenius(1.06e-7, 25, 0), 25, 90 * DAY)));
    double[][] speedUp = {
      {50, 40, 2.6},
      {80, 40, 4.7},
      {100, 40, 6.9},
      {137, 40, 14},
      {50, 75, 18},
      {80, 75, 103},
      {100, 75, 328},
      {137, 75, 2800}
    };
    for (double[] line : speedUp) {
      rows.add(
          row(
              "Ea " + line[0] + " kJ/mol, 25 to " + line[1] + " °C -> x" + line[2] + " [by hand]",
              line[2],
              2.5e-2,
              () -> new Degradation.Arrhenius(1, 25, line[0] * 1000).at(line[1])));
    }
    rows.add(
        row(
            "decimal reduction in 130.1 min -> 10 % left after it [by hand]",
            0.1, 1e-9, () -> Math.exp(-Degradation.rateFromDecimalReduction(130.1) * 130.1)));
    return rows.stream();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource({"published", "handCalculated"})
  void agrees(String name, double expected, double tolerance, DoubleSupplier actual) {
    check(expected, tolerance, actual);
  }

  @Test
  @DisplayName(
      "worked example of docs/models/degradation.md: bromelain 10 min at 60 °C -> 35 % left")
  void workedDegradation() {
    TemperaturePath path = TemperaturePath.startingAt(60).hold(10 * MINUTE);
    assertEquals(0.35, Degradation.fractionLeft(BROMELAIN, path), 0.01);
  }

  @Test
  @DisplayName("worked example of docs/models/temperature.md: 44.5 °C, then 40 °C after 8.0 min")
  void workedTemperature() {
    double start =
        HeatBalance.combined(
            new double[] {40, 55, 5},
            new double[] {WATER, WATER, GLYCERIN},
            new double[] {80, 20, 20});
    assertEquals(44.5, start, 0.05);
    assertEquals(8.0 * MINUTE, NewtonCooling.timeTo(40, start, 22, 35.9 * MINUTE), 0.1 * MINUTE);
  }

  @Test
  @DisplayName(
      "worked example of docs/models/evaporation.md: 85 mm beaker, 20 min at 75 °C -> 17.6 g")
  void workedEvaporation() {
    TemperaturePath path = TemperaturePath.startingAt(75).hold(20 * MINUTE);
    assertEquals(17.6e-3, Evaporation.loss(path, 0.00567, 1, 22, 0.5, 0), 0.1e-3);
  }

  @Test
  @DisplayName("worked example of docs/models/flash-point.md: ethanol 20 % w/w -> 32.8 °C")
  void workedFlashPoint() {
    assertEquals(24.54, FlashPoint.volumePercent(20), 0.005);
    assertEquals(32.82, FlashPoint.ofEthanol(20), 0.005);
  }

  @Test
  @DisplayName("integration over a ramp agrees with 10 s steps and with the closed form at rest")
  void twoRoutes() {
    TemperaturePath path =
        TemperaturePath.startingAt(22)
            .rampTo(75, 10 * MINUTE)
            .hold(20 * MINUTE)
            .coolTowards(22, 36 * MINUTE, 60 * MINUTE);
    double fine = 0;
    double step = 0.5;
    for (double t = step / 2; t < path.endSeconds(); t += step) {
      fine += ANTHOCYANIN_PH6.at(path.at(t)) * step;
    }
    assertEquals(fine, path.integrate(ANTHOCYANIN_PH6::at), 1e-5 * fine);
    TemperaturePath rest = TemperaturePath.startingAt(60).hold(500);
    assertEquals(
        Degradation.fractionLeft(BROMELAIN, 60, 500),
        Degradation.fractionLeft(BROMELAIN, rest),
        1e-12);
  }

  @Test
  @DisplayName("pieces of Newton cooling follow the exponential")
  void coolingPieces() {
    TemperaturePath path = TemperaturePath.startingAt(75).coolTowards(22, 2154, 7200);
    for (double t = 0; t <= 7200; t += 37) {
      assertEquals(NewtonCooling.temperature(75, 22, 2154, t), path.at(t), 0.02);
    }
  }

  @Test
  @DisplayName("a path knows its peak, its time above a limit, its jumps and its later part")
  void pathFacts() {
    TemperaturePath path =
        TemperaturePath.startingAt(20).rampTo(80, 600).hold(300).jumpTo(45).rampTo(25, 400);
    assertEquals(80, path.peakCelsius());
    assertEquals(25, path.endCelsius());
    assertEquals(1300, path.endSeconds());
    assertEquals(100 + 300, path.secondsAbove(70), 1e-9);
    assertEquals(50, path.at(300), 1e-9);
    assertEquals(45, path.at(900), 1e-9);
    assertEquals(45, path.from(900).peakCelsius(), 1e-9);
    assertEquals(25, path.from(5000).peakCelsius(), 1e-9);
    assertEquals(300, path.from(600).secondsAbove(70), 1e-9);
    assertEquals(
        path.integrate(ANTHOCYANIN_PH3::at) - path.from(700).integrate(ANTHOCYANIN_PH3::at),
        TemperaturePath.startingAt(20).rampTo(80, 600).hold(100).integrate(ANTHOCYANIN_PH3::at),
        1e-12);
  }

  @Test
  @DisplayName("random histories: fractions within 0 to 1, more heat never keeps more, no NaN")
  void properties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      TemperaturePath path = TemperaturePath.startingAt(uniform(random, 0, 60));
      for (int j = random.nextInt(5); j >= 0; j--) {
        path = path.rampTo(uniform(random, 0, 95), logUniform(random, 1, 1e5));
      }
      Degradation.Rate rate =
          random.nextBoolean()
              ? new Degradation.Arrhenius(
                  logUniform(random, 1e-12, 1e-2), 25, uniform(random, 0, 400_000))
              : new Degradation.Eyring(uniform(random, 0, 300_000), uniform(random, -300, 300));
      double left = Degradation.fractionLeft(rate, path);
      assertTrue(left >= 0 && left <= 1, () -> "left " + left);
      TemperaturePath longer = path.hold(600).rampTo(80, 60);
      atMost(Degradation.fractionLeft(rate, longer), left, "more heat keeps more");
      double mass = Degradation.molarMassAfterScission(1000, 0.4, rate, path);
      assertTrue(mass >= 0 && mass <= 1000);
      double lost =
          Evaporation.loss(path, 0.005, 1, uniform(random, 0, 40), random.nextDouble(), 0);
      assertTrue(lost >= 0 && Double.isFinite(lost));
      double weight = uniform(random, -5, 105);
      atMost(FlashPoint.ofEthanol(weight), FlashPoint.table(weight), "lower of both readings");
      atMost(FlashPoint.ofEthanol(weight + 1), FlashPoint.ofEthanol(weight), "more ethanol");
      assertTrue(FlashPoint.volumePercent(weight) >= Math.min(100, Math.max(0, weight)) - 1e-9);
    }
  }

  @Test
  @DisplayName(
      "combined temperature lies between the coldest and hottest, whatever the unit of mass")
  void balanceProperties() {
    Random random = FlowRows.random();
    for (int i = 0; i < FlowRows.TRIALS; i++) {
      double[] masses = {random.nextDouble(), random.nextDouble() + 1e-3};
      double[] grams = {masses[0] * 1000, masses[1] * 1000};
      double[] capacities = {uniform(random, 0.5, 4.2), uniform(random, 0.5, 4.2)};
      double[] celsius = {uniform(random, 0, 100), uniform(random, 0, 100)};
      double t = HeatBalance.combined(masses, capacities, celsius);
      atMost(Math.min(celsius[0], celsius[1]) - 1e-9, t, "coldest");
      atMost(t, Math.max(celsius[0], celsius[1]) + 1e-9, "hottest");
      assertEquals(t, HeatBalance.combined(grams, capacities, celsius), 1e-9);
    }
  }

  @Test
  @DisplayName("a surface hotter than 80 °C counts as 80 °C, damp cold air never adds water")
  void evaporationEdges() {
    assertEquals(Evaporation.flux(80, 22, 0.5, 0), Evaporation.flux(95, 22, 0.5, 0));
    assertEquals(0, Evaporation.flux(10, 35, 0.9, 0));
    assertEquals(0, Evaporation.Cover.CLOSED.factor());
    assertTrue(Evaporation.freeboardFactor(1) > 0.3 && Evaporation.freeboardFactor(1) < 0.6);
  }

  @Test
  @DisplayName("a room temperature is never reached, a passed one at once; nonsense is refused")
  void coolingEdges() {
    assertEquals(Double.POSITIVE_INFINITY, NewtonCooling.timeTo(20, 75, 22, 100));
    assertEquals(0, NewtonCooling.timeTo(80, 75, 22, 100));
    assertEquals(0, NewtonCooling.timeTo(22, 22, 22, 100));
    assertThrows(
        IllegalArgumentException.class, () -> NewtonCooling.timeConstantFrom(75, 22, 80, 100));
    assertThrows(
        IllegalArgumentException.class,
        () -> TemperaturePath.through(new double[] {1, 0}, new double[] {20, 20}));
    assertThrows(
        IllegalArgumentException.class,
        () -> HeatBalance.combined(new double[] {0}, new double[] {4}, new double[] {20}));
  }
}
