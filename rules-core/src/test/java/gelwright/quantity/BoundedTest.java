package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import gelwright.quantity.Estimate.Scale;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.BinaryOperator;
import java.util.function.DoubleBinaryOperator;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

final class BoundedTest {
  private static final double INFINITY = Double.POSITIVE_INFINITY;
  private static final Set<String> DENSITY = Set.of("density of Squalane");
  private static final Doubt A = new Doubt("a", "");
  private static final Doubt B = new Doubt("b", "");

  private static Bounded between(double least, double most) {
    return Bounded.unknown(least, most, DENSITY);
  }

  /** A bound with ends that often meet others: small whole numbers, now and then none at all. */
  private static Bounded draw(RandomGenerator random) {
    double a = random.nextInt(8) == 0 ? -INFINITY : random.nextInt(-5, 6);
    double b = random.nextInt(8) == 0 ? INFINITY : random.nextInt(-5, 6);
    return a <= b ? between(a, b) : between(b, a);
  }

  /** A number within a bound, its ends more often than chance. */
  private static double inside(Bounded bound, RandomGenerator random) {
    double least = Math.max(bound.atLeast().likely(), -1e6);
    double most = Math.min(bound.atMost().likely(), 1e6);
    return switch (random.nextInt(4)) {
      case 0 -> least;
      case 1 -> most;
      default -> least == most ? least : random.nextDouble(least, most);
    };
  }

  private static void assertBound(double least, double most, Bounded actual) {
    assertEquals(least + 0.0, actual.atLeast().likely());
    assertEquals(most + 0.0, actual.atMost().likely());
  }

  @Nested
  final class Comparisons {
    @Test
    @DisplayName("decided is right for every number within; not decided means it goes either way")
    void decidedIsRight() {
      Seeded.tries(
          5000,
          random -> {
            Bounded x = draw(random);
            Bounded y = draw(random);
            Odds atMost = x.atMost(y);
            Odds less = x.lessThan(y);
            for (int i = 0; i < 20; i++) {
              double a = inside(x, random);
              double b = inside(y, random);
              assertWithin(a <= b, atMost, x + " at most " + y);
              assertWithin(a < b, less, x + " less than " + y);
            }
            if (atMost.equals(Odds.OPEN)) {
              assertTrue(x.atLeast().likely() <= y.atMost().likely());
              assertTrue(x.atMost().likely() > y.atLeast().likely());
            }
          });
    }

    @Test
    @DisplayName("within: decided is right for every number within its own bound")
    void withinIsRight() {
      Seeded.tries(
          5000,
          random -> {
            Bounded x = draw(random);
            int a = random.nextInt(-5, 6);
            int b = random.nextInt(a, 7);
            Odds odds = x.within(Bounded.exact(a), Bounded.exact(b));
            for (int i = 0; i < 20; i++) {
              double value = inside(x, random);
              assertWithin(a <= value && value <= b, odds, x + " within " + a + " to " + b);
            }
          });
    }

    private void assertWithin(boolean truth, Odds odds, String what) {
      double value = truth ? 1 : 0;
      assertTrue(odds.low() <= value && value <= odds.high(), what + " is " + truth + ": " + odds);
    }

    @Test
    @DisplayName("narrowing an exact bound narrows the odds and never flips what is decided")
    void narrowing() {
      Seeded.tries(
          5000,
          random -> {
            Bounded x = draw(random);
            Bounded y = draw(random);
            double a = inside(x, random);
            double b = inside(x, random);
            Bounded narrower = between(Math.min(a, b), Math.max(a, b));
            assertNarrower(x.atMost(y), narrower.atMost(y));
            assertNarrower(y.atMost(x), y.atMost(narrower));
            assertNarrower(x.lessThan(y), narrower.lessThan(y));
            assertNarrower(y.lessThan(x), y.lessThan(narrower));
            Bounded to = y.plus(Bounded.exact(3));
            assertNarrower(x.within(y, to), narrower.within(y, to));
          });
    }

    @ParameterizedTest(name = "narrowing a bound of doubtful ends narrows the odds, {0} scale")
    @EnumSource(Scale.class)
    void narrowingWithDoubt(Scale scale) {
      Seeded.tries(
          2000,
          random -> {
            double[] ends = random.doubles(4, 0.1, 10).sorted().toArray();
            Map<Doubt, Double> doubts = Map.of(A, random.nextDouble(0.01, 1), B, 0.3);
            Bounded wide = doubtful(ends[0], ends[3], scale, doubts);
            Bounded narrow = doubtful(ends[1], ends[2], scale, doubts);
            Bounded limit =
                Bounded.of(Estimate.of(random.nextDouble(0.1, 10), scale, Map.of(A, 0.4)));
            assertNarrower(wide.atMost(limit), narrow.atMost(limit));
            assertNarrower(limit.lessThan(wide), limit.lessThan(narrow));
            Bounded one = Bounded.of(narrow.atLeast());
            assertNarrower(narrow.atMost(limit), one.atMost(limit));
          });
    }

