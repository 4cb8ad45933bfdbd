package gelwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.prediction.Curve;
import gelwright.prediction.Curve.Axis;
import gelwright.prediction.Curve.Kind;
import gelwright.prediction.Curve.Mark;
import gelwright.prediction.Curve.Point;
import gelwright.prediction.Curve.Series;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.science.AcidBase;
import gelwright.science.AcidEquivalent;
import gelwright.science.Degradation;
import gelwright.science.Density;
import gelwright.science.Dispensing;
import gelwright.science.Dispersion;
import gelwright.science.EthanolViscosity;
import gelwright.science.Evaporation;
import gelwright.science.FlashPoint;
import gelwright.science.FlowCurve;
import gelwright.science.FlowFit;
import gelwright.science.FlowLaw;
import gelwright.science.FlowModifiers;
import gelwright.science.GlycerolViscosity;
import gelwright.science.HeatBalance;
import gelwright.science.Hydration;
import gelwright.science.InhibitoryLevels;
import gelwright.science.OilCapacity;
import gelwright.science.Partition;
import gelwright.science.Solubility;
import gelwright.science.SpindleReading;
import gelwright.science.Stirring;
import gelwright.science.Suspension;
import gelwright.science.TemperaturePath;
import gelwright.science.Undissociated;
import gelwright.science.WaterActivity;
import gelwright.science.Weighing;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The plots of the model pages, drawn from the models themselves and held to the files in {@code
 * docs/models/plots}. {@code -Dgolden.update=true} draws them anew; the figures that feed them are
 * those of the pages' worked examples, or examples of their kind.
 */
@DisplayName("plots of the model pages")
final class ModelPlotsTest {
  private static final Path MODELS = Path.of("..", "docs", "models");
  private static final Path PLOTS = MODELS.resolve("plots");
  private static final boolean UPDATE = Boolean.getBoolean("golden.update");

  private static final Axis PH = Axis.linear("pH", "");
  private static final Axis RATE = Axis.logarithmic("shear rate", "/s");
  private static final Axis VISCOSITY = Axis.logarithmic("viscosity", "Pa·s");
  private static final Axis MINUTES = Axis.linear("time", "min");

  // The gel of the flow-law page: t 8, b 1.9, k 6, a 1.4, n 0.33.
  private static final FlowLaw GUM =
      new FlowLaw.HerschelBulkley(8, 1.9, 6, 1.4, 0.33, new FlowLaw.Range(0.2, 2));

  private static Series line(String name, double[] xs, DoubleUnaryOperator model) {
    List<Point> points = new ArrayList<>();
    for (double x : xs) {
      double y = model.applyAsDouble(x);
      if (Double.isFinite(y)) {
        points.add(Point.exact(x, y));
      }
    }
    return new Series(name, Kind.LIKELY, points);
  }

  private static double[] even(double from, double to, int steps) {
    double[] xs = new double[steps + 1];
    for (int i = 0; i <= steps; i++) {
      xs[i] = (from * (steps - i) + to * i) / steps;
    }
    return xs;
  }

  private static double[] powers(int from, int to) {
    int within = 6;
    double[] xs = new double[(to - from) * within + 1];
    for (int i = 0; i < xs.length; i++) {
      xs[i] = Math.pow(10, from + (double) i / within);
    }
    return xs;
  }

  private static Curve curve(String title, Axis x, Axis y, List<Mark> marks, Series... series) {
    return new Curve("model", title, x, y, Arrays.asList(series), marks, Set.of());
  }

  private static Curve curve(String title, Axis x, Axis y, Series... series) {
    return curve(title, x, y, List.of(), series);
  }

