package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

final class ShareTest {
  private static Share share(String text) {
    return Share.parse(text).orElseThrow();
  }

  @Test
  @DisplayName("ten times 0.1 % is exactly 1 %, a thousand times exactly 100 %")
  void sumsAreExact() {
    Share sum = Share.ZERO;
    for (int i = 0; i < 10; i++) {
      sum = sum.plus(share("0.1 %"));
    }
    assertEquals(share("1 %"), sum);
    for (int i = 10; i < 1000; i++) {
      sum = sum.plus(share("0.1 %"));
    }
    assertEquals(Share.ALL, sum);
  }

  @ParameterizedTest(name = "\"{0}\" is {1}")
  @CsvSource({
    "4 %, 4 %",
    "4, 4 %",
    "400 ppm, 0.04 %",
    "400 mg/kg, 0.04 %",
    "0.35 % w/w, 0.35 %",
    "3e-3 %, 0.003 %",
    "1e2, 100 %",
    "0.00000001 %, 0.00000001 %",
    "0.0001 ppm, 0.00000001 %",
    "12.3456789 %, 12.3456789 %",
    "1000000 %, 1000000 %",
    "-4 %, -4 %",
    "4\u00a0%, 4 %",
    "0.30000000 %, 0.3 %",
    "0.000000000 %, 0 %",
  })
  void reads(String text, String printed) {
    assertEquals(printed, share(text).toString());
    assertEquals(share(text), share(printed));
  }

  @ParameterizedTest(name = "\"{0}\" is refused")
  @ValueSource(
      strings = {
        "0.000000001 %",
        "0.00001 ppm",
        "1e-9",
        "1000000.1 %",
        "1e7 %",
        "1e300 %",
        "4 g",
        "4 pH",
        "4 % w/v",
        "rest",
        ""
      })
  void refuses(String text) {
    assertEquals(Optional.empty(), Share.parse(text));
  }

  @Test
  @DisplayName("a decimal with an absurd exponent is refused without working on it")
  void absurdExponents() {
    assertEquals(Optional.empty(), Share.ofPercent(new BigDecimal("1e-2000000000")));
    assertEquals(Optional.empty(), Share.ofPercent(new BigDecimal("1e2000000000")));
  }

  @Test
  @DisplayName("a sum beyond what a share can hold is an error, never a wrong sum")
  void overflow() {
    Share most = new Share(Long.MAX_VALUE);
    assertThrows(ArithmeticException.class, () -> most.plus(new Share(1)));
    assertThrows(ArithmeticException.class, () -> new Share(Long.MIN_VALUE).minus(new Share(1)));
    assertThrows(ArithmeticException.class, () -> most.part(new Share(Share.ALL.units() * 2)));
    assertEquals(most, most.part(Share.ALL));
  }

  @ParameterizedTest(name = "{0} of a raw material of {1} bring {2}")
  @CsvSource({
    "0.4 %, 80 %, 0.32 %",
    "5 %, 100 %, 5 %",
    "5 %, 0 %, 0 %",
    "0.00000001 %, 50 %, 0 %",
    "0.00000003 %, 50 %, 0.00000002 %",
    "100 %, 33.33333333 %, 33.33333333 %",
  })
  void part(String whole, String strength, String part) {
    assertEquals(share(part), share(whole).part(share(strength)));
  }

  @Test
  @DisplayName("a part is the exact quotient to half a unit, and with the rest it is the whole")
  void partsConserve() {
    Seeded.tries(
        2000,
        random -> {
          Share whole = new Share(random.nextLong(0, Share.ALL.units() + 1));
          Share strength = new Share(random.nextLong(0, Share.ALL.units() + 1));
          Share part = whole.part(strength);
          BigInteger all = BigInteger.valueOf(Share.ALL.units());
          BigInteger error =
              BigInteger.valueOf(whole.units())
                  .multiply(BigInteger.valueOf(strength.units()))
                  .subtract(BigInteger.valueOf(part.units()).multiply(all));
          assertTrue(error.abs().shiftLeft(1).compareTo(all) <= 0, whole + " " + strength);
          assertEquals(whole, part.plus(whole.minus(part)));
          assertTrue(part.compareTo(Share.ZERO) >= 0 && part.compareTo(whole) <= 0);
        });
  }

  @Test
  @DisplayName("any order of a recipe's lines gives the same sum, and what is printed is read back")
  void orderDoesNotMatter() {
    Seeded.tries(
        500,
        random -> {
          Share[] lines = new Share[12];
          for (int i = 0; i < lines.length; i++) {
            lines[i] = Share.nearest(random.nextDouble(0, 20));
            assertEquals(lines[i], share(lines[i].toString()));
            assertEquals(lines[i], Share.nearest(lines[i].percent()));
          }
          Share forwards = Share.ZERO;
          Share backwards = Share.ZERO;
          for (int i = 0; i < lines.length; i++) {
            forwards = forwards.plus(lines[i]);
            backwards = backwards.plus(lines[lines.length - 1 - i]);
          }
          assertEquals(forwards, backwards);
        });
  }

  @ParameterizedTest(name = "nearest to {0} is a programmer''s error")
  @ValueSource(doubles = {Double.NaN, 1.1e6, Double.NEGATIVE_INFINITY})
  void nearestOutOfRange(double percent) {
    assertThrows(IllegalArgumentException.class, () -> Share.nearest(percent));
  }
}
