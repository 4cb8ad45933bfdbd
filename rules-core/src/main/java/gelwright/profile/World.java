package gelwright.profile;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Figure;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * One set of input values – the likely ones, or the likely ones with a single doubt shifted – and
 * the properties computed from them, each once.
 */
final class World {
  // The likely world records which doubts and sources each property rests on. A shifted world
  // recomputes only the properties that rest on its doubt and takes every other from the likely
  // world: shifting one gum's flow law never recomputes a pH. It records nothing itself, since what
  // a property rests on is asked of the likely world alone.
  //
  // Of that it recomputes only what the shift reaches: where the doubt does not enter a property
  // itself, and all it was computed from comes out as in the likely world, so does the property.
  // The
  // flow of a gum rests on every pKa by way of the ionic strength; once the ionic strength is seen
  // to stand still, the flow is left alone.
  //
  // Doubts and sources are numbered as they turn up, so that what a property rests on is a set of
  // bits. Of doubts of one name a property keeps the one it met first.
  private final Model model;
  private final @Nullable World likely;
  private final @Nullable NumberedDoubt shifted;
  private final double deviations;
  // Where every doubt stands at once, by name, or null in the worlds that shift none or one.
  private final @Nullable Map<String, Double> everywhere;
  private final IdentityHashMap<Object, Computed[]> computed = new IdentityHashMap<>();
  private final Map<String, NumberedDoubt> doubts;
  private final Map<String, Integer> sourceNumbers;
  private final List<String> sources;
  private Basis basis = new Basis();

  /** Something computed and what it rests on. */
  record Computed(Object value, Basis basis) {}

  /** A doubt and its number in the likely world; doubts of one name have one number. */
  record NumberedDoubt(Doubt doubt, int number) {}

  /** How something is computed. */
  interface Computation {
    Object of(World world, int item);
  }

  /** Something that was made use of. */
  private record Use(Object what, int item, Computation computation, Computed likely) {}

  /** A set of small numbers. Most are empty, and there are hundreds of them. */
  private static final class Bits {
    private static final long[] NONE = {};

    private long[] words = NONE;

    boolean get(int number) {
      int word = number >> 6;
      return word < words.length && (words[word] & (1L << number)) != 0;
    }

    void set(int number) {
      int word = number >> 6;
      if (word >= words.length) {
        words = Arrays.copyOf(words, word + 1);
      }
      words[word] |= 1L << number;
    }

    void addAll(Bits other) {
      if (other.words.length > words.length) {
        words = Arrays.copyOf(words, other.words.length);
      }
      for (int i = 0; i < other.words.length; i++) {
        words[i] |= other.words[i];
      }
    }
  }

  /** What a property rests on. */
  static final class Basis {
    final List<NumberedDoubt> doubts = new ArrayList<>(0);
    private final Bits doubtNumbers = new Bits();
    private final Bits sourceNumbers = new Bits();
    // Doubts that enter here, not by way of what this is computed from.
    private final Bits ownNumbers = new Bits();
    // What this is computed from as far as doubts bear on it, in the order it was asked for.
    private final List<Use> uses = new ArrayList<>(0);
    boolean measured;
    boolean predicted;
    // Parts of the formula, as the model numbers them.
    private int parts;

    private void add(Basis other) {
      for (NumberedDoubt doubt : other.doubts) {
        add(doubt);
      }
      sourceNumbers.addAll(other.sourceNumbers);
      measured |= other.measured;
      predicted |= other.predicted;
    }

    private void add(NumberedDoubt doubt) {
      if (!doubtNumbers.get(doubt.number())) {
        doubtNumbers.set(doubt.number());
        doubts.add(doubt);
      }
    }
  }

  /** The world of likely values. */
  World(Model model) {
    this(model, null, null, 0, null);
  }

  private World(
      Model model,
      @Nullable World likely,
      @Nullable NumberedDoubt shifted,
      double deviations,
      @Nullable Map<String, Double> everywhere) {
    this.model = model;
    this.likely = likely;
    this.shifted = shifted;
    this.deviations = deviations;
    this.everywhere = everywhere;
    boolean records = likely == null;
    this.doubts = records ? new HashMap<>() : Map.of();
    this.sourceNumbers = records ? new HashMap<>() : Map.of();
    this.sources = records ? new ArrayList<>() : List.of();
  }

  /** This likely world with one doubt shifted. */
  World shift(NumberedDoubt doubt, double by) {
    return new World(model, this, doubt, by, null);
  }

  /**
   * This likely world with every doubt shifted at once: one draw of all that is not known. A doubt
   * that is not named stands at its likely value.
   */
  World draw(Map<String, Double> deviationsByDoubt) {
    return new World(model, this, null, 0, Map.copyOf(deviationsByDoubt));
  }

  /**
   * This likely world for a model that differs in some parts; what was computed from none of them
   * is kept.
   *
   * @param changes the parts, a bit each
   */
  World carried(Model to, int changes) {
    World world = new World(to);
    world.doubts.putAll(doubts);
    world.sourceNumbers.putAll(sourceNumbers);
    world.sources.addAll(sources);
    keepComputed(world, changes);
    return world;
  }

  /** The same of a world with one doubt shifted, beside the likely world carried. */
  World carried(World likelyThere, int changes) {
    World world = likelyThere.shift(requireNonNull(shifted), deviations);
    keepComputed(world, changes);
    return world;
  }

  private void keepComputed(World in, int changes) {
    computed.forEach(
        (what, items) -> {
          Computed[] kept = items;
          for (int i = 0; i < items.length; i++) {
            Computed item = items[i];
            if (item != null && (item.basis().parts & changes) != 0) {
              kept = kept == items ? items.clone() : kept;
              kept[i] = null;
            }
          }
          // An array that is kept whole is copied too: each world goes on filling its own.
          in.computed.put(what, kept == items ? items.clone() : kept);
        });
  }

