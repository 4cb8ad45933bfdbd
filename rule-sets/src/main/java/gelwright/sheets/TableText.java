package gelwright.sheets;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The text of a recipe as a table, with some cells or a row changed.
 *
 * <p>A cell keeps its quotes and the spaces around it; a number keeps the decimal comma of its
 * table, and goes without its sign of percent where the one before it did.
 */
final class TableText {
  private static final Pattern DECIMAL = Pattern.compile("(-?[0-9]+)\\.([0-9]+)(.*)");
  private static final Pattern BARE = Pattern.compile("[-+]?[0-9]*[.,]?[0-9]+");

  /**
   * A cell; its quotes are within, the spaces around it are not. Only a quote that opens a cell is
   * one; any other is a character like the rest.
   */
  private record Cell(int start, int end, boolean quoted) {}

  /** A row with the characters it takes, without its line break. */
  private record Row(int start, int end, List<Cell> cells) {}

  private final String text;
  private final char separator;
  private final List<String> columns;
  private final Row header;
  private final List<Row> rows;

  /**
   * @param text a table that has been read and found sound
   */
  TableText(String text) {
    this.text = text;
    this.separator = FormulaTable.separator(text);
    List<Row> all = new ArrayList<>();
    for (Row row : split()) {
      if (!text.substring(row.start(), row.end()).isEmpty()) {
        all.add(row);
      }
    }
    this.header = all.get(0);
    this.columns = header.cells().stream().map(cell -> FormulaTable.column(read(cell))).toList();
    this.rows =
        all.stream()
            .skip(1)
            .filter(row -> row.cells().stream().anyMatch(cell -> !read(cell).isBlank()))
            .toList();
  }

  /**
   * The table with an edit made: the text, and should that not be read as it is meant, another;
   * none where the table has no place for it.
   */
  List<String> changed(Edit edit) {
    if (edit instanceof Edit.OfAmount each) {
      return cells(each.line(), Map.of("share", WrittenEdit.amount(each.to())));
    }
    if (edit instanceof Edit.OfPhase each) {
      return cells(each.line(), Map.of("phase", each.to()));
    }
    if (edit instanceof Edit.OfSize each) {
      return cells(each.line(), Map.of("size", WrittenEdit.quantity(each.to())));
    }
    if (edit instanceof Edit.Substitution each) {
      Map<String, String> values = new LinkedHashMap<>();
      values.put("name", each.with());
      values.put("share", WrittenEdit.amount(each.to()));
      for (String key : FormulaWords.OF_ONE_MATERIAL) {
        if (columns.contains(key)) {
          values.put(key, "");
        }
      }
      return cells(each.line(), values);
    }
    if (edit instanceof Edit.Removal each) {
      return List.of(without(rows.get(each.line())));
    }
    return edit instanceof Edit.Addition each ? added(each) : List.of();
  }

  private List<String> cells(int line, Map<String, String> values) {
    if (!columns.containsAll(values.keySet())) {
      return List.of();
    }
    return ways(padded -> with(rows.get(line), values, padded));
  }

  private interface Way {
    String text(boolean padded);
  }

  /**
   * In a table with decimal commas, three decimals can look like thousands; a fourth settles it.
   */
  private List<String> ways(Way way) {
    return List.of(way.text(false), way.text(true));
  }

  private String with(Row row, Map<String, String> values, boolean padded) {
    StringBuilder changed = new StringBuilder(text);
    for (int i = columns.size() - 1; i >= 0; i--) {
      String value = values.get(columns.get(i));
      if (value == null) {
        continue;
      }
      if (i < row.cells().size()) {
        Cell cell = row.cells().get(i);
        changed.replace(cell.start(), cell.end(), inPlaceOf(cell, columns.get(i), value, padded));
      } else if (!value.isEmpty()) {
        // The row is shorter than the header: the cells between are empty.
        StringBuilder tail = new StringBuilder();
        for (int j = row.cells().size(); j < i; j++) {
          tail.append(separator);
        }
        tail.append(separator).append(cell(number(columns.get(i), value, padded), false));
        changed.insert(row.end(), tail);
      }
    }
    return changed.toString();
  }

  private String inPlaceOf(Cell cell, String column, String value, boolean padded) {
    boolean bare = column.equals("share") && BARE.matcher(read(cell).strip()).matches();
    String shown = bare && value.endsWith(" %") ? value.substring(0, value.length() - 2) : value;
    return cell(number(column, shown, padded), cell.quoted());
  }

