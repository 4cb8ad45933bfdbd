package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.formula.Line;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Lot;
import gelwright.quantity.Share;
import gelwright.rule.Truth;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** One ingredient of the expanded recipe, with every line that brings it. */
final class Component {
  private final int index;
  private final Ingredient ingredient;
  private final boolean known;
  private final List<Part> parts;
  // Asked for in every property and every shifted world, so told once.
  private final long units;
  private final boolean solvedFor;
  private final Set<String> functions;
  private final Truth anyFunction;
  private final Truth inWater;
  private final Map<String, String> missing = new HashMap<>();

  /**
   * What one line brings of an ingredient.
   *
   * @param line index of the line
   * @param units exact share, in the units of {@link Share}
   * @param source the line itself
   * @param lot what is known of the lot that the line names
   * @param stranger whether the line names a lot of which nothing is known
   */
  record Part(int line, long units, Line source, Optional<Lot> lot, boolean stranger) {
    /** A part of no lot in particular. */
    Part(int line, long units, Line source) {
      this(line, units, source, Optional.empty(), false);
    }
  }

  /**
   * A component.
   *
   * @param index its number in the recipe, in the order it first appears
   * @param ingredient what is known of it
   * @param known whether the catalogue has it; an unknown one is an ingredient of which nothing is
   *     known
   * @param parts how much each line brings
   */
  Component(int index, Ingredient ingredient, boolean known, List<Part> parts) {
    this.index = index;
    this.ingredient = ingredient;
    this.known = known;
    this.parts = List.copyOf(parts);
    long sum = 0;
    boolean solved = false;
    for (Part part : parts) {
      sum += part.units();
      solved |= part.source().amount() instanceof Amount.ToPH;
    }
    this.units = sum;
    this.solvedFor = solved;
    this.functions = ingredient.functions().toOptional().orElse(Set.of());
    this.anyFunction =
        ingredient.functions().isUnknown()
            ? Truth.open(Set.of(missing("functions")))
            : Truth.IMPOSSIBLE;
    this.inWater =
        ingredient
            .dissolves()
            .fold(
                where -> Truth.of(where.equals("water") || where.equals("both")),
                Truth.IMPOSSIBLE,
                Truth.open(Set.of("what " + name() + " dissolves in")));
  }

  int index() {
    return index;
  }

  Ingredient ingredient() {
    return ingredient;
  }

  boolean known() {
    return known;
  }

  List<Part> parts() {
    return parts;
  }

  String name() {
    return ingredient.name();
  }

  long units() {
    return units;
  }

  double percent() {
    return (double) units / Share.PER_PERCENT;
  }

  /** Whether a line asks for as much of it as takes the pH to its target. */
  boolean isSolvedFor() {
    return solvedFor;
  }

  /** Whether it has a function, as far as that is known. */
  Truth has(String function) {
    return functions.contains(function) ? Truth.CERTAIN : anyFunction;
  }

  /** Whether it forms micelles in the water that take up others, as far as that is known. */
  Truth binds() {
    return has("surfactant").or(has("solubiliser")).or(has("emulsifier")).and(inWater);
  }

  /** Whether it dissolves in the water phase, as far as that is known. */
  Truth inWater() {
    return inWater;
  }

  /** The first line that brings it: the one a finding points at. */
  Part first() {
    return parts.get(0);
  }

  /** The same with a purpose: "inhibitory level of Sorbic Acid against yeasts". */
  String missing(String what, String purpose) {
    String known = missing.get(purpose);
    if (known == null) {
      known = missing(what) + purpose;
      missing.put(purpose, known);
    }
    return known;
  }

  /** What it takes up of preservatives, in words. */
  String uptake() {
    String known = missing.get("takes up");
    if (known == null) {
      known = "what " + name() + " takes up of preservatives";
      missing.put("takes up", known);
    }
    return known;
  }

  /** What is missing of it, in the trade's words: "density of Squalane". */
  String missing(String what) {
    String known = missing.get(what);
    if (known == null) {
      known = what + " of " + name();
      missing.put(what, known);
    }
    return known;
  }
}
