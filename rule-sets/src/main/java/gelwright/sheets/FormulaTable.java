package gelwright.sheets;

import gelwright.problem.Place;
import gelwright.problem.Spelling;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import gelwright.sheets.tree.Words;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * Turns a table of phase, name and share into the tree that a formula sheet has under {@code
 * ingredients}, each cell with its place.
 *
 * <p>Whether a comma in a number is a decimal comma is decided for the file as a whole: it is, if
 * the cells are separated by something else and at least one number could not mean anything else
 * (as in {@code 0,5}; {@code 1,250} could). Numbers that can be read in two ways are problems.
 */
final class FormulaTable {
  private static final Map<String, String> HEADERS = headers();
  static final List<String> NUMBERS = List.of("share", "strength", "size");
  private static final Pattern REST =
      Pattern.compile("(q\\.?\\s?s\\.?(\\s*(to|ad)?\\s*100\\s*%?)?|ad\\s*100\\s*%?)");
  static final Pattern COMMA_NUMBER = Pattern.compile("([-+]?\\d*),(\\d+)(\\s*\\D*)");
  private static final Pattern BOTH = Pattern.compile(".*\\d[.,]\\d+[.,]\\d.*");
  private static final Pattern POINT_NUMBER = Pattern.compile("[-+]?\\d*\\.\\d+\\s*\\D*");

  private final String text;
  private final String file;
  private final Problems problems;
  private final Limits limits;
  private final char separator;

  /** How many characters have been counted lines in, and the line they end on. */
  private int counted;

  private int countedLine = 1;

  private FormulaTable(String text, String file, Limits limits) {
    this.text = text;
    this.file = file;
    this.limits = limits;
    this.problems = new Problems(limits);
    this.separator = separator(text);
  }

  private static Map<String, String> headers() {
    Map<String, String> headers = new LinkedHashMap<>();
    FormulaWords.LINE.forEach(key -> headers.put(key, key));
    headers.put("inci", "name");
    headers.put("inci name", "name");
    headers.put("%", "share");
    headers.put("% w/w", "share");
    headers.put("share %", "share");
    headers.put("share (%)", "share");
    return Map.copyOf(headers);
  }

  static Read<Node.Sequence> read(String text, String file, Limits limits) {
    FormulaTable table = new FormulaTable(text, file, limits);
    List<List<Cell>> rows = table.rows();
    Optional<Node.Sequence> lines = table.problems.isEmpty() ? table.lines(rows) : Optional.empty();
    return table.problems.orElse(lines::orElseThrow);
  }

  /** The separator that the first line with anything in it has most of, outside quotes. */
  static char separator(String text) {
    String first = text.lines().filter(line -> !line.isBlank()).findFirst().orElse("");
    char best = ',';
    int most = 0;
    for (char candidate : new char[] {';', '\t', ','}) {
      int count = 0;
      boolean quoted = false;
      for (int i = 0; i < first.length(); i++) {
        if (first.charAt(i) == '"') {
          quoted = !quoted;
        } else if (first.charAt(i) == candidate && !quoted) {
          count++;
        }
      }
      if (count > most) {
        most = count;
        best = candidate;
      }
    }
    return best;
  }

  private record Cell(String text, Place place) {}

  private List<List<Cell>> rows() {
    List<List<Cell>> rows = new ArrayList<>();
    CSVFormat format =
        CSVFormat.DEFAULT
            .builder()
            .setDelimiter(separator)
            .setIgnoreEmptyLines(true)
            .setTrim(true)
            .get();
    long line = 1;
    try (CSVParser parser =
        CSVParser.builder().setReader(new StringReader(text)).setFormat(format).get()) {
      Iterator<CSVRecord> records = parser.iterator();
      while (true) {
        line = parser.getCurrentLineNumber() + 1;
        if (!records.hasNext()) {
          return rows;
        }
        CSVRecord row = records.next();
        if (row.size() * (rows.size() + 1L) > limits.nodes()) {
          problems.add(
              place(line, 1),
              "too-many-nodes",
              "The table has more than " + limits.nodes() + " cells.");
          return rows;
        }
        rows.add(cells(row));
      }
    } catch (IOException | UncheckedIOException exception) {
      problems.add(
          place(Math.min(line, text.lines().count()), 1),
          "not-csv",
          "The row that starts here cannot be read as a table.",
          "A quote must be closed, and after the closing quote the cell must end. A quote inside a"
              + " quoted cell is written twice.");
      return rows;
    }
  }

