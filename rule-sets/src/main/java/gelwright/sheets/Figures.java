package gelwright.sheets;

import gelwright.ingredient.Figure;
import gelwright.quantity.Dimension;
import gelwright.quantity.Estimate;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Text;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads figures: a quantity, or a mapping of {@code is}, {@code within} and {@code source}. The
 * sources in force are those of the innermost part that names any.
 */
final class Figures {
  static final List<String> KEYS = List.of("is", "within", "source");
  private static final Pattern FACTOR = Pattern.compile("[×x]\\s*(\\d{1,6}(?:\\.\\d{1,6})?)");
  private static final Pattern PLUS_MINUS = Pattern.compile("(?:±|\\+-|\\+/-)\\s*(.+)");

  private final List<Text> sources;
  private final List<Text> cited;

  private Figures(List<Text> sources, List<Text> cited) {
    this.sources = sources;
    this.cited = cited;
  }

  /** Figures with no source in force yet. */
  static Figures citing(List<Text> cited) {
    return new Figures(List.of(), cited);
  }

  /** The figures of a part: with its own source in force, if it names one. */
  Figures of(Keys keys) {
    return keys.optional("source", this::sources).map(own -> new Figures(own, cited)).orElse(this);
  }

  private Optional<List<Text>> sources(Node node, String what, Problems problems) {
    return Values.oneOrMore(Values.PLACED_TEXT)
        .read(node, what, problems)
        .filter(
            list -> {
              if (list.isEmpty()) {
                problems.add(node.place(), "empty-list", what + " is empty.");
              }
              return !list.isEmpty();
            })
        .map(
            list -> {
              cited.addAll(list);
              return list;
            });
  }

  /** Ids of the sources in force. */
  List<String> ids() {
    return sources.stream().map(Text::text).toList();
  }

  /** A figure of one dimension. */
  Reading<Figure> figure(Dimension dimension) {
    return (node, what, problems) ->
        node instanceof Node.Mapping
            ? mapping(node, what, dimension, problems)
            : Values.quantity(dimension)
                .read(node, what, problems)
                .flatMap(
                    quantity ->
                        make(node, what, quantity, 0, Estimate.Scale.LINEAR, sources, problems));
  }

  private Optional<Figure> mapping(Node node, String what, Dimension dimension, Problems problems) {
    Optional<Keys> found = Keys.of(node, what, problems, KEYS);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    Optional<Quantity> is = keys.required("is", Values.quantity(dimension));
    Figures inner = of(keys);
    if (is.isEmpty()) {
      keys.optional("within", Values.TEXT);
      return Optional.empty();
    }
    if (!keys.has("within")) {
      return make(node, what, is.get(), 0, Estimate.Scale.LINEAR, inner.sources, problems);
    }
    Optional<String> within = keys.optional("within", Values.TEXT);
    if (within.isEmpty()) {
      return Optional.empty();
    }
    Matcher factor = FACTOR.matcher(within.get());
    if (factor.matches()) {
      double spread = Double.parseDouble(factor.group(1));
      if (spread < 1 || is.get().inBase() <= 0) {
        problems.add(
            keys.place("within"),
            "not-possible",
            spread < 1
                ? "A range by a factor is at least ×1."
                : "Only a figure above zero has a range by a factor; write ±.");
        return Optional.empty();
      }
      return make(node, what, is.get(), spread, Estimate.Scale.FACTOR, inner.sources, problems);
    }
    Matcher plusMinus = PLUS_MINUS.matcher(within.get());
    Optional<Double> spread =
        plusMinus.matches()
            ? Quantity.parse(plusMinus.group(1)).flatMap(q -> difference(q, is.get().unit()))
            : Optional.empty();
    if (spread.isEmpty() || spread.get() < 0) {
      problems.add(
          keys.place("within"),
          "bad-range",
          "\"within\" is "
              + Words.quoted(within.get())
              + "; write ×2 for a factor, or ±0.1 in the unit of the figure.");
      return Optional.empty();
    }
    return make(node, what, is.get(), spread.get(), Estimate.Scale.LINEAR, inner.sources, problems);
  }

  /** A factor: {@code ×1.1}. */
  static Optional<Double> factor(String text) {
    Matcher factor = FACTOR.matcher(text);
    return factor.matches() ? Optional.of(Double.valueOf(factor.group(1))) : Optional.empty();
  }

  /** A range in base units; without a unit it is in the unit of the figure. */
  private static Optional<Double> difference(Quantity range, Unit unit) {
    if (range.unit() == Unit.NONE) {
      return Optional.of(unit.toBase(range.value()));
    }
    return range.dimension().difference().equals(unit.dimension().difference())
        ? Optional.of(range.inBase())
        : Optional.empty();
  }

  private static Optional<Figure> make(
      Node node,
      String what,
      Quantity quantity,
      double spread,
      Estimate.Scale scale,
      List<Text> sources,
      Problems problems) {
    if (sources.isEmpty()) {
      problems.add(
          node.place(),
          "no-source",
          what + " has no source.",
          "Write { is: …, source: ID }, or one \"source\" for the whole part.");
      return Optional.empty();
    }
    List<String> ids = new ArrayList<>();
    sources.forEach(source -> ids.add(source.text()));
    return Optional.of(new Figure(quantity.inBase(), quantity.unit(), spread, scale, ids));
  }
}
