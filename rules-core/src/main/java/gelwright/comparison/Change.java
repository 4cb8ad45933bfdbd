package gelwright.comparison;

import java.util.Locale;

/** What became of a part of the first formula in the second one. */
public enum Change {
  /** In both, and nothing about it differs. */
  SAME,
  /** In both, and something about it differs. */
  CHANGED,
  /** In the second formula only. */
  ADDED,
  /** In the first formula only. */
  REMOVED;

  /** As written in reports. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  static Change of(boolean inFirst, boolean inSecond, boolean same) {
    return inFirst ? inSecond ? same ? SAME : CHANGED : REMOVED : ADDED;
  }
}