  static Stream<Arguments> plots() {
    return Stream.of(
        plot("acid-base", titration()),
        plot("acid-equivalent", asAcid()),
        plot("degradation", degradation()),
        plot("density", density()),
        plot("dispensing", dispensing()),
        plot("dispersion", dispersion()),
        plot("estimates", estimates()),
        plot("ethanol-viscosity", ethanol()),
        plot("evaporation", evaporation()),
        plot("flash-point", flashPoint()),
        plot("flow-fit", flowFit()),
        plot("flow-law", flowLaw()),
        plot("flow-modifiers", flowModifiers()),
        plot("glycerol-viscosity", glycerol()),
        plot("hydration", hydration()),
        plot("inhibitory-levels", inhibitoryLevels()),
        plot("oil-capacity", oilCapacity()),
        plot("partition", partition()),
        plot("solubility", solubility()),
        plot("spindle-reading", spindle()),
        plot("stirring", stirring()),
        plot("suspension", suspension()),
        plot("temperature", temperature()),
        plot("undissociated", undissociated()),
        plot("water-activity", waterActivity()),
        plot("weighing", weighing()));
  }

  private static Arguments plot(String page, Curve curve) {
    return Arguments.of(page, curve);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("plots")
  void isAsKept(String page, Curve curve) throws IOException {
    String svg = Chart.of(curve, "").svg(page);
    Path kept = PLOTS.resolve(page + ".svg");
    if (UPDATE) {
      Files.createDirectories(PLOTS);
      Files.writeString(kept, svg);
    }
    assertTrue(Files.exists(kept), "no kept plot " + kept);
    assertEquals(Files.readString(kept), svg);
    assertTrue(
        Files.readString(MODELS.resolve(page + ".md")).contains("](plots/" + page + ".svg)"),
        page + ".md does not show its plot");
  }

  @Test
  @DisplayName("every page of a model has one")
  void everyPage() throws IOException {
    try (Stream<Path> pages = Files.list(MODELS)) {
      assertEquals(
          pages
              .map(path -> path.getFileName().toString())
              .filter(name -> name.endsWith(".md"))
              .map(name -> name.substring(0, name.length() - 3))
              // The page that lists what the models are checked against is no model.
              .filter(name -> !name.equals("checks"))
              .sorted()
              .toList(),
          plots().map(plot -> (String) plot.get()[0]).sorted().toList());
    }
  }

  private static Curve titration() {
    double[] bases = even(0, 0.2, 100);
    AcidBase.Species citric = AcidBase.Weak.acid(0.05, 3.128, 4.761, 6.396);
    AcidBase.Species acetic = AcidBase.Weak.acid(0.1, 4.756);
    return curve(
        "pH of an acid as sodium hydroxide is added, 25 °C",
        Axis.linear("sodium hydroxide", "mol/kg"),
        PH,
        line("acetic acid, 0.1 mol/kg", bases, base -> pH(acetic, base)),
        line("citric acid, 0.05 mol/kg", bases, base -> pH(citric, base)));
  }

  private static double pH(AcidBase.Species acid, double base) {
    List<AcidBase.Species> all = new ArrayList<>(List.of(acid));
    if (base > 0) {
      all.add(new AcidBase.StrongIon(base, 1));
    }
    return AcidBase.solve(AcidBase.Mixture.of(all), AcidBase.Options.STANDARD).pH();
  }

  private static Curve asAcid() {
    double[] shares = even(0, 1, 20);
    // Molar masses in g/mol of benzoic and sorbic acid and of their salts, as on the page.
    return curve(
        "Share as acid of a preservative's salt",
        Axis.linear("share of the salt", "%"),
        Axis.linear("share as acid", "%"),
        line("sodium benzoate", shares, x -> x * AcidEquivalent.factor(122.12, 144.11, 1)),
        line("potassium sorbate", shares, x -> x * AcidEquivalent.factor(112.13, 150.22, 1)));
  }

  private static Curve degradation() {
    // Bromelain of the page: 1.37·10^50 1/min, 326 kJ/mol.
    Degradation.Rate bromelain = Degradation.Arrhenius.fromPrefactor(1.37e50 / 60, 326_000);
    double[] minutes = even(0, 60, 60);
    return curve(
        "Bromelain left after heating",
        MINUTES,
        Axis.linear("part left", "%"),
        line("at 50 °C", minutes, x -> 100 * Degradation.fractionLeft(bromelain, 50, 60 * x)),
        line("at 55 °C", minutes, x -> 100 * Degradation.fractionLeft(bromelain, 55, 60 * x)),
        line("at 60 °C", minutes, x -> 100 * Degradation.fractionLeft(bromelain, 60, 60 * x)));
  }

  private static Curve density() {
    double[] shares = even(0, 1, 50);
    return curve(
        "Density of ethanol and of glycerol in water, 20 °C",
        Axis.linear("share", "%"),
        Axis.linear("density", "g/mL"),
        percent(line("ethanol", shares, Density::ethanolWater)),
        percent(line("glycerol", shares, Density::glycerolWater)));
  }

  private static Series percent(Series series) {
    return new Series(
        series.name(),
        series.kind(),
        series.points().stream()
            .map(point -> Point.exact(100 * point.x(), point.likely()))
            .toList());
  }

  private static Curve dispensing() {
    return curve(
        "Thickest film that stays on an upright surface, 1000 kg/m³",
        Axis.logarithmic("yield stress", "Pa"),
        Axis.logarithmic("thickness", "mm"),
        line("film", powers(-1, 2), x -> 1000 * Dispensing.clingThickness(x, 1000)));
  }

  private static Curve dispersion() {
    double[] ratios = powers(-3, 0);
    return curve(
        "Critical capillary number in simple shear",
        Axis.logarithmic("viscosity of the drop over that of the gel", ""),
        Axis.logarithmic("critical capillary number", ""),
        List.of(Mark.alongX("worked example", 0.05, 0.05)),
        line(
            "simple shear",
            Stream.of(ratios, even(1, 3.8, 28))
                .flatMapToDouble(Arrays::stream)
                .sorted()
                .distinct()
                .toArray(),
            Dispersion::criticalCapillaryNumber));
  }

  private static Curve estimates() {
    Estimate limit = Estimate.exact(10);
    double[] likely = even(4, 16, 120);
    return curve(
        "Odds that a number is at most 10, by how well it is known",
        Axis.linear("likely value", ""),
        Axis.linear("odds", "%"),
        List.of(
            Mark.alongY("holds", 95, 100),
            Mark.alongY("breaks", 0, 5),
            Mark.alongX("limit", 10, 10)),
        line("known to ± 1", likely, x -> odds(Estimate.within(x, 1, doubt()), limit)),
        line("known to ± 3", likely, x -> odds(Estimate.within(x, 3, doubt()), limit)),
        line(
            "known to a factor of 2",
            likely,
            x -> odds(Estimate.withinFactor(x, 2, doubt()), limit)));
  }

  private static Doubt doubt() {
    return new Doubt("a doubt", "");
  }

  private static double odds(Estimate number, Estimate limit) {
    return 100 * number.oddsAtMost(limit);
  }

  private static Curve evaporation() {
    double[] celsius = even(25, 80, 55);
    return curve(
        "Water lost from an open vessel, room 22 °C and 50 %",
        Axis.linear("temperature of the water", "°C"),
        Axis.linear("loss", "kg/(m²·h)"),
        line("still air", celsius, x -> 3600 * Evaporation.flux(x, 22, 0.5, 0)),
        line("air at 0.5 m/s", celsius, x -> 3600 * Evaporation.flux(x, 22, 0.5, 0.5)));
  }

  private static Curve flashPoint() {
    return curve(
        "Closed-cup flash point of ethanol and water",
        Axis.linear("ethanol", "%"),
        Axis.linear("flash point", "°C"),
        line("ethanol and water", even(5, 100, 95), FlashPoint::ofEthanol));
  }

  private static Curve flowFit() {
    // Made up: a yield stress of 8 Pa and 4·rate^0.4 with a scatter of a few percent.
    double[] rates = {0.1, 0.3, 1, 3, 10, 30, 100};
    double[] scatter = {1.03, 0.98, 1.01, 0.97, 1.02, 1.0, 0.99};
    List<FlowFit.Point> readings = new ArrayList<>();
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < rates.length; i++) {
      double stress = (8 + 4 * Math.pow(rates[i], 0.4)) * scatter[i];
      readings.add(new FlowFit.Point(rates[i], stress));
      points.add(Point.exact(rates[i], stress));
    }
    List<Series> series = new ArrayList<>();
    for (FlowFit.Fit fit : FlowFit.all(readings, FlowLaw.WATER_VISCOSITY)) {
      if (series.size() < 3) {
        series.add(
            line(
                fit.form()
                    .name()
                    .toLowerCase(java.util.Locale.ROOT)
                    .replace("herschel_bulkley", "Herschel–Bulkley")
                    .replace('_', ' '),
                powers(-2, 3),
                x -> fit.curve().viscosity(x) * x));
      }
    }
    series.add(new Series("readings (made up)", Kind.MEASURED, points));
    return curve(
        "The best fits to seven readings",
        RATE,
        Axis.logarithmic("shear stress", "Pa"),
        series.toArray(Series[]::new));
  }

