package gelwright.rule;

import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;

/** Sets of names: joined without copying where one is empty, kept in one order everywhere. */
final class Sets {
  private Sets() {}

  /** An unmodifiable copy in alphabetical order, so that two runs name things in the same order. */
  static Set<String> sorted(Set<String> names) {
    return names.size() < 2 ? copy(names) : Collections.unmodifiableSortedSet(new TreeSet<>(names));
  }

  /** An unmodifiable copy. */
  static Set<String> copy(Set<String> names) {
    return switch (names.size()) {
      case 0 -> Set.of();
      case 1 -> Set.of(names.iterator().next());
      default -> Set.copyOf(names);
    };
  }

  static Set<String> union(Set<String> a, Set<String> b) {
    if (b.isEmpty() || a == b) {
      return a;
    }
    if (a.isEmpty()) {
      return b;
    }
    Set<String> both = new TreeSet<>(a);
    both.addAll(b);
    return both;
  }
}
