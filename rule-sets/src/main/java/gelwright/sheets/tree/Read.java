package gelwright.sheets.tree;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What reading a document gave: the whole value or the problems, never half of either.
 *
 * @param <T> what was read
 * @param value present exactly when there are no problems
 * @param problems in the order of the document
 */
public record Read<T>(Optional<T> value, List<Problem> problems) {
  public Read {
    requireNonNull(value, "value");
    problems = List.copyOf(problems);
    if (value.isPresent() != problems.isEmpty()) {
      throw new IllegalArgumentException("there is a value exactly when there are no problems");
    }
  }

  public static <T> Read<T> ok(T value) {
    return new Read<>(Optional.of(value), List.of());
  }

  /** A reading that failed; at least one problem. */
  public static <T> Read<T> failed(List<Problem> problems) {
    return new Read<>(Optional.empty(), problems.stream().sorted(Problem.IN_ORDER).toList());
  }

  public boolean isOk() {
    return value.isPresent();
  }

  public <R> Read<R> map(Function<T, R> function) {
    return new Read<>(value.map(function), problems);
  }

  public <R> Read<R> then(Function<T, Read<R>> function) {
    return value.isPresent() ? function.apply(value.get()) : failed(problems);
  }

  /** The value of a document that must be sound, such as one that the program itself brings. */
  public T orThrow() {
    return value.orElseThrow(
        () ->
            new IllegalStateException(
                problems.stream().map(Problem::toString).collect(Collectors.joining("\n"))));
  }
}
