package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.SpecificationVersion;
import gelwright.charts.Chart;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import gelwright.prediction.DoubtShare;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;

@DisplayName("predictions")
final class PredictionsTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final Predictor PREDICTOR = Predictor.using(KNOWLEDGE);

  static Stream<Arguments> examples() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      return files.filter(path -> path.toString().endsWith(".yaml")).sorted().toList().stream()
          .map(path -> Arguments.of(path.getFileName().toString(), read(path)));
    }
  }

  private static Formula read(Path path) {
    try {
      return new FormulaReader().read(Files.readAllBytes(path), path.toString()).orThrow();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Prediction predict(String sheet) {
    Formula formula =
        new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), "sheet.yaml").orThrow();
    return PREDICTOR.predict(formula, DAY);
  }

  private static final String GEL =
      """
      formula: After-glove hand gel
      product: { pH: 4.5 to 5.5, texture: soft-gel, dispensing: tube }
      equipment: { room: { temperature: 22 °C } }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 5 % }
        - { phase: A, name: Sclerotium Gum, share: 1 % }
        - { phase: B, name: Sodium Benzoate, share: 0.5 % }
      """;

  private static final String METHOD =
      """
      method:
        - { do: heat, phase: A, to: 60 °C, over: 10 min }
        - { do: hydrate, phase: A, at: 60 °C, for: 20 min }
        - { do: cool, phase: A, to: 30 °C, over: 30 min }
        - { do: add, phase: B, into: A, for: 5 min }
      """;

  private static final String PH_READING = "measured: [{ what: pH, value: 5, at: 25 °C }]\n";

  @ParameterizedTest(name = "{0} -> the numbers, origins and sources of its review")
  @MethodSource("examples")
  void agreesWithTheReview(String name, Formula formula) {
    Review review = Reviewer.using(KNOWLEDGE).review(formula, DAY);
    Prediction prediction = PREDICTOR.predict(formula, DAY);
    assertEquals(review.editions(), prediction.editions());
    List<Predicted> whole =
        prediction.properties().stream().filter(each -> each.subject().isFormula()).toList();
    assertEquals(
        List.copyOf(review.properties().keySet()), whole.stream().map(Predicted::name).toList());
    for (Predicted each : whole) {
      Review.PropertyValue value = review.properties().get(each.name());
      assertEquals(value.shown(), each.shown());
      assertEquals(value.origin(), each.origin());
      assertEquals(value.sources(), each.sources().stream().map(source -> source.id()).toList());
    }
  }

  @ParameterizedTest(name = "{0} -> doubts in order, which explain no more than all of the spread")
  @MethodSource("examples")
  void doubts(String name, Formula formula) {
    for (Predicted each : PREDICTOR.predict(formula, DAY).properties()) {
      Shown shown = each.shown();
      if (!shown.isKnown() || shown.low() == shown.high()) {
        assertTrue(each.doubts().isEmpty() || shown.isKnown(), each.name());
        continue;
      }
      assertFalse(each.doubts().isEmpty(), each.name() + " has a range and no doubt");
      double sum = 0;
      double before = 1;
      for (DoubtShare doubt : each.doubts()) {
        sum += doubt.share();
        assertTrue(doubt.share() <= before, each.name());
        before = doubt.share();
        double least = Math.min(doubt.atLow(), doubt.atHigh());
        double most = Math.max(doubt.atLow(), doubt.atHigh());
        assertTrue(least <= shown.likely() && shown.likely() <= most, each.name());
        double rounding = 1e-9 * (Math.abs(shown.low()) + Math.abs(shown.high()));
        assertTrue(
            shown.low() <= least + rounding && most <= shown.high() + rounding,
            each.name() + " " + doubt);
      }
      assertTrue(sum <= 1 + 1e-9, each.name() + " " + sum);
    }
  }

  @ParameterizedTest(name = "{0} -> JSON as its schema says, the same bytes twice, no NaN")
  @MethodSource("examples")
  void json(String name, Formula formula) {
    SchemaCheck schema =
        SchemaCheck.of(
            "/gelwright/schemas/prediction.schema.json", SpecificationVersion.DRAFT_2020_12);
    Prediction prediction = PREDICTOR.predict(formula, DAY);
    String text = PredictionReport.indented().text(prediction);
    assertEquals(List.of(), schema.errors(text));
    assertFalse(text.contains("NaN") || text.contains("Infinity"));
    assertEquals(text, PredictionReport.indented().text(PREDICTOR.predict(formula, DAY)));
    assertFalse(schema.errors(text.replaceFirst("\"series\"", "\"sries\"")).isEmpty());
    assertFalse(schema.errors(text.replaceFirst("\"doubts\"", "\"doupts\"")).isEmpty());
  }

  @ParameterizedTest(name = "{0} -> four pictures, each with the formula in its title")
  @MethodSource("examples")
  void pictures(String name, Formula formula) throws Exception {
    Prediction prediction = PREDICTOR.predict(formula, DAY);
    assertEquals(
        List.of("flow", "preservatives", "temperature", "water-activity"),
        prediction.curves().stream().map(Curve::name).toList());
    for (Curve curve : prediction.curves()) {
      String svg = Chart.of(curve, prediction.formula()).svg(curve.name());
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      Element root =
          factory
              .newDocumentBuilder()
              .parse(new InputSource(new StringReader(svg)))
              .getDocumentElement();
      String title = root.getElementsByTagName("title").item(0).getTextContent();
      assertTrue(title.endsWith(formula.name()), title);
      assertEquals(0, root.getElementsByTagName("style").getLength());
      assertEquals(0, root.getElementsByTagName("script").getLength());
    }
  }

  @ParameterizedTest(name = "flow curve at {0} /s -> {1}")
  @CsvSource({
    "0.01,   gel.viscosity-at-rest",
    "0.1,    gel.viscosity-levelling",
    "10,     gel.viscosity-pouring",
    "1000,   gel.viscosity-rubbing",
    "100000, gel.viscosity-spraying"
  })
  void flowAgrees(double rate, String property) {
    Prediction prediction = predict(GEL + METHOD);
    assertAgrees(
        prediction.property(property).orElseThrow().shown(),
        at(curve(prediction, "flow").series().get(0), rate));
  }

  @Test
  @DisplayName("a reading of the viscosity -> the curve goes through it")
  void reading() {
    Prediction prediction =
        predict(
            GEL
                + METHOD
                + "measured: [{ what: viscosity, value: 3.3 Pa·s, shear-rate: 10 /s, at: 25 °C }]\n");
    assertEquals(3.3, prediction.property("gel.viscosity-pouring").orElseThrow().shown().likely());
    Curve flow = curve(prediction, "flow");
    assertEquals(
        List.of(Curve.Kind.LIKELY, Curve.Kind.MEASURED),
        flow.series().stream().map(Curve.Series::kind).toList());
    assertEquals(List.of(Curve.Point.exact(10, 3.3)), flow.series().get(1).points());
    assertEquals(3.3, at(flow.series().get(0), 10).likely(), 1e-9);
  }

  @Test
  @DisplayName("undissociated part at the pH of the recipe -> that of the property")
  void undissociatedAgrees() {
    Prediction prediction = predict(GEL + METHOD + PH_READING);
    Curve curve = curve(prediction, "preservatives");
    Predicted property =
        prediction.property("preservative.undissociated", "Sodium Benzoate").orElseThrow();
    // The property's range holds the doubt in the pH, too; the curve is at exactly that pH.
    assertEquals(property.shown().likely(), at(curve.series().get(0), 5).likely(), 1e-9);
  }

  @ParameterizedTest(name = "sodium benzoate at pH {0} -> {1} % undissociated [{2}]")
  @CsvSource({"5, 13.8, Steinberg 2005", "4, 61.5, 1/(1 + 10^(4 − 4.204))"})
  void undissociated(double pH, double percent, String source) {
    Curve curve = curve(predict(GEL), "preservatives");
    assertEquals(percent, at(curve.series().get(0), pH).likely(), 0.5);
  }

  @Test
  @DisplayName("temperature curve -> the procedure, to its highest temperature")
  void temperature() {
    Prediction prediction = predict(GEL + METHOD);
    Curve curve = curve(prediction, "temperature");
    Curve.Series main = curve.series().get(0);
    assertEquals("phase A", main.name());
    assertEquals(22, at(main, 0).likely());
    assertEquals(60, at(main, 10).likely());
    assertEquals(60, at(main, 30).likely());
    assertEquals(30, at(main, 60).likely());
    assertEquals(65, main.points().get(main.points().size() - 1).x());
    assertEquals(
        prediction.property("process.peak-temperature").orElseThrow().shown().likely(),
        main.points().stream().mapToDouble(Curve.Point::likely).max().orElseThrow());
    Curve.Series other = curve.series().get(1);
    assertEquals("phase B", other.name());
    assertEquals(60, other.points().get(other.points().size() - 1).x());
  }

  @Test
  @DisplayName(
      "water activity at the recipe's own share -> that of the property, falling with more")
  void waterActivity() {
    Prediction prediction = predict(GEL + METHOD);
    Curve.Series series = curve(prediction, "water-activity").series().get(0);
    assertAgrees(
        prediction.property("water-phase.water-activity").orElseThrow().shown(), at(series, 5));
    for (int i = 1; i < series.points().size(); i++) {
      assertTrue(series.points().get(i).likely() < series.points().get(i - 1).likely());
    }
  }

  @ParameterizedTest(name = "{0} without {1} -> not known, and it says so")
  @CsvSource({
    "temperature,    the procedure (method)",
    "water-activity, 'a polyol in the recipe, with its share'",
    "preservatives,  a preservative or an active that is a weak acid or base"
  })
  void unknown(String name, String missing) {
    Curve curve =
        curve(
            predict("formula: Water\ningredients: [{ phase: A, name: Aqua, share: rest }]\n"),
            name);
    assertFalse(curve.isKnown());
    assertEquals(List.of(), curve.series());
    assertTrue(curve.missing().contains(missing), curve.missing().toString());
  }

  @Test
  @DisplayName("a gum without a flow law -> a bound only, no likely curve, and what is missing")
  void boundOnly() {
    Curve flow =
        curve(predict(GEL + "  - { phase: A, name: Nobody Knows Gum, share: 1 % }\n"), "flow");
    assertTrue(flow.missing().stream().anyMatch(each -> each.contains("Nobody Knows Gum")));
    for (Curve.Series series : flow.series()) {
      assertEquals(Curve.Kind.AT_LEAST, series.kind());
    }
  }

  @Test
  @DisplayName("a step without a time, a step without a temperature -> both are missing")
  void stepWithout() {
    Curve curve =
        curve(
            predict(
                GEL
                    + "method:\n  - { do: heat, phase: A, to: 60 °C }\n"
                    + "  - { do: cool, phase: A, over: 30 min }\n"),
            "temperature");
    assertEquals("[duration of step 1, temperature of step 2]", curve.missing().toString());
    assertEquals(60, curve.series().get(0).points().get(1).likely());
  }

  @ParameterizedTest(name = "Bromelain in a phase that {0} -> what it bears is marked from {2} min")
  @CsvSource(
      delimiter = '|',
      value = {
        "stands in the room       |                                                | 60",
        "is heated on its own     | - { do: heat, phase: B, to: 30 °C, over: 9 min } | 0"
      })
  void bears(String what, String step, double minutes) {
    String sheet = GEL.replace("Sodium Benzoate", "Bromelain") + METHOD;
    Prediction prediction =
        predict(step == null ? sheet : sheet.replace("method:\n", "method:\n  " + step + "\n"));
    Curve.Mark mark =
        curve(prediction, "temperature").marks().stream()
            .filter(each -> each.label().startsWith("Bromelain (degrades above "))
            .findFirst()
            .orElseThrow();
    assertEquals(minutes, mark.xFrom());
    assertEquals(mark.yFrom(), mark.yTo());
  }

  private static Curve curve(Prediction prediction, String name) {
    return prediction.curve(name).orElseThrow();
  }

  private static Curve.Point at(Curve.Series series, double x) {
    return series.points().stream()
        .filter(point -> Math.abs(point.x() - x) <= 1e-9 * Math.abs(x))
        .findFirst()
        .orElseThrow();
  }

  private static void assertAgrees(Shown property, Curve.Point point) {
    assertEquals(property.low(), point.low(), Math.abs(property.low()) * 1e-9);
    assertEquals(property.likely(), point.likely(), Math.abs(property.likely()) * 1e-9);
    assertEquals(property.high(), point.high(), Math.abs(property.high()) * 1e-9);
  }
}
