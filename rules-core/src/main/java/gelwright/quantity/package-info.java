/**
 * Units, quantities, exact shares, and numbers that remember where their doubt comes from.
 *
 * <p>This room knows nothing of cosmetics. It answers four questions:
 *
 * <ul>
 *   <li><b>In what unit?</b> {@link gelwright.quantity.Unit} lists the units of the trade, {@link
 *       gelwright.quantity.Dimension} what may be compared or added.
 *   <li><b>How much, exactly?</b> {@link gelwright.quantity.Share} is a scaled integer, so a recipe
 *       that sums to 100 % sums to exactly 100 %.
 *   <li><b>How sure?</b> {@link gelwright.quantity.Estimate} is a likely value with signed
 *       contributions from named {@linkplain gelwright.quantity.Doubt doubts}. A doubt that two
 *       numbers share cancels when they are compared.
 *   <li><b>What if something is missing?</b> {@link gelwright.quantity.Bounded} lies between two
 *       estimates and names what is missing; comparing two of them gives {@link
 *       gelwright.quantity.Odds}, an interval that is wide exactly where knowledge ends.
 * </ul>
 *
 * <p>Numbers inside the engine are in the coherent unit of their dimension (kg, m, s, K, mol;
 * shares in % w/w, temperatures in °C): {@link gelwright.quantity.Unit#toBase} and {@link
 * gelwright.quantity.Unit#fromBase} are the only doors.
 */
@NullMarked
package gelwright.quantity;

import org.jspecify.annotations.NullMarked;