  private static Curve flowLaw() {
    double[] rates = powers(-3, 6);
    FlowLaw cross = new FlowLaw.Cross(10, 3.5, 0.3, 2, 0.75, new FlowLaw.Range(0.2, 2));
    return curve(
        "Flow of gums with laws like those of the page",
        RATE,
        VISCOSITY,
        line("yielding gum, 0.5 %", rates, x -> gel(0.5).viscosity(x)),
        line("yielding gum, 1 %", rates, x -> gel(1).viscosity(x)),
        line(
            "cellulose ether like, 1 %",
            rates, x -> cross.at(1, FlowLaw.WATER_VISCOSITY).viscosity(x)));
  }

  private static FlowCurve gel(double concentration) {
    return GUM.at(concentration, FlowLaw.WATER_VISCOSITY);
  }

  private static Curve flowModifiers() {
    double[] salt = even(0, 0.1, 50);
    return curve(
        "What salt leaves of a gel's thickness",
        Axis.linear("ionic strength", "mol/kg"),
        Axis.linear("part left", ""),
        line("carbomer, 0.25 %", salt, x -> FlowModifiers.carbomerSaltFactor(0.25, x)),
        line("carbomer, 1 %", salt, x -> FlowModifiers.carbomerSaltFactor(1, x)),
        line("xanthan gum, 0.15 %", salt, x -> FlowModifiers.xanthanSaltFactor(0.15, x)));
  }

