package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

/**
 * A gum whose hot solution sets on cooling and melts again on warming.
 *
 * @param below temperature under which the cooling solution sets
 * @param melts temperature at which the gel melts again; not below the first
 */
public record Setting(Figure below, Figure melts) {
  public Setting {
    requireNonNull(below, "below");
    requireNonNull(melts, "melts");
    if (below.likely() > melts.likely()) {
      throw new IllegalArgumentException("a gel cannot melt below the point at which it sets");
    }
  }
}
