package gelwright.rule;

import gelwright.quantity.Bounded;
import gelwright.quantity.Dimension;
import gelwright.quantity.Estimate;
import gelwright.quantity.Numbers;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.util.Optional;
import java.util.TreeSet;

/** How values read in a message or a trace. */
final class Printing {
  static final String UNKNOWN_AMOUNT = "an unknown amount";

  private Printing() {}

  /** The first unit of a dimension in the order of {@link Unit}, which is the usual one. */
  static Optional<Unit> unitOf(Dimension dimension) {
    for (Unit unit : Unit.values()) {
      if (unit.dimension().equals(dimension)) {
        return Optional.of(unit);
      }
    }
    return Optional.empty();
  }

  /**
   * The unit to print a number in: that of its left-most property, else as written, else the usual.
   */
  static Unit unit(Term.OfNumber term) {
    Dimension dimension = term.dimension();
    return propertyUnit(term, dimension)
        .or(() -> constantUnit(term, dimension))
        .or(() -> unitOf(dimension))
        .orElse(Unit.NONE);
  }

  /** The unit that the term itself suggests, if any. */
  static Optional<Unit> writtenUnit(Term.OfNumber term) {
    return propertyUnit(term, term.dimension()).or(() -> constantUnit(term, term.dimension()));
  }

  private static Optional<Unit> propertyUnit(Term term, Dimension dimension) {
    Optional<Unit> own = Optional.empty();
    if (term instanceof Term.NumberProperty property) {
      own = Optional.of(property.property().unit());
    } else if (term instanceof Term.NumberCall call) {
      own = Optional.of(call.function().unit());
    } else if (term instanceof Term.NumberColumn column) {
      own = columnUnit(column.table(), column.column());
    } else if (term instanceof Term.NumberLookup lookup) {
      own = columnUnit(lookup.table(), lookup.column());
    }
    if (own.isPresent() && own.get().dimension().equals(dimension)) {
      return own;
    }
    if (own.isPresent()) {
      return Optional.empty();
    }
    for (Term part : Checker.parts(term)) {
      Optional<Unit> found = propertyUnit(part, dimension);
      if (found.isPresent()) {
        return found;
      }
    }
    return Optional.empty();
  }

  private static Optional<Unit> constantUnit(Term term, Dimension dimension) {
    if (term instanceof Term.Constant constant) {
      return constant.dimension().equals(dimension)
          ? Optional.of(constant.unit())
          : Optional.empty();
    }
    if (term instanceof Term.NumberCall) {
      return Optional.empty();
    }
    for (Term part : Checker.parts(term)) {
      Optional<Unit> found = constantUnit(part, dimension);
      if (found.isPresent()) {
        return found;
      }
    }
    return Optional.empty();
  }

  private static Optional<Unit> columnUnit(Table table, Table.Column column) {
    for (Table.Row row : table.rows()) {
      if (row.cell(column.name()).orElse(null) instanceof Table.Cell.Number number) {
        return Optional.of(number.value().unit());
      }
    }
    return Optional.empty();
  }

  /** A part of a text on one line. */
  static String written(Term term, Text text) {
    return text.text().substring(term.start(), term.end()).strip().replaceAll("\\s+", " ");
  }

  /**
   * A number as a message says it: "14 %", "about 9.6 % (7.9 to 11.5 %)", "at most 3.2 Pa", "an
   * unknown amount". A lower bound of zero is no news of a quantity that is never negative.
   */
  static String number(Bounded value, Unit unit) {
    if (value.isKnown()) {
      Estimate estimate = value.atLeast();
      if (Double.isInfinite(estimate.likely())) {
        return UNKNOWN_AMOUNT;
      }
      if (estimate.isExact()) {
        return figure(estimate.likely(), unit);
      }
      String likely = figure(estimate.likely(), unit);
      Bounded.Range range = value.range(unit.dimension());
      // A doubt too small to be seen in the digits is not told.
      boolean narrow =
          likely.equals(figure(range.low(), unit)) && likely.equals(figure(range.high(), unit));
      return narrow ? "about " + likely : "about " + likely + " (" + range(range, unit) + ")";
    }
    Bounded.Range range = value.range(unit.dimension());
    double low = range.low();
    double high = range.high();
    boolean signed = unit == Unit.PH || unit.dimension().point();
    boolean fromBelow = Double.isInfinite(low) || (!signed && low == 0);
    boolean fromAbove =
        Double.isInfinite(high) || (unit.dimension().equals(Dimension.SHARE) && high >= 100);
    if (fromBelow && fromAbove) {
      return UNKNOWN_AMOUNT;
    }
    if (fromBelow) {
      return "at most " + figure(high, unit);
    }
    if (fromAbove) {
      return "at least " + figure(low, unit);
    }
    return "between " + bare(low, unit) + " and " + figure(high, unit);
  }

  private static String range(Bounded.Range range, Unit unit) {
    return bare(range.low(), unit) + " to " + figure(range.high(), unit);
  }

  private static String figure(double base, Unit unit) {
    return Quantity.print(unit.fromBase(base), unit);
  }

  private static String bare(double base, Unit unit) {
    String text = figure(base, unit);
    String tail = " " + unit.symbol();
    return !unit.symbol().isEmpty() && text.endsWith(tail)
        ? text.substring(0, text.length() - tail.length())
        : text;
  }

  /** Names in alphabetical order. */
  static String names(Chosen chosen) {
    if (chosen.names().isEmpty()) {
      return chosen.isKnown() ? "none" : "unknown";
    }
    String known = String.join(", ", new TreeSet<>(chosen.names()));
    return chosen.isKnown() ? known : known + " and perhaps others";
  }

  /** Odds as a trace says them. */
  static String odds(Odds odds) {
    if (odds.low() == 1) {
      return "true";
    }
    if (odds.high() == 0) {
      return "false";
    }
    if (odds.low() == odds.high()) {
      return "odds " + Numbers.significant(odds.low(), 2);
    }
    if (odds.low() == 0 && odds.high() == 1) {
      return "unknown";
    }
    return "odds "
        + Numbers.significant(odds.low(), 2)
        + " to "
        + Numbers.significant(odds.high(), 2);
  }
}
