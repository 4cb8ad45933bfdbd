package gelwright.sheets.tree;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * A document as a tree.
 *
 * @param file name as given by the caller; it is only shown, never opened
 * @param root of the tree
 * @param problems what is wrong with the text without hiding the rest of it: a key given twice, an
 *     anchor. A reader tells them together with its own, and gives no value while there are any.
 */
public record Document(String file, Node root, List<Problem> problems) {
  /** How a document is written. */
  public enum Format {
    YAML,
    JSON;

    /** By the end of a file's name: JSON for {@code .json}, else YAML. */
    public static Format of(String file) {
      return file.toLowerCase(Locale.ROOT).endsWith(".json") ? JSON : YAML;
    }
  }

  public Document {
    requireNonNull(file, "file");
    requireNonNull(root, "root");
    problems = List.copyOf(problems);
  }

  /** Reads a document within the usual limits, its format told by the file's name. */
  public static Read<Document> read(byte[] bytes, String file) {
    return read(bytes, file, Format.of(file), Limits.USUAL);
  }

  /**
   * Reads a document. A text that is no YAML or JSON at all, or is past a limit, fails; smaller
   * mistakes are kept in {@link #problems()}.
   *
   * @param bytes UTF-8, with or without a byte order mark
   * @param file shown in problems
   * @param format how it is written
   * @param limits past which reading stops
   */
  public static Read<Document> read(byte[] bytes, String file, Format format, Limits limits) {
    return Decoder.decode(bytes, file, limits)
        .then(
            text ->
                format == Format.JSON
                    ? JsonTree.read(text, file, limits)
                    : YamlTree.read(text, file, limits));
  }

  /**
   * Where each part of the tree is written, by its JSON Pointer in this tree. For a part of a
   * mapping that is the place of its value.
   *
   * @param levels how deep to look; 0 for the root alone
   */
  public Map<String, Place> places(int levels) {
    Map<String, Place> places = new LinkedHashMap<>();
    collect(root, "", levels, places);
    return places;
  }

  private static void collect(Node node, String pointer, int levels, Map<String, Place> places) {
    places.put(pointer, node.place());
    if (levels == 0) {
      return;
    }
    if (node instanceof Node.Mapping mapping) {
      for (Node.Entry entry : mapping.entries().values()) {
        collect(entry.value(), pointer + "/" + Pointers.escape(entry.key()), levels - 1, places);
      }
    } else if (node instanceof Node.Sequence sequence) {
      for (int i = 0; i < sequence.items().size(); i++) {
        collect(sequence.items().get(i), pointer + "/" + i, levels - 1, places);
      }
    }
  }
}
