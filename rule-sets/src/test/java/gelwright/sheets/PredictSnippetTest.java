package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.charts.Chart;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.review.Shown;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("the Java snippet of docs/guide/predict.md")
final class PredictSnippetTest {
  private static final Path PROJECT = Path.of("..");

  @Test
  @DisplayName("predicts and draws")
  void works() throws IOException {
    Path sheet = PROJECT.resolve("docs/examples/wind-shelter-gel-cream.yaml");
    LocalDate on = LocalDate.of(2026, 11, 25);
    Formula formula =
        new FormulaReader().read(Files.readAllBytes(sheet), sheet.toString()).orThrow();
    // snippet
    Predictor predictor = Predictor.using(BundledRuleSets.load()); // once; for all threads

    Prediction prediction = predictor.predict(formula, on); // no I/O, no clock

    Shown stress = prediction.property("gel.yield-stress").orElseThrow().shown();
    Curve flow = prediction.curve("flow").orElseThrow(); // numbers

    String picture = Chart.of(flow, prediction.formula()).svg("flow"); // an SVG element
    // end
    assertEquals("Pa", stress.unit().symbol());
    assertTrue(picture.startsWith("<svg "));
  }

  @Test
  @DisplayName("stands on the page to the letter")
  void isOnThePage() throws IOException {
    String source =
        Files.readString(Path.of("src/test/java/gelwright/sheets/PredictSnippetTest.java"));
    String snippet =
        source
            .substring(source.indexOf("// snippet\n") + 11, source.indexOf("    // end\n"))
            .lines()
            .map(line -> line.replaceFirst("^ {4}", ""))
            .collect(Collectors.joining("\n", "", "\n"));
    assertTrue(
        Files.readString(PROJECT.resolve("docs/guide/predict.md"))
            .contains("```java\n" + snippet + "```"),
        snippet);
  }
}
