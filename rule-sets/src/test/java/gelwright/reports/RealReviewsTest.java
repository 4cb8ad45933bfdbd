package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.SpecificationVersion;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Include;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.RuleSet;
import gelwright.sheets.Bundled;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

/**
 * Whole reviews by the bundled rules, of which the samples of the other tests show only corners.
 */
@DisplayName("reviews of the example formulas in every format")
final class RealReviewsTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final List<Unreadable> UNREADABLE =
      List.of(
          new Unreadable(
              "no.yaml",
              List.of(Problem.of(new Place("no.yaml", 3, 1, ""), "not-yaml", "Not \"<YAML>\"."))));

  private static final List<Review> REVIEWS = new ArrayList<>();
  private static final List<RuleSet> RULE_SETS = new ArrayList<>();

  @BeforeAll
  static void review() throws IOException {
    Library library = Bundled.load();
    Knowledge knowledge = BundledRuleSets.compile(library).orThrow();
    Reviewer reviewer = Reviewer.using(knowledge);
    REVIEWS.clear();
    RULE_SETS.clear();
    RULE_SETS.addAll(library.ruleSets());
    List<Path> files;
    try (Stream<Path> all = Files.list(EXAMPLES)) {
      files = all.filter(file -> file.toString().endsWith(".yaml")).sorted().toList();
    }
    for (Path file : files) {
      REVIEWS.add(
          reviewer.review(
              new FormulaReader().read(Files.readAllBytes(file), file.toString()).orThrow(),
              DAY,
              Set.of(Include.TRACE)));
    }
    assertTrue(REVIEWS.size() > 3, "several formulas");
  }

  @Test
  @DisplayName(
      "SARIF of a run over several files is valid by the 2.1.0 schema and has a result each")
  void sarif() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    SarifReport.describing(RULE_SETS).write(REVIEWS, UNREADABLE, out);
    String text = out.toString(StandardCharsets.UTF_8);
    assertEquals(
        List.of(),
        SchemaCheck.of("/sarif/sarif-2.1.0-rtm.5.json", SpecificationVersion.DRAFT_4).errors(text));
    int fails = 0;
    for (var result : new ObjectMapper().readTree(text).at("/runs/0/results")) {
      boolean accepted = !result.path("suppressions").isEmpty();
      fails += !accepted && result.path("kind").asText("fail").equals("fail") ? 1 : 0;
    }
    assertEquals(failed(), fails);
  }

  @Test
  @DisplayName("JSON of one and of several reviews is valid by the published schema")
  void json() throws IOException {
    SchemaCheck schema =
        SchemaCheck.of("/gelwright/schemas/review.schema.json", SpecificationVersion.DRAFT_2020_12);
    for (Review review : REVIEWS) {
      ByteArrayOutputStream one = new ByteArrayOutputStream();
      JsonReport.indented().write(review, one);
      assertEquals(List.of(), schema.errors(one.toString(StandardCharsets.UTF_8)));
    }
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    JsonReport.indented().write(REVIEWS, UNREADABLE, all);
    String text = all.toString(StandardCharsets.UTF_8);
    assertEquals(List.of(), schema.errors(text));
    assertFalse(schema.errors(text.replaceFirst("\"formula\"", "\"formla\"")).isEmpty());
  }

  @Test
  @DisplayName("JSON with remedies, headroom and traces validates, and so does headroom alone")
  void jsonWithAll() throws IOException {
    SchemaCheck reviews =
        SchemaCheck.of("/gelwright/schemas/review.schema.json", SpecificationVersion.DRAFT_2020_12);
    SchemaCheck headroom =
        SchemaCheck.of(
            "/gelwright/schemas/headroom.schema.json", SpecificationVersion.DRAFT_2020_12);
    Path sheet = EXAMPLES.resolve("soil-off-scrub.yaml");
    Review review =
        Reviewer.using(BundledRuleSets.load())
            .review(
                new FormulaReader().read(Files.readAllBytes(sheet), sheet.toString()).orThrow(),
                DAY,
                EnumSet.allOf(Include.class));
    assertEquals(List.of(), reviews.errors(JsonReport.indented().text(review)));
    assertEquals(List.of(), headroom.errors(HeadroomReport.indented().text(review)));
  }

  @Test
  @DisplayName("JUnit XML is well formed, and its totals are those of its cases")
  void junit() throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JUnitReport.write(REVIEWS, UNREADABLE, out);
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    Element suites =
        factory
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(out.toByteArray()))
            .getDocumentElement();
    assertEquals(REVIEWS.size() + 1, suites.getElementsByTagName("testsuite").getLength());
    assertEquals(
        suites.getAttribute("tests"),
        Integer.toString(suites.getElementsByTagName("testcase").getLength()));
    assertEquals(failed(), suites.getElementsByTagName("failure").getLength());
    assertEquals(1, suites.getElementsByTagName("error").getLength());
  }

  private static int failed() {
    int failed = 0;
    for (Review review : REVIEWS) {
      failed +=
          (int)
              review.findings().stream()
                  .filter(finding -> !finding.isAccepted())
                  .filter(finding -> Gravity.of(finding) == Gravity.FAILED)
                  .count();
    }
    return failed;
  }
}
