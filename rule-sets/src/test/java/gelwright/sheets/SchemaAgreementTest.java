package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import gelwright.problem.Problem;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

/**
 * The published schemas and the readers refuse the same documents: every sample is changed at every
 * one of its places, and both are asked.
 */
@DisplayName("schemas agree with the readers")
final class SchemaAgreementTest {
  /** Cells depend on the columns that their table declares; a schema cannot say so. */
  private static final Pattern DEPENDS_ON_COLUMNS =
      Pattern.compile("/tables/[^/]+/(rows/\\d+/.*|rows/\\d+ (= \\{|with).*|columns(/.*)? .*)");

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /**
   * What a reader refuses beyond the schema, because the shape of the document does not show it:
   * how large a number is, what numbers add up to, which of two is larger, a check digit, whether a
   * code is a country, whether some part further out names the source, and what depends on the
   * columns a table declares.
   */
  private static final Set<String> BEYOND_SHAPE =
      Set.of(
          "out-of-range",
          "not-possible",
          "reversed-range",
          "bad-sum",
          "bad-cas",
          "bad-number",
          "bad-date",
          "no-source",
          "key-column",
          "unused-example",
          "reserved-name");

  private static final Map<String, BiFunction<byte[], String, Read<?>>> READERS = readers();

  private static final List<String> REPLACEMENTS =
      List.of(
          "5",
          "-0.5",
          "true",
          "null",
          "\"\"",
          "\"  \"",
          "\"zzz\"",
          "\"5\"",
          "\"5 %\"",
          "\"38 °C\"",
          "\"10 min\"",
          "\"none\"",
          "\"rest\"",
          "\"0,5 %\"",
          "[]",
          "[\"zzz\"]",
          "[null]",
          "[5]",
          "[[]]",
          "{}",
          "{\"zzz\":1}",
          "{\"is\":\"5 %\"}",
          "{\"is\":\"5 %\",\"within\":\"×2\",\"source\":[]}");

  private static Map<String, BiFunction<byte[], String, Read<?>>> readers() {
    Map<String, BiFunction<byte[], String, Read<?>>> readers = new LinkedHashMap<>();
    readers.put("formula", (bytes, file) -> new FormulaReader().read(bytes, file));
    readers.put("ingredients", (bytes, file) -> new IngredientReader().read(bytes, file));
    readers.put("sources", (bytes, file) -> new SourceReader().read(bytes, file));
    readers.put("readings", (bytes, file) -> new ReadingsReader().read(bytes, file));
    readers.put("rule-set", (bytes, file) -> new RuleSetReader().read(bytes, file));
    return readers;
  }

  private static Schema schema(String name) {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(Bundled.schema(name), InputFormat.JSON);
  }

