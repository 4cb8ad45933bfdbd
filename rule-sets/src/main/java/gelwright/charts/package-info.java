/**
 * Draws curves and bars as SVG: one renderer for every report, page and command.
 *
 * <p>{@link gelwright.charts.Chart} takes numbers and gives a self-contained picture: a title and a
 * text that tells the numbers for those who do not see it, no style sheet, no style attribute, no
 * script, no reference to anything outside itself. Series differ by dash and marker besides colour,
 * so that they can be told apart in grey and by colour-blind eyes. Whatever stands in a name is
 * text and never becomes markup. The same numbers give the same bytes on every machine: text is
 * laid out by the library's own tables of widths, never by a font of the machine.
 *
 * <ul>
 *   <li>{@code Plot} – from a curve to the chart library's specification
 *   <li>{@code Telling} – the text that tells the numbers
 *   <li>{@code Svg} – what the library drew, reduced to what a strict page lets pass
 * </ul>
 *
 * <p>No chemistry and no verdict enters this room.
 */
@NullMarked
package gelwright.charts;

import org.jspecify.annotations.NullMarked;
