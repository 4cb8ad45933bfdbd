package gelwright.rule;

import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Reads one expression.
 *
 * <p>Recursive descent straight over the characters, because what a character means depends on what
 * stands before it: a unit is only read after a number ({@code 10 /s}), and a hyphen inside a name
 * belongs to the name. The first thing not understood ends the reading of this text. The length of
 * the text, the nesting and the number of parts are bounded, so no text can exhaust the stack.
 */
final class Parser {
  static final int LONGEST_TEXT = 2000;
  static final int DEEPEST_NESTING = 50;
  static final int MOST_PARTS = 500;

  private static final Set<String> RESERVED =
      Set.of("and", "or", "not", "within", "in", "has", "is");

  /** More digits than these say nothing and could overflow. */
  private static final int MOST_DIGITS = 18;

  private static final int LONGEST_UNIT = 15;

  private final String text;
  private final int end;
  private int at;
  private int depth;
  private int parts;

  private Parser(String text, int from, int end) {
    this.text = text;
    this.at = from;
    this.end = end;
  }

  /**
   * Reads a whole text; empty when something was not understood, which is then among the problems.
   */
  static Optional<Syntax> parse(Text text, List<Problem> problems) {
    return parse(text, 0, text.text().length(), problems);
  }

  /** Reads a part of a text. */
  static Optional<Syntax> parse(Text text, int from, int end, List<Problem> problems) {
    if (end - from > LONGEST_TEXT) {
      problems.add(
          new Problem(
              text.place(),
              "too-long",
              "This expression has more than " + LONGEST_TEXT + " characters.",
              "Split it into several rules."));
      return Optional.empty();
    }
    try {
      return Optional.of(new Parser(text.text(), from, end).whole());
    } catch (NotUnderstood stop) {
      problems.add(new Problem(Places.of(text, stop.offset), stop.code, stop.message, stop.hint));
      return Optional.empty();
    }
  }

  /** Ends the reading of one text; never leaves this class. */
  private static final class NotUnderstood extends RuntimeException {
    private static final long serialVersionUID = 1L;
    private final int offset;
    private final String code;
    private final String message;
    private final String hint;

    NotUnderstood(int offset, String code, String message, String hint) {
      super(message, null, false, false);
      this.offset = offset;
      this.code = code;
      this.message = message;
      this.hint = hint;
    }
  }

  private Syntax whole() {
    skipSpace();
    if (at == end) {
      throw new NotUnderstood(at, "syntax", "An expression is missing here.", "");
    }
    Syntax syntax = or();
    skipSpace();
    if (at < end) {
      throw unexpected("the end or 'and' or 'or'");
    }
    return syntax;
  }

  private Syntax or() {
    enter();
    List<Syntax> alternatives = new ArrayList<>();
    alternatives.add(and());
    while (takeWord("or")) {
      alternatives.add(and());
    }
    depth--;
    return alternatives.size() == 1 ? alternatives.get(0) : count(new Syntax.Or(alternatives));
  }

  private Syntax and() {
    List<Syntax> conditions = new ArrayList<>();
    conditions.add(not());
    while (takeWord("and")) {
      conditions.add(not());
    }
    return conditions.size() == 1 ? conditions.get(0) : count(new Syntax.And(conditions));
  }

  private Syntax not() {
    skipSpace();
    int start = at;
    if (!takeWord("not")) {
      return comparison();
    }
    enter();
    Syntax operand = not();
    depth--;
    return count(new Syntax.Not(operand, start));
  }

  private Syntax comparison() {
    Syntax left = sum();
    Syntax compared = comparisonOf(left);
    if (compared != left) {
      skipSpace();
      if (relation(false) != null
          || startsWord("within")
          || startsWord("in")
          || startsWord("has")) {
        throw new NotUnderstood(
            at,
            "syntax",
            "Only two things can be compared at a time.",
            "Use 'within 5 % .. 10 %' or join two comparisons with 'and'.");
      }
    }
    return compared;
  }

