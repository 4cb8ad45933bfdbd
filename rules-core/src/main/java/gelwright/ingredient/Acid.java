package gelwright.ingredient;

import java.util.List;

/**
 * What an ingredient gives off or takes up as an acid, a base or a salt of either.
 *
 * @param pKa at 25 °C and zero ionic strength, ascending; empty for a salt of strong ions only
 * @param charge of the fully protonated form
 * @param counterIons strong charge per molecule as bought, such as +1 for sodium benzoate (its
 *     sodium), -1 for a hydrochloride; 0 for the free acid or base
 * @param parent INCI name of the free acid or base it counts as, or empty when it is its own
 * @param perMolecule moles of the parent per mole
 */
public record Acid(
    List<Figure> pKa, int charge, int counterIons, String parent, int perMolecule) {
  public Acid {
    pKa = List.copyOf(pKa);
    if (perMolecule < 1) {
      throw new IllegalArgumentException("perMolecule must be at least 1, is " + perMolecule);
    }
  }
}
