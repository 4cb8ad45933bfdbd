package gelwright.review;

import static java.util.Objects.requireNonNull;

/**
 * What a finding is about.
 *
 * @param kind such as ingredient, preservative, gum, step, row; empty for the formula as a whole
 * @param name unique within its kind; empty for the formula as a whole
 */
public record Subject(String kind, String name) {
  /** The formula as a whole. */
  public static final Subject FORMULA = new Subject("", "");

  public Subject {
    requireNonNull(kind, "kind");
    requireNonNull(name, "name");
  }

  public boolean isFormula() {
    return kind.isEmpty();
  }
}