  private Syntax comparisonOf(Syntax left) {
    skipSpace();
    Relation relation = relation(true);
    if (relation != null) {
      return count(new Syntax.Compare(relation, left, sum()));
    }
    if (takeWord("within")) {
      Syntax from = sum();
      skipSpace();
      if (!take("..")) {
        throw unexpected("'..' between the two limits");
      }
      return count(new Syntax.Within(left, from, sum()));
    }
    if (takeWord("in")) {
      skipSpace();
      if (!peek("[")) {
        throw unexpected("a list of names in square brackets after 'in'");
      }
      return count(new Syntax.In(left, nameList()));
    }
    if (takeWord("has")) {
      return count(new Syntax.Has(left, sum()));
    }
    if (takeWord("is")) {
      boolean known = takeWord("known");
      if (!known && !takeWord("unknown")) {
        skipSpace();
        throw unexpected("'known' or 'unknown' after 'is'");
      }
      return count(new Syntax.Is(left, known, at));
    }
    return left;
  }

  private @Nullable Relation relation(boolean take) {
    for (Relation relation :
        new Relation[] {
          Relation.AT_MOST,
          Relation.AT_LEAST,
          Relation.NOT_EQUAL,
          Relation.LESS,
          Relation.MORE,
          Relation.EQUAL
        }) {
      if (peek(relation.sign())) {
        if (take) {
          at += relation.sign().length();
        }
        return relation;
      }
    }
    return null;
  }

  private Syntax sum() {
    Syntax left = product();
    while (true) {
      int before = at;
      skipSpace();
      if (take("+")) {
        left = count(new Syntax.Arithmetic(Syntax.Operator.PLUS, left, product()));
      } else if (peek("-")) {
        boolean afterName = before > 0 && isNameCharacter(text.charAt(before - 1));
        boolean spaced = before < at && at + 1 < end && isSpace(text.charAt(at + 1));
        if (afterName && !(left instanceof Syntax.Figure) && !spaced) {
          throw new NotUnderstood(
              at,
              "minus-spacing",
              "A minus after a name needs a space on both sides: a hyphen inside a name belongs to"
                  + " the name.",
              "Write 'a - b'.");
        }
        at++;
        left = count(new Syntax.Arithmetic(Syntax.Operator.MINUS, left, product()));
      } else {
        at = before;
        return left;
      }
    }
  }

  private Syntax product() {
    Syntax left = unary();
    while (true) {
      skipSpace();
      if (take("*")) {
        left = count(new Syntax.Arithmetic(Syntax.Operator.TIMES, left, unary()));
      } else if (take("/")) {
        left = count(new Syntax.Arithmetic(Syntax.Operator.DIVIDE, left, unary()));
      } else {
        unskipSpace();
        return left;
      }
    }
  }

  private Syntax unary() {
    skipSpace();
    int start = at;
    if (!take("-")) {
      return primary();
    }
    skipSpace();
    if (at < end && isDigit(text.charAt(at))) {
      Syntax.Figure figure = figure();
      return count(new Syntax.Figure(-figure.value(), figure.unit(), start, figure.end()));
    }
    enter();
    Syntax operand = unary();
    depth--;
    return count(new Syntax.Negative(operand, start, operand.end()));
  }

  private Syntax primary() {
    skipSpace();
    if (at == end) {
      throw new NotUnderstood(at, "syntax", "The expression ends where a value is expected.", "");
    }
    char next = text.charAt(at);
    if (isDigit(next)) {
      return count(figure());
    }
    if (next == '(') {
      int start = at++;
      Syntax inner = or();
      close(')', start);
      return count(new Syntax.Group(inner, start, at));
    }
    if (next == '"') {
      return count(quoted());
    }
    if (next == '[') {
      return nameList();
    }
    if (Character.isLetter(next)) {
      return named();
    }
    throw unexpected("a value");
  }

  private Syntax named() {
    int start = at;
    String name = name();
    if (RESERVED.contains(name)) {
      at = start;
      throw unexpected("a value");
    }
    int nameEnd = at;
    skipSpace();
    if (peek("(")) {
      return call(name, start);
    }
    if (peek("[")) {
      return lookup(name, start);
    }
    at = nameEnd;
    return count(new Syntax.Word(name, start, nameEnd));
  }

  private Syntax call(String function, int start) {
    int open = at++;
    List<Syntax> arguments = new ArrayList<>();
    skipSpace();
    if (!peek(")")) {
      do {
        arguments.add(or());
        skipSpace();
      } while (take(","));
    }
    close(')', open);
    return count(new Syntax.Call(function, arguments, start, at));
  }

