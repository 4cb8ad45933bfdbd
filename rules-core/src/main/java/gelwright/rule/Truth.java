package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Odds;
import java.util.Set;
import java.util.TreeSet;

/**
 * The odds of a statement, and what is missing where they are not settled.
 *
 * @param odds the odds
 * @param missing inputs that are missing and could still matter; empty when nothing is missing or
 *     when the odds are certain either way
 */
public record Truth(Odds odds, Set<String> missing) {
  public static final Truth CERTAIN = new Truth(Odds.CERTAIN, Set.of());
  public static final Truth IMPOSSIBLE = new Truth(Odds.IMPOSSIBLE, Set.of());

  public Truth {
    requireNonNull(odds, "odds");
    boolean certain = odds.low() == 1 || odds.high() == 0;
    missing = certain ? Set.of() : Sets.sorted(missing);
  }

  public static Truth of(boolean truth) {
    return truth ? CERTAIN : IMPOSSIBLE;
  }

  /** A statement of which nothing is known until these inputs are. */
  public static Truth open(Set<String> missing) {
    return new Truth(Odds.OPEN, missing);
  }

  /**
   * Both. A part that is certainly false settles it, and what the other part misses no longer
   * counts.
   */
  public Truth and(Truth other) {
    return settle(odds.and(other.odds), other, odds.high() == 0, other.odds.high() == 0);
  }

  /** Either. A part that is certainly true settles it. */
  public Truth or(Truth other) {
    return settle(odds.or(other.odds), other, odds.low() == 1, other.odds.low() == 1);
  }

  public Truth not() {
    return new Truth(odds.not(), missing);
  }

  private Truth settle(Odds joint, Truth other, boolean mineSettles, boolean otherSettles) {
    if (mineSettles) {
      return new Truth(joint, missing);
    }
    if (otherSettles) {
      return new Truth(joint, other.missing);
    }
    if (missing.isEmpty()) {
      return new Truth(joint, other.missing);
    }
    if (other.missing.isEmpty()) {
      return new Truth(joint, missing);
    }
    Set<String> both = new TreeSet<>(missing);
    both.addAll(other.missing);
    return new Truth(joint, both);
  }
}
