package gelwright.rule;

/**
 * The seed of random tests: fixed, or given with {@code -Dseed=} to replay or to search further.
 */
final class Seeds {
  private static final long USUAL = 20261125L;

  private Seeds() {}

  static long seed() {
    long seed = Long.getLong("seed", USUAL);
    System.out.println("seed " + seed + " (replay with -Dseed=" + seed + ")");
    return seed;
  }
}
