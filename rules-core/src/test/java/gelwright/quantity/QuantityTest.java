package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

final class QuantityTest {
  @ParameterizedTest(name = "\"{0}\" is {1} {2}, printed {3}")
  @CsvSource({
    "4 %, 4, PERCENT, 4 %",
    "4%, 4, PERCENT, 4 %",
    "'  4 %  ', 4, PERCENT, 4 %",
    "400 ppm, 400, PPM, 400 ppm",
    "38°C, 38, CELSIUS, 38 °C",
    "38 C, 38, CELSIUS, 38 °C",
    "38 ℃, 38, CELSIUS, 38 °C",
    "-5 °C, -5, CELSIUS, -5 °C",
    "14 1/s, 14, PER_SECOND, 14 /s",
    "14 /s, 14, PER_SECOND, 14 /s",
    "14/s, 14, PER_SECOND, 14 /s",
    "14 s-1, 14, PER_SECOND, 14 /s",
    "14 s⁻¹, 14, PER_SECOND, 14 /s",
    "800 rpm, 800, RPM, 800 rpm",
    "1450 rpm, 1450, RPM, 1450 rpm",
    "300 \u00b5m, 300, MICROMETRE, 300 \u00b5m",
    "300 \u03bcm, 300, MICROMETRE, 300 \u00b5m",
    "2.5 mPa.s, 2.5, MILLIPASCAL_SECOND, 2.5 mPa·s",
    "12 months, 12, MONTH, 12 months",
    "0.055 /min, 0.055, PER_MINUTE, 0.055 /min",
    "+3 g, 3, GRAM, 3 g",
    "1.5e3 g, 1500, GRAM, 1500 g",
    "1e5 /s, 100000, PER_SECOND, 100000 /s",
    "5, 5, NONE, 5",
    "5.40 pH, 5.4, PH, 5.4",
    "5.45 pH, 5.45, PH, 5.45",
    "5 pH, 5, PH, 5.0",
    "4\u00a0%, 4, PERCENT, 4 %",
    "38\u202f°C, 38, CELSIUS, 38 °C",
    "0 %, 0, PERCENT, 0 %",
    "-0 %, 0, PERCENT, 0 %",
  })
  void reads(String text, double value, Unit unit, String printed) {
    Quantity quantity = Quantity.parse(text).orElseThrow();
    assertEquals(value, quantity.value() + 0.0);
    assertEquals(unit, quantity.unit());
    assertEquals(printed, quantity.toString());
  }

  static Stream<Arguments> refused() {
    return Stream.of(
        Arguments.of("a sign too many", "4 %%"),
        Arguments.of("not a number", "NaN %"),
        Arguments.of("infinity", "Infinity %"),
        Arguments.of("too large to hold", "1e999 g"),
        Arguments.of("too small to hold", "1e-999 g"),
        Arguments.of("a decimal comma", "4,5 %"),
        Arguments.of("a thousands separator", "1,000 g"),
        Arguments.of("nothing", ""),
        Arguments.of("spaces", "   "),
        Arguments.of("a unit alone", "%"),
        Arguments.of("Arabic-Indic digits", "\u0661\u0662 %"),
        Arguments.of("fullwidth digits", "\uff14 %"),
        Arguments.of("a Devanagari digit behind", "4\u0967 %"),
        Arguments.of("no digit before the point", ".5 %"),
        Arguments.of("no digit behind the point", "4. %"),
        Arguments.of("two points", "4.5.6 %"),
        Arguments.of("two signs", "--4 %"),
        Arguments.of("a hexadecimal number", "0x10 g"),
        Arguments.of("a Java suffix", "4d0 %"),
        Arguments.of("a half exponent", "4e %"),
        Arguments.of("an unknown unit", "4 furlongs"),
        Arguments.of("a number twice", "4 % 4 %"),
        Arguments.of("a range", "4 to 5 %"),
        Arguments.of("a line break within", "4 %\n5"),
        Arguments.of("nineteen digits", "1234567890123456789 g"),
        Arguments.of("a long number", "1".repeat(1_000_000)),
        Arguments.of("a long unit", "1 " + "g".repeat(1_000_000)),
        Arguments.of("a long run of spaces", "1" + " ".repeat(1_000_000) + "g"));
  }

  @ParameterizedTest(name = "{0} is refused")
  @MethodSource("refused")
  void refuses(String what, String text) {
    assertEquals(Optional.empty(), Quantity.parse(text));
    assertEquals(Optional.empty(), Share.parse(text));
  }

  @Test
  @DisplayName("text of any characters gives a quantity or nothing, never an exception")
  void neverThrows() {
    String characters = "0123456789+-.,eE/% gkmslPa·µ°CrpH1\u0661\u00a0\n\t\u0000\ud83d";
    Seeded.tries(
        20_000,
        random -> {
          StringBuilder text = new StringBuilder();
          for (int i = random.nextInt(12); i > 0; i--) {
            text.append(characters.charAt(random.nextInt(characters.length())));
          }
          Quantity.parse(text.toString())
              .map(Quantity::toString)
              .filter(printed -> !printed.contains("×10")) // powers of ten are only printed
              .ifPresent(printed -> assertTrue(Quantity.parse(printed).isPresent(), printed));
          Share.parse(text.toString());
        });
  }

  @ParameterizedTest(name = "a quantity of {0} is a programmer''s error")
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void onlyFinite(double value) {
    assertThrows(IllegalArgumentException.class, () -> Quantity.of(value, Unit.GRAM));
  }

  @Test
  @DisplayName("the coherent unit and back: 35 min = 2100 s")
  void coherentUnit() {
    assertEquals(2100, Quantity.of(35, Unit.MINUTE).inBase());
    assertEquals(Quantity.of(35, Unit.MINUTE), Quantity.ofBase(2100, Unit.MINUTE));
  }

  @Test
  @DisplayName("a pH without a bound is printed in words")
  void endlessPh() {
    assertEquals("any amount", Quantity.print(Double.POSITIVE_INFINITY, Unit.PH));
  }
}
