package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.SpecificationVersion;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.FieldSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("reviews as JSON")
final class JsonReportTest {
  private static final SchemaCheck SCHEMA =
      SchemaCheck.of("/gelwright/schemas/review.schema.json", SpecificationVersion.DRAFT_2020_12);
  private static final ObjectMapper MAPPER = new ObjectMapper();

  static final List<String> HOSTILE = Samples.HOSTILE;

  private static String several(List<Unreadable> unreadable) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JsonReport.indented().write(List.of(Samples.full(), Samples.full()), unreadable, out);
    return out.toString(StandardCharsets.UTF_8);
  }

  @Test
  @DisplayName("a review with one of everything fits its schema")
  void fits() {
    assertEquals(List.of(), SCHEMA.errors(JsonReport.indented().text(Samples.full())));
    assertEquals(List.of(), SCHEMA.errors(JsonReport.compact().text(Samples.full())));
  }

  @Test
  @DisplayName("several reviews, and files that could not be read, fit the schema")
  void severalFit() throws IOException {
    assertEquals(List.of(), SCHEMA.errors(several(List.of())));
    String text = several(List.of(Samples.unreadable("a.yaml")));
    assertEquals(List.of(), SCHEMA.errors(text));
    assertEquals("unknown-key", MAPPER.readTree(text).at("/unreadable/0/problems/0/code").asText());
  }

  @ParameterizedTest(name = "without {0} it does not fit the schema")
  @ValueSource(strings = {"formula", "editions", "counts", "rules", "unchecked", "cautions"})
  void schemaBites(String field) throws IOException {
    ObjectNode tree = (ObjectNode) MAPPER.readTree(JsonReport.compact().text(Samples.full()));
    tree.remove(field);
    assertFalse(SCHEMA.errors(tree.toString()).isEmpty());
  }

  @Test
  @DisplayName("a key the schema does not know does not fit it")
  void schemaIsClosed() throws IOException {
    ObjectNode tree = (ObjectNode) MAPPER.readTree(JsonReport.compact().text(Samples.full()));
    ((ObjectNode) tree.at("/findings/0")).put("colour", "red");
    assertFalse(SCHEMA.errors(tree.toString()).isEmpty());
  }

  @ParameterizedTest(name = "{0} is {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "/formula | Wind-shelter gel-cream",
        "/editions/on | 2026-11-25",
        "/editions/formula-sha256 | 00ff",
        "/outcome | breaks",
        "/level | error",
        "/counts/holds | 2",
        "/counts/duties | 2",
        "/counts/accepted | 1",
        "/findings/0/odds | 0.01",
        "/findings/0/subject/ingredient | Squalane",
        "/findings/0/limit/low | 7.943",
        "/findings/0/limit/high | 11.55",
        "/findings/0/observed/likely | 14",
        "/findings/0/where/line | 14",
        "/findings/0/trace/missing/0 | a",
        "/findings/1/subject/formula | Wind-shelter gel-cream",
        "/findings/1/observed/high | 5.432",
        "/findings/2/odds/low | 0.2",
        "/findings/2/odds/high | 1",
        "/findings/2/must-be-known | true",
        "/findings/2/missing/1 | pH",
        "/findings/5/accepted/until | 2027-03-01",
        "/findings/5/accepted/observed/value | 14",
        "/duties/0/applies | yes",
        "/duties/1/applies | maybe",
        "/duties/1/missing/0 | product.users",
        "/duties/2/done | true",
        "/unchecked/0/missing/1 | pH",
        "/properties/water-phase.water-activity/unit | 1",
        "/rules/composition.sum | holds",
        "/switched-off/feel.tack | We like it tacky",
      })
  void says(String pointer, String value) throws IOException {
    JsonNode node = MAPPER.readTree(JsonReport.compact().text(Samples.full())).at(pointer);
    assertEquals(value, node.asText());
  }

  @ParameterizedTest(name = "{0} is left out")
  @ValueSource(
      strings = {
        "/findings/1/observed/low",
        "/findings/1/observed/likely",
        "/properties/gel.yield-stress/high",
        "/findings/0/accepted",
        "/findings/1/where",
        "/findings/1/trace"
      })
  void leavesOut(String pointer) throws IOException {
    assertTrue(
        MAPPER.readTree(JsonReport.compact().text(Samples.full())).at(pointer).isMissingNode());
  }

  @Test
  @DisplayName("keys come in the order of the contract")
  void order() throws IOException {
    List<String> keys = new ArrayList<>();
    MAPPER
        .readTree(JsonReport.compact().text(Samples.full()))
        .fieldNames()
        .forEachRemaining(keys::add);
    assertEquals(
        List.of(
            "formula",
            "editions",
            "outcome",
            "level",
            "counts",
            "findings",
            "duties",
            "measure-next",
            "unchecked",
            "properties",
            "rules",
            "switched-off",
            "cautions",
            "where"),
        keys);
  }

  @ParameterizedTest(name = "{0} is written {1}")
  @CsvSource({
    "0, 0",
    "-0.0, 0",
    "14, 14",
    "7.94328, 7.943",
    "0.1, 0.1",
    "123456, 123500",
    "0.00123456, 0.001235",
    "-2.5, -2.5",
    "1e20, 1E+20",
    "1.23456e-15, 1.235E-15",
    "1, 1",
    "99999, 100000"
  })
  void digits(double value, String written) {
    assertEquals(written, JsonReport.digits(value));
    assertEquals(value, Double.parseDouble(written), Math.abs(value) * 6e-4);
  }

  @Test
  @DisplayName("digits of any number are those of its exact decimal form")
  void digitsOfAny() {
    Random random = new Random(1);
    for (int i = 0; i < 200_000; i++) {
      double any = Double.longBitsToDouble(random.nextLong());
      double usual = Math.pow(10, random.nextInt(24) - 11) * (random.nextDouble() - 0.5);
      double tie = (random.nextInt(9000) + 1000.5) * Math.pow(10, random.nextInt(20) - 12);
      double round = Math.rint(usual * 100) / 100;
      for (double value : new double[] {any, usual, tie, Math.nextUp(tie), round}) {
        if (Double.isFinite(value) && value != 0) {
          assertEquals(JsonReport.exactDigits(value), JsonReport.digits(value));
        }
      }
    }
  }

  @ParameterizedTest(name = "text that breaks out of nothing: row {index}")
  @FieldSource("HOSTILE")
  void hostile(String text) throws IOException {
    String written = JsonReport.indented().text(Samples.hostile(text));
    assertEquals(List.of(), SCHEMA.errors(written));
    JsonNode tree = MAPPER.readTree(written);
    assertEquals(WellFormed.mended(text), tree.at("/formula").asText());
    assertEquals(WellFormed.mended(text), tree.at("/findings/0/message").asText());
    assertTrue(
        written.chars().noneMatch(c -> c < 0x20 && c != '\n'), "control characters are escaped");
  }

  @Test
  @DisplayName("the same review gives the same bytes")
  void repeats() throws IOException {
    assertEquals(
        JsonReport.indented().text(Samples.full()), JsonReport.indented().text(Samples.full()));
    assertEquals(several(List.of()), several(List.of()));
    assertFalse(JsonReport.indented().text(Samples.full()).contains("\r"));
  }
}
