/**
 * Sheets: the documents that people and programs hand in, and those they get back.
 *
 * <p>This room turns text into the engine's values and the engine's results into text. Whatever a
 * person can get wrong in a sheet becomes a diagnostic with file, line, column, code, message and
 * hint; nothing in here throws for a reader's mistake, and nothing is read past a stated limit of
 * size or depth. An unknown key is a mistake, never a remark.
 *
 * <p>What may not enter: chemistry and judgement. A reader checks that a sheet is well formed and
 * complete enough to be understood; whether the recipe in it is sound is for the rules to say. This
 * room knows the engine; the engine does not know this room, and neither knows the program around
 * them.
 */
@NullMarked
package gelwright.sheets;

import org.jspecify.annotations.NullMarked;
