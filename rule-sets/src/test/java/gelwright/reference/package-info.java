/**
 * Writes the reference pages in {@code docs/reference} from the sheets, and holds the pages that
 * are kept to what the sheets say. Nothing there is written by hand; after a change of the sheets
 * the build says what differs, and {@code -Dgolden.update=true} writes the pages anew.
 */
package gelwright.reference;
