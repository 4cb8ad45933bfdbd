/**
 * Rules and their language: declarative, typed, dimension-checked when loaded, total.
 *
 * <p>A {@link gelwright.rule.RuleSet} is data. {@link gelwright.rule.RuleBook} parses, checks and
 * compiles a collection of them against a {@link gelwright.rule.Vocabulary} of property names and
 * types, reporting every problem with its place. A compiled rule reads its inputs through {@link
 * gelwright.rule.Facts} and answers with odds, never with an exception: what is missing is named.
 *
 * <p>The language knows quantities, property names and their types. It does not know a chemical, a
 * formula or a review; no loops, no recursion, no side effects, and the cost of a rule is bounded
 * by the length of its text.
 */
@NullMarked
package gelwright.rule;

import org.jspecify.annotations.NullMarked;
