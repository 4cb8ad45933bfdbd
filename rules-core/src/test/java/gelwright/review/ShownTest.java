package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("a number as shown")
final class ShownTest {
  private static Estimate within(double likely, double range) {
    return Estimate.within(likely, range, new Doubt("rate", ""));
  }

  @ParameterizedTest(name = "{0} ± {1} % -> {2} to {3} %")
  @CsvSource({
    "97.5, 4.5, 93, 100",
    "1,    3,   0,  4",
    "50,   10,  40, 60",
    "100,  2,   98, 100",
    "104,  3,   101, 107",
    "-2,   1,   -3, -1",
  })
  @DisplayName("a share stays within 0 to 100 % where its likely value does")
  void share(double likely, double range, double low, double high) {
    Shown shown = Shown.of("hydration", Bounded.of(within(likely, range)), Unit.PERCENT);

    assertAll(
        () -> assertEquals(low, shown.low(), 1e-9),
        () -> assertEquals(likely, shown.likely(), 1e-9),
        () -> assertEquals(high, shown.high(), 1e-9));
  }

  @Test
  @DisplayName("a share in ppm too: 999 900 ± 500 ppm -> at most 1 000 000 ppm")
  void ppm() {
    Shown shown = Shown.of("content", Bounded.of(within(99.99, 0.05)), Unit.PPM);

    assertEquals(1_000_000, shown.high(), 1e-3);
  }

  @Test
  @DisplayName("a pressure is not held within 100")
  void pressure() {
    Shown shown = Shown.of("yield", Bounded.of(within(98, 10)), Unit.PASCAL);

    assertEquals(108, shown.high(), 1e-9);
  }

  @Test
  @DisplayName("a bound of which one end is in doubt is held the same way")
  void bound() {
    Bounded bounded = new Bounded(within(2, 5), within(99, 5), Set.of("duration of step 1"));
    Shown shown = Shown.of("hydration", bounded, Unit.PERCENT);

    assertAll(
        () -> assertEquals(0, shown.low(), 1e-9),
        () -> assertEquals(100, shown.high(), 1e-9),
        () -> assertEquals(false, shown.isKnown()));
  }
}
