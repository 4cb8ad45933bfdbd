package gelwright.charts;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * Amounts side by side, to be drawn as horizontal bars: a composition, the room left.
 *
 * @param title what they show, in words
 * @param quantity what the bars measure, in words
 * @param unit symbol of its unit; empty for a plain number
 * @param bars from top to bottom, at least one
 */
public record Bars(String title, String quantity, String unit, List<Bar> bars) {
  public Bars {
    requireNonNull(title, "title");
    requireNonNull(quantity, "quantity");
    requireNonNull(unit, "unit");
    bars = List.copyOf(bars);
    if (bars.isEmpty()) {
      throw new IllegalArgumentException("bars must not be empty");
    }
  }

  /**
   * A bar from zero.
   *
   * @param name of what it measures
   * @param value finite
   */
  public record Bar(String name, double value) {
    public Bar {
      requireNonNull(name, "name");
      if (!Double.isFinite(value)) {
        throw new IllegalArgumentException("value of " + name + " is not finite");
      }
    }
  }
}
