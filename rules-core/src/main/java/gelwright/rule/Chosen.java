package gelwright.rule;

import gelwright.quantity.Odds;
import java.util.Set;

/**
 * The name or names a choice holds, as far as they are known.
 *
 * @param names what is surely chosen
 * @param missing what would have to be known to be sure of the rest; empty when {@code names} is
 *     all
 */
public record Chosen(Set<String> names, Set<String> missing) {
  public Chosen {
    names = Sets.sorted(names);
    missing = Sets.sorted(missing);
  }

  public static Chosen of(String name) {
    return new Chosen(Set.of(name), Set.of());
  }

  public static Chosen of(Set<String> names) {
    return new Chosen(names, Set.of());
  }

  /** Nothing is known of the choice. */
  public static Chosen unknown(Set<String> missing) {
    return new Chosen(Set.of(), missing);
  }

  public boolean isKnown() {
    return missing.isEmpty();
  }

  /** Whether the one name chosen is this one. */
  public Truth is(String name) {
    if (!names.isEmpty() || missing.isEmpty()) {
      return Truth.of(names.contains(name));
    }
    return Truth.open(missing);
  }

  /** Whether this name is among those chosen. */
  public Truth has(String name) {
    if (names.contains(name)) {
      return Truth.CERTAIN;
    }
    return missing.isEmpty() ? Truth.IMPOSSIBLE : new Truth(Odds.OPEN, missing);
  }
}
