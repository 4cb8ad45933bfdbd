package gelwright.reference;

import gelwright.sheets.tree.Node;
import java.util.StringJoiner;

/** Prints a part of a sheet as it could have been written. */
final class Sheets {
  private Sheets() {}

  /** One line of YAML per key, what stands below on the same line. */
  static String block(Node.Mapping mapping) {
    StringJoiner lines = new StringJoiner("\n");
    for (Node.Entry entry : mapping.entries().values()) {
      lines.add(key(entry.key()) + ": " + flow(entry.value()));
    }
    return lines.toString();
  }

  private static String flow(Node node) {
    if (node instanceof Node.Mapping mapping) {
      StringJoiner parts = new StringJoiner(", ", "{ ", " }");
      mapping.entries().values().forEach(e -> parts.add(key(e.key()) + ": " + flow(e.value())));
      return mapping.entries().isEmpty() ? "{}" : parts.toString();
    }
    if (node instanceof Node.Sequence sequence) {
      StringJoiner parts = new StringJoiner(", ", "[", "]");
      sequence.items().forEach(item -> parts.add(flow(item)));
      return parts.toString();
    }
    Node.Scalar scalar = (Node.Scalar) node;
    return scalar.kind() == Node.Kind.TEXT ? key(scalar.text()) : scalar.text();
  }

  private static String key(String text) {
    return text.matches("[\\p{L}\\d%][\\p{L}\\d %.°µ·/()-]*")
            && !text.matches("[\\d.]+|yes|no|true|false")
        ? text
        : "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
  }
}
