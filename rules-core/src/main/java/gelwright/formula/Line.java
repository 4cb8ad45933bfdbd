package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import java.util.Optional;

/**
 * A line of the recipe.
 *
 * @param phase such as A; empty when not stated
 * @param name as written: an INCI name or a synonym
 * @param amount how much of the raw material as bought
 * @param strength content of the raw material as bought, in % w/w; the rest is water
 * @param hydrate form as bought: anhydrous, mono, di, …
 * @param size diameter of the grains
 * @param grade a row of the ingredient's grade table
 * @param lot a calibrated own lot
 */
public record Line(
    String phase,
    String name,
    Amount amount,
    Optional<Share> strength,
    Optional<String> hydrate,
    Optional<Quantity> size,
    Optional<String> grade,
    Optional<String> lot) {
  public Line {
    requireNonNull(phase, "phase");
    requireNonNull(name, "name");
    requireNonNull(amount, "amount");
  }

  /** A line with nothing but phase, name and share. */
  public static Line of(String phase, String name, Amount amount) {
    return new Line(
        phase,
        name,
        amount,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }
}
