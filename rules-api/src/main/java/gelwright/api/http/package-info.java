/**
 * The HTTP service: everything the library knows, asked for over the network.
 *
 * <p>Thin: a handler reads a request, calls the readers and the reviewer, and writes what came out
 * with the writers of reports. No chemistry, no rule and no state in here but the knowledge loaded
 * and the counters of {@link gelwright.api.http.Metrics}; nothing of a request is kept.
 *
 * <ul>
 *   <li>{@link gelwright.api.http.Settings} and {@link gelwright.api.http.Guards}: what can be set.
 *   <li>{@link gelwright.api.http.Service}: starts, routes, drains and stops.
 *   <li>{@link gelwright.api.http.KnowledgeStore}: the knowledge at hand, replaced as a whole.
 *   <li>{@link gelwright.api.http.Evaluator}: the bound on how much is evaluated at once.
 *   <li>{@link gelwright.api.http.Trouble} and {@link gelwright.api.http.ProblemType}: everything
 *       that can go wrong, as an answer. Each type has a page.
 * </ul>
 *
 * <p>What a client can send wrong never ends in status 500, and no answer tells a stack trace, a
 * path or a name of the machine. No other package may know the web server.
 */
@NullMarked
package gelwright.api.http;

import org.jspecify.annotations.NullMarked;
