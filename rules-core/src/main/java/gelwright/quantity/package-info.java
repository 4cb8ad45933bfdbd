/**
 * Units, quantities and estimates: the numbers everything else is written in.
 *
 * <p>This room knows nothing of gels, formulas or rules. It could serve a bakery as well. It holds
 * three ideas.
 *
 * <ul>
 *   <li>A <b>unit</b> is a name and what it measures. Two units can be compared, added or converted
 *       only if they measure the same dimension, so that a yield stress is never held against a
 *       share, and a mistake of that kind is found when a rule is loaded, not when it is applied.
 *   <li>A <b>quantity</b> is a number with its unit. What a person wrote is kept as it was written
 *       wherever sums must come out exactly; what was computed is a floating-point number.
 *   <li>An <b>estimate</b> is a likely value and the doubts about it, each doubt under the name of
 *       where it comes from. Two estimates that share a doubt can therefore be told apart more
 *       sharply than either is known alone, and the doubt that matters most says what to measure
 *       next.
 * </ul>
 *
 * <p>Exact things have no doubt: counts, choices, limits of law and the sums of a recipe. A number
 * that is missing is not a number with a large doubt; it is absent, and saying so is the business
 * of whoever asked for it.
 *
 * <p>What may not enter: the name of any ingredient or process, any default for a number that
 * nobody stated, anything that reads, prints, formats for a locale other than the root one, or
 * looks at a clock. All types are immutable and may be shared between threads.
 */
@NullMarked
package gelwright.quantity;

import org.jspecify.annotations.NullMarked;
