/**
 * From readings taken on one lot of gum to what later reviews use instead of the usual figures: the
 * flow law of this lot with its own doubt.
 *
 * <p>In this room: the readings as a sheet gives them, what speaks against them, the fit with its
 * residuals and the forms that were tried, and the lot as the catalogue holds it. What it knows of
 * the gum's usual figures it takes from a catalogue. No sheet is read or written here.
 */
@NullMarked
package gelwright.calibration;

import org.jspecify.annotations.NullMarked;
