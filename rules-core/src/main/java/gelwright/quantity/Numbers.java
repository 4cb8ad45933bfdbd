package gelwright.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Prints numbers as a formulator writes them: a decimal point always, no idle digits. */
public final class Numbers {
  private Numbers() {}

  /**
   * A number to so many significant digits, without trailing zeros: 9.6, 0.0012, 14, 120000. Below
   * a millionth and from ten million on in powers of ten (8.28×10⁻⁹). Rounded half up from the
   * shortest decimal that reads back as the value. Infinities, which stand for a bound that does
   * not exist, are printed in words; the default locale does not matter.
   *
   * @param value anything but NaN
   * @param digits at least 1
   */
  public static String significant(double value, int digits) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("value is not a number");
    }
    if (digits < 1) {
      throw new IllegalArgumentException("digits must be at least 1, is " + digits);
    }
    if (Double.isInfinite(value)) {
      return infinite(value);
    }
    if (value == 0) {
      return "0";
    }
    BigDecimal rounded =
        BigDecimal.valueOf(value).round(new MathContext(digits, RoundingMode.HALF_UP));
    int exponent = rounded.precision() - rounded.scale() - 1;
    if (exponent < -6 || exponent >= 7) {
      String mantissa = rounded.scaleByPowerOfTen(-exponent).stripTrailingZeros().toPlainString();
      return mantissa + "×10" + superscript(exponent);
    }
    return rounded.stripTrailingZeros().toPlainString();
  }

  /** Three significant digits: enough for any figure a recipe can use. */
  public static String plain(double value) {
    return significant(value, 3);
  }

  /**
   * A number to a fixed count of decimals, as a pH is written: 5.20. Rounded half up; infinities as
   * in {@link #significant}.
   *
   * @param value anything but NaN
   * @param decimals at least 0
   */
  public static String decimals(double value, int decimals) {
    if (Double.isNaN(value)) {
      throw new IllegalArgumentException("value is not a number");
    }
    if (decimals < 0) {
      throw new IllegalArgumentException("decimals must be at least 0, is " + decimals);
    }
    if (Double.isInfinite(value)) {
      return infinite(value);
    }
    return BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP).toPlainString();
  }

  private static String infinite(double value) {
    return value > 0 ? "any amount" : "any amount below zero";
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
