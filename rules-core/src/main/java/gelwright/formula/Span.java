package gelwright.formula;

/**
 * A stated range, such as a pH of 5.0 to 5.8.
 *
 * @param from lower end
 * @param to upper end, not below {@code from}
 */
public record Span(double from, double to) {
  public Span {
    if (!(from <= to)) {
      throw new IllegalArgumentException("from " + from + " is above to " + to);
    }
  }

  /** What is aimed at where a range is promised. */
  public double middle() {
    return (from + to) / 2;
  }
}
