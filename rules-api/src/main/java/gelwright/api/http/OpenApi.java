package gelwright.api.http;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.sheets.Bundled;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/**
 * The service's description, written by hand as YAML and served as JSON.
 *
 * <p>The schemas of a formula sheet and of a review are not written twice: they are taken from the
 * published ones, their definitions as components of their own, {@code Review-finding}, so that a
 * tool that knows only references within one document can follow them.
 */
final class OpenApi {
  private static final String FILE = "openapi.yaml";
  private static final Limits LIMITS = new Limits(1 << 20, 60, 200_000, 10_000, 10);

  private OpenApi() {}

  /**
   * Writes the description into a file, for tools that work without a service.
   *
   * @param arguments the file
   */
  public static void main(String[] arguments) throws IOException {
    Files.write(Path.of(arguments[0]), document());
  }

  static byte[] document() {
    Node description = read(FILE, resource(), Document.Format.YAML);
    return Json.object(
        json -> {
          for (Node.Entry entry : ((Node.Mapping) description).entries().values()) {
            json.writeFieldName(entry.key());
            if (entry.key().equals("components")) {
              components(json, (Node.Mapping) entry.value());
            } else {
              write(json, entry.value(), "");
            }
          }
        });
  }

  private static Node read(String name, byte[] bytes, Document.Format format) {
    return Document.read(bytes, name, format, LIMITS).orThrow().root();
  }

  private static byte[] resource() {
    try (InputStream in = OpenApi.class.getResourceAsStream(FILE)) {
      if (in == null) {
        throw new FileNotFoundException("no bundled resource " + FILE);
      }
      return in.readAllBytes();
    } catch (IOException exception) {
      throw new UncheckedIOException(exception);
    }
  }

  private static void components(JsonGenerator json, Node.Mapping components) throws IOException {
    json.writeStartObject();
    for (Node.Entry entry : components.entries().values()) {
      json.writeFieldName(entry.key());
      if (!entry.key().equals("schemas")) {
        write(json, entry.value(), "");
        continue;
      }
      json.writeStartObject();
      for (Node.Entry schema : ((Node.Mapping) entry.value()).entries().values()) {
        json.writeFieldName(schema.key());
        write(json, schema.value(), "");
      }
      published(json, "Formula", "formula", "");
      published(json, "Review", "review", "review");
      published(json, "Prediction", "prediction", "");
      published(json, "Headroom", "headroom", "");
      published(json, "Comparison", "comparison", "");
      published(json, "Readings", "readings", "");
      published(json, "Calibration", "calibration", "");
      published(json, "BatchSheet", "batch-sheet", "");
      published(json, "LabelDraft", "label-draft", "");
      published(json, "StabilityPlan", "stability-plan", "");
      json.writeEndObject();
    }
    json.writeEndObject();
  }

  /**
   * A published schema and its definitions.
   *
   * @param main the definition that stands for the whole, or empty for the schema itself
   */
  private static void published(JsonGenerator json, String name, String schema, String main)
      throws IOException {
    byte[] bytes = Bundled.schema(schema).getBytes(StandardCharsets.UTF_8);
    Node.Mapping root = (Node.Mapping) read(schema, bytes, Document.Format.JSON);
    Node.Mapping definitions = (Node.Mapping) root.get("$defs").orElseThrow();
    json.writeFieldName(name);
    if (main.isEmpty()) {
      json.writeStartObject();
      for (Node.Entry entry : root.entries().values()) {
        if (!List.of("$schema", "$id", "$defs").contains(entry.key())) {
          json.writeFieldName(entry.key());
          write(json, entry.value(), name);
        }
      }
      json.writeEndObject();
    } else {
      write(json, definitions.get(main).orElseThrow(), name);
    }
    for (Map.Entry<String, Node.Entry> definition : definitions.entries().entrySet()) {
      json.writeFieldName(name + "-" + definition.getKey());
      write(json, definition.getValue().value(), name);
    }
  }

  /** References to definitions of a published schema become references to its components. */
  private static void write(JsonGenerator json, Node node, String published) throws IOException {
    if (node instanceof Node.Mapping mapping) {
      json.writeStartObject();
      for (Node.Entry entry : mapping.entries().values()) {
        json.writeFieldName(entry.key());
        if (!published.isEmpty()
            && entry.key().equals("$ref")
            && entry.value() instanceof Node.Scalar reference) {
          json.writeString(
              reference.text().replace("#/$defs/", "#/components/schemas/" + published + "-"));
        } else {
          write(json, entry.value(), published);
        }
      }
      json.writeEndObject();
    } else if (node instanceof Node.Sequence sequence) {
      json.writeStartArray();
      for (Node item : sequence.items()) {
        write(json, item, published);
      }
      json.writeEndArray();
    } else if (node instanceof Node.Scalar scalar) {
      switch (scalar.kind()) {
        case NUMBER -> json.writeNumber(new BigDecimal(scalar.text()));
        case TRUTH -> json.writeBoolean(Boolean.parseBoolean(scalar.text()));
        case NOTHING -> json.writeNull();
        default -> json.writeString(scalar.text());
      }
    }
  }
}