  /** Whether what was computed, if it was, rests on none of these parts. */
  boolean isFree(Definition definition, int item, int changes) {
    Computed known = known(definition, item);
    return known != null && (known.basis().parts & changes) == 0;
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
    return (Reading) used(definition, item, definition);
  }

  /** Something that several properties share, computed once: the course of the procedure. */
  <T> T shared(Class<T> type, Function<World, T> computation) {
    return shared(type, 0, computation);
  }

  /** The same of an item: how a preservative shares itself out. */
  <T> T shared(Class<T> type, int item, Function<World, T> computation) {
    return type.cast(used(type, item, (world, number) -> computation.apply(world)));
  }

  /** A property with what it rests on, asked from outside. */
  Computed compute(Definition definition, int item) {
    return compute(definition, item, definition);
  }

  /** Ids of the sources in a basis that this likely world recorded, sorted. */
  List<String> sources(Basis of) {
    List<String> sorted = new ArrayList<>();
    for (int i = 0; i < sources.size(); i++) {
      if (of.sourceNumbers.get(i)) {
        sorted.add(sources.get(i));
      }
    }
    sorted.sort(null);
    return List.copyOf(sorted);
  }

  // What the property at hand makes use of, it rests on.
  private Object used(Object what, int item, Computation computation) {
    Computed known = compute(what, item, computation);
    if (likely == null) {
      basis.add(known.basis());
      if (!known.basis().doubts.isEmpty()) {
        basis.uses.add(new Use(what, item, computation, known));
      }
      model.touched(model.touched() | known.basis().parts);
    }
    return known.value();
  }

  private Computed compute(Object what, int item, Computation computation) {
    if (likely == null || shifted == null) {
      Computed known = known(what, item);
      return known != null ? known : keep(what, item, record(computation, item));
    }
    Computed base = likely.compute(what, item, computation);
    if (!base.basis().doubtNumbers.get(shifted.number())) {
      return base;
    }
    Computed known = known(what, item);
    if (known != null) {
      return known;
    }
    return keep(
        what,
        item,
        isReached(base.basis()) ? new Computed(computation.of(this, item), base.basis()) : base);
  }

  // Whether the shift may change what has this basis. Until the first use that differs everything
  // goes as in the likely world, so nothing is asked for here that would not be asked for anyway.
  private boolean isReached(Basis of) {
    NumberedDoubt doubt = requireNonNull(shifted, "shifted");
    if (of.ownNumbers.get(doubt.number())) {
      return true;
    }
    for (Use use : of.uses) {
      if (use.likely().basis().doubtNumbers.get(doubt.number())) {
        Object here = compute(use.what(), use.item(), use.computation()).value();
        if (here != use.likely().value() && !here.equals(use.likely().value())) {
          return true;
        }
      }
    }
    return false;
  }

  private Computed record(Computation computation, int item) {
    Basis outer = basis;
    int outerParts = model.touched();
    Basis inner = new Basis();
    basis = inner;
    model.touched(0);
    try {
      Object value = computation.of(this, item);
      inner.parts = model.touched();
      return new Computed(value, inner);
    } finally {
      basis = outer;
      model.touched(outerParts | model.touched());
    }
  }

  private @Nullable Computed known(Object what, int item) {
    Computed[] items = computed.get(what);
    return items == null || item >= items.length ? null : items[item];
  }

  private Computed keep(Object what, int item, Computed value) {
    Computed[] items = computed.get(what);
    if (items == null || item >= items.length) {
      items = items == null ? new Computed[item + 1] : Arrays.copyOf(items, 2 * item + 1);
      computed.put(what, items);
    }
    items[item] = value;
    return value;
  }

  /** A known figure, in this world. */
  double value(Figure figure, String what, String settledBy) {
    if (likely == null) {
      for (String source : figure.sources()) {
        source(source);
      }
      basis.predicted = true;
    }
    double by = figure.isInDoubt() ? shiftOf(what, settledBy) : 0;
    return by != 0 ? figure.shifted(by) : figure.likely();
  }

  // Deviations by which this world shifts a doubt; the likely world, which shifts none, notes it.
  private double shiftOf(String what, String settledBy) {
    if (everywhere != null) {
      return everywhere.getOrDefault(what, 0.0);
    }
    if (shifted != null) {
      return shifted.doubt().name().equals(what) ? deviations : 0;
    }
    NumberedDoubt known = doubts.get(what);
    if (known == null) {
      known = new NumberedDoubt(new Doubt(what, settledBy), doubts.size());
      doubts.put(what, known);
    } else if (!known.doubt().settledBy().equals(settledBy)) {
      known = new NumberedDoubt(new Doubt(what, settledBy), known.number());
    }
    basis.add(known);
    basis.ownNumbers.set(known.number());
    return 0;
  }

  /** An input of the engine itself that is known to ± a 90 % range. */
  double within(double value, double range, String what, String settledBy) {
    double by = shiftOf(what, settledBy);
    return by != 0 ? value + by * range / Estimate.NINETY_PERCENT : value;
  }

  /** An input of the engine itself that is known to ×/÷ a 90 % range. */
  double withinFactor(double value, double factor, String what, String settledBy) {
    double by = shiftOf(what, settledBy);
    return by != 0 ? value * Math.exp(by * Math.log(factor) / Estimate.NINETY_PERCENT) : value;
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
    if (likely == null) {
      Integer number = sourceNumbers.get(id);
      if (number == null) {
        number = sources.size();
        sourceNumbers.put(id, number);
        sources.add(id);
      }
      basis.sourceNumbers.set(number);
    }
  }
}