    private Bounded doubtful(double least, double most, Scale scale, Map<Doubt, Double> doubts) {
      return new Bounded(
          Estimate.of(least, scale, doubts), Estimate.of(most, scale, doubts), DENSITY);
    }

    private void assertNarrower(Odds wide, Odds narrow) {
      assertTrue(
          wide.low() <= narrow.low() && narrow.high() <= wide.high(), wide + " to " + narrow);
      if (wide.verdict() != Odds.Verdict.BETWEEN) {
        assertEquals(wide.verdict(), narrow.verdict());
      }
    }

    @ParameterizedTest(name = "{0}..{1} at most {2}: odds {3} to {4}")
    @CsvSource({
      "0, 100, 100, 1, 1",
      "0, 100, 99, 0, 1",
      "0, 100, -1, 0, 0",
      "0, 100, 0, 0, 1",
      "5, 5, 5, 1, 1",
      "-Infinity, Infinity, 5, 0, 1",
      "-Infinity, Infinity, Infinity, 1, 1",
      "-Infinity, 5, 5, 1, 1",
      "5, Infinity, 4, 0, 0",
    })
    void atMostALimit(double least, double most, double limit, double low, double high) {
      assertEquals(new Odds(low, high), between(least, most).atMost(Bounded.exact(limit)));
    }

    @ParameterizedTest(name = "{0}..{1} within 4 to 6: odds {2} to {3}")
    @CsvSource({
      "4, 6, 1, 1",
      "4, 4, 1, 1",
      "6, 6, 1, 1",
      "3, 5, 0, 1",
      "3, 7, 0, 1",
      "6.1, 9, 0, 0",
      "0, 3.9, 0, 0",
    })
    void within(double least, double most, double low, double high) {
      assertEquals(
          new Odds(low, high), between(least, most).within(Bounded.exact(4), Bounded.exact(6)));
    }

    @Test
    @DisplayName("pH 5.0 ± 0.2 within 4.8 to 5.2: the 90 % range is 90 % likely")
    void withinItsRange() {
      Bounded pH = Bounded.of(Estimate.within(5, 0.2, A));
      Odds odds = pH.within(Bounded.exact(4.8), Bounded.exact(5.2));
      assertEquals(0.9, odds.low(), 1e-12);
      assertEquals(0.9, odds.high(), 1e-12);
    }

    @Test
    @DisplayName("a doubtful number lies within itself to itself, and not beside itself")
    void withinItself() {
      Bounded x = Bounded.of(Estimate.withinFactor(5, 2, A));
      assertEquals(Odds.CERTAIN, x.within(x, x));
      assertEquals(Odds.IMPOSSIBLE, x.lessThan(x));
      assertEquals(Odds.IMPOSSIBLE, Bounded.exact(6.5).within(Bounded.exact(7), Bounded.exact(6)));
    }
  }

  @Nested
  final class Arithmetic {
    private void encloses(
        BinaryOperator<Bounded> bounded, DoubleBinaryOperator plain, boolean divides) {
      Seeded.tries(
          5000,
          random -> {
            Bounded x = draw(random);
            Bounded y = draw(random);
            Bounded result = bounded.apply(x, y);
            for (int i = 0; i < 20; i++) {
              double a = inside(x, random);
              double b = inside(y, random);
              if (divides && b == 0) {
                continue;
              }
              double value = plain.applyAsDouble(a, b);
              assertTrue(
                  result.atLeast().likely() <= value && value <= result.atMost().likely(),
                  value + " of " + a + " and " + b + " outside " + result);
            }
          });
    }

    @Test
    @DisplayName("sum, difference, product, quotient, smaller, larger enclose the true result")
    void enclosesTheTruth() {
      encloses(Bounded::plus, Double::sum, false);
      encloses(Bounded::minus, (a, b) -> a - b, false);
      encloses(Bounded::times, (a, b) -> a * b, false);
      encloses(Bounded::dividedBy, (a, b) -> a / b, true);
      encloses(Bounded::min, Math::min, false);
      encloses(Bounded::max, Math::max, false);
      encloses((a, b) -> a.negated(), (a, b) -> -a, false);
    }

    @Test
    @DisplayName("bounds are no wider than they need to be: both ends are reached")
    void ends() {
      assertBound(-2, 9, between(-3, 4).plus(between(1, 5)));
      assertBound(-8, 3, between(-3, 4).minus(between(1, 5)));
      assertBound(-15, 20, between(-3, 4).times(between(1, 5)));
      assertBound(-20, 15, between(-3, 4).times(between(-5, -1)));
      assertBound(-3, 4, between(-3, 4).dividedBy(between(1, 5)));
      assertBound(-3, 4, between(-3, 4).min(between(1, 5)).max(between(-3, 4)));
      assertBound(-4, 3, between(-3, 4).negated());
    }

    @Test
    @DisplayName("by an interval that holds zero: open, and says what is missing")
    void divisionByZero() {
      Bounded one = Bounded.exact(1);
      assertBound(-INFINITY, INFINITY, one.dividedBy(between(-1, 1)));
      assertBound(-INFINITY, INFINITY, one.dividedBy(between(0, 1)));
      assertEquals(DENSITY, one.dividedBy(between(0, 1)).missing());
      Bounded byZero = one.dividedBy(Bounded.exact(0));
      assertBound(-INFINITY, INFINITY, byZero);
      assertEquals(Set.of("a divisor other than zero"), byZero.missing());
      assertFalse(byZero.isKnown());
      assertBound(-INFINITY, INFINITY, Bounded.exact(0).dividedBy(Bounded.exact(0)));
    }

