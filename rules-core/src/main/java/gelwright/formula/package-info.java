/**
 * What a formulator writes: the recipe, the brief, the procedure, what was measured.
 *
 * <p>Plain immutable records with the trade's words. Shares are exact. Nothing is computed here and
 * nothing is known of any ingredient: a name is a name. Parts that a sheet may leave out are {@link
 * java.util.Optional}; nothing is ever filled in with a default, because what was not said must
 * stay recognisable as such. An {@link gelwright.formula.Edit} is one change of a formula.
 */
@NullMarked
package gelwright.formula;

import org.jspecify.annotations.NullMarked;
