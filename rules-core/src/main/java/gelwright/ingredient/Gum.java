package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.List;
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
 * @param at concentration in the water phase at which the parameters are told, % w/w; laws other
 *     than herschel-bulkley and cross are always told at 1 %
 * @param strength a factor on the whole law with the doubt that all its readings share, such as
 *     that of the instrument; empty where the parameters hold all of their doubt
 * @param rates shear rates that readings cover; empty where the law is meant for all of them
 * @param together doubts that move several parameters at once, as those of a fit do: for each the
 *     factor on every parameter it moves, at the upper end of its 90 % range
 */
public record Gum(
    String law,
    Map<String, Figure> parameters,
    double from,
    double to,
    Known<Salt> salt,
    Optional<Figure> flowEnergy,
    Optional<Setting> setting,
    Map<String, GumPair> pairs,
    double at,
    Optional<Figure> strength,
    Optional<Rates> rates,
    List<Map<String, Double>> together) {
  /**
   * Shear rates that readings cover.
   *
   * @param from 1/s; 0 where the readings show how the gel is at rest
   * @param to 1/s
   */
  public record Rates(double from, double to) {
    public Rates {
      if (!(from >= 0 && from < to && to < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("shear rates " + from + " to " + to + " are no range");
      }
    }
  }

  public Gum {
    requireNonNull(law, "law");
    requireNonNull(salt, "salt");
    requireNonNull(flowEnergy, "flowEnergy");
    requireNonNull(setting, "setting");
    requireNonNull(strength, "strength");
    requireNonNull(rates, "rates");
    together = together.stream().map(Map::copyOf).toList();
    for (Map<String, Double> doubt : together) {
      if (doubt.values().stream().anyMatch(factor -> !(factor > 0))) {
        throw new IllegalArgumentException("together must be factors above zero: " + doubt);
      }
    }
    parameters = Map.copyOf(parameters);
    pairs = Map.copyOf(pairs);
    if (!(from >= 0 && from < to)) {
      throw new IllegalArgumentException("range " + from + " to " + to + " is empty");
    }
    if (!(at > 0 && at <= 100)) {
      throw new IllegalArgumentException("at must lie between 0 and 100, is " + at);
    }
  }

  /** A gum told at 1 %, its law meant for all shear rates. */
  public Gum(
      String law,
      Map<String, Figure> parameters,
      double from,
      double to,
      Known<Salt> salt,
      Optional<Figure> flowEnergy,
      Optional<Setting> setting,
      Map<String, GumPair> pairs) {
    this(
        law,
        parameters,
        from,
        to,
        salt,
        flowEnergy,
        setting,
        pairs,
        1,
        Optional.empty(),
        Optional.empty(),
        List.of());
  }

  /** A gum that does not set, of which neither activation energy nor pairs are known. */
  public Gum(String law, Map<String, Figure> parameters, double from, double to, Known<Salt> salt) {
    this(law, parameters, from, to, salt, Optional.empty(), Optional.empty(), Map.of());
  }

  /** This gum, and where it says nothing of salt, warmth, setting or pairs what another says. */
  public Gum over(Gum other) {
    return new Gum(
        law,
        parameters,
        from,
        to,
        salt.isUnknown() ? other.salt() : salt,
        flowEnergy.isPresent() ? flowEnergy : other.flowEnergy(),
        setting.isPresent() ? setting : other.setting(),
        pairs.isEmpty() ? other.pairs() : pairs,
        at,
        strength,
        rates,
        together);
  }
}
