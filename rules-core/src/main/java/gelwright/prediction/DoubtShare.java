package gelwright.prediction;

import static java.util.Objects.requireNonNull;

/**
 * What one doubt does to a property.
 *
 * @param doubt what is not known exactly, in the trade's words
 * @param settledBy the measurement or information that would settle it, or empty
 * @param share its part in the variance of the property, 0 to 1; of a property known to a factor in
 *     that of its logarithm. The shares of all doubts of a property add up to 1
 * @param atLow the property with this doubt at the lower end of its 90 % range and every other at
 *     its middle, in the property's unit; above the likely value where the two run against each
 *     other
 * @param atHigh the same at the upper end
 */
public record DoubtShare(
    String doubt, String settledBy, double share, double atLow, double atHigh) {
  public DoubtShare {
    requireNonNull(doubt, "doubt");
    requireNonNull(settledBy, "settledBy");
    if (!(share >= 0 && share <= 1) || !Double.isFinite(atLow) || !Double.isFinite(atHigh)) {
      throw new IllegalArgumentException(
          "not a doubt's share: " + share + ", " + atLow + ", " + atHigh);
    }
  }
}
