package gelwright.review;

/**
 * How large a change is, so that offers of different kinds can be put in order. Engine values,
 * common practice, no source: they order offers and decide nothing else.
 */
final class Effort {
  /** A new ingredient, or one left out; a share changed by a factor of e counts 1. */
  static final double INGREDIENT = 1.5;

  /** Another ingredient in the place of one. */
  static final double SUBSTITUTION = 1.6;

  /** A misspelt name written right changes nothing in the beaker. */
  static final double SPELLING = 0.1;

  /** An ingredient that goes into another phase, or a step done at another time. */
  static final double ORDER = 0.5;

  /** A new step. */
  static final double STEP = 0.7;

  /** Another promise: of the texture, the package, the area. */
  static final double PROMISE = 2.5;

  /** So many kelvins count like a factor of e. */
  static final double KELVINS = 20;

  /** So much pH counts like a factor of e. */
  static final double PH = 1;

  private Effort() {}

  /** Of a number that changes by a factor. */
  static double factor(double from, double to) {
    return from > 0 && to > 0 ? Math.abs(Math.log(to / from)) : INGREDIENT;
  }
}
