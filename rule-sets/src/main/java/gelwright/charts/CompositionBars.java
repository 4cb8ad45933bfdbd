package gelwright.charts;

import static java.util.Objects.requireNonNull;

import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.quantity.Quantity;
import gelwright.review.Shown;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What a formula is made of, as bars: the ingredients from most to least, blends taken apart. Water
 * stands in the title with its share; drawn as a bar it would make all others too short to be read.
 */
public final class CompositionBars {
  /** The name under which the picture is asked for, beside those of the curves. */
  public static final String NAME = "composition";

  private static final String WATER = "Aqua";

  private CompositionBars() {}

  /** The bars; empty where no share is known. */
  public static Optional<Bars> of(Prediction prediction) {
    requireNonNull(prediction, "prediction");
    List<Predicted> shares = new ArrayList<>();
    String title = "Composition";
    for (Predicted each : prediction.properties()) {
      if (!each.name().equals("ingredient.share")) {
        continue;
      }
      if (each.subject().name().equals(WATER) && each.shown().isKnown()) {
        title = "Composition beside the water (" + WATER + " " + likely(each.shown()) + ")";
      } else if (each.shown().isKnown()) {
        shares.add(each);
      }
    }
    shares.sort(
        Comparator.comparingDouble((Predicted each) -> -each.shown().likely())
            .thenComparing(each -> each.subject().name()));
    List<Bars.Bar> bars = new ArrayList<>();
    for (Predicted each : shares) {
      bars.add(new Bars.Bar(each.subject().name(), 0, each.shown().likely(), label(each.shown())));
    }
    return bars.isEmpty()
        ? Optional.empty()
        : Optional.of(new Bars(title, "share of the formula", "%", bars));
  }

  private static String label(Shown shown) {
    return shown.low() == shown.high()
        ? likely(shown)
        : likely(shown)
            + " ("
            + Quantity.print(shown.low(), shown.unit())
            + " to "
            + Quantity.print(shown.high(), shown.unit())
            + ")";
  }

  private static String likely(Shown shown) {
    return Quantity.print(shown.likely(), shown.unit());
  }
}
