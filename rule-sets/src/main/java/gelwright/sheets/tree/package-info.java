/**
 * Documents as trees: scalars, sequences and mappings, each with the place where it is written.
 *
 * <p>YAML and JSON give the same tree, so no reader knows which of the two a sheet was written in.
 * Nothing is interpreted in here: a number keeps its digits, {@code NO} stays a word. What makes a
 * text dangerous or ambiguous ends in this room as a problem with a line and a column: wrong
 * encoding, control characters, anchors and aliases, tags, several documents in one file, a key
 * given twice, and whatever exceeds the {@link gelwright.sheets.tree.Limits}.
 *
 * <p>What may not enter: what a key means.
 */
@NullMarked
package gelwright.sheets.tree;

import org.jspecify.annotations.NullMarked;
