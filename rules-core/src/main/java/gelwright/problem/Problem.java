package gelwright.problem;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;

/**
 * One thing wrong with a document.
 *
 * @param place where
 * @param code stable kebab-case name of the kind of problem, such as {@code unknown-key}
 * @param message what is wrong, a full sentence
 * @param hint what to do about it, or empty: "did you mean ..."
 */
public record Problem(Place place, String code, String message, String hint) {
  /** Order of a document: by file, line, column, then code, message, pointer and hint. */
  public static final Comparator<Problem> IN_ORDER =
      Comparator.<Problem, String>comparing(problem -> problem.place().file())
          .thenComparingInt(problem -> problem.place().line())
          .thenComparingInt(problem -> problem.place().column())
          .thenComparing(Problem::code)
          .thenComparing(Problem::message)
          .thenComparing(problem -> problem.place().pointer())
          .thenComparing(Problem::hint);

  public Problem {
    requireNonNull(place, "place");
    requireNonNull(code, "code");
    requireNonNull(message, "message");
    requireNonNull(hint, "hint");
  }

  /** A problem without a hint. */
  public static Problem of(Place place, String code, String message) {
    return new Problem(place, code, message, "");
  }

  /** One line for people: {@code file:line:column: message hint [code]}. */
  @Override
  public String toString() {
    String where = place.toString();
    return (where.isEmpty() ? "" : where + ": ")
        + message
        + (hint.isEmpty() ? "" : " " + hint)
        + " ["
        + code
        + "]";
  }
}
