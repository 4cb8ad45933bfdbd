package gelwright.formula;

import gelwright.quantity.Quantity;
import java.util.List;
import java.util.Optional;

/**
 * What the product is meant to be. The words are those of the formula sheet.
 *
 * @param kind mist, lotion, serum, gel, gel-cream, scrub, mask, wash or deodorant
 * @param use leave-on or rinse-off
 * @param area where it is used; empty when not stated
 * @param users adults or children-under-3
 * @param texture a row of the texture table
 * @param dispensing pump-spray, aerosol, dropper, pump, airless, tube or jar
 * @param pH the pH aimed at
 * @param markets where it is to be sold or given away; empty when not stated
 * @param shelfLife how long it is meant to keep
 */
public record Brief(
    Optional<String> kind,
    Optional<String> use,
    List<String> area,
    Optional<String> users,
    Optional<String> texture,
    Optional<String> dispensing,
    Optional<Span> pH,
    List<String> markets,
    Optional<Quantity> shelfLife) {
  /** A sheet without a brief. */
  public static final Brief NONE =
      new Brief(
          Optional.empty(),
          Optional.empty(),
          List.of(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          List.of(),
          Optional.empty());

  public Brief {
    area = List.copyOf(area);
    markets = List.copyOf(markets);
  }
}
