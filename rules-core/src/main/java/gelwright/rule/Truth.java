package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Odds;
import java.util.Set;

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
    if (odds.low() == 1 || other.odds.high() == 0) {
      return other;
    }
    if (other.odds.low() == 1 || odds.high() == 0) {
      return this;
    }
    return new Truth(odds.and(other.odds), Sets.union(missing, other.missing));
  }

  /** Either. A part that is certainly true settles it. */
  public Truth or(Truth other) {
    if (odds.low() == 1 || other.odds.high() == 0) {
      return this;
    }
    if (other.odds.low() == 1 || odds.high() == 0) {
      return other;
    }
    return new Truth(odds.or(other.odds), Sets.union(missing, other.missing));
  }

  public Truth not() {
    if (odds.low() == 1) {
      return IMPOSSIBLE;
    }
    return odds.high() == 0 ? CERTAIN : negated();
  }

  private Truth negated() {
    return new Truth(odds.not(), missing);
  }
}
