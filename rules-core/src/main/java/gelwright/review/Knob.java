package gelwright.review;

import gelwright.formula.Edit;
import java.util.List;

/**
 * Something that can be turned step by step: a share, a temperature, a time.
 *
 * <p>Steps are counted from 1, which is the smallest change that can be made, up to {@link #most}.
 */
interface Knob {
  /** How many steps there are; 0 where it cannot be turned at all. */
  long most();

  /** What is changed by so many steps; never empty. */
  List<Edit> edits(long steps);

  /** How large a change so many steps are, grows with them; see {@link Effort}. */
  double effort(long steps);

  /**
   * Whether more steps never make worse what fewer have made better, so that it can be solved by
   * bracketing; else every step is looked at.
   */
  boolean isMonotone();

  /**
   * The next step to look at while the first good one is bracketed: at first each, then each eighth
   * of what the number has become.
   */
  long after(long steps);
}
