/**
 * What a formula is likely to be: every computed property with its range, origin, sources and the
 * doubts that matter most to it, and curves of how it behaves.
 *
 * <p>{@link gelwright.prediction.Predictor} is immutable and thread-safe and does no input or
 * output; the date is an argument. The same formula, date and editions give an equal prediction,
 * down to the order of every list. The numbers are those of a review: both read the same profile.
 *
 * <ul>
 *   <li>{@code Predicted} – one property; {@code DoubtShare} – what one doubt does to it
 *   <li>{@code Curve} – numbers along an axis, as data; drawing is done elsewhere
 *   <li>{@code Curves} – how the curves of a formula are computed
 * </ul>
 *
 * <p>No verdict enters this room: whether a number is good enough is asked in {@code review}. What
 * is not known is said to be unknown, with what is missing; a curve of which nothing is known has
 * no points and says why.
 */
@NullMarked
package gelwright.prediction;

import org.jspecify.annotations.NullMarked;
