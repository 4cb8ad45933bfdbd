package gelwright.sheets;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gelwright.problem.Problem;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Node;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

/** Sheets that tests start from. */
final class Samples {
  private Samples() {}

  static byte[] bytes(String name) {
    try (InputStream in = Samples.class.getResourceAsStream("/sheets/" + name)) {
      return in.readAllBytes();
    } catch (IOException exception) {
      throw new UncheckedIOException(exception);
    }
  }

  static String text(String name) {
    return new String(bytes(name), StandardCharsets.UTF_8);
  }

  static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  /** The same tree as JSON. */
  static JsonNode json(byte[] sheet, String file) {
    return json(Document.read(sheet, file).orThrow().root());
  }

  private static JsonNode json(Node node) {
    JsonNodeFactory factory = JsonNodeFactory.instance;
    if (node instanceof Node.Mapping mapping) {
      ObjectNode object = factory.objectNode();
      mapping.entries().values().forEach(entry -> object.set(entry.key(), json(entry.value())));
      return object;
    }
    if (node instanceof Node.Sequence sequence) {
      ArrayNode array = factory.arrayNode();
      sequence.items().forEach(item -> array.add(json(item)));
      return array;
    }
    Node.Scalar scalar = (Node.Scalar) node;
    return switch (scalar.kind()) {
      case NUMBER -> DecimalNode.valueOf(new BigDecimal(scalar.text()));
      case TRUTH -> factory.booleanNode(scalar.text().toLowerCase(Locale.ROOT).equals("true"));
      case NOTHING, BROKEN -> factory.nullNode();
      case TEXT -> factory.textNode(scalar.text());
    };
  }

  /** Problems as {@code line:column code}. */
  static List<String> brief(List<Problem> problems) {
    return problems.stream()
        .map(
            problem ->
                problem.place().line() + ":" + problem.place().column() + " " + problem.code())
        .toList();
  }
}
