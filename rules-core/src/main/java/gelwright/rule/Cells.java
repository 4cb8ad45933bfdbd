package gelwright.rule;

import gelwright.quantity.Bounded;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;

/** The values of one column of a table by row, and what is missing where there is none. */
final class Cells {
  private Cells() {}

  static String missingRow(Table table, String key) {
    return "row " + key + " of table " + table.name();
  }

  static String missingCell(Table table, String key, String column) {
    return column + " of row " + key + " of table " + table.name();
  }

  static Map<String, Bounded> numbers(Table table, Table.Column column) {
    Map<String, Bounded> values = new HashMap<>();
    for (Table.Row row : table.rows()) {
      values.put(row.key(), number(table, row, column));
    }
    return Map.copyOf(values);
  }

  static Map<String, Chosen> names(Table table, Table.Column column) {
    Map<String, Chosen> values = new HashMap<>();
    for (Table.Row row : table.rows()) {
      values.put(row.key(), names(table, row, column));
    }
    return Map.copyOf(values);
  }

  static Bounded number(Table table, Table.Row row, Table.Column column) {
    return row.cell(column.name()).orElse(null) instanceof Table.Cell.Number number
        ? Bounded.exact(number.value().inBase())
        : Bounded.unknown(Set.of(missingCell(table, row.key(), column.name())));
  }

  static Chosen names(Table table, Table.Row row, Table.Column column) {
    return row.cell(column.name()).orElse(null) instanceof Table.Cell.Names names
        ? Chosen.of(names.names())
        : Chosen.unknown(Set.of(missingCell(table, row.key(), column.name())));
  }
}
