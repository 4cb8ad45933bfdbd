package gelwright.review;

import gelwright.formula.Formula;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import java.util.Optional;

/** The steps in which things can be changed. */
final class Grid {
  /** Step of a share where balance or batch are not stated, %. Common practice, no source. */
  static final Share PRACTICE = new Share(Share.PER_PERCENT / 100);

  /** Step of a pH: what a meter in a gel tells apart. Common practice, no source. */
  static final double PH = 0.1;

  private Grid() {}

  /**
   * The step of a share: what the balance can tell apart in the batch, as the next larger 1, 2 or 5
   * of a power of ten of a percent, so that a sheet can state it; {@link #PRACTICE} where balance
   * or batch are not stated.
   */
  static Share share(Formula formula) {
    Optional<Quantity> balance = formula.equipment().balance();
    Optional<Quantity> batch = formula.batch();
    if (balance.isEmpty() || batch.isEmpty()) {
      return PRACTICE;
    }
    double step = 100 * balance.get().in(Unit.GRAM) / batch.get().in(Unit.GRAM);
    if (!(step > 0)) {
      return PRACTICE;
    }
    long units = 1;
    // A step below a hundredth of a thousandth of a percent is no step anybody takes.
    long[] mantissas = {1, 2, 5};
    for (long power = 1_000; power <= 100 * Share.PER_PERCENT; power *= 10) {
      for (long mantissa : mantissas) {
        units = mantissa * power;
        if ((double) units / Share.PER_PERCENT >= step * (1 - 1e-9)) {
          return new Share(units);
        }
      }
    }
    return new Share(units);
  }
}
