package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;

/**
 * How a gum thickens.
 *
 * @param law name of the flow law: herschel-bulkley, cross, coil or newtonian
 * @param parameters of the law by name, as {@code docs/models/flow-law.md} lists them
 * @param from lowest concentration in the water phase the law is known for, % w/w
 * @param to highest concentration in the water phase the law is known for, % w/w
 * @param salt what free electrolyte does to it
 * @param flowEnergy activation energy of its flow, how much warmth thins it
 * @param setting of a gum that sets on cooling; empty for one that does not
 * @param pairs gums it thickens more with than beside, by INCI name
 */
public record Gum(
    String law,
    Map<String, Figure> parameters,
    double from,
    double to,
    Known<Salt> salt,
    Optional<Figure> flowEnergy,
    Optional<Setting> setting,
    Map<String, GumPair> pairs) {
  public Gum {
    requireNonNull(law, "law");
    requireNonNull(salt, "salt");
    requireNonNull(flowEnergy, "flowEnergy");
    requireNonNull(setting, "setting");
    parameters = Map.copyOf(parameters);
    pairs = Map.copyOf(pairs);
    if (!(from >= 0 && from < to)) {
      throw new IllegalArgumentException("range " + from + " to " + to + " is empty");
    }
  }

  /** A gum that does not set, of which neither activation energy nor pairs are known. */
  public Gum(String law, Map<String, Figure> parameters, double from, double to, Known<Salt> salt) {
    this(law, parameters, from, to, salt, Optional.empty(), Optional.empty(), Map.of());
  }
}
