package gelwright.prediction;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.review.Editions;
import java.util.List;
import java.util.Optional;

/**
 * What a formula is likely to be. A prediction with its sources: no verdict, no certificate and no
 * safety assessment.
 *
 * @param formula its name
 * @param editions what it rests on, with the date it was made for
 * @param properties of the formula in the order of their names, then those of its items: gums,
 *     preservatives, acids, particles, ingredients, what they bear, steps and lines
 * @param curves always the same ones, in the same order; one that is not known says why
 * @param place of the sheet
 */
public record Prediction(
    String formula,
    Editions editions,
    List<Predicted> properties,
    List<Curve> curves,
    Place place) {
  public Prediction {
    requireNonNull(formula, "formula");
    requireNonNull(editions, "editions");
    requireNonNull(place, "place");
    properties = List.copyOf(properties);
    curves = List.copyOf(curves);
  }

  /** A property of the formula as a whole by its name. */
  public Optional<Predicted> property(String name) {
    return properties.stream()
        .filter(each -> each.subject().isFormula() && each.name().equals(name))
        .findFirst();
  }

  /** A property of an item by its name, kind included, and the name of the item. */
  public Optional<Predicted> property(String name, String item) {
    return properties.stream()
        .filter(each -> each.name().equals(name) && each.subject().name().equals(item))
        .findFirst();
  }

  /** A curve by its name. */
  public Optional<Curve> curve(String name) {
    return curves.stream().filter(each -> each.name().equals(name)).findFirst();
  }
}
