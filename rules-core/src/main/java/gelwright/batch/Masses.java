package gelwright.batch;

import gelwright.quantity.Share;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;

/**
 * Masses on the steps of a balance that add up to the batch.
 *
 * <p>Every mass is rounded to the nearest step. What rounding leaves over or asks for goes to one
 * line, usually the water; where there is none, the steps that are left go to the lines that lost
 * most by rounding down (largest remainder). All in decimal numbers: nothing is lost on the way.
 */
final class Masses {
  private static final BigDecimal ALL = BigDecimal.valueOf(Share.ALL.units());

  private Masses() {}

  /** The multiple of a step nearest to a mass, half to even. */
  static BigDecimal round(BigDecimal mass, BigDecimal step) {
    return mass.divide(step, 0, RoundingMode.HALF_EVEN).multiply(step);
  }

  /** A step for masses where no balance is stated: a power of ten near a 50 000th of the batch. */
  static BigDecimal usualStep(BigDecimal batch) {
    BigDecimal fine = batch.divide(BigDecimal.valueOf(50_000), 12, RoundingMode.HALF_EVEN);
    int power = (int) Math.floor(Math.log10(Math.max(1e-9, fine.doubleValue())));
    return BigDecimal.ONE.scaleByPowerOfTen(power);
  }

  /**
   * Masses of the lines.
   *
   * @param shares in units of a {@link Share}; of a line that takes what is left, empty
   * @param batch its mass
   * @param step of the balance
   * @param takesTheRest number of the line that takes what is left
   * @return in the order of the lines; with a rest they add up to the batch, without one to the sum
   *     of the shares, rounded
   */
  static List<BigDecimal> of(
      List<Optional<Long>> shares, BigDecimal batch, BigDecimal step, OptionalInt takesTheRest) {
    List<BigDecimal> exact = new ArrayList<>();
    List<BigDecimal> rounded = new ArrayList<>();
    BigDecimal sum = BigDecimal.ZERO;
    BigDecimal exactSum = BigDecimal.ZERO;
    for (Optional<Long> share : shares) {
      // A sheet states a share to ten decimals of a whole, so that this division is exact.
      BigDecimal mass = BigDecimal.valueOf(share.orElse(0L)).multiply(batch).divide(ALL);
      exact.add(mass);
      rounded.add(round(mass, step));
      exactSum = exactSum.add(mass);
      sum = sum.add(rounded.get(rounded.size() - 1));
    }
    if (takesTheRest.isPresent()) {
      int rest = takesTheRest.getAsInt();
      rounded.set(rest, batch.subtract(sum.subtract(rounded.get(rest))));
      return rounded;
    }
    largestRemainder(exact, rounded, step, round(exactSum, step).subtract(sum));
    return rounded;
  }

  private static void largestRemainder(
      List<BigDecimal> exact, List<BigDecimal> rounded, BigDecimal step, BigDecimal left) {
    int steps = left.divide(step, 0, RoundingMode.HALF_EVEN).intValue();
    BigDecimal one = steps < 0 ? step.negate() : step;
    List<Integer> byLoss =
        IntStream.range(0, exact.size())
            .boxed()
            .sorted(
                Comparator.comparing(
                        (Integer i) ->
                            exact
                                .get(i)
                                .subtract(rounded.get(i))
                                .multiply(BigDecimal.valueOf(Integer.signum(steps))))
                    .reversed())
            .toList();
    for (int i = 0; i < Math.abs(steps) && i < byLoss.size(); i++) {
      int line = byLoss.get(i);
      rounded.set(line, rounded.get(line).add(one));
    }
  }
}
