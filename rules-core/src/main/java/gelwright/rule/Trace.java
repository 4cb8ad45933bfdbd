package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import java.util.List;
import java.util.Set;

/**
 * How a rule came to its outcome, part by part.
 *
 * @param text the part as written
 * @param place where it is written
 * @param value what it came to, printed: a number with its range, names, or odds
 * @param missing what is missing to know it, or to settle it
 * @param parts the parts it is made of
 */
public record Trace(
    String text, Place place, String value, Set<String> missing, List<Trace> parts) {
  public Trace {
    requireNonNull(text, "text");
    requireNonNull(place, "place");
    requireNonNull(value, "value");
    missing = Sets.sorted(missing);
    parts = List.copyOf(parts);
  }
}
