package gelwright.rule;

import gelwright.problem.Place;
import java.util.List;
import java.util.Set;

/**
 * How a rule came to its odds: a sub-expression, its value, and the sub-expressions it is made of.
 *
 * @param text the sub-expression as written
 * @param place where it stands in the rule set
 * @param value its value, printed
 * @param missing what is missing in it
 * @param parts its sub-expressions, in order
 */
public record Trace(String text, Place place, String value, Set<String> missing, List<Trace> parts) {
  public Trace {
    missing = Set.copyOf(missing);
    parts = List.copyOf(parts);
  }
}
