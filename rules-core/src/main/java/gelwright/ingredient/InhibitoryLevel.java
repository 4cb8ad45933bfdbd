package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Optional;

/**
 * The lowest level that stops growth of a group of germs. It is not proof of kill.
 *
 * @param group gram-positive, gram-negative, yeast or mould
 * @param level share of the preservative
 * @param basis what the level counts
 * @param atPH the pH at which it was found, where the basis is the total of an acid
 */
public record InhibitoryLevel(String group, Figure level, Basis basis, Optional<Double> atPH) {
  /** What an inhibitory level counts. */
  public enum Basis {
    /** All of it, whatever its form. */
    TOTAL,
    /** The undissociated acid only. */
    UNDISSOCIATED
  }

  public InhibitoryLevel {
    requireNonNull(group, "group");
    requireNonNull(level, "level");
    requireNonNull(basis, "basis");
  }
}
