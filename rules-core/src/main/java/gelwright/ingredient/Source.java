package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;

/**
 * Where a number or a rule comes from.
 *
 * @param id kebab-case
 * @param citation the paper, the standard or the law, with what is needed to find it
 * @param standing how far it can be looked up
 */
public record Source(String id, String citation, Standing standing) {
  public Source {
    requireNonNull(id, "id");
    requireNonNull(citation, "citation");
    requireNonNull(standing, "standing");
  }

  /** How far a source can be looked up. Shown wherever the number is shown. */
  public enum Standing {
    /** A citation that can be looked up. */
    PUBLISHED,
    /** Read in one's own workshop: the citation says when, on what and with which instrument. */
    MEASURED,
    /** A rule of thumb of the trade without a source. */
    COMMON_PRACTICE,
    /** Recalled or proposed; not checked against a text. */
    FROM_MEMORY;

    /** As written in sheets and reports. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public static Optional<Standing> of(String word) {
      for (Standing standing : values()) {
        if (standing.word().equals(word)) {
          return Optional.of(standing);
        }
      }
      return Optional.empty();
    }
  }
}
