/**
 * Batch sheets: what to weigh, what to do and what to write down for a batch of any size.
 *
 * <p>{@link gelwright.batch.BatchSheets} is immutable and thread-safe and does no input or output.
 * The same formula, mass, date and editions give an equal sheet, down to the order of every list.
 *
 * <ul>
 *   <li>{@code BatchSheets} – makes the sheet; {@code BatchSheet} – the sheet as data
 *   <li>{@code Masses} – masses on the balance's steps that add up to the batch
 * </ul>
 *
 * <p>Which caution bites at which step and what a batch record holds are tables of the rule sets,
 * not code. Whatever depends on the mass of the batch is computed anew for the mass asked for. No
 * layout in here: sentences and pages are made by the program around the engine.
 */
@NullMarked
package gelwright.batch;

import org.jspecify.annotations.NullMarked;