  private Place place(long line, int column) {
    return new Place(file, (int) Math.max(1, line), column, "");
  }

  /** The cells of a row with their places, found by walking over its characters once more. */
  private List<Cell> cells(CSVRecord row) {
    List<Cell> cells = new ArrayList<>();
    int index = (int) row.getCharacterPosition();
    while (index < text.length() && (text.charAt(index) == '\n' || text.charAt(index) == '\r')) {
      index++;
    }
    int line = lineAt(index);
    int column = columnAt(index);
    for (int i = 0; i < row.size(); i++) {
      String value = row.get(i);
      int start = column;
      int startLine = line;
      boolean quoted = false;
      boolean begun = false;
      while (index < text.length()) {
        char character = text.charAt(index);
        if (!begun && !Character.isWhitespace(character)) {
          begun = true;
          start = column;
          startLine = line;
        }
        if (character == '"') {
          quoted = !quoted;
        } else if (!quoted && (character == separator || character == '\n' || character == '\r')) {
          break;
        }
        index++;
        if (character == '\n') {
          line++;
          column = 1;
        } else {
          column++;
        }
      }
      index++;
      column++;
      if (value.length() > limits.scalarLength()) {
        problems.add(
            place(startLine, start),
            "too-long",
            "A cell of "
                + value.length()
                + " characters starts here; at most "
                + limits.scalarLength()
                + " are read.");
      }
      cells.add(new Cell(value, place(startLine, start)));
    }
    return cells;
  }

  /**
   * The line of a character; rows are asked for in their order, so the text is walked over once.
   */
  private int lineAt(int index) {
    for (; counted < Math.min(index, text.length()); counted++) {
      char character = text.charAt(counted);
      boolean lone =
          character == '\r' && (counted + 1 >= text.length() || text.charAt(counted + 1) != '\n');
      if (character == '\n' || lone) {
        countedLine++;
      }
    }
    return countedLine;
  }

  private int columnAt(int index) {
    int start = index;
    while (start > 0 && text.charAt(start - 1) != '\n' && text.charAt(start - 1) != '\r') {
      start--;
    }
    return index - start + 1;
  }

  private Optional<Node.Sequence> lines(List<List<Cell>> rows) {
    if (rows.isEmpty()) {
      problems.add(place(1, 1), "empty-document", "The table is empty.");
      return Optional.empty();
    }
    List<String> columns = columns(rows.get(0));
    List<List<Cell>> filled =
        rows.subList(1, rows.size()).stream()
            .filter(row -> row.stream().anyMatch(cell -> !cell.text().isBlank()))
            .toList();
    if (filled.isEmpty()) {
      problems.add(
          rows.get(0).get(0).place(), "empty-list", "The table has a header but no ingredients.");
    }
    boolean decimalComma = decimalComma(filled, columns);
    boolean decimalPoint = anyNumber(filled, columns, POINT_NUMBER);
    List<Node> lines = new ArrayList<>();
    for (List<Cell> row : filled) {
      lines.add(line(row, columns, decimalComma, decimalPoint));
    }
    return problems.isEmpty()
        ? Optional.of(new Node.Sequence(filled.get(0).get(0).place(), lines))
        : Optional.empty();
  }

  private static String heading(String cell) {
    return cell.strip().toLowerCase(Locale.ROOT).replaceAll("\\s+", " ");
  }

  /** The key that a column of this heading has on a sheet; empty where it has none. */
  static String column(String cell) {
    return HEADERS.getOrDefault(heading(cell), "");
  }

