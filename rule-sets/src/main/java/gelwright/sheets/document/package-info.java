/**
 * Sheets as records with constraints: read, but not yet known to be possible.
 *
 * <p>A component is null where the sheet leaves the key out or where its value could not be read;
 * the constraints pass over nulls, so that one mistake is told once. Nothing outside the readers
 * sees these records.
 */
@NullMarked
package gelwright.sheets.document;

import org.jspecify.annotations.NullMarked;
