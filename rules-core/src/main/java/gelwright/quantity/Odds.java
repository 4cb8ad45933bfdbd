package gelwright.quantity;

/**
 * The odds that a statement is true, as an interval: {@code [0.8, 0.8]} where they are known,
 * {@code [0, 1]} where nothing is known.
 *
 * <p>{@code and}, {@code or} keep what is certain whatever the dependence between the two
 * statements (Fréchet bounds: M. Fréchet, Fundamenta Mathematicae 25 (1935) 379-387), so a
 * conjunction never claims more than its parts allow.
 *
 * @param low least odds, 0 to 1
 * @param high greatest odds, {@code low} to 1
 */
public record Odds(double low, double high) {
  /** From these odds on a statement is taken to hold. */
  public static final double HOLDS_FROM = 0.95;

  /** Up to these odds a statement is taken to fail. */
  public static final double BREAKS_TO = 0.05;

  /** Certainly true. */
  public static final Odds CERTAIN = new Odds(1, 1);

  /** Certainly false. */
  public static final Odds IMPOSSIBLE = new Odds(0, 0);

  /** Nothing is known. */
  public static final Odds OPEN = new Odds(0, 1);

  public Odds {
    if (!(low >= 0 && low <= high && high <= 1)) {
      throw new IllegalArgumentException(
          "odds must satisfy 0 <= low <= high <= 1: " + low + ", " + high);
    }
  }

  /** Known odds, 0 to 1. */
  public static Odds of(double odds) {
    return odds == 1 ? CERTAIN : odds == 0 ? IMPOSSIBLE : new Odds(odds, odds);
  }

  /** A statement that is settled. */
  public static Odds of(boolean truth) {
    return truth ? CERTAIN : IMPOSSIBLE;
  }

  /** The odds that both are true: at least {@code p + q − 1}, at most the smaller. */
  public Odds and(Odds other) {
    // Written so that rounding cannot lift the least odds above either part: 0.1 and 1 is 0.1.
    double least = Math.min(low, other.low) - (1 - Math.max(low, other.low));
    return new Odds(Math.max(0, least), Math.min(high, other.high));
  }

  /** The odds that at least one is true: at least the larger, at most {@code p + q}. */
  public Odds or(Odds other) {
    return new Odds(Math.max(low, other.low), Math.min(1, high + other.high));
  }

  /** The odds that the statement is false. */
  public Odds not() {
    return new Odds(1 - high, 1 - low);
  }

  /**
   * What the odds decide: over the whole interval at least {@link #HOLDS_FROM}, at most {@link
   * #BREAKS_TO}, or neither. A statement holds exactly when its negation breaks.
   */
  public Verdict verdict() {
    if (low >= HOLDS_FROM) {
      return Verdict.HOLDS;
    }
    // The mirror image of the line above; 1 - 0.95 is a little more than 0.05 in binary.
    return 1 - high >= HOLDS_FROM ? Verdict.BREAKS : Verdict.BETWEEN;
  }

  /** What odds decide about a statement: it holds, it breaks, or neither is settled. */
  public enum Verdict {
    /** True with odds of at least {@link #HOLDS_FROM}. */
    HOLDS,
    /** True with odds of at most {@link #BREAKS_TO}. */
    BREAKS,
    /** Neither: the odds lie between, or are not known well enough. */
    BETWEEN
  }
}
