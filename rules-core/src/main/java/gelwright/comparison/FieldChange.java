package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * Something that is stated differently.
 *
 * @param field as a formula sheet calls it: {@code texture}, {@code share}, {@code over}
 * @param first what the first formula states; absent where it states nothing
 * @param second what the second formula states; absent where it states nothing
 */
public record FieldChange(String field, Optional<String> first, Optional<String> second) {
  public FieldChange {
    requireNonNull(field, "field");
    if (first.equals(second)) {
      throw new IllegalArgumentException(field + " is the same on both sides: " + first);
    }
  }

  /** Adds the field to a list where it differs. */
  static void compare(List<FieldChange> into, String field, Optional<?> first, Optional<?> second) {
    Optional<String> before = first.map(Object::toString);
    Optional<String> after = second.map(Object::toString);
    if (!before.equals(after)) {
      into.add(new FieldChange(field, before, after));
    } else if (!first.equals(second)) {
      // Told apart by digits that are not printed.
      into.add(
          new FieldChange(field, before, after.map(text -> text + " (differs beyond rounding)")));
    }
  }

  /** The same for several words that are written one after the other. */
  static void compare(List<FieldChange> into, String field, List<?> first, List<?> second) {
    if (!first.equals(second)) {
      compare(into, field, joined(first), joined(second));
    }
  }

  private static Optional<String> joined(List<?> words) {
    return words.isEmpty()
        ? Optional.empty()
        : Optional.of(String.join(", ", words.stream().map(Object::toString).toList()));
  }
}
