package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.review.Finding;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("the README's Java snippet")
final class ReadmeSnippetTest {
  private static final Path PROJECT = Path.of("..");

  @Test
  @DisplayName("reviews a sheet")
  void works() throws IOException {
    Path sheet = PROJECT.resolve("docs/examples/soil-off-scrub.yaml");
    LocalDate on = LocalDate.of(2026, 11, 25);
    // snippet
    Reviewer reviewer = Reviewer.using(BundledRuleSets.load()); // once; immutable, for all threads

    Formula formula =
        new FormulaReader().read(Files.readAllBytes(sheet), sheet.toString()).orThrow();
    Review review = reviewer.review(formula, on); // no I/O, no clock: the date is an argument

    List<String> messages = review.findings().stream().map(Finding::message).toList();
    // end
    assertEquals("Soil-off scrub", review.formula());
    assertTrue(messages.size() > 1);
  }

  @Test
  @DisplayName("stands in the README to the letter")
  void isInTheReadme() throws IOException {
    String source =
        Files.readString(Path.of("src/test/java/gelwright/sheets/ReadmeSnippetTest.java"));
    String snippet =
        source
            .substring(source.indexOf("// snippet\n") + 11, source.indexOf("    // end\n"))
            .lines()
            .map(line -> line.replaceFirst("^ {4}", ""))
            .collect(Collectors.joining("\n", "", "\n"));
    assertTrue(
        Files.readString(PROJECT.resolve("README.md")).contains("```java\n" + snippet + "```"),
        snippet);
  }
}
