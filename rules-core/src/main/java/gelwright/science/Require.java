package gelwright.science;

/** Guards shared by the models: nonsense is the caller's error and says which argument it was. */
final class Require {

  private Require() {}

  /** Returns the value if it is finite, else names the argument at fault. */
  static double finite(double value, String name) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + " must be finite, was " + value);
    }
    return value;
  }

  /** Returns the value if it is finite and not negative, else names the argument at fault. */
  static double notNegative(double value, String name) {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + " must be finite and not negative, was " + value);
    }
    return value;
  }

  /** Returns the value if it is finite and above zero, else names the argument at fault. */
  static double positive(double value, String name) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + " must be finite and positive, was " + value);
    }
    return value;
  }

  /** Returns the value if it is a fraction of 0 to 1, else names the argument at fault. */
  static double fraction(double value, String name) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(name + " must be within 0 to 1, was " + value);
    }
    return value;
  }
}
