/**
 * What is known of an ingredient, each number with its range, its sources and their standing.
 *
 * <p>Knowledge has three states everywhere: given, known to be none, and not known. An ingredient
 * whose sheet says {@code pKa: none} is known not to be an acid or a base; one whose sheet is
 * silent may be, and every rule to which it matters is unknown and says so. No default stands in
 * for a missing number.
 *
 * <p>This room knows quantities only. It does not know what a recipe is.
 */
@NullMarked
package gelwright.ingredient;

import org.jspecify.annotations.NullMarked;
