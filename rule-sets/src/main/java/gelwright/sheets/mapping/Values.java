package gelwright.sheets.mapping;

import gelwright.problem.Place;
import gelwright.problem.Spelling;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.rule.Text;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Node.Kind;
import gelwright.sheets.tree.Words;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.regex.Pattern;

/** Readings of single values: texts, words, quantities, shares, dates, lists of these. */
public final class Values {
  /** A name in small letters, digits and hyphens, in which pH keeps its capital. */
  public static final Pattern KEBAB = Pattern.compile("(?:pH|[a-z0-9]+)(?:-(?:pH|[a-z0-9]+))*");

  private static final Pattern DECIMAL_COMMA = Pattern.compile("\\s*[-+]?\\d+,\\d+.*");

  /** How a quantity of a dimension is written, for messages. */
  private static final Map<Dimension, String> EXAMPLES =
      Map.ofEntries(
          Map.entry(Dimension.TEMPERATURE, "a temperature such as 38 °C"),
          Map.entry(Dimension.TIME, "a time such as 10 min or 12 months"),
          Map.entry(Dimension.MASS, "a mass such as 500 g"),
          Map.entry(Dimension.LENGTH, "a length such as 300 µm or 85 mm"),
          Map.entry(Dimension.SHARE, "a share such as 4 % or 400 ppm"),
          Map.entry(Dimension.STIRRING, "a stirring speed such as 800 rpm"),
          Map.entry(Dimension.STRESS, "a stress such as 12 Pa"),
          Map.entry(Dimension.VISCOSITY, "a viscosity such as 4.2 Pa·s or 350 mPa·s"),
          Map.entry(Dimension.RATE, "a rate such as 10 /s"),
          Map.entry(Dimension.DENSITY, "a density or concentration such as 1.02 g/mL"),
          Map.entry(Dimension.MOLAR_MASS, "a molar mass such as 144.1 g/mol"),
          Map.entry(Dimension.MOLAR_ENERGY, "a molar energy such as 38 kJ/mol"),
          Map.entry(Dimension.SURFACE_TENSION, "an interfacial tension such as 30 mN/m"),
          Map.entry(Dimension.SPECIFIC_VOLUME, "an intrinsic viscosity such as 8 dL/g"),
          Map.entry(Dimension.PH, "a pH such as 5.4"),
          Map.entry(Dimension.NUMBER, "a plain number such as 2.5"));

  private Values() {}

  /** Text that may be blank; a number counts as text, as in {@code version: 3}. */
  public static final Reading<String> ANY_TEXT = text(true);

  /** Text that is not blank. */
  public static final Reading<String> TEXT = text(false);

  /** Text that is not blank, with the place of its first character. */
  public static final Reading<Text> PLACED_TEXT =
      (node, what, problems) ->
          TEXT.read(node, what, problems)
              .map(
                  text -> {
                    Node.Scalar scalar = (Node.Scalar) node;
                    String written = scalar.text();
                    int start = written.length() - written.stripLeading().length();
                    // The place of a block is on its first line with text, whatever goes before.
                    int blanks = start - 1 - written.lastIndexOf('\n', Math.max(0, start - 1));
                    return new Text(text, scalar.textPlace().plusColumns(blanks));
                  });

  /** A name in small letters with hyphens. */
  public static final Reading<String> ID =
      (node, what, problems) ->
          TEXT.read(node, what, problems)
              .filter(
                  text ->
                      check(
                          KEBAB.matcher(text).matches(),
                          node,
                          "bad-id",
                          what
                              + " must be an id in small letters, digits and hyphens (pH is a word, too), such as"
                              + " oil-load; it is "
                              + Words.quoted(text)
                              + ".",
                          "",
                          problems));

  /** A number without a unit. */
  public static final Reading<Double> NUMBER =
      (node, what, problems) -> {
        if (!(node instanceof Node.Scalar scalar) || scalar.kind() != Kind.NUMBER) {
          wrongType(node, what, "a plain number", problems);
          return Optional.empty();
        }
        double value = Double.parseDouble(scalar.text());
        if (!Double.isFinite(value)) {
          problems.add(node.place(), "bad-number", what + " is too large to be a number here.");
          return Optional.empty();
        }
        return Optional.of(value);
      };

