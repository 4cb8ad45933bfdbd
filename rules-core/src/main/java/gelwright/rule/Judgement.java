package gelwright.rule;

import gelwright.quantity.Bounded;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * What the words of the language mean for values: the one place where compiled rules and the tree
 * walk agree by sharing code. They differ in how they get there.
 */
final class Judgement {
  private Judgement() {}

  static boolean isSettled(Odds odds) {
    return odds.low() == 1 || odds.high() == 0;
  }

  /** Odds with what is missing, which no longer counts where the odds are settled. */
  static Truth truth(Odds odds, Set<String> missing) {
    if (odds.low() == 1) {
      return Truth.CERTAIN;
    }
    return odds.high() == 0 ? Truth.IMPOSSIBLE : new Truth(odds, missing);
  }

  static Odds odds(Relation relation, Bounded left, Bounded right) {
    return switch (relation) {
      case LESS -> left.lessThan(right);
      case AT_MOST -> left.atMost(right);
      case MORE -> right.lessThan(left);
      case AT_LEAST -> right.atMost(left);
      case EQUAL -> equal(left, right);
      case NOT_EQUAL -> equal(left, right).not();
      case WITHIN, OUTSIDE -> throw new IllegalArgumentException("needs two limits: " + relation);
    };
  }

  // Only of numbers that are exact by arithmetic. Where one turns out to have a doubt or a bound
  // all
  // that can be said is how likely the two may meet at all.
  private static Odds equal(Bounded left, Bounded right) {
    if (isPoint(left) && isPoint(right)) {
      boolean apart = left.lessThan(right).high() > 0 || right.lessThan(left).high() > 0;
      return Odds.of(!apart);
    }
    return new Odds(0, Math.min(left.atMost(right).high(), right.atMost(left).high()));
  }

  private static boolean isPoint(Bounded number) {
    return number.isKnown() && number.atLeast().isExact();
  }

  static Truth compare(Relation relation, Bounded left, Bounded right) {
    return truth(odds(relation, left, right), Sets.union(left.missing(), right.missing()));
  }

  static Truth within(Bounded operand, Bounded from, Bounded to) {
    return truth(
        operand.within(from, to),
        Sets.union(operand.missing(), Sets.union(from.missing(), to.missing())));
  }

  /** Whether two choices are the same name. */
  static Truth same(Chosen left, Chosen right) {
    if (isOpen(left) || isOpen(right)) {
      return Truth.open(Sets.union(left.missing(), right.missing()));
    }
    return Truth.of(isAnyOf(left.names(), right.names()));
  }

  private static boolean isOpen(Chosen chosen) {
    return chosen.names().isEmpty() && !chosen.isKnown();
  }

  static Truth oneOf(Chosen chosen, Set<String> names) {
    if (isOpen(chosen)) {
      return Truth.open(chosen.missing());
    }
    return Truth.of(isAnyOf(chosen.names(), names));
  }

  private static boolean isAnyOf(Set<String> names, Set<String> others) {
    for (String name : names) {
      if (others.contains(name)) {
        return true;
      }
    }
    return false;
  }

  static Truth has(Chosen several, Chosen one) {
    if (one.names().isEmpty()) {
      if (one.isKnown() || (several.isKnown() && several.names().isEmpty())) {
        return Truth.IMPOSSIBLE;
      }
      return Truth.open(Sets.union(several.missing(), one.missing()));
    }
    return several.has(one(one));
  }

  static boolean isKnown(Bounded number) {
    return number.missing().isEmpty() && number.isKnown();
  }

  /** The one name of a choice; if somebody filled in several, the first in the alphabet. */
  static String one(Chosen chosen) {
    return chosen.names().size() == 1
        ? chosen.names().iterator().next()
        : new TreeSet<>(chosen.names()).first();
  }

  /** The cell of the row that a rule goes through. */
  static <V> V cell(Map<String, V> cells, Subject row) {
    V cell = cells.get(row.name());
    if (cell == null) {
      throw new IllegalArgumentException("subject is no row of this table: " + row.name());
    }
    return cell;
  }

  static Bounded number(Table table, Map<String, Bounded> cells, Chosen key) {
    if (key.names().isEmpty()) {
      return Bounded.unknown(missingKey(table, key));
    }
    String name = one(key);
    Bounded cell = cells.get(name);
    return cell != null ? cell : Bounded.unknown(Set.of(Cells.missingRow(table, name)));
  }

  static Chosen names(Table table, Map<String, Chosen> cells, Chosen key) {
    if (key.names().isEmpty()) {
      return Chosen.unknown(missingKey(table, key));
    }
    String name = one(key);
    Chosen cell = cells.get(name);
    return cell != null ? cell : Chosen.unknown(Set.of(Cells.missingRow(table, name)));
  }

  private static Set<String> missingKey(Table table, Chosen key) {
    return key.isKnown() ? Set.of("a name to look up in table " + table.name()) : key.missing();
  }

  /** What a measurement could still decide between two numbers that are both known. */
  static List<Estimate.Contribution> undecided(Bounded left, Bounded right) {
    if (!left.isKnown() || !right.isKnown()) {
      return List.of();
    }
    return left.atLeast().undecidedBy(right.atLeast()).stream()
        .filter(contribution -> contribution.move() != 0)
        .toList();
  }
}
