package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.formula.Line;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.rule.Truth;
import java.util.List;
import java.util.Set;

/**
 * One ingredient of the expanded recipe, with every line that brings it.
 *
 * @param index its number in the recipe, in the order it first appears
 * @param ingredient what is known of it
 * @param known whether the catalogue has it; an unknown one is an ingredient of which nothing is
 *     known
 * @param parts how much each line brings
 */
record Component(int index, Ingredient ingredient, boolean known, List<Part> parts) {
  /**
   * What one line brings of an ingredient.
   *
   * @param line index of the line
   * @param units exact share, in the units of {@link gelwright.quantity.Share}
   * @param source the line itself
   */
  record Part(int line, long units, Line source) {}

  String name() {
    return ingredient.name();
  }

  long units() {
    long sum = 0;
    for (Part part : parts) {
      sum += part.units();
    }
    return sum;
  }

  double percent() {
    return (double) units() / gelwright.quantity.Share.PER_PERCENT;
  }

  /** Whether a line asks for as much of it as takes the pH to its target. */
  boolean isSolvedFor() {
    return parts.stream().anyMatch(part -> part.source().amount() instanceof Amount.ToPH);
  }

  /** Whether it has a function, as far as that is known. */
  Truth has(String function) {
    Known<Set<String>> functions = ingredient.functions();
    return functions.isUnknown()
        ? Truth.open(Set.of(missing("functions")))
        : functions.fold(
            set -> Truth.of(set.contains(function)), Truth.IMPOSSIBLE, Truth.IMPOSSIBLE);
  }

  /** Whether it dissolves in the water phase, as far as that is known. */
  Truth inWater() {
    Known<String> dissolves = ingredient.dissolves();
    return dissolves.isUnknown()
        ? Truth.open(Set.of("what " + name() + " dissolves in"))
        : dissolves.fold(
            where -> Truth.of(where.equals("water") || where.equals("both")),
            Truth.IMPOSSIBLE,
            Truth.IMPOSSIBLE);
  }

  /** The first line that brings it: the one a finding points at. */
  Part first() {
    return parts.get(0);
  }

  String missing(String what) {
    return what + " of " + name();
  }
}
