package gelwright.review;

import java.util.Locale;

/** What became of a rule. */
public enum Outcome {
  /** Odds of at least 95 % that it is met. */
  HOLDS,
  /** Odds of at most 5 % that it is met. */
  BREAKS,
  /** In between. */
  BORDERLINE,
  /** An input is missing that could matter. */
  UNKNOWN,
  /** Its condition is not met. */
  NOT_APPLICABLE,
  /** A duty that applies. */
  APPLIES,
  /** A duty that may apply: an input is missing or its condition is borderline. */
  MAY_APPLY,
  /** A duty that does not apply. */
  DOES_NOT_APPLY;

  /** As written in reports. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
