package gelwright.api.http;

import static java.util.Objects.requireNonNull;

import gelwright.calibration.Readings;
import gelwright.formula.Formula;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.ReadingsReader;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** From bytes to a formula, with the bounds of the service. */
final class Sheets {
  /** Keys of a document that has two formulas. */
  private static final List<String> SIDES = List.of("first", "second");

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
    List<Problem> problems = new ArrayList<>();
    Optional<Formula> formula = formula(document, limits, problems);
    return formula.orElseThrow(() -> refused(document, problems));
  }

  /** Two formulas of one document. */
  record Two(Formula first, Formula second) {}

  /**
   * Two formulas under the keys first and second. What is wrong with either comes at once, each
   * with its place in the whole document.
   */
  Two two(byte[] bytes, Document.Format format, Limits limits) {
    Document document = document(bytes, format, limits);
    List<Problem> problems = new ArrayList<>(document.problems());
    Map<String, Formula> formulas = new HashMap<>();
    if (document.root() instanceof Node.Mapping mapping) {
      for (Node.Entry entry : mapping.entries().values()) {
        if (!SIDES.contains(entry.key())) {
          problems.add(
              new Problem(
                  entry.keyPlace(),
                  "unknown-key",
                  "The key " + entry.key() + " is not known.",
                  Spelling.hint(entry.key(), SIDES)));
        }
      }
      for (String side : SIDES) {
        Optional<Node> sheet = mapping.get(side);
        if (sheet.isEmpty()) {
          problems.add(
              Problem.of(
                  document.root().place(),
                  "missing-key",
                  "A comparison needs the key " + side + " with a formula sheet."));
        }
        sheet
            .flatMap(node -> formula(new Document("", node, List.of()), limits, problems))
            .ifPresent(formula -> formulas.put(side, formula));
      }
    } else {
      problems.add(
          Problem.of(
              document.root().place(),
              "not-a-mapping",
              "A comparison must be a mapping with the keys first and second, and this is "
                  + document.root().inWords()
                  + "."));
    }
    if (!problems.isEmpty()) {
      throw refused(document, problems.stream().sorted(Problem.IN_ORDER).toList());
    }
    return new Two(
        requireNonNull(formulas.get(SIDES.get(0))), requireNonNull(formulas.get(SIDES.get(1))));
  }

  // A key given twice, an alias, a text too long: then the document itself is at fault.
  private static Trouble refused(Document document, List<Problem> problems) {
    return Trouble.of(
        document.problems().isEmpty() ? ProblemType.NOT_A_FORMULA : ProblemType.MALFORMED_DOCUMENT,
        first(problems),
        problems);
  }

  private Optional<Formula> formula(Document document, Limits limits, List<Problem> problems) {
    Read<Formula> read = new FormulaReader(limits).read(document);
    problems.addAll(read.problems());
    if (read.value().isEmpty()) {
      return Optional.empty();
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
    problems.addAll(tooMany);
    return tooMany.isEmpty() ? read.value() : Optional.empty();
  }

  /** Readings; what is well-formed and no readings sheet is refused. */
  Readings readings(byte[] bytes, Document.Format format, Limits limits) {
    Document document = document(bytes, format, limits);
    Read<Readings> read = new ReadingsReader(limits).read(document);
    return read.value()
        .orElseThrow(
            () ->
                Trouble.of(
                    document.problems().isEmpty()
                        ? ProblemType.NO_CALIBRATION
                        : ProblemType.MALFORMED_DOCUMENT,
                    first(read.problems()),
                    read.problems()));
  }

  private void count(int parts, String pointer, Document document, List<Problem> problems) {
    if (parts > guards.formulaParts()) {
      Place at = document.places(3).getOrDefault(pointer, Place.NOWHERE);
      problems.add(
          Problem.of(
              new Place("", at.line(), at.column(), document.root().place().pointer() + pointer),
              "too-many-parts",
              "This list has "
                  + parts
                  + " parts; at most "
                  + guards.formulaParts()
                  + " are read."));
    }
  }

  /** The first of several problems, and how many more there are. */
  static String first(List<Problem> problems) {
    String first = problems.get(0).message();
    return problems.size() == 1
        ? first
        : first + " There are " + (problems.size() - 1) + " more errors.";
  }
}
