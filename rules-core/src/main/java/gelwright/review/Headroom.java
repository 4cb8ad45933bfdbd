package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import java.util.Optional;

/**
 * How far one number of a formula can move before a rule changes its outcome, all others staying as
 * they are and the water taking up the difference.
 *
 * @param what the number
 * @param now where it stands
 * @param grid the step in which it was moved
 * @param down towards less
 * @param up towards more
 */
public record Headroom(What what, Quantity now, Quantity grid, Side down, Side up) {
  /** Which number. */
  public sealed interface What {
    /** What a reader calls it. */
    String text();

    /**
     * The share of a line.
     *
     * @param line its number, from 0
     * @param ingredient as written there
     */
    record ShareOf(int line, String ingredient) implements What {
      @Override
      public String text() {
        return ingredient;
      }
    }

    /** The pH. */
    record PH() implements What {
      @Override
      public String text() {
        return "pH";
      }
    }

    /**
     * A temperature of the procedure.
     *
     * @param step number of the first step that has it, from 0
     */
    record Temperature(int step) implements What {
      @Override
      public String text() {
        return "temperature of step " + (step + 1);
      }
    }
  }

  /**
   * One way it can move.
   *
   * @param free the last value at which no rule has changed
   * @param gap the widest gap between two neighbouring values that were looked at on the way there,
   *     0 where there is no way: a rule that changes and changes back within it is not seen
   * @param change the first value at which one has, and which; empty where none has as far as was
   *     looked, which is {@code free}
   */
  public record Side(Quantity free, Quantity gap, Optional<Change> change) {
    public Side {
      requireNonNull(free, "free");
      requireNonNull(gap, "gap");
      requireNonNull(change, "change");
    }
  }

  /**
   * A rule that changes its outcome.
   *
   * @param at the first value at which it does
   * @param concern the rule and its subject; of several the one that becomes worst
   * @param from its outcome now
   * @param to its outcome then
   * @param others how many more change there
   */
  public record Change(Quantity at, Concern concern, Outcome from, Outcome to, int others) {}

  public Headroom {
    requireNonNull(what, "what");
    requireNonNull(now, "now");
    requireNonNull(down, "down");
    requireNonNull(up, "up");
  }
}