  private static Curve ethanol() {
    double[] shares = even(0, 1, 50);
    return curve(
        "Viscosity of ethanol in water",
        Axis.linear("ethanol, by weight", "%"),
        Axis.linear("viscosity", "mPa·s"),
        percent(line("at 10 °C", shares, x -> EthanolViscosity.milliPascalSeconds(x, 10))),
        percent(line("at 25 °C", shares, x -> EthanolViscosity.milliPascalSeconds(x, 25))),
        percent(line("at 40 °C", shares, x -> EthanolViscosity.milliPascalSeconds(x, 40))));
  }

  private static Curve glycerol() {
    double[] shares = even(0, 1, 50);
    return curve(
        "Viscosity of glycerol in water",
        Axis.linear("glycerol", "%"),
        Axis.logarithmic("viscosity", "mPa·s"),
        percent(line("at 5 °C", shares, x -> GlycerolViscosity.milliPascalSeconds(x, 5))),
        percent(line("at 25 °C", shares, x -> GlycerolViscosity.milliPascalSeconds(x, 25))),
        percent(line("at 45 °C", shares, x -> GlycerolViscosity.milliPascalSeconds(x, 45))));
  }

  private static Curve hydration() {
    Hydration gum = Hydration.cold(0.055 / 60, 38_000);
    double[] minutes = even(0, 120, 60);
    return curve(
        "Hydration of the gum of the worked example",
        MINUTES,
        Axis.linear("hydrated", "%"),
        List.of(Mark.alongX("worked example: 35 min", 35, 35)),
        line("at 22 °C", minutes, x -> 100 * gum.after(22, 60 * x)),
        line("at 38 °C", minutes, x -> 100 * gum.after(38, 60 * x)),
        line("at 60 °C", minutes, x -> 100 * gum.after(60, 60 * x)));
  }