  /** A whole number. */
  public static final Reading<Integer> WHOLE_NUMBER =
      (node, what, problems) ->
          NUMBER
              .read(node, what, problems)
              .filter(
                  value ->
                      check(
                          value == Math.rint(value) && Math.abs(value) <= 1_000_000,
                          node,
                          "bad-number",
                          what + " must be a whole number.",
                          "",
                          problems))
              .map(Double::intValue);

  /** yes or no; YAML's true and false do as well. */
  public static final Reading<Boolean> YES_OR_NO =
      (node, what, problems) -> {
        if (node instanceof Node.Scalar scalar
            && (scalar.kind() == Kind.TEXT || scalar.kind() == Kind.TRUTH)) {
          switch (scalar.text().strip().toLowerCase(Locale.ROOT)) {
            case "yes", "true" -> {
              return Optional.of(true);
            }
            case "no", "false" -> {
              return Optional.of(false);
            }
            default -> {
              problems.add(
                  node.place(),
                  "unknown-word",
                  what + " must be yes or no; it is " + Words.quoted(scalar.text()) + ".");
              return Optional.empty();
            }
          }
        }
        wrongType(node, what, "yes or no", problems);
        return Optional.empty();
      };

  /** A share: {@code 4 %}, {@code 400 ppm}, or the number 4 for percent. */
  public static final Reading<Share> SHARE = share("a share such as 4 %, 400 ppm or the number 4");

  /** A day such as 2027-03-01. */
  public static final Reading<LocalDate> DATE =
      (node, what, problems) ->
          TEXT.read(node, what, problems)
              .flatMap(
                  text -> {
                    try {
                      return Optional.of(LocalDate.parse(text.strip()));
                    } catch (DateTimeException exception) {
                      problems.add(
                          node.place(),
                          "bad-date",
                          what
                              + " must be a day of the calendar such as 2027-03-01; it is "
                              + Words.quoted(text)
                              + ".");
                      return Optional.empty();
                    }
                  });

  /** A quantity of any unit. */
  public static final Reading<Quantity> ANY_QUANTITY =
      quantity(dimension -> true, "a quantity such as 14 % or 38 °C");

  private static Reading<String> text(boolean mayBeBlank) {
    return (node, what, problems) -> {
      if (!(node instanceof Node.Scalar scalar)
          || (scalar.kind() != Kind.TEXT && scalar.kind() != Kind.NUMBER)) {
        wrongType(node, what, "text", problems);
        return Optional.empty();
      }
      if (!mayBeBlank && scalar.text().isBlank()) {
        problems.add(node.place(), "blank-text", what + " is blank.");
        return Optional.empty();
      }
      return Optional.of(scalar.text().strip());
    };
  }

  public static Reading<Share> share(String expected) {
    return (node, what, problems) ->
        quantityText(node, what, expected, problems)
            .flatMap(
                text -> {
                  Optional<Share> share = Share.parse(text);
                  if (share.isEmpty()) {
                    boolean otherUnit =
                        Quantity.parse(text)
                            .filter(
                                quantity ->
                                    quantity.unit() != Unit.PERCENT
                                        && quantity.unit() != Unit.PPM
                                        && quantity.unit() != Unit.NONE)
                            .isPresent();
                    bad(node, what, text, expected, otherUnit, problems);
                  }
                  return share;
                });
  }

  /** A quantity of one dimension; a pH and a plain number go without a unit. */
  public static Reading<Quantity> quantity(Dimension dimension) {
    String expected = expected(dimension);
    if (dimension.equals(Dimension.PH)) {
      return (node, what, problems) ->
          quantity(d -> d.equals(Dimension.PH) || d.isNumber(), expected)
              .read(node, what, problems)
              .map(quantity -> new Quantity(quantity.value(), Unit.PH));
    }
    return quantity(dimension::equals, expected);
  }

  /** How a quantity of a dimension is written, for messages. */
  public static String expected(Dimension dimension) {
    return EXAMPLES.getOrDefault(dimension, dimension.inWords());
  }

  private static Reading<Quantity> quantity(Predicate<Dimension> accepted, String expected) {
    return (node, what, problems) ->
        quantityText(node, what, expected, problems)
            .flatMap(
                text -> {
                  Optional<Quantity> quantity = Quantity.parse(text);
                  boolean fits = quantity.filter(q -> accepted.test(q.dimension())).isPresent();
                  if (!fits) {
                    bad(node, what, text, expected, quantity.isPresent(), problems);
                    return Optional.empty();
                  }
                  return quantity;
                });
  }

