package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Bounded;
import gelwright.quantity.Unit;

/**
 * A number of a comparison as a report shows it.
 *
 * @param name as the rule writes it: {@code oil.share}, or the text of an expression
 * @param value in the base unit
 * @param unit to print it in; {@link Unit#NONE} where no unit measures it
 */
public record Named(String name, Bounded value, Unit unit) {
  public Named {
    requireNonNull(name, "name");
    requireNonNull(value, "value");
    requireNonNull(unit, "unit");
  }

  /** The number with its unit and its range, as in a message. */
  public String print() {
    return Printing.number(value, unit);
  }
}
