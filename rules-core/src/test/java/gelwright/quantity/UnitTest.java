package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

final class UnitTest {
  static Stream<Arguments> everySymbol() {
    return Stream.of(Unit.values())
        .flatMap(
            unit ->
                Stream.concat(Stream.of(unit.symbol()), unit.otherSymbols().stream())
                    .map(symbol -> Arguments.of(symbol, unit)));
  }

  @ParameterizedTest(name = "\"{0}\" is read as {1}, alone, behind a number and close behind it")
  @MethodSource("everySymbol")
  void everySymbolIsRead(String symbol, Unit unit) {
    assertEquals(Optional.of(unit), Unit.of(symbol));
    assertEquals(Optional.of(new Quantity(14, unit)), Quantity.parse("14 " + symbol));
    if (!symbol.startsWith("1/")) { // 141/s is 141 per second
      assertEquals(Optional.of(new Quantity(14, unit)), Quantity.parse("14" + symbol));
    }
  }

  @ParameterizedTest(name = "{0}: what is printed is read back")
  @EnumSource(Unit.class)
  void whatIsPrintedIsReadBack(Unit unit) {
    for (double value : new double[] {0, 1, -2.5, 0.012, 35, 120_000, 99.9}) {
      Quantity quantity = Quantity.of(value, unit);
      Unit readUnit = unit == Unit.PH ? Unit.NONE : unit; // a pH is printed without its unit
      double readValue = unit == Unit.PH && value == 0.012 ? 0.01 : value; // and to two decimals
      assertEquals(
          Optional.of(new Quantity(readValue, readUnit)), Quantity.parse(quantity.toString()));
    }
  }

  // BIPM, The International System of Units, 9th edition (2019): table 7 (prefixes), table 8 (units
  // accepted for use with the SI), section 2.3.4 (coherent derived units).
  @ParameterizedTest(name = "1 {0} = {1} {2} [BIPM SI brochure 9th ed., {3}]")
  @CsvSource({
    "min, 60, s, table 8",
    "h, 60, min, table 8",
    "h, 3600, s, table 8",
    "days, 24, h, table 8",
    "days, 86400, s, table 8",
    "kg, 1000, g, table 7",
    "g, 1000, mg, table 7",
    "L, 1000, mL, table 8 (1 l = 1 dm3) and table 7",
    "m, 1000, mm, table 7",
    "m, 100, cm, table 7",
    "mm, 1000, µm, table 7",
    "kPa, 1000, Pa, table 7",
    "Pa·s, 1000, mPa·s, table 7",
    "mol/kg, 1000, mmol/kg, table 7",
    "kg/mol, 1000, g/mol, table 7",
    "g/mL, 1000, g/L, table 7",
  })
  void convertsAsDefined(String from, double factor, String to, String row) {
    Unit unit = Unit.of(from).orElseThrow();
    Unit other = Unit.of(to).orElseThrow();
    assertEquals(factor, Quantity.of(1, unit).in(other), factor * 1e-15);
    assertEquals(1, Quantity.of(factor, other).in(unit), 1e-15);
  }

  // The same brochure: the size in the coherent unit itself.
  @ParameterizedTest(name = "1 {0} = {1} in kg, m, s, mol [BIPM SI brochure 9th ed., {2}]")
  @CsvSource({
    "L, 1e-3, table 8",
    "mL, 1e-6, table 8 and table 7",
    "g, 1e-3, table 7",
    "µm, 1e-6, table 7",
    "g/mL, 1e3, tables 7 and 8",
    "dL/g, 0.1, tables 7 and 8",
    "mN/m, 1e-3, table 7",
    "kJ/mol, 1e3, table 7",
    "mPa·s, 1e-3, table 7",
    "cP, 1e-3, '8th ed. table 9: 1 P = 0.1 Pa s'",
  })
  void sizeInCoherentUnits(String symbol, double size, String row) {
    assertEquals(size, Unit.of(symbol).orElseThrow().toBase(1), size * 1e-15);
  }

