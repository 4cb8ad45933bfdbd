package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.SpecificationVersion;
import gelwright.problem.Place;
import gelwright.review.Review;
import gelwright.review.Subject;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import gelwright.rule.Text;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.FieldSource;

@DisplayName("reviews as SARIF 2.1.0")
final class SarifReportTest {
  private static final SchemaCheck SCHEMA =
      SchemaCheck.of("/sarif/sarif-2.1.0-rtm.5.json", SpecificationVersion.DRAFT_4);
  private static final ObjectMapper MAPPER = new ObjectMapper();

  static final List<String> HOSTILE = Samples.HOSTILE;

  private static final RuleSet COMPOSITION =
      new RuleSet(
          "composition",
          "Composition",
          "2026.1",
          List.of(
              new Rule(
                  "sum",
                  new Text("Shares sum to 100 %", Place.NOWHERE),
                  Rule.Kind.REQUIREMENT,
                  Severity.ERROR,
                  Optional.empty(),
                  Optional.empty(),
                  Optional.of(new Text("total.share = 100 %", Place.NOWHERE)),
                  new Text("…", Place.NOWHERE),
                  "A recipe is a whole.",
                  List.of(),
                  List.of(),
                  true,
                  false,
                  false,
                  true,
                  List.of(),
                  Place.NOWHERE)),
          List.of(),
          List.of(),
          Place.NOWHERE);

