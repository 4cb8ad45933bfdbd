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
   * A bar.
   *
   * @param name of what it measures
   * @param from where it starts; finite, 0 for an amount
   * @param to where it ends; finite
   * @param label what stands at its end
   */
  public record Bar(String name, double from, double to, String label) {
    public Bar {
      requireNonNull(name, "name");
      requireNonNull(label, "label");
      if (!Double.isFinite(from) || !Double.isFinite(to)) {
        throw new IllegalArgumentException("an end of " + name + " is not finite");
      }
    }

    /** An amount: a bar from zero. */
    public static Bar of(String name, double value, String unit) {
      return new Bar(name, 0, value, Telling.number(value, unit));
    }
  }
}
