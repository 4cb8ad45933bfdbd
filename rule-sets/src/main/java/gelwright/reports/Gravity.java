package gelwright.reports;

import gelwright.review.Finding;
import gelwright.review.Outcome;

/**
 * How much a finding weighs for another program. One table for SARIF, JUnit and the exit status:
 *
 * <table>
 *   <caption>Gravity by outcome</caption>
 *   <tr><th>outcome</th><th>gravity</th></tr>
 *   <tr><td>breaks</td><td>{@link #FAILED}</td></tr>
 *   <tr><td>borderline, odds below one half or not known to be above</td><td>{@link #FAILED}</td></tr>
 *   <tr><td>borderline, odds of at least one half</td><td>{@link #DOUBTFUL}</td></tr>
 *   <tr><td>unknown, of a rule that must be known</td><td>{@link #FAILED}</td></tr>
 *   <tr><td>unknown</td><td>{@link #UNCHECKED}</td></tr>
 * </table>
 */
public enum Gravity {
  /** It counts as not met. */
  FAILED,
  /** Somebody has to look. */
  DOUBTFUL,
  /** It could not be checked. */
  UNCHECKED;

  private static final double EVEN = 0.5;

  /** What a finding weighs, whether it is accepted or not. */
  public static Gravity of(Finding finding) {
    if (finding.outcome() == Outcome.BORDERLINE) {
      return finding.odds().low() >= EVEN ? DOUBTFUL : FAILED;
    }
    if (finding.outcome() == Outcome.UNKNOWN) {
      return finding.mustBeKnown() ? FAILED : UNCHECKED;
    }
    return FAILED;
  }
}
