package gelwright.quantity;

/**
 * The odds that a statement is true, as an interval: {@code [0.8, 0.8]} where they are known, {@code
 * [0, 1]} where nothing is known.
 *
 * <p>{@code and}, {@code or} keep what is certain whatever the dependence between the two statements
 * (Fréchet bounds: M. Fréchet, Fundamenta Mathematicae 25 (1935) 379-387), so a conjunction never
 * claims more than its parts allow.
 *
 * @param low least odds, 0 to 1
 * @param high greatest odds, {@code low} to 1
 */
public record Odds(double low, double high) {
  /** From these odds on a statement is taken to hold. */
  public static final double HOLDS_FROM = 0.95;

  /** Up to these odds a statement is taken to fail. */
  public static final double BREAKS_TO = 0.05;

  public static final Odds CERTAIN = new Odds(1, 1);
  public static final Odds IMPOSSIBLE = new Odds(0, 0);
  public static final Odds OPEN = new Odds(0, 1);

  public Odds {
    if (!(low >= 0 && low <= high && high <= 1)) {
      throw new IllegalArgumentException("odds must satisfy 0 <= low <= high <= 1: " + low + ", " + high);
    }
  }

  /** Known odds. */
  public static Odds of(double odds) {
    return odds == 1 ? CERTAIN : odds == 0 ? IMPOSSIBLE : new Odds(odds, odds);
  }

  public static Odds of(boolean truth) {
    return truth ? CERTAIN : IMPOSSIBLE;
  }

  public Odds and(Odds other) {
    return new Odds(Math.max(0, low + other.low - 1), Math.min(high, other.high));
  }

  public Odds or(Odds other) {
    return new Odds(Math.max(low, other.low), Math.min(1, high + other.high));
  }

  public Odds not() {
    return new Odds(1 - high, 1 - low);
  }

  /** What the odds decide. */
  public Verdict verdict() {
    if (low >= HOLDS_FROM) {
      return Verdict.HOLDS;
    }
    return high <= BREAKS_TO ? Verdict.BREAKS : Verdict.BETWEEN;
  }

  /** What odds decide about a statement: it holds, it breaks, or neither is settled. */
  public enum Verdict {
    HOLDS,
    BREAKS,
    BETWEEN
  }
}
