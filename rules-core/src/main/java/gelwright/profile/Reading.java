package gelwright.profile;

import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;

/**
 * A number as far as one set of inputs tells it: from {@code low} to {@code high}, and what is
 * missing to know it better. Where nothing is missing the two are the same.
 *
 * <p>The operations carry bounds through functions that are <i>monotone</i> in each argument; that
 * is the caller's promise.
 *
 * @param low least value, in base units; may be negative infinity
 * @param high greatest value; may be infinity
 * @param missing what is missing, in the trade's words
 */
record Reading(double low, double high, Set<String> missing) {
  Reading {
    if (Double.isNaN(low) || Double.isNaN(high) || low > high) {
      throw new IllegalArgumentException("not a reading: " + low + " to " + high);
    }
    missing = missing.isEmpty() ? Set.of() : missing;
  }

  static Reading of(double value) {
    return new Reading(value, value, Set.of());
  }

  static Reading unknown(double low, double high, String missing) {
    return new Reading(low, high, Set.of(missing));
  }

  boolean isKnown() {
    return low == high && missing.isEmpty();
  }

  Reading map(DoubleUnaryOperator monotone) {
    double a = monotone.applyAsDouble(low);
    if (low == high) {
      return new Reading(a, a, missing);
    }
    double b = monotone.applyAsDouble(high);
    return new Reading(Math.min(a, b), Math.max(a, b), missing);
  }

  Reading with(Reading other, DoubleBinaryOperator monotone) {
    if (low == high && other.low == other.high) {
      double value = monotone.applyAsDouble(low, other.low);
      return new Reading(value, value, union(missing, other.missing));
    }
    double a = monotone.applyAsDouble(low, other.low);
    double b = monotone.applyAsDouble(low, other.high);
    double c = monotone.applyAsDouble(high, other.low);
    double d = monotone.applyAsDouble(high, other.high);
    return new Reading(
        Math.min(Math.min(a, b), Math.min(c, d)),
        Math.max(Math.max(a, b), Math.max(c, d)),
        union(missing, other.missing));
  }

  Reading plus(Reading other) {
    return new Reading(low + other.low, high + other.high, union(missing, other.missing));
  }

  Reading min(Reading other) {
    return new Reading(
        Math.min(low, other.low), Math.min(high, other.high), union(missing, other.missing));
  }

  Reading max(Reading other) {
    return new Reading(
        Math.max(low, other.low), Math.max(high, other.high), union(missing, other.missing));
  }

  /** The same bound, kept within what is physically possible. */
  Reading within(double least, double most) {
    return new Reading(
        Math.max(least, Math.min(most, low)), Math.max(least, Math.min(most, high)), missing);
  }

  Reading missing(Set<String> more) {
    return new Reading(low, high, union(missing, more));
  }

  static Set<String> union(Set<String> a, Set<String> b) {
    if (a.isEmpty()) {
      return b;
    }
    if (b.isEmpty() || a.equals(b)) {
      return a;
    }
    Set<String> both = new TreeSet<>(a);
    both.addAll(b);
    return both;
  }
}
