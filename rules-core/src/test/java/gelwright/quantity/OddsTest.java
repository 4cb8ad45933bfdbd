package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class OddsTest {
  /** Steps of the grid of joint distributions. */
  private static final int STEPS = 20;

  @Test
  @DisplayName("and, or: the bounds are those of every joint distribution of two events on a grid")
  void frechetByBruteForce() {
    double[][] leastBoth = new double[STEPS + 1][STEPS + 1];
    double[][] mostBoth = new double[STEPS + 1][STEPS + 1];
    double[][] leastEither = new double[STEPS + 1][STEPS + 1];
    double[][] mostEither = new double[STEPS + 1][STEPS + 1];
    for (int p = 0; p <= STEPS; p++) {
      for (int q = 0; q <= STEPS; q++) {
        leastBoth[p][q] = leastEither[p][q] = 2;
        mostBoth[p][q] = mostEither[p][q] = -1;
      }
    }
    for (int both = 0; both <= STEPS; both++) {
      for (int first = 0; both + first <= STEPS; first++) {
        for (int second = 0; both + first + second <= STEPS; second++) {
          int p = both + first;
          int q = both + second;
          double and = (double) both / STEPS;
          double or = (double) (both + first + second) / STEPS;
          leastBoth[p][q] = Math.min(leastBoth[p][q], and);
          mostBoth[p][q] = Math.max(mostBoth[p][q], and);
          leastEither[p][q] = Math.min(leastEither[p][q], or);
          mostEither[p][q] = Math.max(mostEither[p][q], or);
        }
      }
    }
    for (int p = 0; p <= STEPS; p++) {
      for (int q = 0; q <= STEPS; q++) {
        Odds first = Odds.of((double) p / STEPS);
        Odds second = Odds.of((double) q / STEPS);
        assertOdds(leastBoth[p][q], mostBoth[p][q], first.and(second));
        assertOdds(leastEither[p][q], mostEither[p][q], first.or(second));
      }
    }
  }

  @Test
  @DisplayName("and, or of intervals: the hull over all odds within them")
  void intervals() {
    Seeded.tries(
        200,
        random -> {
          Odds a = draw(random);
          Odds b = draw(random);
          double leastBoth = 2;
          double mostBoth = -1;
          double leastEither = 2;
          double mostEither = -1;
          for (int i = 0; i <= 10; i++) {
            for (int j = 0; j <= 10; j++) {
              double p = Math.min(a.high(), a.low() + (a.high() - a.low()) * i / 10);
              double q = Math.min(b.high(), b.low() + (b.high() - b.low()) * j / 10);
              leastBoth = Math.min(leastBoth, Math.max(0, p + q - 1));
              mostBoth = Math.max(mostBoth, Math.min(p, q));
              leastEither = Math.min(leastEither, Math.max(p, q));
              mostEither = Math.max(mostEither, Math.min(1, p + q));
            }
          }
          assertOdds(leastBoth, mostBoth, a.and(b));
          assertOdds(leastEither, mostEither, a.or(b));
        });
  }

  private static Odds draw(RandomGenerator random) {
    double a = random.nextInt(4) == 0 ? random.nextInt(2) : random.nextDouble();
    double b = random.nextInt(4) == 0 ? random.nextInt(2) : random.nextDouble();
    return new Odds(Math.min(a, b), Math.max(a, b));
  }

  private static void assertOdds(double low, double high, Odds actual) {
    assertEquals(low, actual.low(), 1e-15 * 4);
    assertEquals(high, actual.high(), 1e-15 * 4);
  }

  @Test
  @DisplayName("not, and, or: what must be equal is equal, De Morgan to rounding")
  void algebra() {
    Seeded.tries(
        2000,
        random -> {
          Odds a = draw(random);
          Odds b = draw(random);
          assertEquals(a.and(b), b.and(a));
          assertEquals(a.or(b), b.or(a));
          assertEquals(a, a.and(Odds.CERTAIN));
          assertEquals(Odds.IMPOSSIBLE, a.and(Odds.IMPOSSIBLE));
          assertEquals(a, a.or(Odds.IMPOSSIBLE));
          assertEquals(Odds.CERTAIN, a.or(Odds.CERTAIN));
          assertOdds(a.low(), a.high(), a.not().not());
          Odds right = a.not().or(b.not());
          assertOdds(right.low(), right.high(), a.and(b).not());
          assertTrue(a.and(b).high() <= a.or(b).high());
        });
  }

  @ParameterizedTest(name = "odds {0} to {1}: {2}")
  @CsvSource({
    "1, 1, HOLDS",
    "0.95, 0.95, HOLDS",
    "0.95, 1, HOLDS",
    "0.9499, 1, BETWEEN",
    "0.5, 0.5, BETWEEN",
    "0.0501, 0.0501, BETWEEN",
    "0, 0.0501, BETWEEN",
    "0.05, 0.05, BREAKS",
    "0, 0.05, BREAKS",
    "0, 0, BREAKS",
    "0, 1, BETWEEN",
  })
  void verdicts(double low, double high, Odds.Verdict verdict) {
    Odds odds = new Odds(low, high);
    assertEquals(verdict, odds.verdict());
    Odds.Verdict opposite =
        switch (verdict) {
          case HOLDS -> Odds.Verdict.BREAKS;
          case BREAKS -> Odds.Verdict.HOLDS;
          case BETWEEN -> Odds.Verdict.BETWEEN;
        };
    assertEquals(opposite, odds.not().verdict());
  }

  @ParameterizedTest(name = "odds {0} to {1} are a programmer''s error")
  @CsvSource({"-0.1, 0.5", "0.5, 1.1", "0.6, 0.5", "NaN, 0.5", "0.5, NaN", "NaN, NaN"})
  void impossible(double low, double high) {
    assertThrows(IllegalArgumentException.class, () -> new Odds(low, high));
  }
}