  private List<String> columns(List<Cell> header) {
    List<String> columns = new ArrayList<>();
    for (Cell cell : header) {
      String name = heading(cell.text());
      String key = column(cell.text());
      if (key.isEmpty()) {
        String hint = Spelling.hint(name, HEADERS.keySet());
        problems.add(
            cell.place(),
            "unknown-column",
            name.isEmpty()
                ? "A column has no heading."
                : Words.quoted(cell.text()) + " is no column of a recipe.",
            hint.isEmpty() ? "Columns: " + String.join(", ", FormulaWords.LINE) + "." : hint);
      } else if (columns.contains(key)) {
        problems.add(cell.place(), "duplicate-key", "The column \"" + key + "\" is there twice.");
      }
      columns.add(key);
    }
    for (String needed : List.of("name", "share")) {
      if (!columns.contains(needed)) {
        problems.add(
            header.get(0).place(), "missing-key", "The column \"" + needed + "\" is missing.");
      }
    }
    return columns;
  }

  /**
   * Whether some number of a file not separated by commas has a comma that can only be a decimal
   * one.
   */
  private boolean decimalComma(List<List<Cell>> rows, List<String> columns) {
    return separator != ','
        && numbers(rows, columns)
            .anyMatch(
                number -> {
                  var match = COMMA_NUMBER.matcher(number);
                  return match.matches()
                      && (match.group(2).length() != 3
                          || match.group(1).replaceAll("[-+]", "").matches("0*"));
                });
  }

  private static boolean anyNumber(List<List<Cell>> rows, List<String> columns, Pattern pattern) {
    return numbers(rows, columns).anyMatch(number -> pattern.matcher(number).matches());
  }

  private static java.util.stream.Stream<String> numbers(
      List<List<Cell>> rows, List<String> columns) {
    return rows.stream()
        .flatMap(
            row ->
                java.util.stream.IntStream.range(0, Math.min(row.size(), columns.size()))
                    .filter(i -> NUMBERS.contains(columns.get(i)))
                    .mapToObj(i -> row.get(i).text().strip()));
  }

  private Node line(
      List<Cell> row, List<String> columns, boolean decimalComma, boolean decimalPoint) {
    Map<String, Node.Entry> entries = new LinkedHashMap<>();
    for (int i = 0; i < row.size(); i++) {
      Cell cell = row.get(i);
      if (cell.text().isBlank()) {
        continue;
      }
      if (i >= columns.size()) {
        problems.add(
            cell.place(),
            "extra-cell",
            "This row has more cells than the header.",
            "A cell that contains the separator needs quotes.");
        break;
      }
      String key = columns.get(i);
      String value = cell.text().strip();
      if (key.equals("share")) {
        value = share(value);
      }
      if (NUMBERS.contains(key)) {
        value = number(value, cell, decimalComma, decimalPoint);
      }
      if (!key.isEmpty()) {
        entries.put(key, new Node.Entry(key, cell.place(), Node.Scalar.text(value, cell.place())));
      }
    }
    return new Node.Mapping(row.get(0).place(), entries, false);
  }

  /** The trade's ways to write "what is left to 100 %". */
  private static String share(String value) {
    String lower = value.toLowerCase(Locale.ROOT);
    if (lower.equals("rest") || REST.matcher(lower).matches()) {
      return "rest";
    }
    return lower.equals("to-ph") ? "to-pH" : value;
  }

  private String number(String value, Cell cell, boolean decimalComma, boolean decimalPoint) {
    if (BOTH.matcher(value).matches()) {
      ambiguous(cell, "It has two separators.");
      return "0 %";
    }
    var comma = COMMA_NUMBER.matcher(value);
    if (!comma.matches()) {
      if (decimalComma && POINT_NUMBER.matcher(value).matches()) {
        ambiguous(cell, "Other numbers of this table have a decimal comma.");
        return "0 %";
      }
      return value;
    }
    if (separator == ',') {
      ambiguous(cell, "The cells are separated by commas, too.");
      return "0 %";
    }
    if (!decimalComma) {
      ambiguous(cell, "The comma could part decimals or thousands.");
      return "0 %";
    }
    if (decimalPoint) {
      ambiguous(cell, "Other numbers of this table have a decimal point.");
      return "0 %";
    }
    return (comma.group(1).isEmpty() ? "0" : comma.group(1))
        + "."
        + comma.group(2)
        + comma.group(3);
  }

  private void ambiguous(Cell cell, String why) {
    problems.add(
        cell.place(),
        "ambiguous-number",
        Words.quoted(cell.text()) + " can be read in more than one way. " + why,
        "Write all decimals of the table with a point.");
  }
}
