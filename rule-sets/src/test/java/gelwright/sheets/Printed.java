package gelwright.sheets;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gelwright.sheets.tree.Node;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** The tree of a sheet, printed in other manners than the one it came in. */
final class Printed {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final Random random;
  private final StringBuilder text = new StringBuilder();

  private Printed(Random random) {
    this.random = random;
  }

  static JsonNode json(Node node) {
    if (node instanceof Node.Mapping mapping) {
      ObjectNode object = JsonNodeFactory.instance.objectNode();
      mapping.entries().values().forEach(each -> object.set(each.key(), json(each.value())));
      return object;
    }
    if (node instanceof Node.Sequence sequence) {
      var array = JsonNodeFactory.instance.arrayNode();
      sequence.items().forEach(each -> array.add(json(each)));
      return array;
    }
    Node.Scalar scalar = (Node.Scalar) node;
    return JsonNodeFactory.instance.textNode(scalar.text());
  }

  static String minified(JsonNode tree) {
    return tree.toString();
  }

  static String pretty(JsonNode tree) {
    try {
      DefaultPrettyPrinter printer =
          new DefaultPrettyPrinter()
              .withArrayIndenter(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"))
              .withObjectIndenter(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"));
      return MAPPER.writer(printer).writeValueAsString(tree) + "\n";
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** YAML without brackets, some keys and values quoted. */
  static String block(JsonNode tree, Random random) {
    Printed printed = new Printed(random);
    printed.mapping(tree, 0, false);
    return printed.text.toString();
  }

  /** YAML in brackets over several lines, with commas at the ends and comments behind them. */
  static String flow(JsonNode tree, Random random) {
    Printed printed = new Printed(random);
    printed.flow(tree, 0);
    return printed.text.append('\n').toString();
  }

  private void flow(JsonNode node, int depth) {
    if (node.isTextual()) {
      text.append(scalar(node.textValue(), true));
      return;
    }
    boolean lines = depth < 3;
    List<String> keys = new ArrayList<>();
    node.fieldNames().forEachRemaining(keys::add);
    text.append(node.isObject() ? "{" : "[");
    for (int i = 0; i < node.size(); i++) {
      text.append(lines ? "\n" + "  ".repeat(depth + 1) : i == 0 ? " " : "");
      if (node.isObject()) {
        text.append(keys.get(i)).append(": ");
      }
      flow(node.isObject() ? node.get(keys.get(i)) : node.get(i), depth + 1);
      boolean last = i + 1 == node.size();
      if (!last || (lines && random.nextInt(3) == 0)) {
        text.append(lines ? "," : ", ");
      }
      if (lines && random.nextInt(6) == 0) {
        text.append("  # kept, ").append(random.nextInt(1_000_000));
      }
    }
    text.append(lines ? "\n" + "  ".repeat(depth) : " ").append(node.isObject() ? "}" : "]");
  }

  private void mapping(JsonNode tree, int indent, boolean behindDash) {
    boolean first = behindDash;
    List<String> keys = new ArrayList<>();
    tree.fieldNames().forEachRemaining(keys::add);
    for (String key : keys) {
      text.append(first ? "" : " ".repeat(indent));
      first = false;
      text.append(random.nextInt(12) == 0 ? "\"" + key + "\"" : key).append(':');
      JsonNode value = tree.get(key);
      if (value.isObject()) {
        text.append('\n');
        mapping(value, indent + 2, false);
      } else if (value.isArray()) {
        text.append('\n');
        sequence(value, indent + (random.nextBoolean() ? 2 : 0));
      } else {
        text.append(' ').append(scalar(value.textValue(), false)).append('\n');
      }
    }
  }

  private void sequence(JsonNode items, int indent) {
    int gap = 1 + random.nextInt(2);
    for (JsonNode item : items) {
      text.append(" ".repeat(indent)).append('-').append(" ".repeat(gap));
      if (item.isObject()) {
        mapping(item, indent + 1 + gap, true);
      } else {
        text.append(scalar(item.textValue(), false)).append('\n');
      }
    }
  }

  private String scalar(String value, boolean flow) {
    if (value.contains(":") || value.contains("#") || (flow && value.contains(","))) {
      return "'" + value.replace("'", "''") + "'";
    }
    return switch (random.nextInt(5)) {
      case 0 -> "'" + value.replace("'", "''") + "'";
      case 1 -> "\"" + value + "\"";
      default -> value;
    };
  }
}