  private static String text(SarifReport report, List<Review> reviews, List<Unreadable> unreadable)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    report.write(reviews, unreadable, out);
    return out.toString(StandardCharsets.UTF_8);
  }

  private static SarifReport report() {
    return SarifReport.describing(List.of(COMPOSITION));
  }

  private static JsonNode result(JsonNode log, String rule, String subject) {
    for (JsonNode result : log.at("/runs/0/results")) {
      if (result.at("/ruleId").asText().equals(rule)
          && result.at("/locations/0/logicalLocations/0/name").asText().equals(subject)) {
        return result;
      }
    }
    throw new AssertionError("no result of " + rule + " for " + subject);
  }

  @Test
  @DisplayName("logs fit the schema of the standard")
  void fits() throws IOException {
    assertEquals(List.of(), SCHEMA.errors(text(report(), List.of(Samples.full()), List.of())));
    assertEquals(List.of(), SCHEMA.errors(text(report(), List.of(), List.of())));
    assertEquals(
        List.of(),
        SCHEMA.errors(
            text(
                report().leavingOutAccepted().leavingOutPassed(),
                List.of(Samples.full(), Samples.full()),
                List.of(Samples.unreadable("wrong sheet.yaml")))));
  }

  @Test
  @DisplayName("the schema notices a wrong kind and a missing message")
  void schemaBites() throws IOException {
    String good = text(report(), List.of(Samples.full()), List.of());
    JsonNode kind = MAPPER.readTree(good);
    ((ObjectNode) kind.at("/runs/0/results/0")).put("kind", "broken");
    assertFalse(SCHEMA.errors(kind.toString()).isEmpty());
    JsonNode message = MAPPER.readTree(good);
    ((ObjectNode) message.at("/runs/0/results/0")).remove("message");
    assertFalse(SCHEMA.errors(message.toString()).isEmpty());
  }

  @ParameterizedTest(name = "{0} about {1} -> {2}, {3}")
  @CsvSource({
    "oil-load.above-gel-capacity, Squalane, fail, error",
    "acidity.weak, Wind-shelter gel-cream, fail, warning",
    "acidity.drift, Wind-shelter gel-cream, review, none",
    "preservation.no-data, Sodium Benzoate, fail, error",
    "preservation.active-level, Sodium Benzoate, open, none",
    "caution.patch-test, Wind-shelter gel-cream, informational, none",
    "label.children, Wind-shelter gel-cream, informational, none",
    "label.order, Wind-shelter gel-cream, pass, none",
    "composition.sum, Wind-shelter gel-cream, pass, none",
    "suspension.grains-settle, Wind-shelter gel-cream, notApplicable, none",
    "label.allergens, Wind-shelter gel-cream, notApplicable, none",
  })
  void table(String rule, String subject, String kind, String level) throws IOException {
    JsonNode log = MAPPER.readTree(text(report(), List.of(Samples.full()), List.of()));
    JsonNode result = result(log, rule, subject);
    assertEquals(kind, result.at("/kind").asText());
    assertEquals(level, result.at("/level").asText());
    int index = result.at("/ruleIndex").asInt();
    assertEquals(rule, log.at("/runs/0/tool/driver/rules/" + index + "/id").asText());
  }

  @Test
  @DisplayName("what is missing and where a number comes from stand in the message")
  void missing() throws IOException {
    JsonNode log = MAPPER.readTree(text(report(), List.of(Samples.full()), List.of()));
    String open =
        result(log, "preservation.active-level", "Sodium Benzoate").at("/message/text").asText();
    assertTrue(
        open.contains("Not checked, missing: inhibitory levels of Sodium Benzoate; pH."), open);
    String broken =
        result(log, "oil-load.above-gel-capacity", "Squalane").at("/message/text").asText();
    assertTrue(broken.contains("common practice (common-practice)"), broken);
  }

  @Test
  @DisplayName("an accepted finding is suppressed with its reason, or left out")
  void accepted() throws IOException {
    JsonNode log = MAPPER.readTree(text(report(), List.of(Samples.full()), List.of()));
    JsonNode suppression =
        result(log, "oil-load.above-gel-capacity", "Jojoba Oil").at("/suppressions/0");
    assertEquals("accepted", suppression.at("/status").asText());
    assertEquals("held 12 weeks at 40 °C, see lab book", suppression.at("/justification").asText());
    String without = text(report().leavingOutAccepted(), List.of(Samples.full()), List.of());
    assertFalse(without.contains("Jojoba Oil"));
    assertTrue(without.contains("Squalane"));
  }

  @Test
  @DisplayName("a rule is described by its rule set: title, lesson, level")
  void described() throws IOException {
    JsonNode log = MAPPER.readTree(text(report(), List.of(Samples.full()), List.of()));
    for (JsonNode rule : log.at("/runs/0/tool/driver/rules")) {
      if (rule.at("/id").asText().equals("composition.sum")) {
        assertEquals("Shares sum to 100 %", rule.at("/shortDescription/text").asText());
        assertEquals("A recipe is a whole.", rule.at("/help/text").asText());
        assertEquals("error", rule.at("/defaultConfiguration/level").asText());
        return;
      }
    }
    throw new AssertionError("composition.sum is not described");
  }

  @Test
  @DisplayName("a file that could not be read makes the run unsuccessful")
  void unreadable() throws IOException {
    JsonNode log =
        MAPPER.readTree(text(report(), List.of(), List.of(Samples.unreadable("a b.yaml"))));
    assertFalse(log.at("/runs/0/invocations/0/executionSuccessful").asBoolean(true));
    JsonNode note = log.at("/runs/0/invocations/0/toolExecutionNotifications/0");
    assertEquals("error", note.at("/level").asText());
    assertEquals(
        "a%20b.yaml", note.at("/locations/0/physicalLocation/artifactLocation/uri").asText());
    assertEquals(3, note.at("/locations/0/physicalLocation/region/startLine").asInt());
  }

  @Test
  @DisplayName("a fingerprint depends on rule, formula and subject, and on where they part")
  void fingerprints() {
    Subject squalane = new Subject("ingredient", "Squalane");
    String one = SarifReport.fingerprint("a.b", "Gel", squalane);
    assertEquals(one, SarifReport.fingerprint("a.b", "Gel", squalane));
    assertNotEquals(one, SarifReport.fingerprint("a.c", "Gel", squalane));
    assertNotEquals(one, SarifReport.fingerprint("a.b", "Gels", squalane));
    assertNotEquals(one, SarifReport.fingerprint("a.b", "Gel", Subject.FORMULA));
    assertNotEquals(
        SarifReport.fingerprint("a.bc", "d", squalane),
        SarifReport.fingerprint("a.b", "cd", squalane));
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource({
    "recipes/wind shelter.yaml, recipes/wind%20shelter.yaml",
    "recipes\\gel.yaml, recipes/gel.yaml",
    "/home/x/gel.yaml, file:///home/x/gel.yaml",
    "C:\\gel.yaml, file:///C:/gel.yaml",
    "gel#1?.yaml, gel%231%3F.yaml",
    "gel°.yaml, gel%C2%B0.yaml",
    "odd:name.yaml, odd%3Aname.yaml",
  })
  void uris(String file, String uri) {
    assertEquals(uri, SarifReport.uri(file));
  }

  @ParameterizedTest(name = "text that breaks out of nothing: row {index}")
  @FieldSource("HOSTILE")
  void hostile(String text) throws IOException {
    String written =
        text(report(), List.of(Samples.hostile(text)), List.of(Samples.unreadable(text)));
    assertEquals(List.of(), SCHEMA.errors(written));
    assertTrue(written.chars().noneMatch(c -> c < 0x20 && c != '\n'));
  }

  @Test
  @DisplayName("the same reviews give the same bytes")
  void repeats() throws IOException {
    assertEquals(
        text(report(), List.of(Samples.full()), List.of()),
        text(report(), List.of(Samples.full()), List.of()));
  }
}
