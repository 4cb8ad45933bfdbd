/**
 * From a formula to a review: every rule's outcome, the findings with their numbers, what could not
 * be checked and why.
 *
 * <p>{@link gelwright.review.Reviewer} is immutable and thread-safe and does no input or output;
 * the date is an argument. The same formula, date and editions give an equal review, down to the
 * order of every list. A rule that could not be checked is never counted as passed.
 *
 * <p>Asked for, a review also tells what would put each finding right ({@link
 * gelwright.review.Remedies}) and how far each number can move ({@link gelwright.review.Headroom}).
 * Both are found by changing the formula with {@link gelwright.formula.Edit}s, asking the rules
 * again of its changed profile, and reviewing the whole.
 */
@NullMarked
package gelwright.review;

import org.jspecify.annotations.NullMarked;
