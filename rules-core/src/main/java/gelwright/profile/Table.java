package gelwright.profile;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;

/**
 * What is known of what is computed, by item. It is asked thousands of times in a review, so what
 * has a place is found by it and not by a search.
 */
final class Table<T> {
  private static final @Nullable Object[] NO_ITEMS = {};

  private @Nullable Object[][] byPlace = {};
  private final Map<Computable, @Nullable Object[]> elsewhere = new HashMap<>(0);

  /** What is known, or null. */
  @SuppressWarnings("unchecked") // only put() puts in
  @Nullable T get(Computable what, int item) {
    int place = what.place();
    @Nullable Object[] items =
        place == Computable.NOWHERE
            ? elsewhere.getOrDefault(what, NO_ITEMS)
            : place < byPlace.length ? byPlace[place] : NO_ITEMS;
    return item < items.length ? (T) items[item] : null;
  }

  void put(Computable what, int item, T value) {
    int place = what.place();
    if (place == Computable.NOWHERE) {
      elsewhere.put(what, with(elsewhere.getOrDefault(what, NO_ITEMS), item, value));
      return;
    }
    if (place >= byPlace.length) {
      int before = byPlace.length;
      byPlace = Arrays.copyOf(byPlace, Math.max(Computable.places(), place + 1));
      Arrays.fill(byPlace, before, byPlace.length, NO_ITEMS);
    }
    byPlace[place] = with(byPlace[place], item, value);
  }

  private static @Nullable Object[] with(@Nullable Object[] items, int item, Object value) {
    @Nullable Object[] wide =
        item < items.length ? items : Arrays.copyOf(items, items.length + item + 1);
    wide[item] = value;
    return wide;
  }

  /** A copy with what is to be kept. */
  Table<T> keeping(Predicate<T> keep) {
    Table<T> copy = new Table<>();
    copy.byPlace = new @Nullable Object[byPlace.length][];
    for (int place = 0; place < byPlace.length; place++) {
      copy.byPlace[place] = keeping(byPlace[place], keep);
    }
    elsewhere.forEach((what, items) -> copy.elsewhere.put(what, keeping(items, keep)));
    return copy;
  }

  @SuppressWarnings("unchecked") // only put() puts in
  private static <T> @Nullable Object[] keeping(@Nullable Object[] items, Predicate<T> keep) {
    @Nullable Object[] kept = items.clone();
    for (int i = 0; i < kept.length; i++) {
      if (kept[i] != null && !keep.test((T) kept[i])) {
        kept[i] = null;
      }
    }
    return kept;
  }
}
