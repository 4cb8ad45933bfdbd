package gelwright.profile;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Figure;
import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
  // Doubts, sources and what is computed are numbered as they turn up, so that what a property
  // rests on is a set of bits, and a shifted world is a list of values beside those of the likely
  // one. Of doubts of one name a property keeps the one it met first.
  private static final int USUALLY_COMPUTED = 250;

  private final Model model;
  private final @Nullable World likely;
  private final @Nullable NumberedDoubt shifted;
  private final int shiftedNumber;
  private final double deviations;
  // Where every doubt stands at once, by name, or null in the worlds that shift none or one.
  private final @Nullable Map<String, Double> everywhere;
  // What the likely world, or a draw, has computed; a shifted world has values beside those of the
  // likely one.
  private Table<Node> computed;
  private int nodes;
  // What a shifted world has computed, by the number of its node.
  private @Nullable Object[] values = {};
  private final Map<String, NumberedDoubt> doubts;
  private final Map<String, Integer> sourceNumbers;
  private final List<String> sources;
  private Basis basis;

  /** Something computed in the likely world, its number there, and what it rests on. */
  static final class Node {
    private final Computable what;
    private final int item;
    private final int number;
    private final Object value;
    private final Basis basis;
    private @Nullable Bounded range;
    private boolean settled;

    private Node(Computable what, int item, int number, Object value, Basis basis) {
      this.what = what;
      this.item = item;
      this.number = number;
      this.value = value;
      this.basis = basis;
    }

    /** The same for another profile, which finds out by itself what is not known yet. */
    private Node copy() {
      Node copy = new Node(what, item, number, value, basis);
      copy.range = range;
      copy.settled = settled;
      return copy;
    }

    Object value() {
      return value;
    }

    Basis basis() {
      return basis;
    }

    /** What it was computed from, as far as doubts bear on that. */
    List<Node> uses() {
      return basis.uses;
    }

    /** Whether it has been settled, in this profile or in the one it comes from. */
    boolean isSettled() {
      return settled;
    }

    void settled() {
      this.settled = true;
    }

    /** The value with its range, once it has been computed. */
    @Nullable Bounded range() {
      return range;
    }

    void range(Bounded computed) {
      this.range = computed;
    }
  }

  /** A doubt and its number in the likely world; doubts of one name have one number. */
  record NumberedDoubt(Doubt doubt, int number) {}

  /** A set of small numbers. Most are empty, and there are hundreds of them. */
  private static final class Bits {
    private static final long[] NONE = {};

    private long[] words = NONE;

    boolean get(int number) {
      int word = number >> 6;
      return word < words.length && (words[word] & (1L << number)) != 0;
    }

    /** Adds a number; whether it was not there before. */
    boolean add(int number) {
      int word = number >> 6;
      if (word >= words.length) {
        words = Arrays.copyOf(words, word + 1);
      }
      long before = words[word];
      words[word] = before | (1L << number);
      return words[word] != before;
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
    // What this is computed from as far as doubts bear on it, in the order it was first asked for.
    private final List<Node> uses = new ArrayList<>(0);
    private final Bits used = new Bits();
    boolean measured;
    boolean predicted;
    // Parts of the formula, as the model numbers them.
    private int parts;

    private void use(Node node) {
      if (!used.add(node.number)) {
        return;
      }
      Basis other = node.basis;
      if (!other.doubts.isEmpty()) {
        uses.add(node);
        for (NumberedDoubt doubt : other.doubts) {
          add(doubt);
        }
      }
      sourceNumbers.addAll(other.sourceNumbers);
      measured |= other.measured;
      predicted |= other.predicted;
    }

    private void add(NumberedDoubt doubt) {
      if (doubtNumbers.add(doubt.number())) {
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
    this.shiftedNumber = shifted == null ? -1 : shifted.number();
    this.deviations = deviations;
    this.everywhere = everywhere;
    this.computed =
        likely != null && shifted != null ? likely.computed : new Table<>(USUALLY_COMPUTED);
    // A shifted world records nothing; what it notes goes to the ground of the likely one.
    this.basis = likely != null && shifted != null ? likely.basis : new Basis();
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
   * is kept, under its number.
   *
   * @param changes the parts, a bit each
   */
  World carried(Model to, int changes) {
    World world = new World(to);
    world.doubts.putAll(doubts);
    world.sourceNumbers.putAll(sourceNumbers);
    world.sources.addAll(sources);
    world.nodes = nodes;
    world.computed =
        computed.keeping(node -> (node.basis.parts & changes) == 0 ? node.copy() : null);
    return world;
  }

  /**
   * The same of a world with one doubt shifted, beside the likely world carried. What was computed
   * of nodes that are not kept is never asked for: their numbers are not given again.
   */
  World carried(World likelyThere) {
    World world = likelyThere.shift(requireNonNull(shifted), deviations);
    world.values = values.clone();
    return world;
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
    return (Reading) used(definition, item);
  }

  /** Something that several properties share, computed once. */
  <T> T of(Shared<T> shared) {
    return of(shared, 0);
  }

  /** The same of an item: how a preservative shares itself out. */
  @SuppressWarnings("unchecked") // a node's value is what its computable makes
  <T> T of(Shared<T> shared, int item) {
    return (T) used(shared, item);
  }

  /**
   * What something came to in the likely world, if this is another one and it has come to it there:
   * near to what it comes to here, and so a place to start from. Nothing rests on it.
   */
  @SuppressWarnings("unchecked") // a node's value is what its computable makes
  <T> @Nullable T inLikely(Shared<T> shared, int item) {
    Node node = likely == null ? null : likely.computed.get(shared, item);
    return node == null ? null : (T) node.value;
  }

  /** A property with what it rests on, asked of the likely world from outside. */
  Node node(Computable what, int item) {
    Node known = computed.get(what, item);
    if (known == null) {
      known = record(what, item);
      computed.put(what, item, known);
    }
    return known;
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

  private Object used(Computable what, int item) {
    if (shifted != null) {
      return here(requireNonNull(likely).node(what, item));
    }
    Node node = node(what, item);
    if (likely == null) {
      // What the property at hand makes use of, it rests on.
      basis.use(node);
      model.touched(model.touched() | node.basis.parts);
    }
    return node.value;
  }

  /** What a node of the likely world comes to in this shifted one. */
  Object here(Node node) {
    if (!node.basis.doubtNumbers.get(shiftedNumber)) {
      return node.value;
    }
    int number = node.number;
    if (number < values.length && values[number] != null) {
      return values[number];
    }
    Object value = isReached(node.basis) ? node.what.of(this, node.item) : node.value;
    if (number >= values.length) {
      values = Arrays.copyOf(values, Math.max(USUALLY_COMPUTED, number + 50));
    }
    values[number] = value;
    return value;
  }

  // Whether the shift may change what has this basis. Until the first use that differs everything
  // goes as in the likely world, so nothing is asked for here that would not be asked for anyway.
  private boolean isReached(Basis of) {
    if (of.ownNumbers.get(shiftedNumber)) {
      return true;
    }
    List<Node> uses = of.uses;
    for (int i = 0; i < uses.size(); i++) {
      Node use = uses.get(i);
      Object here = here(use);
      if (here != use.value && !here.equals(use.value)) {
        return true;
      }
    }
    return false;
  }

  private Node record(Computable what, int item) {
    Basis outer = basis;
    int outerParts = model.touched();
    Basis inner = new Basis();
    basis = inner;
    model.touched(0);
    try {
      Object value = what.of(this, item);
      inner.parts = model.touched();
      return new Node(what, item, nodes++, value, inner);
    } finally {
      basis = outer;
      model.touched(outerParts | model.touched());
    }
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
    basis.ownNumbers.add(known.number());
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
      basis.sourceNumbers.add(number);
    }
  }
}
