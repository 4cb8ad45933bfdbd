package gelwright.ingredient;

import java.util.Optional;

/** What limits of law count a family of substances as, beside an acid or a base. */
public enum Equivalent {
  /** Zinc in its salts. */
  ZINC("zinc", 65.38e-3),
  /** Retinol in its esters: retinol equivalents. */
  RETINOL("retinol", 286.46e-3),
  /** Sulfur dioxide in sulfites. */
  SULFUR_DIOXIDE("sulfur-dioxide", 64.06e-3);

  private final String word;
  private final double molarMass;

  Equivalent(String word, double molarMass) {
    this.word = word;
    this.molarMass = molarMass;
  }

  /** As written on an ingredient sheet. */
  public String word() {
    return word;
  }

  /** kg/mol. Abridged standard atomic weights 2021, IUPAC. */
  public double molarMass() {
    return molarMass;
  }

  public static Optional<Equivalent> of(String word) {
    for (Equivalent equivalent : values()) {
      if (equivalent.word.equals(word)) {
        return Optional.of(equivalent);
      }
    }
    return Optional.empty();
  }
}