  @Test
  @DisplayName("10 000 ppm are 1 % [ppm = 1e-6, BIPM SI brochure 9th ed. section 5.4.7]")
  void partsPerMillion() {
    assertEquals(1, Quantity.of(10_000, Unit.PPM).in(Unit.PERCENT), 1e-15);
  }

  @Test
  @DisplayName("12 months are one year, a year is 365.2425 days [Gregorian calendar]")
  void months() {
    assertEquals(1, Quantity.of(12, Unit.MONTH).in(Unit.YEAR), 1e-15);
    assertEquals(365.2425, Quantity.of(1, Unit.YEAR).in(Unit.DAY), 1e-12);
  }

  @Test
  @DisplayName("a stirrer's 60 rpm is not a rate of 1 /s")
  void stirringIsNotAShearRate() {
    assertNotEquals(Unit.RPM.dimension(), Unit.PER_SECOND.dimension());
    assertThrows(
        IllegalArgumentException.class, () -> Quantity.of(60, Unit.RPM).in(Unit.PER_SECOND));
    assertThrows(
        IllegalArgumentException.class, () -> Quantity.of(60, Unit.RPM).in(Unit.PER_MINUTE));
    assertEquals(Dimension.STIRRING, Quantity.parse("800 r/min").orElseThrow().dimension());
  }

  @Test
  @DisplayName("38 °C is a reading, 38 K a difference; readings differ by a difference")
  void readingsAndDifferences() {
    assertThrows(
        IllegalArgumentException.class, () -> Quantity.of(38, Unit.CELSIUS).in(Unit.KELVIN));
    assertEquals(Unit.KELVIN.dimension(), Unit.CELSIUS.dimension().difference());
    assertEquals(Unit.KELVIN.dimension(), Unit.KELVIN.dimension().difference());
    assertTrue(Unit.CELSIUS.dimension().point());
    assertFalse(Unit.KELVIN.dimension().point());
  }

  @ParameterizedTest(name = "\"{0}\" is no unit: case counts where a prefix could be meant")
  @ValueSource(strings = {"Mg", "MM", "S", "M", "KPA", "MPa·s", "MN/m", "F", "°F", "k", "% w/v"})
  void caseCounts(String symbol) {
    assertEquals(Optional.empty(), Unit.of(symbol));
  }

  @ParameterizedTest(name = "\"{0}\" is read as {1}: a word in any case")
  @CsvSource({
    "Min, MINUTE",
    "RPM, RPM",
    "Weeks, WEEK",
    "Months, MONTH",
    "PPM, PPM",
    "Kg, KILOGRAM"
  })
  void wordsInAnyCase(String symbol, Unit unit) {
    assertEquals(Optional.of(unit), Unit.of(symbol));
  }

  @ParameterizedTest(name = "{0} {1} {2} is {3}")
  @CsvSource({
    "Pa·s, times, /s, Pa",
    "Pa, per, /s, Pa·s",
    "g/L, times, L, g",
    "g/mol, times, mol/kg, ''",
    "%, per, %, ''",
  })
  void dimensionsMultiply(String a, String how, String b, String result) {
    Dimension left = Unit.of(a).orElseThrow().dimension();
    Dimension right = Unit.of(b).orElseThrow().dimension();
    Dimension expected = Unit.of(result).orElseThrow().dimension();
    assertEquals(expected, how.equals("times") ? left.times(right) : left.per(right));
  }

  @ParameterizedTest(name = "{0} is called \"{1}\"")
  @CsvSource({
    "%, a share (%)",
    "Pa·s, a viscosity (Pa·s)",
    "°C, a temperature (°C)",
    "h, a time (s)"
  })
  void dimensionsInWords(String symbol, String words) {
    assertEquals(words, Unit.of(symbol).orElseThrow().dimension().inWords());
  }

  @Test
  @DisplayName("a dimension without a unit of its own is called by its bases")
  void dimensionsInBases() {
    assertEquals("a quantity in m·s^-1", Dimension.LENGTH.times(Dimension.RATE).inWords());
  }
}
