package gelwright.rule;

import gelwright.quantity.Dimension;
import gelwright.quantity.Unit;
import java.util.List;
import java.util.Set;

/**
 * An expression as checked: every name is resolved and every type is right. {@link Compiler} turns
 * it into closures, {@link Walker} goes through it for a trace.
 */
sealed interface Term {
  int start();

  int end();

  /** An expression that is a number. */
  sealed interface OfNumber extends Term {
    Dimension dimension();
  }

  /** An expression that is a name or several. */
  sealed interface OfNames extends Term {
    /** {@link Type.Choice} or {@link Type.Choices}. */
    Type type();
  }

  /** An expression that is true or false. */
  sealed interface OfTruth extends Term {}

  /** Where a property is read. */
  enum Scope {
    FORMULA,
    ITEM
  }

  /** A number as written, in the base unit. */
  record Constant(double base, Unit unit, int start, int end) implements OfNumber {
    @Override
    public Dimension dimension() {
      return unit.dimension();
    }
  }

  record NumberProperty(
      Vocabulary.Property property,
      Dimension dimension,
      String name,
      Scope scope,
      int start,
      int end)
      implements OfNumber {}

  /** A cell of the row that the rule goes through. */
  record NumberColumn(Table table, Table.Column column, Dimension dimension, int start, int end)
      implements OfNumber {}

  record NumberLookup(
      Table table, OfNames key, Table.Column column, Dimension dimension, int start, int end)
      implements OfNumber {}

  /** Every argument is {@link OfNumber} or {@link OfNames}. */
  record NumberCall(Vocabulary.Function function, List<Term> arguments, int start, int end)
      implements OfNumber {
    public NumberCall {
      arguments = List.copyOf(arguments);
    }

    @Override
    public Dimension dimension() {
      return function.result().dimension();
    }
  }

  record Arithmetic(
      Syntax.Operator operator,
      OfNumber left,
      OfNumber right,
      Dimension dimension,
      int start,
      int end)
      implements OfNumber {}

  record Negative(OfNumber operand, int start, int end) implements OfNumber {
    @Override
    public Dimension dimension() {
      return operand.dimension();
    }
  }

  /** {@code min(a, b)} or {@code max(a, b)}. */
  record Extreme(boolean smaller, OfNumber left, OfNumber right, int start, int end)
      implements OfNumber {
    @Override
    public Dimension dimension() {
      return left.dimension();
    }
  }

  /** Names as written. */
  record NamesConstant(Set<String> names, Type type, int start, int end) implements OfNames {
    public NamesConstant {
      names = Set.copyOf(names);
    }
  }

  record NamesProperty(Vocabulary.Property property, String name, Scope scope, int start, int end)
      implements OfNames {
    @Override
    public Type type() {
      return property.type();
    }
  }

  record NamesColumn(Table table, Table.Column column, int start, int end) implements OfNames {
    @Override
    public Type type() {
      return column.type();
    }
  }

  record NamesLookup(Table table, OfNames key, Table.Column column, int start, int end)
      implements OfNames {
    @Override
    public Type type() {
      return column.type();
    }
  }

  /** The name of the item, or the key of the row, that the rule goes through. */
  record SubjectName(Type type, int start, int end) implements OfNames {}

  record TruthProperty(Vocabulary.Property property, String name, Scope scope, int start, int end)
      implements OfTruth {}

  record Compare(Relation relation, OfNumber left, OfNumber right, int start, int end)
      implements OfTruth {}

  record Within(OfNumber operand, OfNumber from, OfNumber to, int start, int end)
      implements OfTruth {}

  record SameName(OfNames left, OfNames right, boolean same, int start, int end)
      implements OfTruth {}

  record OneOf(OfNames operand, Set<String> names, int start, int end) implements OfTruth {
    public OneOf {
      names = Set.copyOf(names);
    }
  }

  record Has(OfNames left, OfNames right, int start, int end) implements OfTruth {}

  record Known(Term operand, boolean known, int start, int end) implements OfTruth {}

  record Not(OfTruth operand, int start, int end) implements OfTruth {}

  record And(List<OfTruth> parts, int start, int end) implements OfTruth {
    public And {
      parts = List.copyOf(parts);
    }
  }

  record Or(List<OfTruth> parts, int start, int end) implements OfTruth {
    public Or {
      parts = List.copyOf(parts);
    }
  }
}