  private List<String> added(Edit.Addition edit) {
    Map<String, Object> values = WrittenEdit.line(edit);
    if (!columns.containsAll(values.keySet())) {
      return List.of();
    }
    Row beside = rows.get(Math.max(0, edit.line() - 1));
    return ways(
        padded -> {
          StringBuilder row = new StringBuilder();
          for (int i = 0; i < columns.size(); i++) {
            String column = columns.get(i);
            String value = String.valueOf(values.getOrDefault(column, ""));
            boolean share = edit.to() instanceof Amount.Stated && column.equals("share");
            if (share && bareShares()) {
              value = value.substring(0, value.length() - 2);
            }
            boolean quoted = i < beside.cells().size() && beside.cells().get(i).quoted();
            row.append(i == 0 ? "" : String.valueOf(separator))
                .append(cell(number(column, value, padded), quoted && !value.isEmpty()));
          }
          String lineBreak = TreeText.lineBreak(text);
          StringBuilder changed = new StringBuilder(text);
          if (edit.line() == 0) {
            changed.insert(beside.start(), row + lineBreak);
          } else {
            changed.insert(beside.end(), lineBreak + row);
          }
          return changed.toString();
        });
  }

  /** Whether the shares of the table go without a sign of percent. */
  private boolean bareShares() {
    int column = columns.indexOf("share");
    return rows.stream()
        .filter(row -> column < row.cells().size())
        .map(row -> read(row.cells().get(column)).strip())
        .anyMatch(share -> BARE.matcher(share).matches());
  }

  private String without(Row row) {
    int from = row.start();
    int to = row.end();
    if (to < text.length()) {
      to += text.startsWith("\r\n", to) ? 2 : 1;
    } else {
      from -= text.startsWith("\r\n", Math.max(0, from - 2)) ? 2 : 1;
    }
    return text.substring(0, from) + text.substring(to);
  }

  private String number(String column, String value, boolean padded) {
    Matcher match = DECIMAL.matcher(value);
    if (!FormulaTable.NUMBERS.contains(column) || !decimalComma() || !match.matches()) {
      return value;
    }
    boolean unclear = padded && match.group(2).length() == 3;
    return match.group(1) + "," + match.group(2) + (unclear ? "0" : "") + match.group(3);
  }

  private boolean decimalComma() {
    return separator != ','
        && rows.stream()
            .flatMap(
                row ->
                    row.cells().stream()
                        .filter(cell -> isNumber(row, cell))
                        .map(cell -> read(cell).strip()))
            .anyMatch(number -> FormulaTable.COMMA_NUMBER.matcher(number).matches());
  }

  private boolean isNumber(Row row, Cell cell) {
    int index = row.cells().indexOf(cell);
    return index < columns.size() && FormulaTable.NUMBERS.contains(columns.get(index));
  }

  private String cell(String value, boolean quoted) {
    boolean needs =
        quoted
            || !value.equals(value.strip())
            || value.indexOf(separator) >= 0
            || value.indexOf('"') >= 0
            || value.indexOf('\n') >= 0
            || value.indexOf('\r') >= 0;
    return needs ? "\"" + value.replace("\"", "\"\"") + "\"" : value;
  }

  private String read(Cell cell) {
    String written = text.substring(cell.start(), cell.end());
    return cell.quoted()
        ? written.substring(1, written.length() - 1).replace("\"\"", "\"")
        : written;
  }

  private List<Row> split() {
    List<Row> all = new ArrayList<>();
    List<Cell> cells = new ArrayList<>();
    int rowStart = 0;
    int cellStart = 0;
    boolean quoted = false;
    for (int i = 0; i <= text.length(); i++) {
      char character = i == text.length() ? '\n' : text.charAt(i);
      boolean end = i == text.length() || (!quoted && (character == '\n' || character == '\r'));
      if (!end && character == '"') {
        if (quoted && text.startsWith("\"\"", i)) {
          i++;
        } else {
          quoted = !quoted && i == cellStart;
        }
      }
      if (end || (!quoted && character == separator)) {
        cells.add(trimmed(cellStart, i));
        cellStart = i + 1;
      }
      if (end) {
        all.add(new Row(rowStart, i, cells));
        cells = new ArrayList<>();
        if (character == '\r' && text.startsWith("\r\n", i)) {
          i++;
        }
        rowStart = i + 1;
        cellStart = i + 1;
      }
    }
    return all;
  }

  private Cell trimmed(int from, int to) {
    int start = from;
    int end = to;
    while (start < end && Character.isWhitespace(text.charAt(start))) {
      start++;
    }
    while (end > start && Character.isWhitespace(text.charAt(end - 1))) {
      end--;
    }
    boolean quoted = start == from && end - start > 1 && text.charAt(start) == '"';
    return new Cell(start, end, quoted);
  }
}
