package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.charts.Chart;
import gelwright.comparison.Comparer;
import gelwright.comparison.FormulaComparison;
import gelwright.comparison.PropertyComparison;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("the Java snippet of docs/guide/compare.md")
final class CompareSnippetTest {
  private static final Path PROJECT = Path.of("..");

  @Test
  @DisplayName("compares and draws")
  void works() throws IOException {
    Formula warm = read("wind-shelter-warm.yaml");
    Formula cold = read("wind-shelter-cold.yaml");
    LocalDate on = LocalDate.of(2026, 11, 25);
    // snippet
    Comparer comparer = Comparer.using(BundledRuleSets.load()); // once; for all threads

    FormulaComparison comparison = comparer.compare(warm, cold, on); // no I/O, no clock

    PropertyComparison stress = comparison.property("gel.yield-stress").orElseThrow();
    double lower = stress.lower().low(); // the odds that the second is less
    Curve both = comparison.curve("flow").orElseThrow(); // the series of both

    String picture = Chart.of(both, comparison.about()).svg("flow"); // an SVG element
    // end
    assertTrue(lower > 0.9 && lower < 1, "odds " + lower);
    assertTrue(picture.startsWith("<svg "));
  }

  private static Formula read(String name) throws IOException {
    Path sheet = PROJECT.resolve("docs/examples/compare").resolve(name);
    return new FormulaReader().read(Files.readAllBytes(sheet), sheet.toString()).orThrow();
  }

  @Test
  @DisplayName("stands on the page to the letter")
  void isOnThePage() throws IOException {
    String source =
        Files.readString(Path.of("src/test/java/gelwright/sheets/CompareSnippetTest.java"));
    String snippet =
        source
            .substring(source.indexOf("// snippet\n") + 11, source.indexOf("    // end\n"))
            .lines()
            .map(line -> line.replaceFirst("^ {4}", ""))
            .collect(Collectors.joining("\n", "", "\n"));
    assertTrue(
        Files.readString(PROJECT.resolve("docs/guide/compare.md"))
            .contains("```java\n" + snippet + "```"),
        snippet);
  }
}