  @TestFactory
  @DisplayName("every schema is a schema of draft 2020-12")
  Stream<DynamicTest> schemasAreSchemas() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                com.networknt.schema.SchemaLocation.of(
                    "https://json-schema.org/draft/2020-12/schema"));
    return READERS.keySet().stream()
        .map(
            name ->
                dynamicTest(
                    name,
                    () ->
                        assertEquals(
                            List.of(), meta.validate(MAPPER.readTree(Bundled.schema(name))))));
  }

  @TestFactory
  @DisplayName("the schema's own examples are good sheets")
  Stream<DynamicTest> examples() {
    return READERS.entrySet().stream()
        .flatMap(
            kind -> {
              List<DynamicTest> tests = new ArrayList<>();
              for (JsonNode example : tree(Bundled.schema(kind.getKey())).get("examples")) {
                tests.add(
                    dynamicTest(
                        kind.getKey() + " " + example,
                        () ->
                            assertEquals(
                                List.of(),
                                kind.getValue()
                                    .apply(MAPPER.writeValueAsBytes(example), "example.json")
                                    .problems())));
              }
              return tests.stream();
            });
  }

  @TestFactory
  @DisplayName("sample")
  Stream<DynamicTest> samples() {
    return Stream.of(
            "wind-shelter.formula.yaml",
            "shade-mist.formula.yaml",
            "workshop.sources.yaml",
            "workshop.ingredients.yaml",
            "lots.ingredients.yaml",
            "bench.readings.yaml",
            "workshop.rule-set.yaml")
        .map(file -> dynamicTest(file, () -> agree(file)));
  }

  private static void agree(String file) {
    String kind = file.split("\\.", -1)[1];
    Schema schema = schema(kind);
    BiFunction<byte[], String, Read<?>> reader = READERS.get(kind);
    assertEquals(List.of(), reader.apply(Samples.bytes(file), file).problems());
    JsonNode sample = Samples.json(Samples.bytes(file), file);
    assertEquals(List.of(), schema.validate(sample));

    List<String> disagreements = new ArrayList<>();
    int count = 0;
    int refused = 0;
    for (Changed changed : changes(sample)) {
      if (DEPENDS_ON_COLUMNS.matcher(changed.what()).matches()) {
        continue;
      }
      count++;
      List<Problem> problems =
          reader.apply(Samples.utf8(changed.tree().toString()), "x.json").problems();
      boolean shape = problems.stream().anyMatch(p -> !BEYOND_SHAPE.contains(p.code()));
      var errors = schema.validate(changed.tree());
      refused += errors.isEmpty() ? 0 : 1;
      if (shape && errors.isEmpty()) {
        disagreements.add("only the reader refuses " + changed.what() + ": " + problems);
      }
      if (problems.isEmpty() && !errors.isEmpty()) {
        disagreements.add("only the schema refuses " + changed.what() + ": " + errors);
      }
    }
    assertEquals(List.of(), disagreements.stream().limit(40).toList());
    assertTrue(refused > count / 2, refused + " of " + count + " refused");
  }

  private record Changed(String what, JsonNode tree) {}

  private static JsonNode tree(String json) {
    try {
      return MAPPER.readTree(json);
    } catch (com.fasterxml.jackson.core.JsonProcessingException exception) {
      throw new IllegalArgumentException(exception);
    }
  }

  /** The sample with one part changed: left out, added to, or something else in its place. */
  private static List<Changed> changes(JsonNode sample) {
    List<String> pointers = new ArrayList<>();
    collect(sample, "", pointers);
    List<Changed> changes = new ArrayList<>();
    for (String pointer : pointers) {
      if (sample.at(pointer).isObject()) {
        JsonNode copy = sample.deepCopy();
        ((ObjectNode) copy.at(pointer)).put("zzz", "1");
        changes.add(new Changed(pointer + " with a key zzz", copy));
      }
      if (pointer.isEmpty()) {
        continue;
      }
      String parent = pointer.substring(0, pointer.lastIndexOf('/'));
      String last = pointer.substring(parent.length() + 1).replace("~1", "/").replace("~0", "~");
      JsonNode without = sample.deepCopy();
      if (without.at(parent) instanceof ObjectNode object) {
        object.remove(last);
        changes.add(new Changed(pointer + " left out", without));
      }
      for (String replacement : REPLACEMENTS) {
        JsonNode copy = sample.deepCopy();
        if (copy.at(parent) instanceof ObjectNode object) {
          object.set(last, tree(replacement));
        } else {
          ((ArrayNode) copy.at(parent)).set(Integer.parseInt(last), tree(replacement));
        }
        changes.add(new Changed(pointer + " = " + replacement, copy));
      }
    }
    return changes;
  }

  private static void collect(JsonNode node, String pointer, List<String> pointers) {
    pointers.add(pointer);
    if (node.isObject()) {
      node.fieldNames()
          .forEachRemaining(
              name ->
                  collect(
                      node.get(name),
                      pointer + "/" + name.replace("~", "~0").replace("/", "~1"),
                      pointers));
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      collect(node.get(i), pointer + "/" + i, pointers);
    }
  }
}
