package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Line;
import gelwright.review.Shown;
import java.util.List;
import java.util.Optional;

/**
 * A line of the recipe and what became of it.
 *
 * @param ingredient INCI name, or the name as written where the catalogue has none
 * @param change what became of it
 * @param first the line of the first formula, if it has one
 * @param second the line of the second formula, if it has one
 * @param fields what differs: share, phase, strength, hydrate, size, grade, lot; empty unless
 *     changed
 */
public record LineChange(
    String ingredient,
    Change change,
    Optional<RecipeLine> first,
    Optional<RecipeLine> second,
    List<FieldChange> fields) {
  public LineChange {
    requireNonNull(ingredient, "ingredient");
    requireNonNull(change, "change");
    fields = List.copyOf(fields);
    if (change != Change.of(first.isPresent(), second.isPresent(), fields.isEmpty())) {
      throw new IllegalArgumentException("change of " + ingredient + " is not " + change);
    }
  }

  /**
   * A line with its share worked out.
   *
   * @param number of the line in its recipe, from 1
   * @param line as written
   * @param share of the raw material: as stated, what is left to 100 %, or what it takes to reach
   *     the pH, as far as that is known
   */
  public record RecipeLine(int number, Line line, Shown share) {
    public RecipeLine {
      requireNonNull(line, "line");
      requireNonNull(share, "share");
      if (number < 1) {
        throw new IllegalArgumentException("number must be at least 1, is " + number);
      }
    }
  }
}
