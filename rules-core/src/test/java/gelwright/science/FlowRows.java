package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import java.util.function.DoubleSupplier;
import org.junit.jupiter.params.provider.Arguments;

/** Named rows: what is asked, what the source says, how close the model must come. */
final class FlowRows {
  /** Seed of the property tests; replay another with {@code -Dseed=}. */
  static final long SEED = Long.getLong("seed", 20261125L);

  static final int TRIALS = 2000;

  private FlowRows() {}

  /** A row whose tolerance is a share of the expected value (an absolute one where that is 0). */
  static Arguments row(String name, double expected, double tolerance, DoubleSupplier actual) {
    return Arguments.of(name, expected, tolerance, actual);
  }

  static void check(double expected, double tolerance, DoubleSupplier actual) {
    if (Double.isInfinite(expected)) {
      assertEquals(expected, actual.getAsDouble());
    } else {
      double scale = expected == 0 ? 1 : Math.abs(expected);
      assertEquals(expected, actual.getAsDouble(), tolerance * scale);
    }
  }

  static Random random() {
    return new Random(SEED);
  }

  /** A number spread evenly in its logarithm. */
  static double logUniform(Random random, double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  static double uniform(Random random, double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  static void atMost(double smaller, double larger, String what) {
    assertTrue(
        smaller <= larger * (1 + 1e-12) + 1e-300,
        () -> what + ": " + smaller + " > " + larger + ", seed " + SEED);
  }
}