    @Test
    @DisplayName("zero times however much is zero, and known")
    void zeroTimesUnknown() {
      Bounded none = Bounded.exact(0).times(Bounded.unknown(DENSITY));
      assertBound(0, 0, none);
      assertTrue(none.isKnown());
      assertBound(0, INFINITY, between(0, 1).times(between(0, INFINITY)));
      assertBound(0, 0, Bounded.exact(0).times(Bounded.exact(INFINITY)));
    }

    @Test
    @DisplayName("infinity less infinity, infinity by infinity: open, never a number from nowhere")
    void infinities() {
      Bounded any = Bounded.exact(INFINITY);
      assertBound(-INFINITY, INFINITY, any.minus(any));
      assertBound(-INFINITY, INFINITY, any.plus(any.negated()));
      assertBound(INFINITY, INFINITY, any.plus(any));
      assertBound(-INFINITY, INFINITY, between(2, INFINITY).minus(between(3, INFINITY)));
      assertBound(-INFINITY, INFINITY, between(2, INFINITY).minus(any));
      assertBound(0, INFINITY, any.dividedBy(any));
      assertBound(-INFINITY, 0, any.negated().dividedBy(any));
      assertBound(-INFINITY, INFINITY, Bounded.unknown(DENSITY).dividedBy(any));
      assertBound(0, INFINITY, between(2, INFINITY).dividedBy(between(3, INFINITY)));
      assertBound(0, 0, Bounded.exact(5).dividedBy(any));
    }

    @Test
    @DisplayName("no operation on any numbers gives NaN or throws")
    void neverNaN() {
      double[] ends = {
        -INFINITY,
        -Double.MAX_VALUE,
        -1,
        -4.9e-324,
        -0.0,
        0,
        4.9e-324,
        1,
        Double.MAX_VALUE,
        INFINITY
      };
      List<Bounded> all = new ArrayList<>();
      for (int i = 0; i < ends.length; i++) {
        for (int j = i; j < ends.length; j++) {
          all.add(between(ends[i], ends[j]));
        }
      }
      all.add(Bounded.of(Estimate.withinFactor(Double.MAX_VALUE, 1e300, A)));
      all.add(Bounded.of(Estimate.within(-1, Double.MAX_VALUE, A)));
      all.add(Bounded.of(Estimate.within(0, 1, B)));
      for (Bounded x : all) {
        for (Bounded y : all) {
          for (Bounded result :
              List.of(
                  x.plus(y),
                  x.minus(y),
                  x.times(y),
                  x.dividedBy(y),
                  x.min(y),
                  x.max(y),
                  x.negated())) {
            assertFalse(Double.isNaN(result.atLeast().likely()), x + " and " + y);
            assertFalse(Double.isNaN(result.atMost().likely()), x + " and " + y);
          }
          x.atMost(y);
          x.lessThan(y);
          x.within(y, x);
        }
      }
    }

    @Test
    @DisplayName("known numbers keep their doubts, and what they share still cancels")
    void keepsDoubts() {
      Bounded gum = Bounded.of(Estimate.withinFactor(10, 2, A));
      Bounded twice = gum.times(Bounded.exact(2));
      assertTrue(twice.isKnown());
      assertEquals(Odds.CERTAIN, gum.lessThan(twice));
      assertEquals(Bounded.exact(2), twice.dividedBy(gum));
      assertEquals(Bounded.exact(0), gum.minus(gum));
    }

    @Test
    @DisplayName("what is missing is gathered, in the same order in every run")
    void missing() {
      Bounded x = Bounded.unknown(0, 1, Set.of("vessel", "balance", "stirrer"));
      Bounded y = Bounded.unknown(0, 1, Set.of("room", "balance"));
      assertEquals(
          List.of("balance", "room", "stirrer", "vessel"), List.copyOf(x.plus(y).missing()));
      assertEquals(x.missing(), x.plus(Bounded.exact(1)).missing());
      assertThrows(UnsupportedOperationException.class, () -> x.missing().clear());
    }
  }

  @Test
  @DisplayName("a bound upside down or not a number is a programmer's error")
  void programmersErrors() {
    assertThrows(IllegalArgumentException.class, () -> between(2, 1));
    assertThrows(IllegalArgumentException.class, () -> between(Double.NaN, 1));
    assertThrows(IllegalArgumentException.class, () -> Bounded.exact(Double.NaN));
  }

  @Test
  @DisplayName("known: one estimate; not known: two")
  void known() {
    assertTrue(Bounded.exact(4).isKnown());
    assertTrue(between(4, 4).isKnown());
    assertTrue(between(-0.0, 0).isKnown());
    assertFalse(between(4, 5).isKnown());
    assertFalse(Bounded.unknown(DENSITY).isKnown());
  }
}
