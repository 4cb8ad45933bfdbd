/**
 * What is wrong with something a user wrote, and where: problems are values, not exceptions.
 *
 * <p>Readers and the rule checker collect {@link gelwright.problem.Problem}s and go on, so that all
 * of them are shown at once, each with file, line, column, code, message and hint. This room knows
 * nothing else.
 */
@NullMarked
package gelwright.problem;

import org.jspecify.annotations.NullMarked;
