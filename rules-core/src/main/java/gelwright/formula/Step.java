package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A step of the procedure. Which parts a step needs depends on what is done.
 *
 * @param action what is done
 * @param phase the phase it is done to, if named
 * @param with ingredients it is done with, as written; empty when none is named
 * @param into the phase something is added to
 * @param temperature the temperature reached ({@code to}) or held ({@code at})
 * @param pH the pH aimed at by an adjustment
 * @param over time a change takes
 * @param lasting time the step lasts ({@code for})
 * @param stir stirring speed
 */
public record Step(
    Action action,
    Optional<String> phase,
    List<String> with,
    Optional<String> into,
    Optional<Quantity> temperature,
    Optional<Double> pH,
    Optional<Quantity> over,
    Optional<Quantity> lasting,
    Optional<Quantity> stir) {
  /** What a step does. */
  public enum Action {
    HEAT("heat"),
    COOL("cool"),
    HOLD("hold"),
    DISPERSE("disperse"),
    HYDRATE("hydrate"),
    ADD("add"),
    MIX("mix"),
    HOMOGENISE("homogenise"),
    ADJUST_PH("adjust-pH"),
    FILL("fill");

    private final String word;

    Action(String word) {
      this.word = word;
    }

    /** As written on a sheet. */
    public String word() {
      return word;
    }

    public static Optional<Action> of(String word) {
      for (Action action : values()) {
        if (action.word.toLowerCase(Locale.ROOT).equals(word.strip().toLowerCase(Locale.ROOT))) {
          return Optional.of(action);
        }
      }
      return Optional.empty();
    }
  }

  public Step {
    requireNonNull(action, "action");
    with = List.copyOf(with);
  }
}
