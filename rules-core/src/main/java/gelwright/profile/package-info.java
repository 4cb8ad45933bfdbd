/**
 * The computed properties of one formula, by the names that rules and reports use.
 *
 * <p>{@link gelwright.profile.Profile} resolves the recipe against a catalogue, walks through the
 * procedure, and computes each property once, when it is first asked for. A property is a pure
 * function of the recipe and of the <i>inputs in doubt</i>; its range comes from evaluating that
 * same function with one doubt shifted at a time (first-order propagation), which is why two
 * formulas that share a gum share its doubt.
 *
 * <ul>
 *   <li>{@code Recipe} – blends and strengths expanded, exact shares
 *   <li>{@code Procedure} – what each ingredient lives through, step by step
 *   <li>{@code World} – one set of input values, with the properties computed from them
 *   <li>{@code …Properties} – the definitions, one file a subject
 * </ul>
 *
 * <p>Adding a property means one pure function in {@code science} and one definition here. Rules
 * and their outcomes may not enter this room; it implements the rule language's {@code Facts} and
 * knows nothing else of it.
 */
@NullMarked
package gelwright.profile;

import org.jspecify.annotations.NullMarked;
