package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * What an ingredient gives off or takes up as an acid, a base or a salt of either.
 *
 * @param pKa at 25 °C and zero ionic strength, ascending; empty for a salt of strong ions only
 * @param charge of the fully protonated form; of the anion for a salt of strong ions only
 * @param counterIons strong charge per molecule as bought, such as +1 for sodium benzoate (its
 *     sodium), -1 for a hydrochloride; 0 for the free acid or base
 * @param parent INCI name of the free acid or base it counts as, or empty when it is its own
 * @param perMolecule moles of the parent per mole
 * @param slope for acid groups on a polymer, which titrate as pH = pKa + slope · log10(α / (1 −
 *     α)); the molar mass is then that of one group. Absent for small molecules.
 * @param escapes whether the uncharged form leaves as a gas, as carbon dioxide does
 */
public record Acid(
    List<Figure> pKa,
    int charge,
    int counterIons,
    String parent,
    int perMolecule,
    Optional<Figure> slope,
    boolean escapes) {
  public Acid {
    pKa = List.copyOf(pKa);
    requireNonNull(parent, "parent");
    requireNonNull(slope, "slope");
    if (perMolecule < 1) {
      throw new IllegalArgumentException("perMolecule must be at least 1, is " + perMolecule);
    }
    if (slope.isPresent() && (slope.get().likely() <= 0 || pKa.size() != 1)) {
      throw new IllegalArgumentException("a polymer has one pKa and a slope above zero");
    }
  }
}
