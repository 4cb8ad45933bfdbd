/**
 * The runnable program: the command line and the report for people.
 *
 * <p>Thin: it finds files, asks the engine, writes what came out and ends with an exit status. No
 * chemistry and no rule in here. The day's date is asked for here and nowhere else, and a report
 * depends on nothing else of the machine. {@link gelwright.api.Engine} is all that the commands
 * know of what is beneath, so that they can be tested with a small stand-in.
 */
@NullMarked
package gelwright.api;

import org.jspecify.annotations.NullMarked;
