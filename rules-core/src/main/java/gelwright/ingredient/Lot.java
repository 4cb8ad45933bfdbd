package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

/**
 * What is known of one lot of an ingredient where it differs from the usual: a recipe's line names
 * the lot, and everything that is not said here stays as the ingredient has it.
 *
 * @param ingredient INCI name
 * @param name of the lot, as a recipe's line writes it
 * @param gum how this lot thickens
 * @param hydration how fast this lot hydrates
 * @param note a short remark, or empty
 */
public record Lot(
    String ingredient, String name, Known<Gum> gum, Known<HydrationData> hydration, String note) {
  public Lot {
    requireNonNull(ingredient, "ingredient");
    requireNonNull(name, "name");
    requireNonNull(gum, "gum");
    requireNonNull(hydration, "hydration");
    requireNonNull(note, "note");
  }
}
