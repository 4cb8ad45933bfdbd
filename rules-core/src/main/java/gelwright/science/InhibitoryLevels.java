package gelwright.science;

import java.util.List;

/**
 * Inhibitory levels of preservatives: bringing levels of different basis together, and adding up
 * several preservatives against one kind of organism.
 *
 * <pre>
 *   level(undissociated) = level(total at pH) · f(pH)
 *   level(total at pH)   = level(undissociated)/f(pH)
 *   sum = Σ cᵢ/Lᵢ                                       (fractional inhibitory concentrations)
 * </pre>
 *
 * <p>c and L in one unit (µg/mL, or %), on one basis; f from {@link Undissociated}.
 *
 * <p><b>Range.</b> Adding fractions assumes that the preservatives neither help nor hinder each
 * other. Conversion to the undissociated basis assumes that the ion does nothing: cautious where
 * the product is less acid than the test was, too hopeful where it is more acid. A sum of 1 is the
 * level where growth is expected to stop in broth. It is <em>not</em> kill, and it is not a
 * challenge test.
 *
 * <p><b>Uncertainty.</b> A factor of 2 on each level (one dilution step of the method), 2 to 4
 * between methods. Common practice.
 *
 * <p><b>Sources.</b> Undissociated basis: Anderson and Chow, J. Soc. Cosmet. Chem. 18:207 (1967),
 * read. Fractional sum: standard in antimicrobial work, from memory.
 */
public final class InhibitoryLevels {

  private InhibitoryLevels() {}

  /**
   * One preservative against one kind of organism.
   *
   * @param concentration present, on the basis of the level
   * @param level that inhibits, same unit and basis; above zero
   */
  public record Share(double concentration, double level) {
    public Share {
      Require.notNegative(concentration, "concentration");
      Require.positive(level, "level");
    }
  }

  /**
   * Sum of the fractions of the inhibitory level.
   *
   * @return 0 for none; 1 where growth is expected to stop
   */
  public static double fractionalSum(List<Share> shares) {
    double sum = 0;
    for (Share share : shares) {
      sum += fraction(share.concentration(), share.level());
    }
    return sum;
  }

  /**
   * Fraction of the inhibitory level of one preservative.
   *
   * @param concentration present, on the basis of the level; at least zero
   * @param level that inhibits, same unit and basis; above zero
   */
  public static double fraction(double concentration, double level) {
    Require.notNegative(concentration, "concentration");
    Require.positive(level, "level");
    return concentration / level;
  }

  /**
   * A level stated as total acid at the pH of its test, turned into undissociated acid.
   *
   * @param totalLevel total acid that inhibits, any unit
   * @param testPH pH of the test
   * @param pKa apparent pKa
   */
  public static double toUndissociated(double totalLevel, double testPH, double pKa) {
    Require.notNegative(totalLevel, "totalLevel");
    return totalLevel * Undissociated.fraction(testPH, pKa);
  }

  /**
   * A level of undissociated acid, turned into the total acid it takes at a pH.
   *
   * @param undissociatedLevel undissociated acid that inhibits, any unit
   * @param pH of the product; the answer grows tenfold for each pH unit above the pKa, and is held
   *     at the largest finite number
   * @param pKa apparent pKa
   */
  public static double toTotal(double undissociatedLevel, double pH, double pKa) {
    Require.notNegative(undissociatedLevel, "undissociatedLevel");
    double total = undissociatedLevel * (1 + Partition.ionisedRatio(pH, pKa));
    return Math.min(total, Double.MAX_VALUE);
  }
}