  private static Curve inhibitoryLevels() {
    double[] acidities = even(3, 7, 80);
    return curve(
        "Total acid that gives 200 parts of undissociated acid",
        PH,
        Axis.logarithmic("total acid", "mg/kg"),
        line("pKa 4.20", acidities, x -> InhibitoryLevels.toTotal(200, x, 4.2)),
        line("pKa 4.76", acidities, x -> InhibitoryLevels.toTotal(200, x, 4.76)));
  }

  private static Curve oilCapacity() {
    double[] ratios = Arrays.stream(even(-0.5, 0.5, 100)).map(x -> Math.pow(10, x)).toArray();
    return curve(
        "Share of the oil that a gel holds still",
        Axis.logarithmic("yield stress over what the largest drop needs", ""),
        Axis.linear("held", "%"),
        line("oil", ratios, x -> OilCapacity.holdingShare(x, 1)));
  }

  private static Curve partition() {
    double[] oils = even(0, 0.5, 50);
    return curve(
        "Benzoic acid (0.42 %) left undissociated in the water, beside oil",
        Axis.linear("volume of oil over that of water", ""),
        Axis.linear("undissociated in the water", "%"),
        line("pH 4, K 5", oils, x -> water(x, 5, 4)),
        line("pH 5, K 5", oils, x -> water(x, 5, 5)),
        line("pH 5, K 1", oils, x -> water(x, 1, 5)));
  }

  private static double water(double oil, double coefficient, double pH) {
    return Partition.share(0.42, oil, coefficient, Partition.ionisedRatio(pH, 4.204), 0)
        .undissociatedInWater();
  }

  private static Curve solubility() {
    double[] acidities = even(2, 6, 80);
    return curve(
        "Benzoic acid that water dissolves",
        PH,
        Axis.logarithmic("dissolved, as acid", "g/L"),
        List.of(Mark.alongY("0.50 % of sodium benzoate", 4.24, 4.24)),
        line("25 °C, 3.4 g/L of acid", acidities, x -> Solubility.total(3.4, x, 4.204)),
        line("5 °C, 1.7 g/L of acid", acidities, x -> Solubility.total(1.7, x, 4.204)));
  }

  private static Curve spindle() {
    double[] speeds = powers(0, 2);
    FlowCurve gel = new FlowCurve.Plastic(0, 10, 0.5, FlowLaw.WATER_VISCOSITY);
    FlowCurve thin = new FlowCurve.Plastic(0, 10, 0.3, FlowLaw.WATER_VISCOSITY);
    return curve(
        "What spindle 4 shows of a gel of consistency 10 Pa·sⁿ",
        Axis.logarithmic("speed", "1/min"),
        Axis.logarithmic("viscosity shown", "Pa·s"),
        line("flow index 0.5", speeds, x -> SpindleReading.displayed(gel, 4, x)),
        line("flow index 0.3", speeds, x -> SpindleReading.displayed(thin, 4, x)));
  }

  private static Curve stirring() {
    double[] numbers = powers(0, 5);
    return curve(
        "Power number of stirrers",
        Axis.logarithmic("Reynolds number", ""),
        Axis.logarithmic("power number", ""),
        line("paddle", numbers, x -> Stirring.powerNumber(Stirring.Impeller.PADDLE, x)),
        line("propeller", numbers, x -> Stirring.powerNumber(Stirring.Impeller.PROPELLER, x)),
        line("anchor", numbers, x -> Stirring.powerNumber(Stirring.Impeller.ANCHOR, x)));
  }

