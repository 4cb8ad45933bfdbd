package gelwright.api.http;

import gelwright.formula.Formula;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.List;

/** From bytes to a formula, with the bounds of the service. */
final class Sheets {
  private final Guards guards;

  Sheets(Guards guards) {
    this.guards = guards;
  }

  /** A document; malformed or past a bound it is refused. */
  Document document(byte[] bytes, Document.Format format, Limits limits) {
    Read<Document> read = Document.read(bytes, "", format, limits);
    if (read.value().isEmpty()) {
      boolean large = read.problems().stream().anyMatch(one -> one.code().equals("too-large"));
      throw large
          ? Trouble.of(ProblemType.TOO_LARGE, "At most " + limits.bytes() + " bytes are read.")
          : Trouble.of(ProblemType.MALFORMED_DOCUMENT, first(read.problems()), read.problems());
    }
    Document document = read.value().get();
    List<Problem> numbers = new ArrayList<>();
    longNumbers(document.root(), numbers);
    if (!numbers.isEmpty()) {
      throw Trouble.of(ProblemType.MALFORMED_DOCUMENT, first(numbers), numbers);
    }
    return document;
  }

  private void longNumbers(Node node, List<Problem> problems) {
    if (node instanceof Node.Mapping mapping) {
      mapping.entries().values().forEach(entry -> longNumbers(entry.value(), problems));
    } else if (node instanceof Node.Sequence sequence) {
      sequence.items().forEach(item -> longNumbers(item, problems));
    } else if (node instanceof Node.Scalar scalar
        && scalar.kind() == Node.Kind.NUMBER
        && scalar.text().length() > guards.numberLength()
        && problems.size() < 10) {
      problems.add(
          Problem.of(
              scalar.place(),
              "number-too-long",
              "This number has more than the "
                  + guards.numberLength()
                  + " characters that are read."));
    }
  }

  /** A formula; what is well-formed and no formula is refused. */
  Formula formula(byte[] bytes, Document.Format format, Limits limits) {
    Document document = document(bytes, format, limits);
    Read<Formula> read = new FormulaReader(limits).read(document);
    if (read.value().isEmpty()) {
      // A key given twice, an alias, a text too long: then the document itself is at fault.
      throw Trouble.of(
          document.problems().isEmpty()
              ? ProblemType.NOT_A_FORMULA
              : ProblemType.MALFORMED_DOCUMENT,
          first(read.problems()),
          read.problems());
    }
    Formula formula = read.value().get();
    List<Problem> tooMany = new ArrayList<>();
    count(formula.lines().size(), "/ingredients", document, tooMany);
    count(formula.method().size(), "/method", document, tooMany);
    count(formula.measured().size(), "/measured", document, tooMany);
    count(formula.accepted().size(), "/accepted", document, tooMany);
    for (int i = 0; i < formula.measured().size(); i++) {
      int points = formula.measured().get(i).points().size();
      count(points, "/measured/" + i + "/points", document, tooMany);
    }
    if (!tooMany.isEmpty()) {
      throw Trouble.of(ProblemType.NOT_A_FORMULA, first(tooMany), tooMany);
    }
    return formula;
  }

  private void count(int parts, String pointer, Document document, List<Problem> problems) {
    if (parts > guards.formulaParts()) {
      Place at = document.places(3).getOrDefault(pointer, Place.NOWHERE);
      problems.add(
          Problem.of(
              new Place("", at.line(), at.column(), pointer),
              "too-many-parts",
              "This list has "
                  + parts
                  + " parts; at most "
                  + guards.formulaParts()
                  + " are read."));
    }
  }

  /** The first problem, and how many more there are. */
  static String first(List<Problem> problems) {
    String first = problems.get(0).message();
    return problems.size() == 1
        ? first
        : first + " There are " + (problems.size() - 1) + " more errors.";
  }
}
