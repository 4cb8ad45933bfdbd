package gelwright.profile;

/**
 * Something that several properties are computed from, such as the course of the procedure. It is
 * made once, when the class that holds it is loaded.
 *
 * @param <T> what it comes to
 */
final class Shared<T> extends Computable {
  /** Computes it for the formula or for an item. */
  interface Function<T> {
    T of(World world, int item);
  }

  private final Function<T> function;

  Shared(Function<T> function) {
    this.function = function;
  }

  @Override
  T of(World world, int item) {
    return function.of(world, item);
  }
}
