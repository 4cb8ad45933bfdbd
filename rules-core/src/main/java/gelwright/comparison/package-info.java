/**
 * Two formulas side by side, or one formula made in two ways: what differs in brief, recipe and
 * procedure, which numbers differ and how surely, which findings come and go, and both flow curves
 * in one.
 *
 * <p>{@link gelwright.comparison.Comparer} is immutable and thread-safe and does no input or
 * output; the date is an argument. The same two formulas, date and editions give an equal
 * comparison.
 *
 * <p>The two are taken as made side by side: of the same lots, in the same room, by the same hand.
 * So the doubts of gums, raw materials, room and models are the same doubts on both sides and
 * cancel, as far as both numbers move with them alike. Readings, and the pH that an adjustment ends
 * at, are of one batch each and never cancel.
 *
 * <ul>
 *   <li>{@code FormulaComparison} – all of it; {@code FormulaSide} – what is told of one formula
 *   <li>{@code FieldChange}, {@code LineChange}, {@code StepChange} – brief, recipe and procedure
 *   <li>{@code PropertyComparison} – a number twice, its {@code Difference} and the odds
 *   <li>{@code FindingChange}, {@code DutyChange}, {@code OpenCheck} – what the rules say of each
 *   <li>{@code Alignment} – how two lists of steps are laid beside each other
 * </ul>
 *
 * <p>What is not known on one side is not known of the difference either, and what is missing is
 * named. No judgement of which formula is the better one enters this room.
 */
@NullMarked
package gelwright.comparison;

import org.jspecify.annotations.NullMarked;
