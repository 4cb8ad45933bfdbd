package gelwright.prediction;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Source;
import gelwright.review.Shown;
import gelwright.review.Subject;
import java.util.List;

/**
 * One property of a formula, or of one of its items.
 *
 * @param subject what it is a property of; {@link Subject#FORMULA} for the formula as a whole
 * @param meaning one sentence
 * @param shown its name, value, range and unit, and what is missing
 * @param origin stated, measured, predicted or missing, as a review says it
 * @param sources of the figures it rests on, each with its standing
 * @param doubts those that matter most, the largest first; empty where there are none, and where
 *     only a bound is known, since what is missing then matters more
 */
public record Predicted(
    Subject subject,
    String meaning,
    Shown shown,
    String origin,
    List<Source> sources,
    List<DoubtShare> doubts) {
  public Predicted {
    requireNonNull(subject, "subject");
    requireNonNull(meaning, "meaning");
    requireNonNull(shown, "shown");
    requireNonNull(origin, "origin");
    sources = List.copyOf(sources);
    doubts = List.copyOf(doubts);
  }

  /** Name of the property: {@code gel.yield-stress}, {@code preservative.undissociated}. */
  public String name() {
    return shown.name();
  }
}
