package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * What free electrolyte does to a gum.
 *
 * @param effect which of the three known ways
 * @param figures its numbers by name, all of {@link Effect#figures}
 */
public record Salt(Effect effect, Map<String, Figure> figures) {
  /** The ways a gum answers to salt. */
  public enum Effect {
    /**
     * A neutralised polyacid whose chains fold: half is left at the ionic strength {@code half-at}
     * for each % of gum; it opens at the degree of neutralisation {@code opens-at}.
     */
    COLLAPSES("half-at", "opens-at"),
    /**
     * Stiff chains that thin only where they are few: the part {@code left} remains up to {@code
     * up-to} of gum in {@code salted-from} and more; from {@code none-from} of gum on all does.
     */
    THINS("left", "up-to", "none-from", "salted-from"),
    /**
     * A coil whose law is that of the salted coil: without salt it is up to {@code unsalted-up-to}
     * times as thick, from {@code salted-from} on no more.
     */
    SCREENS("unsalted-up-to", "salted-from");

    private final List<String> figures;

    Effect(String... figures) {
      this.figures = List.of(figures);
    }

    /** Names of the figures it needs. */
    public List<String> figures() {
      return figures;
    }

    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    public static Optional<Effect> of(String word) {
      for (Effect effect : values()) {
        if (effect.word().equals(word)) {
          return Optional.of(effect);
        }
      }
      return Optional.empty();
    }
  }

  public Salt {
    requireNonNull(effect, "effect");
    figures = Map.copyOf(figures);
    for (String name : effect.figures()) {
      Figure figure = figures.get(name);
      if (figure == null || !(figure.likely() > 0)) {
        throw new IllegalArgumentException(effect.word() + " needs " + name + " above zero");
      }
    }
  }

  /** One of the figures of the effect. */
  public Figure figure(String name) {
    return requireNonNull(figures.get(name), name);
  }
}
