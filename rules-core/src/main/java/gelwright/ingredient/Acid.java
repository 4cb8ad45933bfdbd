package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * What an ingredient gives off or takes up as an acid, a base or a salt of either.
 *
 * @param pKa at 25 °C and zero ionic strength, ascending; empty for a salt of strong ions only and
 *     for a polymer
 * @param charge of the fully protonated form
 * @param counterIons strong charge per molecule as bought, such as +1 for sodium benzoate (its
 *     sodium), -1 for a hydrochloride; 0 for the free acid or base
 * @param parent INCI name of the free acid or base it counts as, or empty when it is its own
 * @param perMolecule moles of the parent per mole
 * @param polymer the acid groups of a polymer, if it is one
 */
public record Acid(
    List<Figure> pKa,
    int charge,
    int counterIons,
    String parent,
    int perMolecule,
    Optional<Polymer> polymer) {
  public Acid {
    pKa = List.copyOf(pKa);
    requireNonNull(parent, "parent");
    if (perMolecule < 1) {
      throw new IllegalArgumentException("perMolecule must be at least 1, is " + perMolecule);
    }
  }

  /**
   * Acid groups on a polymer; they titrate as pH = pKa + slope · log10(α / (1 − α)).
   *
   * @param groups moles of groups per kg of the polymer as bought
   * @param pKa intrinsic pKa
   * @param slope 1 for independent groups, larger where neighbours repel each other
   * @param neutralised part of the groups sold as a salt of a strong base, 0 to 1
   */
  public record Polymer(Figure groups, Figure pKa, double slope, double neutralised) {
    public Polymer {
      requireNonNull(groups, "groups");
      requireNonNull(pKa, "pKa");
      if (!(slope > 0 && neutralised >= 0 && neutralised <= 1)) {
        throw new IllegalArgumentException("slope or neutralised out of range");
      }
    }
  }
}
