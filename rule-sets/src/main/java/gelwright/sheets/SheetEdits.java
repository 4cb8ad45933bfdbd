package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Edit;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.List;
import java.util.Optional;

/**
 * A sheet with the edits that are to be made in its text.
 *
 * @param sheet its text
 * @param type its media type: application/yaml, application/json or text/csv
 * @param edits to be made one after the other
 */
public record SheetEdits(String sheet, String type, List<Edit> edits) {
  private static final String YAML = "application/yaml";
  private static final String JSON = "application/json";
  private static final String CSV = "text/csv";

  /** What the sheet is called in problems. */
  private static final String FILE = "sheet";

  public SheetEdits {
    requireNonNull(sheet, "sheet");
    edits = List.copyOf(edits);
    if (!List.of(YAML, JSON, CSV).contains(type)) {
      throw new IllegalArgumentException("type is no media type of a sheet: " + type);
    }
  }

  /** Reads one from a document with these keys. */
  public static Read<SheetEdits> read(Document document) {
    Problems problems = Problems.of(document, Limits.USUAL);
    Optional<Keys> keys =
        Keys.of(document.root(), "a sheet with edits", problems, List.of("sheet", "type", "edits"));
    Optional<SheetEdits> read =
        keys.flatMap(
            given -> {
              Optional<String> sheet = given.required("sheet", SheetEdits::text);
              Optional<String> type = given.required("type", Values.word(List.of(YAML, JSON, CSV)));
              Optional<List<Edit>> edits = given.required("edits", EditReader.EDITS);
              return problems.isEmpty()
                  ? Optional.of(
                      new SheetEdits(sheet.orElseThrow(), type.orElseThrow(), edits.orElseThrow()))
                  : Optional.empty();
            });
    return problems.orElse(read::orElseThrow);
  }

  /** A text with the spaces and line breaks around it. */
  private static Optional<String> text(Node node, String what, Problems problems) {
    return Values.TEXT.read(node, what, problems).map(stripped -> ((Node.Scalar) node).text());
  }

  /** Whether the sheet is a tree and no table. */
  public boolean isTree() {
    return !type.equals(CSV);
  }

  /** How the tree is written. */
  public Document.Format format() {
    return type.equals(JSON) ? Document.Format.JSON : Document.Format.YAML;
  }

  /** The text of the sheet with the edits made; problems have places in the sheet. */
  public Read<String> made(Limits limits) {
    SheetEditor editor = new SheetEditor(limits);
    return isTree()
        ? editor.apply(edits, sheet, FILE, format())
        : editor.applyToTable(edits, sheet, FILE);
  }
}
