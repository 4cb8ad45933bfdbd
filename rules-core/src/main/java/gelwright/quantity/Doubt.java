package gelwright.quantity;

import static java.util.Objects.requireNonNull;

/**
 * A named source of doubt: "consistency of Sclerotium Gum", "pKa of Sorbic Acid", "pH meter".
 *
 * <p>Two numbers that carry the same doubt move together, so it cancels when they are compared.
 * Doubts are equal when their names are.
 *
 * @param name what is not known exactly, in the trade's words; not blank
 * @param settledBy the measurement or information that would settle it, or empty
 */
public record Doubt(String name, String settledBy) implements Comparable<Doubt> {
  public Doubt {
    requireNonNull(name, "name");
    requireNonNull(settledBy, "settledBy");
    if (name.isBlank()) {
      throw new IllegalArgumentException("name must not be blank: doubts are told apart by it");
    }
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Doubt doubt && doubt.name.equals(name);
  }

  @Override
  public int hashCode() {
    return name.hashCode();
  }

  @Override
  public int compareTo(Doubt other) {
    return name.compareTo(other.name);
  }

  @Override
  public String toString() {
    return name;
  }
}
