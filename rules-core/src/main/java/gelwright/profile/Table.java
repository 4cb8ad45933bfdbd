package gelwright.profile;

import java.util.Arrays;
import java.util.IdentityHashMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** What is known of what is computed, by item. */
final class Table<T> {
  private final IdentityHashMap<Computable, @Nullable Object[]> known;

  /**
   * An empty table.
   *
   * @param usual how much is computed in a usual formula
   */
  Table(int usual) {
    known = new IdentityHashMap<>(usual);
  }

  /** What is known, or null. */
  @SuppressWarnings("unchecked") // only put() puts in
  @Nullable T get(Computable what, int item) {
    @Nullable Object[] items = known.get(what);
    return items != null && item < items.length ? (T) items[item] : null;
  }

  void put(Computable what, int item, T value) {
    @Nullable Object[] items = known.get(what);
    if (items == null || item >= items.length) {
      items =
          items == null
              ? new @Nullable Object[item + 1]
              : Arrays.copyOf(items, items.length + item + 1);
      known.put(what, items);
    }
    items[item] = value;
  }

  /** Another table with what is kept of each, or without it where that is null. */
  @SuppressWarnings("unchecked") // only put() puts in
  Table<T> keeping(Function<T, @Nullable T> keep) {
    Table<T> copy = new Table<>(known.size());
    known.forEach(
        (what, items) -> {
          @Nullable Object[] kept = items.clone();
          for (int i = 0; i < kept.length; i++) {
            if (kept[i] != null) {
              kept[i] = keep.apply((T) kept[i]);
            }
          }
          copy.known.put(what, kept);
        });
    return copy;
  }
}
