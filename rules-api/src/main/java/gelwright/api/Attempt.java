package gelwright.api;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Optional;

/**
 * What came of an attempt: a value, or the problems that stood in its way.
 *
 * @param <T> of the value
 */
record Attempt<T>(Optional<T> value, List<Problem> problems) {
  Attempt {
    problems = List.copyOf(problems);
    if (value.isEmpty() && problems.isEmpty()) {
      throw new IllegalArgumentException("neither value nor problems");
    }
  }

  static <T> Attempt<T> of(T value) {
    return new Attempt<>(Optional.of(value), List.of());
  }

  static <T> Attempt<T> failed(List<Problem> problems) {
    return new Attempt<>(Optional.empty(), problems);
  }
}
