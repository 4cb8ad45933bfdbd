/**
 * Drafts of labels under Article 19 of Regulation (EC) No 1223/2009: the ingredient list in its
 * order, what the limits demand to be said, and what is missing.
 *
 * <p>{@link gelwright.labelling.LabelDrafts} is immutable and thread-safe and does no input or
 * output. The same formula, date and editions give an equal draft, down to the order of every list.
 *
 * <ul>
 *   <li>{@code LabelDrafts} – makes the draft; {@code LabelDraft} – the draft as data
 *   <li>{@code Order} – the order of the list, and where it is in doubt
 * </ul>
 *
 * <p>Which warnings and which scents have to be named is decided by the rules, and read from the
 * review of the formula; no limit of the law stands in here. A draft covers the markets of the
 * European Union and the EEA and says so of all others.
 */
@NullMarked
package gelwright.labelling;

import org.jspecify.annotations.NullMarked;