  private Syntax lookup(String table, int start) {
    int open = at++;
    Syntax key = or();
    close(']', open);
    skipSpace();
    if (!take(".")) {
      throw unexpected("a dot and the name of a column after '" + table + "[…]'");
    }
    int columnStart = at;
    if (at == end || !Character.isLetter(text.charAt(at))) {
      throw unexpected("the name of a column");
    }
    String column = name();
    return count(new Syntax.Lookup(table, key, column, columnStart, start, at));
  }

  private Syntax.NameList nameList() {
    int start = at++;
    List<Syntax> names = new ArrayList<>();
    do {
      skipSpace();
      if (at < end && text.charAt(at) == '"') {
        names.add(count(quoted()));
      } else if (at < end && Character.isLetter(text.charAt(at))) {
        int nameStart = at;
        String name = name();
        names.add(count(new Syntax.Word(name, nameStart, at)));
      } else {
        throw unexpected("a name");
      }
      skipSpace();
    } while (take(","));
    close(']', start);
    return count(new Syntax.NameList(names, start, at));
  }

  private Syntax.Quoted quoted() {
    int start = at;
    int close = text.indexOf('"', start + 1);
    if (close < 0 || close >= end) {
      throw new NotUnderstood(start, "syntax", "This quotation mark is not closed.", "");
    }
    String name = text.substring(start + 1, close).strip();
    if (name.isEmpty()) {
      throw new NotUnderstood(
          start, "syntax", "There is no name between these quotation marks.", "");
    }
    at = close + 1;
    return new Syntax.Quoted(name, start, at);
  }

  private String name() {
    int start = at;
    while (at < end) {
      char next = text.charAt(at);
      boolean joins =
          (next == '-' && at + 1 < end && isNameCharacter(text.charAt(at + 1)))
              || (next == '.' && at + 1 < end && Character.isLetter(text.charAt(at + 1)));
      if (!isNameCharacter(next) && !joins) {
        break;
      }
      at++;
    }
    if (at < end && text.charAt(at) == '-') {
      throw new NotUnderstood(
          at,
          "minus-spacing",
          "A minus after a name needs a space on both sides: a hyphen inside a name belongs to the"
              + " name.",
          "Write 'a - b'.");
    }
    return text.substring(start, at);
  }

  private Syntax.Figure figure() {
    int start = at;
    int whole = digits();
    int decimals = 0;
    if (at + 1 < end && text.charAt(at) == '.' && isDigit(text.charAt(at + 1))) {
      at++;
      decimals = digits();
    }
    if (whole > MOST_DIGITS || decimals > MOST_DIGITS) {
      throw new NotUnderstood(start, "syntax", "This number has too many digits.", "");
    }
    double value = Double.parseDouble(text.substring(start, at));
    if (at + 1 < end && text.charAt(at) == ',' && isDigit(text.charAt(at + 1)) && depth == 1) {
      throw new NotUnderstood(
          at, "syntax", "A comma does not belong into a number.", "Write a decimal point: 0.5.");
    }
    Unit unit = unit();
    return new Syntax.Figure(value, unit, start, at);
  }

  private int digits() {
    int start = at;
    while (at < end && isDigit(text.charAt(at))) {
      at++;
    }
    return at - start;
  }

  // The longest run of characters after the number that is a unit and does not end inside a word.
  private Unit unit() {
    int afterNumber = at;
    skipSpace();
    for (int length = Math.min(LONGEST_UNIT, end - at); length > 0; length--) {
      String candidate = text.substring(at, at + length);
      if (isSpace(candidate.charAt(length - 1)) || !endsWord(at + length)) {
        continue;
      }
      Optional<Unit> unit = Unit.of(candidate);
      if (unit.isPresent() && unit.get() != Unit.NONE) {
        at += length;
        return unit.get();
      }
    }
    if (at < end && Character.isLetter(text.charAt(at))) {
      int wordStart = at;
      while (at < end && isNameCharacter(text.charAt(at))) {
        at++;
      }
      String word = text.substring(wordStart, at);
      at = wordStart;
      if (!RESERVED.contains(word)) {
        Set<String> symbols = new LinkedHashSet<>();
        for (Unit unit : Unit.values()) {
          symbols.add(unit.symbol());
        }
        throw new NotUnderstood(
            wordStart,
            "unknown-unit",
            "'" + word + "' after a number is no unit known here.",
            Spelling.hint(word, symbols));
      }
    }
    at = afterNumber;
    return Unit.NONE;
  }

