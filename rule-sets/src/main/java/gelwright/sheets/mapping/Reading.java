package gelwright.sheets.mapping;

import gelwright.sheets.tree.Node;
import java.util.Optional;
import java.util.function.Function;

/**
 * Reads one value of a sheet.
 *
 * @param <T> what it gives
 */
@FunctionalInterface
public interface Reading<T> {
  /**
   * The value, or empty after a problem has been added.
   *
   * @param node where it is written
   * @param what what it is called in messages: its key
   * @param problems takes what is wrong
   */
  Optional<T> read(Node node, String what, Problems problems);

  /** This reading, its value changed into another. */
  default <R> Reading<R> map(Function<T, R> function) {
    return (node, what, problems) -> read(node, what, problems).map(function);
  }
}
