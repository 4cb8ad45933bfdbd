package gelwright.rule;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Rows of a table that a rule cannot tell apart while the recipe has no ingredient they name. A
 * table of the law has hundreds of rows and a recipe a dozen ingredients, so most rows come to what
 * one of their like comes to.
 */
public final class Alike {
  // Two rows are alike when every cell that the terms read is the same in both, but for those that
  // are read as names of ingredients alone. Of such a cell the function makes zero, whatever it
  // names, if the recipe has none of it (Vocabulary.Function#ofIngredients); a cell that is left
  // out
  // makes an unknown, so whether it is there counts. What is missing may be called differently in
  // two rows that are alike; whether something is missing may not.
  private final int[] conditions;
  private final int[] outcomes;
  private final List<Set<String>> named;

  private Alike(int[] conditions, int[] outcomes, List<Set<String>> named) {
    this.conditions = conditions;
    this.outcomes = outcomes;
    this.named = List.copyOf(named);
  }

  static Alike of(Table table, List<? extends Term> condition, List<? extends Term> requirement) {
    Reads ofCondition = new Reads();
    condition.forEach(ofCondition::add);
    Reads ofAll = new Reads();
    condition.forEach(ofAll::add);
    requirement.forEach(ofAll::add);
    List<Set<String>> named = new ArrayList<>();
    for (Table.Row row : table.rows()) {
      Set<String> names = new HashSet<>();
      for (String column : ofAll.asIngredients) {
        if (row.cell(column).orElse(null) instanceof Table.Cell.Names cell) {
          names.addAll(cell.names());
        }
      }
      named.add(Set.copyOf(names));
    }
    return new Alike(ofCondition.groups(table), ofAll.groups(table), named);
  }

  /** How many rows there are. */
  public int rows() {
    return named.size();
  }

  /**
   * A number that two rows share if, without the ingredients they name, the rule applies to both or
   * to neither.
   *
   * @param row its number in the table
   */
  public int condition(int row) {
    return conditions[row];
  }

  /**
   * A number that two rows share if, without the ingredients they name, the same becomes of the
   * rule for both.
   *
   * @param row its number in the table
   */
  public int outcome(int row) {
    return outcomes[row];
  }

  /**
   * The ingredients that the rule looks for, as the row names them.
   *
   * @param row its number in the table
   */
  public Set<String> named(int row) {
    return named.get(row);
  }

  /** What terms read of a row. */
  private static final class Reads {
    final Set<String> asIngredients = new HashSet<>();
    private final Set<String> cells = new HashSet<>();
    private boolean key;

    void add(Term term) {
      if (term instanceof Term.NumberColumn column) {
        cells.add(column.column().name());
      } else if (term instanceof Term.NamesColumn column) {
        cells.add(column.column().name());
      } else if (term instanceof Term.SubjectName) {
        key = true;
      }
      boolean ofIngredients =
          term instanceof Term.NumberCall call && call.function().ofIngredients();
      for (Term part : Checker.parts(term)) {
        if (ofIngredients && part instanceof Term.NamesColumn column) {
          asIngredients.add(column.column().name());
        } else {
          add(part);
        }
      }
    }

    int[] groups(Table table) {
      Map<List<Object>, Integer> numbers = new HashMap<>();
      int[] groups = new int[table.rows().size()];
      for (int i = 0; i < groups.length; i++) {
        Table.Row row = table.rows().get(i);
        List<Object> seen = new ArrayList<>();
        for (String cell : cells) {
          seen.add(row.cell(cell));
        }
        for (String cell : asIngredients) {
          seen.add(row.cell(cell).isPresent());
        }
        if (key) {
          seen.add(Optional.of(row.key()));
        }
        groups[i] = numbers.computeIfAbsent(seen, each -> numbers.size());
      }
      return groups;
    }
  }
}
