package gelwright;

import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/**
 * Tries a property on random inputs, always the same ones unless asked otherwise.
 *
 * <pre>{@code
 * Seeded.tries(1000, random -> {
 *   double share = random.nextDouble(0, 100);
 *   assertThat...
 * });
 * }</pre>
 *
 * <p>Every try has its own seed. A failing try names it; {@code -Dseed=N} starts with that try, so
 * it fails at once. {@code -Dseed=random} starts anywhere, to look further than the ordinary build
 * does.
 */
public final class Seeded {
  private static final long USUAL = 1;

  private Seeded() {}

  /** A property: throws where it does not hold. */
  @FunctionalInterface
  public interface Property {
    /** Draws its inputs from {@code random} alone. */
    void holdsFor(RandomGenerator random);
  }

  /** Tries the property so many times, each with a generator of its own seed. */
  public static void tries(int count, Property property) {
    long first = firstSeed();
    for (long seed = first; seed < first + count; seed++) {
      try {
        property.holdsFor(new SplittableRandom(seed));
      } catch (RuntimeException | AssertionError failure) {
        throw new AssertionError(
            failure.getMessage() + " [try again with -Dseed=" + seed + "]", failure);
      }
    }
  }

  private static long firstSeed() {
    String seed = System.getProperty("seed", "" + USUAL);
    return seed.equals("random") ? new SplittableRandom().nextInt() : Long.parseLong(seed);
  }
}