  // Whether a word may end before this offset.
  private boolean endsWord(int offset) {
    if (offset >= end || !isNameCharacter(text.charAt(offset - 1))) {
      return true;
    }
    char next = text.charAt(offset);
    if (isNameCharacter(next)) {
      return false;
    }
    boolean joins = next == '-' || next == '.';
    return !(joins && offset + 1 < end && Character.isLetter(text.charAt(offset + 1)));
  }

  private void close(char bracket, int open) {
    skipSpace();
    if (at < end && text.charAt(at) == bracket) {
      at++;
      return;
    }
    if (at == end) {
      throw new NotUnderstood(
          open, "syntax", "The bracket opened here is not closed.", "Add '" + bracket + "'.");
    }
    throw unexpected("'" + bracket + "'");
  }

  private NotUnderstood unexpected(String expected) {
    if (at >= end) {
      return new NotUnderstood(
          at, "syntax", "The expression ends where " + expected + " is expected.", "");
    }
    int stop = at + 1;
    if (isNameCharacter(text.charAt(at))) {
      while (stop < end && stop < at + 40 && isNameCharacter(text.charAt(stop))) {
        stop++;
      }
    } else {
      while (stop < end && stop < at + 2 && "=&|<>!".indexOf(text.charAt(stop)) >= 0) {
        stop++;
      }
    }
    if (stop < end && Character.isLowSurrogate(text.charAt(stop))) {
      stop++;
    }
    String found = text.substring(at, stop);
    String hint =
        switch (found) {
          case "==", "=" -> "Write one '=' to compare names.";
          case "&&", "&", "AND", "And" -> "Write 'and'.";
          case "||", "|", "OR", "Or" -> "Write 'or'.";
          case "!", "NOT", "Not" -> "Write 'not'.";
          case "≤" -> "Write '<='.";
          case "≥" -> "Write '>='.";
          case "≠", "<>" -> "Write '!='.";
          case "–", "−" -> "Write the minus as '-'.";
          case "not" -> "Write 'not' before the whole condition.";
          default -> "";
        };
    return new NotUnderstood(
        at, "syntax", "'" + found + "' is not understood here; expected " + expected + ".", hint);
  }

  private void enter() {
    if (++depth > DEEPEST_NESTING) {
      throw new NotUnderstood(
          at,
          "too-deep",
          "This expression is nested more than " + DEEPEST_NESTING + " levels deep.",
          "Split it into several rules.");
    }
  }

  private <S extends Syntax> S count(S syntax) {
    if (++parts > MOST_PARTS) {
      throw new NotUnderstood(
          syntax.start(),
          "too-many-parts",
          "This expression has more than " + MOST_PARTS + " parts.",
          "Split it into several rules.");
    }
    return syntax;
  }

  private boolean peek(String sign) {
    return text.startsWith(sign, at) && at + sign.length() <= end;
  }

  private boolean take(String sign) {
    if (!peek(sign)) {
      return false;
    }
    at += sign.length();
    return true;
  }

  private boolean startsWord(String word) {
    return peek(word) && endsWord(at + word.length());
  }

  private boolean takeWord(String word) {
    int before = at;
    skipSpace();
    if (startsWord(word)) {
      at += word.length();
      return true;
    }
    at = before;
    return false;
  }

  private void skipSpace() {
    while (at < end && isSpace(text.charAt(at))) {
      at++;
    }
  }

  // Back to the end of what was read, so that a minus can see what stands right before it.
  private void unskipSpace() {
    while (at > 0 && isSpace(text.charAt(at - 1))) {
      at--;
    }
  }

  static boolean isSpace(char character) {
    return Character.isWhitespace(character) || character == '\u00a0';
  }

  private static boolean isDigit(char character) {
    return character >= '0' && character <= '9';
  }

  private static boolean isNameCharacter(char character) {
    return Character.isLetter(character) || isDigit(character);
  }
}
