package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.SpecificationVersion;
import gelwright.calibration.Calibration;
import gelwright.calibration.Calibrator;
import gelwright.charts.Chart;
import gelwright.ingredient.Catalogue;
import gelwright.sheets.Bundled;
import gelwright.sheets.LotSheet;
import gelwright.sheets.ReadingsReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("a calibration as JSON and as a picture")
final class CalibrationReportTest {
  private static final Path EXAMPLE =
      Path.of("..", "docs", "examples", "readings", "sclerotium-gum-bench-3.yaml");
  private static final Path PICTURE = Path.of("..", "docs", "guide", "calibrate.svg");
  private static final SchemaCheck SCHEMA =
      SchemaCheck.of(
          "/gelwright/schemas/calibration.schema.json", SpecificationVersion.DRAFT_2020_12);
  private static final Catalogue CATALOGUE = Bundled.load().catalogue();

  /** The same readings with another gum, at two shares, by spindle. */
  private static final String SPINDLES =
      """
      readings-of: Xanthan Gum
      lot: "7"
      series:
        - { share: 0.5 %, spindle: 3, points: [{ speed: 2 rpm, torque: 14.1 % }, { speed: 5 rpm, torque: 16.8 % }, { speed: 10 rpm, torque: 19.9 % }, { speed: 20 rpm, torque: 23.6 % }, { speed: 50 rpm, torque: 31 % }, { speed: 100 rpm, torque: 38.4 % }] }
        - { share: 1 %, spindle: 4, points: [{ speed: 2 rpm, torque: 21.9 % }, { speed: 5 rpm, torque: 25 % }, { speed: 10 rpm, torque: 29.6 % }, { speed: 20 rpm, torque: 34 % }, { speed: 50 rpm, torque: 43.2 % }, { speed: 100 rpm, torque: 52.9 % }] }
      """;

  private static Calibration calibrated(String sheet) {
    return Calibrator.using(CATALOGUE)
        .calibrate(
            new ReadingsReader()
                .read(sheet.getBytes(StandardCharsets.UTF_8), "readings.yaml")
                .orThrow())
        .value()
        .orElseThrow();
  }

  private static String example() throws IOException {
    return Files.readString(EXAMPLE);
  }

  @Test
  @DisplayName("fits its schema, at one share and at two, and has the sheet in it")
  void schema() throws IOException {
    for (String sheet : List.of(example(), SPINDLES)) {
      Calibration calibration = calibrated(sheet);
      String compact = CalibrationReport.compact().text(calibration);
      assertEquals(List.of(), SCHEMA.errors(compact));
      JsonNode tree = new ObjectMapper().readTree(compact);
      assertEquals(
          tree, new ObjectMapper().readTree(CalibrationReport.indented().text(calibration)));
      assertEquals(LotSheet.text(calibration), tree.get("sheet").asText());
      assertEquals(compact, CalibrationReport.compact().text(calibrated(sheet)));
    }
  }

  @ParameterizedTest(name = "without {0} the schema refuses it")
  @ValueSource(strings = {"gum", "lot", "because", "candidates", "residuals", "sheet", "curve"})
  void bites(String key) throws IOException {
    JsonNode tree =
        new ObjectMapper().readTree(CalibrationReport.compact().text(calibrated(example())));
    ((com.fasterxml.jackson.databind.node.ObjectNode) tree).remove(key);
    assertTrue(!SCHEMA.errors(tree.toString()).isEmpty());
  }

  @Test
  @DisplayName("the picture of the guide is that of its readings sheet")
  void picture() throws IOException {
    Calibration calibration = calibrated(example());
    String svg =
        Chart.of(
                calibration.curve(),
                calibration.lot().ingredient() + ", lot " + calibration.lot().name())
            .svg("calibration");
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(PICTURE, svg);
    }
    assertEquals(Files.readString(PICTURE), svg);
  }
}
