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
  /** What a product can be meant to be. */
  public static final List<String> KINDS =
      List.of("mist", "lotion", "serum", "gel", "gel-cream", "scrub", "mask", "wash", "deodorant");

  /** Whether it stays on the skin. */
  public static final List<String> USES = List.of("leave-on", "rinse-off");

  /** Where it can be used. */
  public static final List<String> AREAS =
      List.of(
          "face",
          "eye-area",
          "body",
          "hands",
          "feet",
          "underarm",
          "scalp",
          "hair",
          "lips",
          "intimate");

  /** Who it can be for. */
  public static final List<String> USERS = List.of("adults", "children-under-3");

  /** The textures there are, from thin to thick. */
  public static final List<String> TEXTURES =
      List.of("fluid", "light-serum", "serum", "soft-gel", "gel", "firm-gel");

  /** The packages there are. */
  public static final List<String> DISPENSING =
      List.of("pump-spray", "aerosol", "dropper", "pump", "airless", "tube", "jar");

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
