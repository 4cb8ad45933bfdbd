package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * One set of input values – the likely ones, or the likely ones with a single doubt shifted – and
 * the properties computed from them, each once.
 */
final class World {
  // The likely world records which doubts and sources each property rests on. A shifted world
  // recomputes only the properties that rest on its doubt and takes every other from the likely
  // world: shifting one gum's flow law never recomputes a pH.
  private final Model model;
  private final @Nullable World likely;
  private final @Nullable Doubt shifted;
  private final double deviations;
  private final Map<Key, Computed> computed = new HashMap<>();
  private Basis basis = new Basis();

  /** Something computed of an item, or of the formula (item 0). */
  record Key(Object what, int item) {}

  /** Something computed and what it rests on. */
  record Computed(Object value, Basis basis) {}

  /** How something is computed. */
  interface Computation {
    Object of(World world, int item);
  }

  /** What a property rests on. */
  static final class Basis {
    final Set<Doubt> doubts = new HashSet<>();
    final Set<String> sources = new TreeSet<>();
    boolean measured;
    boolean predicted;

    void add(Basis other) {
      doubts.addAll(other.doubts);
      sources.addAll(other.sources);
      measured |= other.measured;
      predicted |= other.predicted;
    }
  }

  /** The world of likely values. */
  World(Model model) {
    this(model, null, null, 0);
  }

  private World(Model model, @Nullable World likely, @Nullable Doubt shifted, double deviations) {
    this.model = model;
    this.likely = likely;
    this.shifted = shifted;
    this.deviations = deviations;
  }

  /** This likely world with one doubt shifted. */
  World shift(Doubt doubt, double by) {
    return new World(model, this, doubt, by);
  }

  Model model() {
    return model;
  }

  /** A property of the formula. */
  Reading of(Definition definition) {
    return of(definition, 0);
  }

  /** A property of an item. */
  Reading of(Definition definition, int item) {
    return (Reading) compute(definition, item).value();
  }

  Computed compute(Definition definition, int item) {
    return compute(definition, item, definition::reading);
  }

  /** Something that several properties share, computed once: the course of the procedure. */
  <T> T shared(Class<T> type, java.util.function.Function<World, T> computation) {
    return type.cast(compute(type, 0, (world, item) -> computation.apply(world)).value());
  }

  private Computed compute(Object what, int item, Computation computation) {
    Key key = new Key(what, item);
    Computed known = computed.get(key);
    if (known == null) {
      known = inherited(key, computation);
      if (known == null) {
        Basis outer = basis;
        Basis inner = new Basis();
        basis = inner;
        try {
          known = new Computed(computation.of(this, item), inner);
        } finally {
          basis = outer;
        }
      }
      computed.put(key, known);
    }
    basis.add(known.basis());
    return known;
  }

  private @Nullable Computed inherited(Key key, Computation computation) {
    if (likely == null || shifted == null) {
      return null;
    }
    Computed base = likely.compute(key.what(), key.item(), computation);
    return base.basis().doubts.contains(shifted) ? null : base;
  }

  /** A known figure, in this world. */
  double value(Figure figure, String what, String settledBy) {
    note(figure);
    return figure.deviation() == 0 ? figure.likely() : doubtful(figure, new Doubt(what, settledBy));
  }

  private void note(Figure figure) {
    basis.sources.addAll(figure.sources());
    basis.predicted = true;
  }

  private double doubtful(Figure figure, Doubt doubt) {
    basis.doubts.add(doubt);
    return doubt.equals(shifted) ? figure.shifted(deviations) : figure.likely();
  }

  /** An input of the engine itself that is known to ± a 90 % range. */
  double within(double value, double range, String what, String settledBy) {
    Doubt doubt = new Doubt(what, settledBy);
    basis.doubts.add(doubt);
    return doubt.equals(shifted) ? value + deviations * range / Estimate.NINETY_PERCENT : value;
  }

  /** An input of the engine itself that is known to ×/÷ a 90 % range. */
  double withinFactor(double value, double factor, String what, String settledBy) {
    Doubt doubt = new Doubt(what, settledBy);
    basis.doubts.add(doubt);
    return doubt.equals(shifted)
        ? value * Math.exp(deviations * Math.log(factor) / Estimate.NINETY_PERCENT)
        : value;
  }

  /** Notes that the property at hand rests on a reading taken on the product. */
  void measured() {
    basis.measured = true;
  }

  /** Notes that the property at hand is predicted. */
  void predicted() {
    basis.predicted = true;
  }

  /** Notes a source of the engine itself. */
  void source(String id) {
    basis.sources.add(id);
  }
}
