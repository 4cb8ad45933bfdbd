package gelwright.rule;

import gelwright.problem.Place;
import gelwright.quantity.Quantity;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Data beside the rules: one rule serves every row. Looked up by key ({@code
 * texture-windows[product.texture].least-yield}) or gone through ({@code for each: row of TABLE}).
 *
 * @param name kebab-case, unique among all tables of a rule book
 * @param columns by name
 * @param rows in order
 * @param place of the table
 */
public record Table(String name, Map<String, Column> columns, List<Row> rows, Place place) {
  public Table {
    columns = Map.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /**
   * A column.
   *
   * @param name kebab-case
   * @param type of its cells
   */
  public record Column(String name, Type type) {}

  /**
   * A row.
   *
   * @param key unique within the table
   * @param cells by column name; a column may be left out, it is then unknown
   * @param sources ids of sources of this row
   * @param place of the row
   */
  public record Row(String key, Map<String, Cell> cells, List<Text> sources, Place place) {
    public Row {
      cells = Map.copyOf(cells);
      sources = List.copyOf(sources);
    }

    public Optional<Cell> cell(String column) {
      return Optional.ofNullable(cells.get(column));
    }

    /** The names of a cell, sorted; none where it is left out or holds a number. */
    public List<String> names(String column) {
      return cells.get(column) instanceof Cell.Names names
          ? names.names().stream().sorted().toList()
          : List.of();
    }

    /** The one name of a cell; empty where it is left out, holds a number or several names. */
    public Optional<String> name(String column) {
      List<String> names = names(column);
      return names.size() == 1 ? Optional.of(names.get(0)) : Optional.empty();
    }

    /** The number of a cell in base units; empty where it is left out or holds names. */
    public Optional<Double> number(String column) {
      return cells.get(column) instanceof Cell.Number number
          ? Optional.of(number.value().inBase())
          : Optional.empty();
    }
  }

  /** A cell's value. */
  public sealed interface Cell {
    record Number(Quantity value) implements Cell {}

    /** One name, or several for a column of choices. */
    record Names(Set<String> names) implements Cell {
      public Names {
        names = Set.copyOf(names);
      }
    }
  }
}
