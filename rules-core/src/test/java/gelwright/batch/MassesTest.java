package gelwright.batch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import gelwright.quantity.Share;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("masses on the steps of a balance")
final class MassesTest {
  private static List<Optional<Long>> shares(String... shares) {
    return Stream.of(shares)
        .map(
            text ->
                text.equals("rest") ? Optional.<Long>empty() : Share.parse(text).map(Share::units))
        .toList();
  }

  private static List<String> plain(List<BigDecimal> masses) {
    return masses.stream().map(mass -> mass.stripTrailingZeros().toPlainString()).toList();
  }

  private static List<BigDecimal> masses(
      String batch, String step, OptionalInt rest, String... shares) {
    return Masses.of(shares(shares), new BigDecimal(batch), new BigDecimal(step), rest);
  }

  @Test
  @DisplayName("the water takes what rounding leaves: 33.3 % twice of 100 g on steps of 1 g")
  void rest() {
    assertEquals(
        List.of("34", "33", "33"),
        plain(masses("100", "1", OptionalInt.of(0), "rest", "33.3 %", "33.3 %")));
  }

  @Test
  @DisplayName("without a rest the largest remainder takes the step: three thirds of 100 g")
  void largestRemainder() {
    // Rounded to nearest 33, 33, 33; exact 33.33, 33.33, 33.34: the last lost most.
    assertEquals(
        List.of("33", "33", "34"),
        plain(masses("100", "1", OptionalInt.empty(), "33.33 %", "33.33 %", "33.34 %")));
  }

  @Test
  @DisplayName("without a rest the one that gained most gives the step back")
  void smallestRemainder() {
    // Exact 0.6, 0.7, 98.7: rounded up to 1, 1, 99 = 101; the first gained most.
    assertEquals(
        List.of("0", "1", "99"),
        plain(masses("100", "1", OptionalInt.empty(), "0.6 %", "0.7 %", "98.7 %")));
  }

  @ParameterizedTest(name = "half a step, {0} of 100 g, goes to the even one: {1} g")
  @CsvSource({"0.5 %, 0", "1.5 %, 2", "2.5 %, 2"})
  void halves(String share, String grams) {
    assertEquals(grams, plain(masses("100", "1", OptionalInt.of(1), share, "rest")).get(0));
  }

  @Test
  @DisplayName("always: on the steps, within half a step of the share, and in sum the batch")
  void always() {
    Seeded.tries(
        500,
        random -> {
          BigDecimal step = BigDecimal.ONE.scaleByPowerOfTen(random.nextInt(-3, 1));
          BigDecimal batch = step.multiply(BigDecimal.valueOf(random.nextLong(1_000, 5_000_000)));
          int lines = random.nextInt(2, 20);
          boolean rest = random.nextBoolean();
          List<Optional<Long>> shares = new ArrayList<>();
          long left = Share.ALL.units();
          for (int i = 1; i < lines; i++) {
            long units = random.nextLong(0, left / 2 + 1);
            left -= units;
            shares.add(Optional.of(units));
          }
          shares.add(rest ? Optional.empty() : Optional.of(left));
          OptionalInt last = rest ? OptionalInt.of(lines - 1) : OptionalInt.empty();
          List<BigDecimal> masses = Masses.of(shares, batch, step, last);
          assertEquals(
              0, batch.compareTo(masses.stream().reduce(BigDecimal.ZERO, BigDecimal::add)));
          for (int i = 0; i < lines; i++) {
            assertEquals(0, masses.get(i).remainder(step).signum(), "not on a step");
            if (shares.get(i).isPresent()) {
              BigDecimal exact =
                  BigDecimal.valueOf(shares.get(i).get())
                      .multiply(batch)
                      .divide(BigDecimal.valueOf(Share.ALL.units()));
              BigDecimal off = masses.get(i).subtract(exact).abs();
              // A line given or asked for one step by the largest remainder is off by up to one.
              assertTrue(off.compareTo(step) < 0, () -> "off by " + off);
            }
          }
        });
  }

  @ParameterizedTest(name = "a batch of {0} g without a balance stands on steps of {1} g")
  @CsvSource({"500, 0.01", "2000, 0.01", "100, 0.001", "5, 0.0001", "100000, 1"})
  void usualStep(String batch, String step) {
    assertEquals(0, new BigDecimal(step).compareTo(Masses.usualStep(new BigDecimal(batch))));
  }

  @ParameterizedTest(name = "from pH {0} to {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "8.33 | 4.9 | 8.0 7.0 6.0 5.5 4.9",
        "5.6  | 5.0 | 5.0",
        "5.8  | 5.0 | 5.5 5.0",
        "3.1  | 6.0 | 4.0 5.0 5.5 6.0",
        "5.0  | 5.0 | 5.0"
      })
  void onTheWay(double from, double to, String way) {
    assertEquals(
        way, String.join(" ", BatchSheets.onTheWay(from, to).stream().map(pH -> "" + pH).toList()));
  }
}
