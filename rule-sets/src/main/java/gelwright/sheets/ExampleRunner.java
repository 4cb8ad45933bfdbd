package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.review.Subject;
import gelwright.rule.Rule;
import gelwright.rule.RuleBook;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Read;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Runs the examples that rules bring with them: does each rule do what its examples say? */
public final class ExampleRunner {
  private final Library library;
  private final RuleBook book;

  /**
   * A runner.
   *
   * @param library where base formulas and ingredients come from
   * @param book the compiled rules
   */
  public ExampleRunner(Library library, RuleBook book) {
    this.library = requireNonNull(library, "library");
    this.book = requireNonNull(book, "book");
  }

  /**
   * What an example came to.
   *
   * @param rule full id of its rule
   * @param row key of the table row it is about; empty when it is about the rule as such
   * @param expected the outcome it says
   * @param got the outcome there was, or why there was none
   * @param agrees whether the two are the same
   * @param place of the example
   */
  public record Result(
      String rule,
      Optional<String> row,
      String expected,
      String got,
      boolean agrees,
      Place place) {}

  /**
   * Runs the examples of a rule set for a date, in their order; an example may say its own date.
   * Those of rules that are not in the book, such as switched off ones, are not run.
   */
  public List<Result> run(RuleSheet sheet, LocalDate on) {
    List<Result> results = new ArrayList<>();
    for (Example example : sheet.examples()) {
      String id = sheet.ruleSet().id() + "." + example.rule();
      if (book.rule(id).isPresent()) {
        results.add(run(id, example, on));
      }
    }
    return results;
  }

  private Result run(String id, Example example, LocalDate on) {
    Place place = example.overlay().place();
    Document base = library.bases().get(example.base());
    String got;
    if (base == null) {
      got = "no base formula is called " + example.base();
    } else {
      got = outcome(id, example, base, on);
    }
    return new Result(
        id, example.row(), example.expected(), got, got.equals(example.expected()), place);
  }

  private String outcome(String id, Example example, Document base, LocalDate on) {
    Read<Overlay.Applied> applied = Overlay.apply(base, example.overlay());
    if (applied.value().isEmpty()) {
      return unreadable(applied.problems());
    }
    Read<Formula> formula = new FormulaReader().read(applied.value().get().formula());
    Read<Catalogue> catalogue = applied.value().get().of(library.catalogue());
    if (formula.value().isEmpty() || catalogue.value().isEmpty()) {
      List<Problem> problems = new ArrayList<>(formula.problems());
      problems.addAll(catalogue.problems());
      return unreadable(problems);
    }
    Reviewer reviewer = Reviewer.using(new Knowledge(catalogue.value().get(), book));
    Map<Subject, Outcome> outcomes =
        reviewer.outcomes(formula.value().get(), applied.value().get().on().orElse(on), id);
    if (example.row().isPresent()) {
      return outcomes.entrySet().stream()
          .filter(entry -> entry.getKey().name().equals(example.row().get()))
          .map(entry -> entry.getValue().word())
          .findFirst()
          .orElse("the rule does not reach the row");
    }
    boolean duty = book.rule(id).map(rule -> rule.rule().kind() == Rule.Kind.DUTY).orElse(false);
    return Reviewer.worst(outcomes.values())
        .orElse(duty ? Outcome.DOES_NOT_APPLY : Outcome.NOT_APPLICABLE)
        .word();
  }

  private static String unreadable(List<Problem> problems) {
    StringBuilder text = new StringBuilder("the example cannot be read:");
    for (Problem problem : problems) {
      text.append(' ').append(problem.message());
    }
    return text.toString();
  }
}
