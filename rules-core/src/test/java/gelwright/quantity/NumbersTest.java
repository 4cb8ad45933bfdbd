package gelwright.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.api.parallel.Resources;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@ResourceLock(Resources.LOCALE)
final class NumbersTest {
  @ParameterizedTest(name = "{0} to {1} digits is {2}")
  @CsvSource({
    "9.6, 3, 9.6",
    "9.604, 3, 9.6",
    "9.996, 3, 10",
    "0.0012, 3, 0.0012",
    "14, 3, 14",
    "120000, 3, 120000",
    "1234, 3, 1230",
    "-1234, 3, -1230",
    "2.675, 3, 2.68",
    "0.1, 17, 0.1",
    "0, 3, 0",
    "-0.0, 3, 0",
    "8.28e-9, 3, 8.28×10⁻⁹",
    "-8.28e-9, 3, -8.28×10⁻⁹",
    "1e-6, 3, 0.000001",
    "9.99e-7, 3, 9.99×10⁻⁷",
    "9999999, 7, 9999999",
    "9999999, 3, 1×10⁷",
    "1e7, 3, 1×10⁷",
    "6.02214076e23, 4, 6.022×10²³",
    "4.9e-324, 2, 4.9×10⁻³²⁴",
    "Infinity, 3, any amount",
    "-Infinity, 3, any amount below zero",
  })
  void significant(double value, int digits, String text) {
    assertEquals(text, Numbers.significant(value, digits));
  }

  @ParameterizedTest(name = "{0} to {1} decimals is {2}")
  @CsvSource({
    "5.2, 2, 5.20",
    "5.405, 2, 5.41",
    "-0.001, 2, 0.00",
    "5, 0, 5",
    "1e300, 0, 1"
        + "000000000000000000000000000000000000000000000000000000000000"
        + "000000000000000000000000000000000000000000000000000000000000"
        + "000000000000000000000000000000000000000000000000000000000000"
        + "000000000000000000000000000000000000000000000000000000000000"
        + "000000000000000000000000000000000000000000000000000000000000",
    "Infinity, 2, any amount",
  })
  void decimals(double value, int decimals, String text) {
    assertEquals(text, Numbers.decimals(value, decimals));
  }

  @ParameterizedTest(name = "a decimal point and ASCII digits where the locale is {0}")
  @ValueSource(strings = {"de-DE", "ar-EG-u-nu-arab", "hi-IN-u-nu-deva", "tr-TR"})
  void localeDoesNotMatter(String tag) {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag(tag));
      assertEquals("9.6", Numbers.plain(9.6));
      assertEquals("1.5×10⁻⁸", Numbers.plain(1.5e-8));
      assertEquals("5.20", Numbers.decimals(5.2, 2));
      assertEquals("1234.5 %", Share.nearest(1234.5).toString());
      assertEquals("0.35 %", Quantity.of(0.35, Unit.PERCENT).toString());
      assertEquals(Quantity.of(35, Unit.MINUTE), Quantity.parse("35 MIN").orElseThrow());
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void programmersErrors() {
    assertThrows(IllegalArgumentException.class, () -> Numbers.significant(Double.NaN, 3));
    assertThrows(IllegalArgumentException.class, () -> Numbers.significant(1, 0));
    assertThrows(IllegalArgumentException.class, () -> Numbers.decimals(Double.NaN, 3));
    assertThrows(IllegalArgumentException.class, () -> Numbers.decimals(1, -1));
  }
}
