package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;

/**
 * What an ingredient bears in the process.
 *
 * @param kind what happens above the limit
 * @param atMost highest process temperature
 * @param note a short remark for the reader, or empty
 */
public record HeatLimit(Kind kind, Figure atMost, String note) {
  public HeatLimit {
    requireNonNull(kind, "kind");
    requireNonNull(atMost, "atMost");
    requireNonNull(note, "note");
  }

  /** What happens above a heat limit: severity and lesson follow it. */
  public enum Kind {
    /** It is destroyed, faster the hotter. */
    DEGRADES,
    /** It leaves with the steam. */
    EVAPORATES,
    /** Its vapour can catch fire. */
    FLAMMABLE,
    /** It changes, and changes back on cooling. */
    REVERSIBLE,
    /** Nothing is known against more heat; the trade stays below out of habit. */
    HABIT;

    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    public static Optional<Kind> of(String word) {
      for (Kind kind : values()) {
        if (kind.word().equals(word)) {
          return Optional.of(kind);
        }
      }
      return Optional.empty();
    }
  }
}
