package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.calibration.Calibrated;
import gelwright.calibration.Calibration;
import gelwright.calibration.Calibrator;
import gelwright.calibration.Readings;
import gelwright.charts.Chart;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("docs/guide/calibrate.md")
final class CalibrateGuideTest {
  private static final Path PROJECT = Path.of("..");
  private static final Path PAGE = PROJECT.resolve("docs/guide/calibrate.md");
  private static final Path EXAMPLE =
      PROJECT.resolve("docs/examples/readings/sclerotium-gum-bench-3.yaml");

  @Test
  @DisplayName("the Java snippet calibrates, and the sheet on the page is what it writes")
  void works() throws IOException {
    byte[] bytes = Files.readAllBytes(EXAMPLE);
    // snippet
    Calibrator calibrator = Calibrator.using(BundledRuleSets.load().catalogue()); // once

    Readings readings = new ReadingsReader().read(bytes, "bench-3.yaml").orThrow();

    Calibrated calibrated = calibrator.calibrate(readings); // no I/O, no clock

    calibrated.problems().forEach(System.out::println); // why it was refused, or nothing

    Calibration calibration = calibrated.value().orElseThrow();

    String sheet = LotSheet.text(calibration); // YAML for --ingredients

    String picture = Chart.of(calibration.curve(), calibration.lot().name()).svg("lot"); // SVG
    // end
    assertTrue(picture.startsWith("<svg "));
    String page = Files.readString(PAGE);
    assertTrue(page.contains("```yaml\n" + sheet + "```"), sheet);
    assertTrue(page.contains("```yaml\n" + Files.readString(EXAMPLE) + "```"));
  }

  @Test
  @DisplayName("the snippet stands on the page to the letter")
  void isOnThePage() throws IOException {
    String source =
        Files.readString(Path.of("src/test/java/gelwright/sheets/CalibrateGuideTest.java"));
    String snippet =
        source
            .substring(source.indexOf("// snippet\n") + 11, source.indexOf("    // end\n"))
            .lines()
            .map(line -> line.replaceFirst("^ {4}", ""))
            .collect(Collectors.joining("\n", "", "\n"));
    assertTrue(Files.readString(PAGE).contains("```java\n" + snippet + "```"), snippet);
  }

  @Test
  @DisplayName("every readings sheet on the page can be calibrated with")
  void sheets() throws IOException {
    Calibrator calibrator = Calibrator.using(BundledRuleSets.load().catalogue());
    Matcher block =
        Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL).matcher(Files.readString(PAGE));
    int count = 0;
    while (block.find()) {
      if (block.group(1).contains("readings-of:")) {
        count++;
        Readings readings =
            new ReadingsReader().read(Samples.utf8(block.group(1)), "page.yaml").orThrow();
        assertEquals(List.of(), calibrator.calibrate(readings).problems());
      }
    }
    assertEquals(2, count);
  }

  @Test
  @DisplayName("no key of a readings sheet is left out of the page")
  void complete() throws IOException {
    String page = Files.readString(PAGE);
    ReadingsMapping.KEYS.forEach(key -> assertTrue(page.contains("`" + key + "`"), key));
  }
}
