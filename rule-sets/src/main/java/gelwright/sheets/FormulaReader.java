package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.problem.Problem;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Decoder;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Reads formula sheets: YAML, JSON, or the trade's table as CSV.
 *
 * <p>Immutable and safe to share between threads. Whatever is wrong with a sheet is told in one
 * pass, each problem with its place; a sheet with a problem gives no formula.
 */
public final class FormulaReader {
  private final Limits limits;

  /** A reader with the usual limits. */
  public FormulaReader() {
    this(Limits.USUAL);
  }

  public FormulaReader(Limits limits) {
    this.limits = requireNonNull(limits, "limits");
  }

  /**
   * Reads a sheet; the file's name tells its format: {@code .json}, {@code .csv} (also {@code .tsv}
   * and {@code .txt}), else YAML.
   *
   * @param bytes UTF-8
   * @param file shown in problems, never opened
   */
  public Read<Formula> read(byte[] bytes, String file) {
    return isTable(file)
        ? readTable(bytes, file, Optional.empty())
        : read(bytes, file, Document.Format.of(file));
  }

  /** Reads a sheet in YAML or JSON. */
  public Read<Formula> read(byte[] bytes, String file, Document.Format format) {
    return Document.read(bytes, file, format, limits).then(this::read);
  }

  /** Reads a sheet that is a tree already. */
  public Read<Formula> read(Document document) {
    Problems problems = Problems.of(document, limits);
    Optional<Formula> formula = new FormulaMapping(document, problems).read();
    return problems.orElse(formula::orElseThrow);
  }

  /** Whether a file's name says that it is a table. */
  public static boolean isTable(String file) {
    String name = file.toLowerCase(Locale.ROOT);
    return name.endsWith(".csv") || name.endsWith(".tsv") || name.endsWith(".txt");
  }

  /**
   * Reads a recipe as a table with the columns phase, name and share, and the rest of the formula
   * from a sheet beside it that has no {@code ingredients}.
   *
   * @param bytes UTF-8; cells separated by commas, semicolons or tabs
   * @param file shown in problems; without a sheet beside it the formula is named after it
   * @param beside brief, method and the rest, if there is such a sheet
   */
  public Read<Formula> readTable(byte[] bytes, String file, Optional<Document> beside) {
    return Decoder.decode(bytes, file, limits)
        .then(text -> FormulaTable.read(text, file, limits))
        .then(lines -> read(joined(lines, file, beside)));
  }

  private static Document joined(Node.Sequence lines, String file, Optional<Document> beside) {
    Map<String, Node.Entry> entries = new LinkedHashMap<>();
    Document sheet =
        beside.orElseGet(
            () -> new Document(file, new Node.Mapping(lines.place(), Map.of(), false), List.of()));
    if (!(sheet.root() instanceof Node.Mapping mapping)) {
      return sheet;
    }
    entries.putAll(mapping.entries());
    if (beside.isEmpty()) {
      entries.put(
          "formula",
          new Node.Entry("formula", lines.place(), Node.Scalar.text(title(file), lines.place())));
    }
    List<Problem> problems = new ArrayList<>(sheet.problems());
    Node.Entry twice = entries.get("ingredients");
    if (twice != null) {
      problems.add(
          new Problem(
              twice.keyPlace(),
              "ingredients-twice",
              "The ingredients are given here and in the table " + file + ".",
              "Leave them out of one of the two."));
    }
    entries.put("ingredients", new Node.Entry("ingredients", lines.place(), lines));
    return new Document(
        sheet.file(), new Node.Mapping(mapping.place(), entries, mapping.flow()), problems);
  }

  /** The file's name without folder and ending: "shade-mist" of "recipes/shade-mist.csv". */
  private static String title(String file) {
    String name = file.substring(Math.max(file.lastIndexOf('/'), file.lastIndexOf('\\')) + 1);
    int dot = name.lastIndexOf('.');
    String title = dot > 0 ? name.substring(0, dot) : name;
    return title.isBlank() ? "table" : title;
  }
}
