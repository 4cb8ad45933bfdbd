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
