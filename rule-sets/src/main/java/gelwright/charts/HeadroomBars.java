package gelwright.charts;

import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Headroom;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** How far the numbers of a formula can move, as bars in percent of where they stand. */
public final class HeadroomBars {
  /** No bar is drawn longer than this, %; its label says how far it goes. */
  private static final double LONGEST = 100;

  private HeadroomBars() {}

  /** Bars from how far each number can fall to how far it can rise; empty where none can move. */
  public static Optional<Bars> of(List<Headroom> headroom) {
    List<Bars.Bar> bars = new ArrayList<>();
    for (Headroom each : headroom) {
      bars.add(
          new Bars.Bar(
              each.what().text() + ": " + written(each.now()),
              part(each, each.down()),
              part(each, each.up()),
              label(each)));
    }
    return bars.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Bars("Room before a rule changes its outcome", "change from now", "%", bars));
  }

  private static double part(Headroom headroom, Headroom.Side side) {
    double now = headroom.now().value();
    double part = 100 * (side.free().value() - now) / Math.abs(now == 0 ? 1 : now);
    return Math.max(-LONGEST, Math.min(LONGEST, part));
  }

  private static String label(Headroom headroom) {
    return end(headroom.down()) + " to " + end(headroom.up());
  }

  private static String end(Headroom.Side side) {
    return written(side.free()) + (side.change().isEmpty() ? " or beyond" : "");
  }

  /** A number of the headroom, with its unit; a share to six digits, as the balance allows. */
  private static String written(Quantity quantity) {
    return quantity.unit() == Unit.PERCENT
        ? Numbers.significant(quantity.value(), 6) + " %"
        : quantity.toString();
  }
}
