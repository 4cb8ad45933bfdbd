/**
 * From a tree to values: which keys there may be, what each holds, and what to say where it does
 * not.
 *
 * <p>{@link gelwright.sheets.mapping.Keys} reads one mapping, {@link
 * gelwright.sheets.mapping.Reading} one value; {@link gelwright.sheets.mapping.Problems} collects,
 * so that one pass finds everything. {@link gelwright.sheets.mapping.Constraints} checks what is
 * well written but cannot be, such as a share of 140 %, by the constraints on the document records.
 *
 * <p>What may not enter: any particular sheet.
 */
@NullMarked
package gelwright.sheets.mapping;

import org.jspecify.annotations.NullMarked;
