package gelwright.sheets.mapping;

import gelwright.quantity.Quantity;

/** The ends of a {@link Between}. */
final class Ends {
  private Ends() {}

  /** An end as written in the annotation. */
  static Quantity of(String text) {
    return Quantity.parse(text)
        .orElseThrow(() -> new IllegalArgumentException("not a quantity: " + text));
  }
}
