package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.problem.Problem;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("edits as a review lists them")
final class EditReaderTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** The form of one edit, as the schema of a review has it. */
  private static final Schema FORM = form();

  private static Schema form() {
    try {
      ObjectNode schema = (ObjectNode) MAPPER.readTree(Bundled.schema("review"));
      schema.remove("anyOf");
      schema.put("$id", "urn:gelwright:test:edit");
      schema.put("$ref", "#/$defs/edit");
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(schema.toString(), InputFormat.JSON);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Read<List<Edit>> read(String json) {
    return Document.read(Samples.utf8(json), "", Document.Format.JSON, Limits.USUAL)
        .then(EditReader::read);
  }

  @Test
  @DisplayName("every kind is written, fits the schema, and is read as it was")
  void roundTrip() throws IOException {
    Set<String> kinds = new TreeSet<>();
    for (var example : SheetEditorTest.examples()) {
      Formula formula = new FormulaReader().read(Files.readAllBytes(example), "a.yaml").orThrow();
      for (int seed = 1; seed <= 200; seed++) {
        Edit edit = new RandomEdits(new Random(seed)).of(formula);
        kinds.add(edit.getClass().getSimpleName());
        String json = MAPPER.writeValueAsString(WrittenEdit.of(edit));
        assertEquals(List.of(), FORM.validate(json, InputFormat.JSON), json);
        assertEquals(List.of(edit), read("[" + json + "]").orThrow(), json);
      }
    }
    assertEquals(Edit.class.getPermittedSubclasses().length, kinds.size(), kinds::toString);
  }

  @ParameterizedTest(name = "{0} -> {1} at {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "{\"line\": 1} | not-an-edit | /0",
        "\"more gum\" | wrong-type | /0",
        "{\"ingredient\": \"Gum\", \"from\": \"1 %\", \"to\": \"2 %\"} | missing-key | /0",
        "{\"ingredient\": \"Gum\", \"line\": 0, \"from\": \"1 %\", \"to\": \"2 %\"}"
            + " | out-of-range | /0/line",
        "{\"ingredient\": \"Gum\", \"line\": 1, \"from\": \"1 %\", \"to\": \"2 g\"}"
            + " | wrong-dimension | /0/to",
        "{\"ingredient\": \"Gum\", \"line\": 1, \"frm\": \"1 %\", \"from\": \"1 %\", \"to\":"
            + " \"2 %\"} | unknown-key | /0/frm",
        "{\"ingredient\": \"Gum\", \"line\": 1, \"field\": \"lot\", \"to\": \"2\"}"
            + " | unknown-word | /0/field",
        "{\"ingredient\": \"Gum\", \"line\": 1, \"field\": \"phase\", \"replace-with\": \"B\"}"
            + " | several-edits | /0/replace-with",
        "{\"step\": 1, \"field\": \"for\", \"to\": \"38 °C\"} | wrong-dimension | /0/to",
        "{\"step\": 1, \"insert\": {\"do\": \"boil\"}} | unknown-word | /0/insert/do",
        "{\"step\": 1, \"field\": \"position\", \"from\": \"2\", \"to\": \"3\"}"
            + " | not-possible | /0/from",
        "{\"pH\": \"target\", \"to\": \"low\"} | bad-quantity | /0/to",
        "{\"product\": \"texture\", \"to\": \"jelly\"} | unknown-word | /0/to",
        "{\"product\": \"area\", \"to\": \"face, knee\"} | unknown-word | /0/to",
        "{\"product\": \"pH\", \"to\": \"6 to 5\"} | reversed-range | /0/to",
        "{\"batch\": \"mass\", \"to\": \"2 °C\"} | wrong-dimension | /0/to"
      })
  void mistakes(String edit, String code, String pointer) {
    List<Problem> problems = read("[" + edit + "]").problems();
    assertEquals(1, problems.size(), problems::toString);
    assertEquals(code, problems.get(0).code());
    assertEquals(pointer, problems.get(0).place().pointer());
    boolean shape =
        Set.of("out-of-range", "not-possible", "reversed-range", "wrong-dimension", "bad-quantity")
            .contains(code);
    assertTrue(
        shape || edit.contains("knee") || !FORM.validate(edit.strip(), InputFormat.JSON).isEmpty(),
        "the schema refuses it, too");
  }

  @Test
  @DisplayName("all mistakes come at once; a list without edits is one")
  void allAtOnce() {
    String two = "{\"line\": 1}, {\"step\": \"x\", \"field\": \"at\", \"to\": \"5\"}";
    assertEquals(3, read("[" + two + "]").problems().size());
    assertFalse(read("[]").isOk());
    assertFalse(read("{}").isOk());
  }
}
