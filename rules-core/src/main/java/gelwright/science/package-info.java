/**
 * Models: pure functions on numbers. One class for each question that physics or chemistry can
 * answer – where the pH lands, what an oil phase takes, how thick a gel flows, how heat spoils.
 *
 * <p>Each class says in its comment the equation, the symbols with their units, the range in which
 * it holds, what it returns outside, how far it can be trusted, and where it comes from. The same
 * page with a worked example stands in {@code docs/models}, and a test repeats the example.
 *
 * <p>Rules of the room:
 *
 * <ul>
 *   <li><b>Total.</b> For every input that is physically possible there is an answer, and it is
 *       never NaN. Only nonsense – a negative amount, a share above one – is refused, with an
 *       {@code IllegalArgumentException} that names the argument.
 *   <li><b>Smooth.</b> Sensitivities are taken by finite differences on these functions, so answers
 *       do not jump, and iterations end at the accuracy of the machine rather than at a tolerance
 *       one could see.
 *   <li><b>Sourced.</b> Every constant has its unit and its source beside it, and says whether it
 *       was read in a text, recalled from memory, or is common practice.
 *   <li><b>Not tuned.</b> Tests compare with figures from outside. A model that misses one keeps
 *       its constants and says so.
 * </ul>
 *
 * <p>What may not enter: formulas, ingredients, rules; the pKa of a named acid or the flow law of a
 * named gum belong to the ingredient. No state, no clock, nothing that reads or writes. Everything
 * here may be called by any number of threads.
 */
@NullMarked
package gelwright.science;

import org.jspecify.annotations.NullMarked;
