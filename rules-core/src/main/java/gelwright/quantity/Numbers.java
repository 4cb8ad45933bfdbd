package gelwright.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Prints numbers as a formulator writes them: a decimal point always, no idle digits. */
public final class Numbers {
  private Numbers() {}

  /**
   * A number to so many significant digits, without trailing zeros: 9.6, 0.0012, 14, 120000. Below a
   * millionth and from ten million on in powers of ten (8.28×10⁻⁹).
   */
  public static String significant(double value, int digits) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("value is not a number");
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "any amount" : "-any amount";
    }
    if (value == 0) {
      return "0";
    }
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(digits, RoundingMode.HALF_UP));
    int exponent = rounded.precision() - rounded.scale() - 1;
    if (exponent < -6 || exponent >= 7) {
      String mantissa =
          rounded.scaleByPowerOfTen(-exponent).stripTrailingZeros().toPlainString();
      return mantissa + "×10" + superscript(exponent);
    }
    return rounded.stripTrailingZeros().toPlainString();
  }

  /** Three significant digits: enough for any figure a recipe can use. */
  public static String plain(double value) {
    return significant(value, 3);
  }

  /** A number to a fixed count of decimals, as a pH is written: 5.20. */
  public static String decimals(double value, int decimals) {
    return new BigDecimal(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
  }

  private static String superscript(int exponent) {
    String digits = "⁰¹²³⁴⁵⁶⁷⁸⁹";
    StringBuilder text = new StringBuilder();
    if (exponent < 0) {
      text.append('⁻');
    }
    for (char digit : Integer.toString(Math.abs(exponent)).toCharArray()) {
      text.append(digits.charAt(digit - '0'));
    }
    return text.toString();
  }
}
