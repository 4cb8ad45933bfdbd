package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Map;

/**
 * How a gum thickens and hydrates.
 *
 * @param law name of the flow law: herschel-bulkley, cross, coil or newtonian
 * @param parameters of the law by name, as {@code docs/models/flow-curve.md} lists them
 * @param from lowest concentration in the water phase the law is known for, % w/w
 * @param to highest concentration in the water phase the law is known for, % w/w
 * @param salt what free electrolyte does to it
 */
public record Gum(
    String law, Map<String, Figure> parameters, double from, double to, Known<Salt> salt) {
  public Gum {
    requireNonNull(law, "law");
    requireNonNull(salt, "salt");
    parameters = Map.copyOf(parameters);
    if (!(from >= 0 && from < to)) {
      throw new IllegalArgumentException("range " + from + " to " + to + " is empty");
    }
  }
}
