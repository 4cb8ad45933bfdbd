package gelwright.rule;

import java.util.Set;
import java.util.TreeSet;

/** Joins sets of names without copying where one of them is empty. */
final class Sets {
  private Sets() {}

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
