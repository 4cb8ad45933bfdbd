/**
 * Plans of stability and challenge tests, suggested by what a formula contains.
 *
 * <p>{@link gelwright.stability.StabilityPlans} is immutable and thread-safe and does no input or
 * output. The same formula, date and editions give an equal plan, down to the order of every list.
 *
 * <p>Which test follows from which rule, how it is done and what passes are tables of the rule sets
 * ({@code stability-tests}, {@code stability-schedules}), not code; a house adds rows in tables of
 * its own. Here it is only seen which rules apply, and the times are laid out over the shelf life.
 * A plan suggests: a qualified safety assessor decides.
 */
@NullMarked
package gelwright.stability;

import org.jspecify.annotations.NullMarked;
