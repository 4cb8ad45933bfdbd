package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.function.Function;

/**
 * A piece of knowledge in one of three states: given, known to be none, or not known.
 *
 * @param <T> what is known
 */
public sealed interface Known<T> {
  /** The sheet gives it. */
  record Given<T>(T value) implements Known<T> {
    public Given {
      requireNonNull(value, "value");
    }
  }

  /** The sheet says there is none. */
  record None<T>() implements Known<T> {}

  /** The sheet is silent. */
  record Unknown<T>() implements Known<T> {}

  static <T> Known<T> given(T value) {
    return new Given<>(value);
  }

  static <T> Known<T> none() {
    return new None<>();
  }

  static <T> Known<T> unknown() {
    return new Unknown<>();
  }

  default Optional<T> toOptional() {
    return this instanceof Given<T> given ? Optional.of(given.value()) : Optional.empty();
  }

  default boolean isUnknown() {
    return this instanceof Unknown<T>;
  }

  /** Given or none, as one of two results; unknown as a third. */
  default <R> R fold(Function<T, R> given, R none, R unknown) {
    if (this instanceof Given<T> value) {
      return given.apply(value.value());
    }
    return this instanceof None<T> ? none : unknown;
  }
}
