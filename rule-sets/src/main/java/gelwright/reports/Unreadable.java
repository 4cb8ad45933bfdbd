package gelwright.reports;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Problem;
import java.util.List;

/**
 * A file that was asked for and could not be reviewed.
 *
 * @param file name as given by the caller
 * @param problems what is wrong with it; never empty
 */
public record Unreadable(String file, List<Problem> problems) {
  public Unreadable {
    requireNonNull(file, "file");
    problems = List.copyOf(problems);
    if (problems.isEmpty()) {
      throw new IllegalArgumentException("problems is empty");
    }
  }
}
