package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.util.List;

/**
 * A number known of an ingredient.
 *
 * @param likely in the coherent base unit of {@code unit}'s dimension; finite
 * @param unit as written
 * @param spread 90 % range: ± in base units on the linear scale, ×/÷ on the factor scale (at least
 *     1); 0 or 1 when the number is taken as exact
 * @param scale of the spread
 * @param sources ids of sources; never empty
 */
public record Figure(
    double likely, Unit unit, double spread, Estimate.Scale scale, List<String> sources) {
  public Figure {
    requireNonNull(unit, "unit");
    requireNonNull(scale, "scale");
    sources = List.copyOf(sources);
    if (!Double.isFinite(likely)) {
      throw new IllegalArgumentException("likely must be finite, is " + likely);
    }
    if (!(scale == Estimate.Scale.FACTOR ? spread >= 1 && likely > 0 : spread >= 0)) {
      throw new IllegalArgumentException("spread does not fit its scale: " + spread);
    }
  }

  /** One standard deviation on the figure's scale; 0 when the number is taken as exact. */
  public double deviation() {
    return (scale == Estimate.Scale.FACTOR ? Math.log(spread) : spread) / Estimate.NINETY_PERCENT;
  }

  /** Whether the number is not taken as exact. */
  public boolean isInDoubt() {
    return spread != (scale == Estimate.Scale.FACTOR ? 1 : 0);
  }

  /** The number when its doubt stands so many standard deviations off. */
  public double shifted(double deviations) {
    double shift = deviations * deviation();
    return scale == Estimate.Scale.FACTOR ? likely * Math.exp(shift) : likely + shift;
  }
}
