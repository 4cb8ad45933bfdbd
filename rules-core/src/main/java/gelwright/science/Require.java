package gelwright.science;

/** Guards shared by the models: nonsense is the caller's error and says which argument it was. */
final class Require {

  private Require() {}

  static double finite(double value, String name) {
    if (Double.isNaN(value) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + ": not a finite number: " + value);
    }
    return value;
  }

  static double notNegative(double value, String name) {
    if (!(value >= 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + ": not a finite number of zero or more: " + value);
    }
    return value;
  }

  static double positive(double value, String name) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException(name + ": not a finite number above zero: " + value);
    }
    return value;
  }

  static double fraction(double value, String name) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(name + ": outside 0 to 1: " + value);
    }
    return value;
  }
}
