package gelwright.rule;

import gelwright.problem.Problem;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A message with places for values: {@code "{oil.share} of oil"}. Two braces stand for one as such.
 * Compiled it is a list of pieces; a value that is not known reads "an unknown amount". A number in
 * words at the head of a message begins with a capital letter: "About 9.6 % of oil".
 */
final class Template {
  private final List<Piece> pieces;
  private final List<Term> terms;
  // Names are left as they are: the p of p-Anisic Acid is a small one.
  private final boolean headIsNumber;

  private Template(List<Piece> pieces, List<Term> terms, boolean headIsNumber) {
    this.pieces = List.copyOf(pieces);
    this.terms = List.copyOf(terms);
    this.headIsNumber = headIsNumber;
  }

  @FunctionalInterface
  private interface Piece {
    String print(Facts facts, Subject subject);
  }

  /** Reads and checks a template; empty when there is a problem with it. */
  static Optional<Template> of(Text text, Checker checker, List<Problem> problems) {
    String written = text.text();
    if (written.length() > Parser.LONGEST_TEXT) {
      problems.add(
          Problem.of(
              text.place(),
              "too-long",
              "This message has more than " + Parser.LONGEST_TEXT + " characters."));
      return Optional.empty();
    }
    List<Piece> pieces = new ArrayList<>();
    List<Term> terms = new ArrayList<>();
    StringBuilder plain = new StringBuilder();
    boolean right = true;
    boolean headIsNumber = false;
    int at = 0;
    while (at < written.length()) {
      char next = written.charAt(at);
      if ((next == '{' || next == '}')
          && at + 1 < written.length()
          && written.charAt(at + 1) == next) {
        plain.append(next);
        at += 2;
      } else if (next == '}') {
        problems.add(
            new Problem(
                Places.of(text, at),
                "template",
                "This brace closes nothing.",
                "Write '}}' for a brace as such."));
        right = false;
        at++;
      } else if (next == '{') {
        int close = close(written, at);
        if (close < 0) {
          problems.add(
              new Problem(
                  Places.of(text, at),
                  "template",
                  "The brace opened here is not closed.",
                  "Add '}', or write '{{' for a brace as such."));
          return Optional.empty();
        }
        Optional<Term> term =
            Parser.parse(text, at + 1, close, problems).flatMap(checker::printable);
        if (term.isPresent()) {
          String before = plain.toString();
          plain.setLength(0);
          if (pieces.isEmpty()) {
            headIsNumber = before.isEmpty() && term.get() instanceof Term.OfNumber;
          }
          pieces.add((facts, subject) -> before);
          pieces.add(piece(term.get()));
          terms.add(term.get());
        }
        right &= term.isPresent();
        at = close + 1;
      } else {
        plain.append(next);
        at++;
      }
    }
    String after = plain.toString();
    pieces.add((facts, subject) -> after);
    return right ? Optional.of(new Template(pieces, terms, headIsNumber)) : Optional.empty();
  }

  // The brace that closes, names in quotation marks passed over; a second opening brace ends it.
  private static int close(String written, int open) {
    boolean quoted = false;
    for (int i = open + 1; i < written.length(); i++) {
      char next = written.charAt(i);
      if (next == '"') {
        quoted = !quoted;
      } else if (!quoted && next == '}') {
        return i;
      } else if (!quoted && next == '{') {
        return -1;
      }
    }
    return -1;
  }

  private static Piece piece(Term term) {
    if (term instanceof Term.OfNumber number) {
      Compiler.NumberCode code = Compiler.number(number);
      Unit unit = Printing.unit(number);
      return (facts, subject) -> Printing.number(code.of(facts, subject), unit);
    }
    Compiler.NamesCode code = Compiler.names((Term.OfNames) term);
    return (facts, subject) -> Printing.names(code.of(facts, subject));
  }

  String print(Facts facts, Subject subject) {
    StringBuilder message = new StringBuilder();
    for (Piece piece : pieces) {
      message.append(piece.print(facts, subject));
    }
    if (headIsNumber && message.length() > 0) {
      message.setCharAt(0, Character.toUpperCase(message.charAt(0)));
    }
    return message.toString();
  }

  List<Term> terms() {
    return terms;
  }
}