  private static Curve suspension() {
    double[] sizes = powers(0, 3);
    return curve(
        "Yield stress that holds a grain still, on the safe side",
        Axis.logarithmic("diameter", "µm"),
        Axis.logarithmic("yield stress needed", "Pa"),
        List.of(Mark.alongX("worked example: 300 µm", 300, 300)),
        line("pumice, 1350 kg/m³ heavier", sizes, x -> held(1350, x)),
        line("an oil, 90 kg/m³ lighter", sizes, x -> held(-90, x)));
  }

  private static double held(double difference, double micrometres) {
    return Suspension.yieldNeeded(Suspension.EXPERIMENT, difference, micrometres * 1e-6);
  }

  private static Curve temperature() {
    // The worked example: phases combined, then 35.9 min of time constant in a room of 22 °C.
    double combined =
        HeatBalance.combined(
            new double[] {40, 55, 5}, new double[] {4.18, 4.18, 2.42}, new double[] {80, 20, 20});
    TemperaturePath path =
        TemperaturePath.startingAt(80).hold(600).jumpTo(combined).coolTowards(22, 35.9 * 60, 5400);
    return curve(
        "40 g at 80 °C held 10 min, combined with 60 g at 20 °C, left in a room of 22 °C",
        MINUTES,
        Axis.linear("temperature", "°C"),
        List.of(Mark.alongY("room", 22, 22)),
        line(
            "batch",
            Stream.of(even(0, 9.999, 10), even(10, 100, 90))
                .flatMapToDouble(Arrays::stream)
                .toArray(),
            x -> path.at(60 * x)));
  }

  private static Curve undissociated() {
    double[] acidities = even(2, 8, 120);
    return curve(
        "Undissociated part of two acids",
        PH,
        Axis.linear("undissociated", "%"),
        line("benzoic acid", acidities, x -> 100 * Undissociated.fraction(x, 4.204)),
        line(
            "benzoic acid, 0.1 mol/kg of salt",
            acidities,
            x -> 100 * Undissociated.fraction(x, 4.204, 0.1)),
        line("sorbic acid", acidities, x -> 100 * Undissociated.fraction(x, 4.76)));
  }

  private static Curve waterActivity() {
    // Glycerol 92.09 g/mol; Norrish constants of glycerol and, for comparison, none (Raoult).
    double[] shares = even(0, 70, 70);
    return curve(
        "Water activity of a polyol in water, 25 °C",
        Axis.linear("share of the polyol", "%"),
        Axis.linear("water activity", ""),
        line("92 g/mol, K 1.16 (glycerol)", shares, x -> activity(x, 92.09, 1.16)),
        line("92 g/mol, by Raoult", shares, x -> activity(x, 92.09, 0)),
        line("182 g/mol, K 1.65 (sorbitol)", shares, x -> activity(x, 182.17, 1.65)));
  }

  private static double activity(double percent, double molarMass, double constant) {
    return WaterActivity.norrish(
        WaterActivity.moleFraction(percent, 100 - percent, molarMass), constant);
  }

  private static Curve weighing() {
    double[] masses = powers(-2, 2);
    return curve(
        "What a mass may be off by, from the balance's readability alone",
        Axis.logarithmic("mass", "g"),
        Axis.logarithmic("relative error", "%"),
        List.of(Mark.alongY("tolerance", 1, 1)),
        line("0.1 g", masses, x -> 100 * Weighing.relativeError(x, 0, 0.1)),
        line("0.01 g", masses, x -> 100 * Weighing.relativeError(x, 0, 0.01)),
        line("0.001 g", masses, x -> 100 * Weighing.relativeError(x, 0, 0.001)));
  }
}
