package gelwright.sheets.mapping;

import gelwright.problem.Place;
import gelwright.problem.Spelling;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One mapping of a sheet: unknown keys are told at once, the known ones are asked for one by one.
 */
public final class Keys {
  private final Node.Mapping mapping;
  private final String what;
  private final Problems problems;

  private Keys(Node.Mapping mapping, String what, Problems problems) {
    this.mapping = mapping;
    this.what = what;
    this.problems = problems;
  }

  /**
   * The mapping in a node, its unknown keys told; empty after a problem when it is no mapping.
   *
   * @param node what should be a mapping
   * @param what what it is called in messages: "a step"
   * @param problems takes what is wrong
   * @param known keys it may have
   */
  public static Optional<Keys> of(Node node, String what, Problems problems, List<String> known) {
    Optional<Node.Mapping> mapping = mapping(node, what, problems);
    mapping.ifPresent(found -> unknownKeys(found, what, problems, known));
    return mapping.map(found -> new Keys(found, what, problems));
  }

  /** A mapping whose keys are names; blank names are told. */
  public static Optional<Node.Mapping> names(Node node, String what, Problems problems) {
    Optional<Node.Mapping> mapping = mapping(node, what, problems);
    mapping.ifPresent(
        found ->
            found
                .entries()
                .values()
                .forEach(
                    entry -> {
                      if (entry.key().isBlank()) {
                        problems.add(entry.keyPlace(), "blank-text", "A name is blank here.");
                      }
                    }));
    return mapping;
  }

  private static Optional<Node.Mapping> mapping(Node node, String what, Problems problems) {
    if (node instanceof Node.Mapping mapping) {
      return Optional.of(mapping);
    }
    Values.wrongType(node, what, "a mapping with keys", problems);
    return Optional.empty();
  }

  private static void unknownKeys(
      Node.Mapping mapping, String what, Problems problems, List<String> known) {
    for (Node.Entry entry : mapping.entries().values()) {
      if (!known.contains(entry.key())) {
        String hint = problems.isFull() ? "" : Spelling.hint(entry.key(), known);
        boolean split =
            mapping.flow()
                && entry.value() instanceof Node.Scalar scalar
                && scalar.kind() == Node.Kind.NOTHING;
        if (hint.isEmpty() && split) {
          hint =
              "A comma inside { … } ends an entry: write decimals with a point, and put a text that"
                  + " has a comma in quotes.";
        } else if (hint.isEmpty()) {
          hint = "Known keys: " + String.join(", ", known) + ".";
        }
        problems.add(
            entry.keyPlace(),
            "unknown-key",
            entry.key().isBlank()
                ? "A key is blank here."
                : Words.quoted(entry.key()) + " is not a key of " + what + ".",
            hint);
      }
    }
  }

  public Place place() {
    return mapping.place();
  }

  public Problems problems() {
    return problems;
  }

  /** The place of a key's value, or of the mapping if the key is missing. */
  public Place place(String key) {
    return node(key).map(Node::place).orElse(mapping.place());
  }

  public boolean has(String key) {
    return mapping.entries().containsKey(key);
  }

  public Optional<Node> node(String key) {
    return mapping.get(key);
  }

  /** The value of a key that may be left out. */
  public <T> Optional<T> optional(String key, Reading<T> reading) {
    return node(key).flatMap(node -> reading.read(node, Words.quoted(key), problems));
  }

  /** The value of a key that must be there. */
  public <T> Optional<T> required(String key, Reading<T> reading) {
    if (!has(key)) {
      problems.add(
          mapping.place(), "missing-key", "The key \"" + key + "\" is missing in " + what + ".");
      return Optional.empty();
    }
    return optional(key, reading);
  }

  /** The values of a list that may be left out; empty when it is. */
  public <T> List<T> list(String key, Reading<T> reading) {
    return optional(key, Values.listOf(reading)).orElse(List.of());
  }

  /** The keys given, in the order written. */
  public List<String> given() {
    return new ArrayList<>(mapping.entries().keySet());
  }
}
