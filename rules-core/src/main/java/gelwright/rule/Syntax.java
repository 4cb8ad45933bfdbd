package gelwright.rule;

import gelwright.quantity.Unit;
import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Collectors;

/**
 * An expression as parsed: no name is looked up yet. Offsets are into the text it was parsed from,
 * {@code end} exclusive.
 */
sealed interface Syntax {
  int start();

  int end();

  /** A number with its unit; {@link Unit#NONE} for a plain number. */
  record Figure(double value, Unit unit, int start, int end) implements Syntax {}

  /** A bare name: a property, or a name to choose. */
  record Word(String name, int start, int end) implements Syntax {}

  /** A name in quotes: always a name to choose. */
  record Quoted(String name, int start, int end) implements Syntax {}

  /** {@code [a, b]}; every element is a {@link Word} or a {@link Quoted}. */
  record NameList(List<Syntax> names, int start, int end) implements Syntax {
    public NameList {
      names = List.copyOf(names);
    }
  }

  /** An expression in parentheses. */
  record Group(Syntax inner, int start, int end) implements Syntax {}

  /** A function of the vocabulary, or {@code min} or {@code max}. */
  record Call(String function, List<Syntax> arguments, int start, int end) implements Syntax {
    public Call {
      arguments = List.copyOf(arguments);
    }
  }

  /** {@code table[key].column}. */
  record Lookup(String table, Syntax key, String column, int columnStart, int start, int end)
      implements Syntax {}

  /** {@code -operand}. */
  record Negative(Syntax operand, int start, int end) implements Syntax {}

  /** {@code + - * /}. */
  record Arithmetic(Operator operator, Syntax left, Syntax right) implements Syntax {
    @Override
    public int start() {
      return left.start();
    }

    @Override
    public int end() {
      return right.end();
    }
  }

  /** {@code < <= > >= = !=}. */
  record Compare(Relation relation, Syntax left, Syntax right) implements Syntax {
    @Override
    public int start() {
      return left.start();
    }

    @Override
    public int end() {
      return right.end();
    }
  }

  /** {@code operand within from .. to}. */
  record Within(Syntax operand, Syntax from, Syntax to) implements Syntax {
    @Override
    public int start() {
      return operand.start();
    }

    @Override
    public int end() {
      return to.end();
    }
  }

  /** {@code operand in [names]}. */
  record In(Syntax operand, NameList names) implements Syntax {
    @Override
    public int start() {
      return operand.start();
    }

    @Override
    public int end() {
      return names.end();
    }
  }

  /** {@code left has right}. */
  record Has(Syntax left, Syntax right) implements Syntax {
    @Override
    public int start() {
      return left.start();
    }

    @Override
    public int end() {
      return right.end();
    }
  }

  /** {@code operand is known}, {@code operand is unknown}. */
  record Is(Syntax operand, boolean known, int end) implements Syntax {
    @Override
    public int start() {
      return operand.start();
    }
  }

  record Not(Syntax operand, int start) implements Syntax {
    @Override
    public int end() {
      return operand.end();
    }
  }

  /** Two or more joined by {@code and}. */
  record And(List<Syntax> parts) implements Syntax {
    public And {
      parts = List.copyOf(parts);
    }

    @Override
    public int start() {
      return parts.get(0).start();
    }

    @Override
    public int end() {
      return parts.get(parts.size() - 1).end();
    }
  }

  /** Two or more joined by {@code or}. */
  record Or(List<Syntax> parts) implements Syntax {
    public Or {
      parts = List.copyOf(parts);
    }

    @Override
    public int start() {
      return parts.get(0).start();
    }

    @Override
    public int end() {
      return parts.get(parts.size() - 1).end();
    }
  }

  /** Operators of arithmetic. */
  enum Operator {
    PLUS("+"),
    MINUS("-"),
    TIMES("*"),
    DIVIDE("/");

    private final String sign;

    Operator(String sign) {
      this.sign = sign;
    }

    String sign() {
      return sign;
    }

    boolean isSum() {
      return this == PLUS || this == MINUS;
    }
  }

  /** The expression in one canonical writing, with no parentheses but the needed ones. */
  default String print() {
    return print(0);
  }

  // Levels: 0 or, 1 and, 2 not, 3 comparison, 4 sum, 5 product, 6 unary, 7 primary.
  private String print(int least) {
    if (this instanceof Group group) {
      return group.inner().print(least);
    }
    String text;
    int level;
    if (this instanceof Figure figure) {
      String digits = new BigDecimal(Double.toString(figure.value())).toPlainString();
      String number = digits.endsWith(".0") ? digits.substring(0, digits.length() - 2) : digits;
      text = figure.unit() == Unit.NONE ? number : number + " " + figure.unit().symbol();
      level = figure.value() < 0 ? 6 : 7;
    } else if (this instanceof Word word) {
      text = word.name();
      level = 7;
    } else if (this instanceof Quoted quoted) {
      text = '"' + quoted.name() + '"';
      level = 7;
    } else if (this instanceof NameList list) {
      text = list.names().stream().map(Syntax::print).collect(Collectors.joining(", ", "[", "]"));
      level = 7;
    } else if (this instanceof Call call) {
      text =
          call.arguments().stream()
              .map(Syntax::print)
              .collect(Collectors.joining(", ", call.function() + "(", ")"));
      level = 7;
    } else if (this instanceof Lookup lookup) {
      text = lookup.table() + "[" + lookup.key().print() + "]." + lookup.column();
      level = 7;
    } else if (this instanceof Negative negative) {
      // A minus before a figure would be read as part of the figure.
      String operand = negative.operand().print(6);
      text = Character.isDigit(operand.charAt(0)) ? "-(" + operand + ")" : "-" + operand;
      level = 6;
    } else if (this instanceof Arithmetic arithmetic) {
      level = arithmetic.operator().isSum() ? 4 : 5;
      text =
          arithmetic.left().print(level)
              + " "
              + arithmetic.operator().sign()
              + " "
              + arithmetic.right().print(level + 1);
    } else if (this instanceof Compare compare) {
      text =
          compare.left().print(4)
              + " "
              + compare.relation().sign()
              + " "
              + compare.right().print(4);
      level = 3;
    } else if (this instanceof Within within) {
      text =
          within.operand().print(4)
              + " within "
              + within.from().print(4)
              + " .. "
              + within.to().print(4);
      level = 3;
    } else if (this instanceof In in) {
      text = in.operand().print(4) + " in " + in.names().print();
      level = 3;
    } else if (this instanceof Has has) {
      text = has.left().print(4) + " has " + has.right().print(4);
      level = 3;
    } else if (this instanceof Is is) {
      text = is.operand().print(4) + (is.known() ? " is known" : " is unknown");
      level = 3;
    } else if (this instanceof Not not) {
      text = "not " + not.operand().print(2);
      level = 2;
    } else if (this instanceof And and) {
      text = and.parts().stream().map(part -> part.print(2)).collect(Collectors.joining(" and "));
      level = 1;
    } else {
      text =
          ((Or) this)
              .parts().stream().map(part -> part.print(1)).collect(Collectors.joining(" or "));
      level = 0;
    }
    return level < least ? "(" + text + ")" : text;
  }
}