  private static Optional<String> quantityText(
      Node node, String what, String expected, Problems problems) {
    if (!(node instanceof Node.Scalar scalar)
        || (scalar.kind() != Kind.TEXT && scalar.kind() != Kind.NUMBER)) {
      wrongType(node, what, expected, problems);
      return Optional.empty();
    }
    return Optional.of(scalar.text());
  }

  private static void bad(
      Node node,
      String what,
      String text,
      String expected,
      boolean otherDimension,
      Problems problems) {
    boolean comma = DECIMAL_COMMA.matcher(text).matches();
    problems.add(
        node.place(),
        otherDimension ? "wrong-dimension" : "bad-quantity",
        what + " is " + Words.quoted(text) + "; write " + expected + ".",
        comma ? "Write decimals with a point." : "");
  }

  /** One of a few words. */
  public static Reading<String> word(Collection<String> words) {
    List<String> known = List.copyOf(words);
    return (node, what, problems) ->
        TEXT.read(node, what, problems)
            .filter(
                text -> {
                  if (known.contains(text)) {
                    return true;
                  }
                  String hint = Spelling.hint(text, known);
                  problems.add(
                      node.place(),
                      "unknown-word",
                      what
                          + " is "
                          + Words.quoted(text)
                          + ", which is none of the words it may be.",
                      hint.isEmpty() ? "Write one of: " + String.join(", ", known) + "." : hint);
                  return false;
                });
  }

  /** A list, each item read alike. */
  public static <T> Reading<List<T>> listOf(Reading<T> item) {
    return (node, what, problems) -> {
      if (!(node instanceof Node.Sequence sequence)) {
        wrongType(node, what, "a list", problems);
        return Optional.empty();
      }
      List<T> items = new ArrayList<>();
      for (int i = 0; i < sequence.items().size(); i++) {
        item.read(sequence.items().get(i), "item " + (i + 1) + " of " + what, problems)
            .ifPresent(items::add);
      }
      return Optional.of(items);
    };
  }

  /** One item, or a list of them. */
  public static <T> Reading<List<T>> oneOrMore(Reading<T> item) {
    return (node, what, problems) ->
        node instanceof Node.Sequence
            ? listOf(item).read(node, what, problems)
            : item.read(node, what, problems).map(List::of);
  }

  /** A list with at least one item. */
  public static <T> Reading<List<T>> filledListOf(Reading<T> item) {
    return (node, what, problems) -> {
      if (node instanceof Node.Sequence sequence && sequence.items().isEmpty()) {
        problems.add(node.place(), "empty-list", what + " is empty; it needs at least one item.");
        return Optional.empty();
      }
      return listOf(item).read(node, what, problems);
    };
  }

  /** Whether a node is the bare word. */
  public static boolean isWord(Node node, String word) {
    return node instanceof Node.Scalar scalar
        && scalar.kind() == Kind.TEXT
        && scalar.text().strip().equals(word);
  }

  static boolean check(
      boolean good, Node node, String code, String message, String hint, Problems problems) {
    if (!good) {
      problems.add(node.place(), code, message, hint);
    }
    return good;
  }

  /** Tells that a node is not what it should be, unless that is known already. */
  public static void wrongType(Node node, String what, String expected, Problems problems) {
    Place place = node.place();
    if (node instanceof Node.Scalar scalar) {
      if (scalar.kind() == Kind.BROKEN) {
        return;
      }
      if (scalar.kind() == Kind.NOTHING) {
        problems.add(
            place,
            "empty-value",
            what + " has no value; write " + expected + ", or leave the key out.");
        return;
      }
      boolean truthAsText = scalar.kind() == Kind.TRUTH && expected.equals("text");
      problems.add(
          place,
          "wrong-type",
          what + " must be " + expected + "; it is " + Words.quoted(scalar.text()) + ".",
          truthAsText ? "Put it in quotes to make it a text." : "");
      return;
    }
    problems.add(
        place, "wrong-type", what + " must be " + expected + "; it is " + node.inWords() + ".");
  }

  /** A reading of text by a function that may not know it. */
  public static <T> Reading<T> parsed(Function<String, Optional<T>> parser, String expected) {
    return (node, what, problems) ->
        quantityText(node, what, expected, problems)
            .flatMap(
                text -> {
                  Optional<T> value = parser.apply(text.strip());
                  if (value.isEmpty()) {
                    bad(node, what, text, expected, false, problems);
                  }
                  return value;
                });
  }
}
