package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Optional;

/**
 * What compiling rule sets came to.
 *
 * @param book the compiled rules; only where there is no problem, so that no rule is left out
 *     unsaid
 * @param problems all of them, in the order of the documents
 */
public record Compilation(Optional<RuleBook> book, List<Problem> problems) {
  public Compilation {
    requireNonNull(book, "book");
    problems = List.copyOf(problems);
  }
}
