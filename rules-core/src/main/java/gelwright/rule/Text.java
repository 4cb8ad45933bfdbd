package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;

/**
 * A piece of text from a rule set and where it starts.
 *
 * @param text as written
 * @param place of its first character
 */
public record Text(String text, Place place) {
  public Text {
    requireNonNull(text, "text");
    requireNonNull(place, "place");
  }
}
