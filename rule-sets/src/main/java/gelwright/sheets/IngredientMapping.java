package gelwright.sheets;

import gelwright.ingredient.Acid;
import gelwright.ingredient.Equivalent;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.GumPair;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.HydrationData;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.InhibitoryLevel;
import gelwright.ingredient.Kinetics;
import gelwright.ingredient.Known;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Salt;
import gelwright.ingredient.Setting;
import gelwright.ingredient.Trait;
import gelwright.problem.Place;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.rule.Text;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Words;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;

/** From the tree of one ingredient to the ingredient. */
final class IngredientMapping {
  private static final Pattern CAS = Pattern.compile("\\d{2,7}-\\d{2}-\\d");
  private static final String RANGE = "a range such as 0.15 % to 1.5 %";
  private static final String WINDOW = "a range such as 20 % to 80 %";

  private final Node.Entry entry;
  private final Problems problems;
  private final List<Text> cited;

  IngredientMapping(Node.Entry entry, Problems problems, List<Text> cited) {
    this.entry = entry;
    this.problems = problems;
    this.cited = cited;
  }

  Optional<Ingredient> read() {
    return Keys.of(entry.value(), "an ingredient", problems, IngredientWords.INGREDIENT)
        .map(this::ingredient);
  }

  private Ingredient ingredient(Keys keys) {
    Figures figures = Figures.citing(cited).of(keys);
    Map<Trait, Figure> traits = new EnumMap<>(Trait.class);
    for (Trait trait : Trait.values()) {
      keys.optional(trait.key(), figures.figure(trait.dimension()))
          .filter(figure -> possible(figure, trait, keys.place(trait.key())))
          .ifPresent(figure -> traits.put(trait, figure));
    }
    ascending(traits, Trait.USE_LEAST, Trait.USE_MOST, keys);
    ascending(traits, Trait.PH_LEAST, Trait.PH_MOST, keys);
    return new Ingredient(
        entry.key().strip(),
        keys.list("synonyms", Values.TEXT),
        keys.optional("cas", IngredientMapping::cas).orElse(""),
        functions(keys),
        known(keys, "charge", Values.word(Ingredient.CHARGES)),
        keys.optional("dissolves", Values.word(Ingredient.DISSOLVES))
            .map(Known::given)
            .orElse(Known.unknown()),
        traits,
        known(keys, "acid", (node, what, into) -> acid(node, figures)),
        known(keys, "heat", Values.filledListOf((node, what, into) -> heatLimit(node, figures))),
        known(keys, "gum", (node, what, into) -> gum(node, figures)),
        known(keys, "hydration", (node, what, into) -> hydration(node, figures)),
        known(
            keys,
            "inhibitory",
            Values.filledListOf((node, what, into) -> inhibitory(node, figures))),
        known(keys, "kinetics", (node, what, into) -> kinetics(node, figures)),
        keys.optional("binding", named(aboveZero(figures.figure(Dimension.NUMBER))))
            .orElse(Map.of()),
        keys.optional("hydrates", named(figures.figure(Dimension.MOLAR_MASS))).orElse(Map.of()),
        keys.optional("grades", named((node, what, into) -> grade(node, figures))).orElse(Map.of()),
        keys.optional("made-of", this::composition).orElse(Map.of()),
        known(keys, "allergens", named(part(figures.figure(Dimension.SHARE)))),
        keys.optional("counts-as", this::countsAs).orElse(Map.of()),
        keys.optional("note", Values.TEXT).orElse(""),
        keys.optional("measured", Values.YES_OR_NO).orElse(false));
  }

  /** What a key tells: given, {@code none}, or nothing. */
  private static <T> Known<T> known(Keys keys, String key, Reading<T> reading) {
    Optional<Node> node = keys.node(key);
    if (node.isPresent() && Values.isWord(node.get(), "none")) {
      return Known.none();
    }
    return keys.optional(key, reading).map(Known::given).orElse(Known.unknown());
  }

  private static Known<Set<String>> functions(Keys keys) {
    Optional<Node> node = keys.node("functions");
    if (node.isPresent() && Values.isWord(node.get(), "none")) {
      return Known.given(Set.of());
    }
    return keys.optional("functions", Values.listOf(Values.word(Ingredient.FUNCTIONS)))
        .<Known<Set<String>>>map(list -> Known.given(Set.copyOf(new LinkedHashSet<>(list))))
        .orElse(Known.unknown());
  }

  private static Optional<String> cas(Node node, String what, Problems problems) {
    return Values.TEXT
        .read(node, what, problems)
        .filter(
            text -> {
              boolean good = CAS.matcher(text).matches() && checkDigit(text);
              if (!good) {
                problems.add(
                    node.place(),
                    "bad-cas",
                    what + " is " + Words.quoted(text) + ", which is no CAS registry number.",
                    "Its last digit is a check digit: look for a slip.");
              }
              return good;
            });
  }

  /** The last digit is the sum of the others, each times its place from the right, modulo 10. */
  private static boolean checkDigit(String cas) {
    String digits = cas.replace("-", "");
    int sum = 0;
    for (int i = 0; i < digits.length() - 1; i++) {
      sum += (digits.length() - 1 - i) * (digits.charAt(i) - '0');
    }
    return sum % 10 == digits.charAt(digits.length() - 1) - '0';
  }

  private boolean possible(Figure figure, Trait trait, Place place) {
    if (figure.likely() >= trait.least() && figure.likely() <= trait.most()) {
      return true;
    }
    problems.add(
        place,
        "out-of-range",
        Words.quoted(trait.key())
            + " is "
            + Quantity.ofBase(figure.likely(), figure.unit())
            + ", which no matter can have.",
        "Check the unit.");
    return false;
  }

  private void ascending(Map<Trait, Figure> traits, Trait low, Trait high, Keys keys) {
    Figure from = traits.get(low);
    Figure to = traits.get(high);
    if (from != null && to != null && from.likely() > to.likely()) {
      problems.add(
          keys.place(high.key()),
          "reversed-range",
          Words.quoted(high.key()) + " is below " + Words.quoted(low.key()) + ".");
    }
  }

  // Acids and bases

  private Optional<Acid> acid(Node node, Figures outer) {
    return Keys.of(
            node,
            "acid",
            problems,
            List.of(
                "pKa",
                "charge",
                "counter-ions",
                "parent",
                "per-molecule",
                "slope",
                "escapes",
                "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<List<Figure>> pKa =
                  keys.required("pKa", Values.listOf(figures.figure(Dimension.NUMBER)));
              pKa.ifPresent(list -> ascendingPKa(list, keys.place("pKa")));
              Optional<Integer> charge = keys.required("charge", Values.WHOLE_NUMBER);
              Optional<Integer> counterIons = keys.required("counter-ions", Values.WHOLE_NUMBER);
              Optional<String> parent = keys.optional("parent", Values.TEXT);
              Optional<Integer> perMolecule = keys.optional("per-molecule", Values.WHOLE_NUMBER);
              if (perMolecule.filter(count -> count < 1).isPresent()) {
                problems.add(
                    keys.place("per-molecule"),
                    "out-of-range",
                    "\"per-molecule\" must be at least 1.");
                return Optional.empty();
              }
              Optional<Figure> slope = keys.optional("slope", figures.figure(Dimension.NUMBER));
              if (slope.isPresent()
                  && (slope.get().likely() <= 0 || pKa.map(List::size).orElse(1) != 1)) {
                problems.add(
                    keys.place("slope"),
                    "out-of-range",
                    "\"slope\" is for the groups of a polymer: above 0, with a single pKa.");
                return Optional.empty();
              }
              if (pKa.isEmpty() || charge.isEmpty() || counterIons.isEmpty()) {
                return Optional.empty();
              }
              return Optional.of(
                  new Acid(
                      pKa.get(),
                      charge.get(),
                      counterIons.get(),
                      parent.orElse(""),
                      perMolecule.orElse(1),
                      slope,
                      keys.optional("escapes", Values.YES_OR_NO).orElse(false)));
            });
  }

  private void ascendingPKa(List<Figure> pKa, Place place) {
    for (int i = 0; i < pKa.size(); i++) {
      double value = pKa.get(i).likely();
      if (value < -15 || value > 50) {
        problems.add(
            place, "out-of-range", "A pKa lies between -15 and 50; one here is " + value + ".");
      }
      if (i > 0 && value < pKa.get(i - 1).likely()) {
        problems.add(place, "reversed-range", "\"pKa\" must be listed from low to high.");
        return;
      }
    }
  }

  // Heat

  private Optional<HeatLimit> heatLimit(Node node, Figures outer) {
    return Keys.of(node, "a heat limit", problems, List.of("kind", "at-most", "note", "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<HeatLimit.Kind> kind =
                  keys.required("kind", Values.word(IngredientWords.HEAT_KINDS))
                      .flatMap(HeatLimit.Kind::of);
              Optional<Figure> atMost =
                  keys.required("at-most", figures.figure(Dimension.TEMPERATURE));
              Optional<String> note = keys.optional("note", Values.TEXT);
              if (kind.isEmpty() || atMost.isEmpty()) {
                return Optional.empty();
              }
              return Optional.of(new HeatLimit(kind.get(), atMost.get(), note.orElse("")));
            });
  }

  // Gums

  private Optional<Gum> gum(Node node, Figures outer) {
    return Keys.of(node, "gum", problems, IngredientWords.GUM)
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Map<String, GumPair> pairs =
                  keys.optional("pairs", named((value, what, into) -> pair(value, figures)))
                      .orElse(Map.of());
              return law(keys, figures, pairs);
            });
  }

  /** The flow law in a mapping that has the keys of one. */
  private Optional<Gum> law(Keys keys, Figures figures, Map<String, GumPair> pairs) {
    Optional<String> law = keys.required("law", Values.word(IngredientWords.LAWS.keySet()));
    Optional<List<Double>> range =
        keys.required("range", (node, what, into) -> range(node, what, into, RANGE));
    Known<Salt> salt = known(keys, "salt", (value, what, into) -> salt(value, figures));
    Optional<Figure> energy =
        keys.optional("flow-activation-energy", figures.figure(Dimension.MOLAR_ENERGY));
    Optional<Setting> setting =
        keys.optional("sets", (value, what, into) -> setting(value, figures));
    if (law.isEmpty()) {
      return Optional.empty();
    }
    Map<String, Dimension> wanted = IngredientWords.LAWS.getOrDefault(law.get(), Map.of());
    Optional<Map<String, Figure>> parameters =
        keys.required("parameters", (value, what, into) -> parameters(value, wanted, figures));
    if (energy.filter(figure -> figure.likely() < 0).isPresent()) {
      problems.add(
          keys.place("flow-activation-energy"),
          "out-of-range",
          "\"flow-activation-energy\" must not be below zero.");
      return Optional.empty();
    }
    Optional<Double> at = keys.optional("at", this::at);
    boolean powers = law.get().equals("herschel-bulkley") || law.get().equals("cross");
    if (at.isPresent() && !powers) {
      problems.add(
          keys.place("at"),
          "not-here",
          "\"at\" goes with the laws herschel-bulkley and cross; the others are told at 1 %.");
    }
    Optional<Figure> strength =
        keys.optional("strength", aboveZero(figures.figure(Dimension.NUMBER)));
    Optional<Gum.Rates> rates = keys.optional("shear-rates", IngredientMapping::rates);
    List<Map<String, Double>> together =
        keys.list("together", (value, what, into) -> together(value, wanted));
    if (range.isEmpty() || parameters.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new Gum(
            law.get(),
            parameters.get(),
            range.get().get(0),
            range.get().get(1),
            salt,
            energy,
            setting,
            pairs,
            at.orElse(1.0),
            strength,
            rates,
            together));
  }

  /** A doubt that moves several parameters: a factor on each. */
  private Optional<Map<String, Double>> together(Node node, Map<String, Dimension> wanted) {
    return Keys.of(node, "a doubt of several parameters", problems, List.copyOf(wanted.keySet()))
        .map(
            keys -> {
              Map<String, Double> factors = new LinkedHashMap<>();
              for (String name : wanted.keySet()) {
                keys.optional(
                        name, Values.parsed(Figures::factor, "a factor such as ×1.1 or ×0.95"))
                    .filter(
                        factor -> {
                          if (factor <= 0) {
                            problems.add(
                                keys.place(name),
                                "out-of-range",
                                Words.quoted(name) + " must be a factor above zero.");
                          }
                          return factor > 0;
                        })
                    .ifPresent(factor -> factors.put(name, factor));
              }
              return factors;
            });
  }

  private Optional<Double> at(Node node, String what, Problems into) {
    return Values.quantity(Dimension.SHARE)
        .read(node, what, into)
        .map(quantity -> quantity.in(Unit.PERCENT))
        .filter(
            percent -> {
              boolean good = percent > 0 && percent <= 100;
              if (!good) {
                into.add(node.place(), "out-of-range", what + " must lie between 0 % and 100 %.");
              }
              return good;
            });
  }

  private static Optional<Gum.Rates> rates(Node node, String what, Problems into) {
    return Values.parsed(
            text -> ends(text, IngredientMapping::perSecond), "a range such as 0.1 /s to 100 /s")
        .read(node, what, into)
        .flatMap(
            ends -> {
              if (!(ends.get(0) >= 0 && ends.get(0) < ends.get(1))) {
                into.add(
                    node.place(), "reversed-range", what + " must run upwards from 0 /s or more.");
                return Optional.empty();
              }
              return Optional.of(new Gum.Rates(ends.get(0), ends.get(1)));
            });
  }

  private static Optional<Double> perSecond(String text) {
    return Quantity.parse(text)
        .filter(quantity -> quantity.dimension().equals(Dimension.RATE))
        .map(Quantity::inBase);
  }

  /** Both ends of a text "… to …". */
  private static Optional<List<Double>> ends(
      String text, Function<String, Optional<Double>> reading) {
    String[] ends = text.split("\\s+to\\s+", -1);
    if (ends.length != 2) {
      return Optional.empty();
    }
    Optional<Double> from = reading.apply(ends[0]);
    Optional<Double> to = reading.apply(ends[1]);
    return from.isPresent() && to.isPresent()
        ? Optional.of(List.of(from.get(), to.get()))
        : Optional.empty();
  }

  // Lots

  /** What is known of one lot of an ingredient. */
  static Optional<Lot> lot(
      String ingredient, Node.Entry entry, Problems problems, List<Text> cited) {
    return new IngredientMapping(entry, problems, cited).lot(ingredient);
  }

  private Optional<Lot> lot(String ingredient) {
    return Keys.of(entry.value(), "a lot", problems, List.of("gum", "hydration", "note", "source"))
        .map(
            keys -> {
              Figures figures = Figures.citing(cited).of(keys);
              return new Lot(
                  ingredient,
                  entry.key().strip(),
                  known(keys, "gum", (value, what, into) -> gum(value, figures)),
                  known(keys, "hydration", (value, what, into) -> hydration(value, figures)),
                  keys.optional("note", Values.TEXT).orElse(""));
            });
  }

  private Optional<Setting> setting(Node node, Figures outer) {
    return Keys.of(node, "sets", problems, List.of("below", "melts", "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<Figure> below =
                  keys.required("below", figures.figure(Dimension.TEMPERATURE));
              Optional<Figure> melts =
                  keys.required("melts", figures.figure(Dimension.TEMPERATURE));
              if (below.isEmpty() || melts.isEmpty()) {
                return Optional.empty();
              }
              if (below.get().likely() > melts.get().likely()) {
                problems.add(
                    keys.place("melts"),
                    "reversed-range",
                    "A gel cannot melt below the point at which it sets.");
                return Optional.empty();
              }
              return Optional.of(new Setting(below.get(), melts.get()));
            });
  }

  // A pair with a law has all that a law needs; one without says only that the two strengthen each
  // other.
  private Optional<GumPair> pair(Node node, Figures outer) {
    Optional<Keys> whole = Keys.of(node, "a pair of gums", problems, IngredientWords.PAIR);
    if (whole.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = whole.get();
    Figures figures = outer.of(keys);
    if (figures.ids().isEmpty()) {
      problems.add(node.place(), "no-source", "This pair of gums has no source.");
    }
    List<Double> share =
        keys.optional("share", (value, what, into) -> range(value, what, into, WINDOW))
            .orElse(List.of(0.0, 100.0));
    if (!keys.has("law")) {
      return Keys.of(node, "a pair of gums without a law", problems, List.of("share", "source"))
          .map(plain -> new GumPair(Optional.empty(), share.get(0), share.get(1), figures.ids()));
    }
    return law(keys, figures, Map.of())
        .map(gum -> new GumPair(Optional.of(gum), share.get(0), share.get(1), figures.ids()));
  }

  private Optional<Map<String, Figure>> parameters(
      Node node, Map<String, Dimension> wanted, Figures figures) {
    return Keys.of(node, "parameters of this law", problems, List.copyOf(wanted.keySet()))
        .map(
            keys -> {
              Map<String, Figure> parameters = new LinkedHashMap<>();
              wanted.forEach(
                  (name, dimension) ->
                      keys.required(name, figures.figure(dimension))
                          .ifPresent(
                              figure -> {
                                if (figure.likely() < 0) {
                                  problems.add(
                                      keys.place(name),
                                      "out-of-range",
                                      Words.quoted(name) + " must not be below zero.");
                                }
                                parameters.put(name, figure);
                              }));
              return parameters;
            });
  }

  private Optional<Salt> salt(Node node, Figures outer) {
    List<String> all = new ArrayList<>(List.of("effect", "source"));
    all.addAll(IngredientWords.SALT.keySet());
    Optional<Salt.Effect> effect =
        Keys.of(node, "salt", problems, all)
            .flatMap(keys -> keys.required("effect", Values.word(IngredientWords.SALT_EFFECTS)))
            .flatMap(Salt.Effect::of);
    if (effect.isEmpty()) {
      return Optional.empty();
    }
    List<String> wanted = new ArrayList<>(List.of("effect", "source"));
    wanted.addAll(effect.get().figures());
    return Keys.of(node, "salt of this effect", problems, wanted)
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Map<String, Figure> values = new LinkedHashMap<>();
              for (String name : effect.get().figures()) {
                keys.required(
                        name,
                        aboveZero(
                            figures.figure(
                                IngredientWords.SALT.getOrDefault(name, Dimension.NUMBER))))
                    .ifPresent(figure -> values.put(name, figure));
              }
              return values.size() == effect.get().figures().size()
                  ? Optional.of(new Salt(effect.get(), values))
                  : Optional.empty();
            });
  }

  private static Reading<Figure> aboveZero(Reading<Figure> reading) {
    return (node, what, into) ->
        reading
            .read(node, what, into)
            .filter(
                figure -> {
                  if (figure.likely() <= 0) {
                    into.add(node.place(), "out-of-range", what + " must be above zero.");
                  }
                  return figure.likely() > 0;
                });
  }

  private static Optional<List<Double>> range(
      Node node, String what, Problems problems, String expected) {
    return Values.parsed(text -> ends(text, IngredientMapping::percent), expected)
        .read(node, what, problems)
        .filter(
            ends -> {
              boolean good = ends.get(0) >= 0 && ends.get(0) < ends.get(1) && ends.get(1) <= 100;
              if (!good) {
                problems.add(
                    node.place(),
                    "reversed-range",
                    what + " must run upwards within 0 % to 100 %; write " + expected + ".");
              }
              return good;
            });
  }

  private static Optional<Double> percent(String text) {
    return Quantity.parse(text)
        .filter(quantity -> quantity.dimension().equals(Dimension.SHARE))
        .map(quantity -> quantity.in(Unit.PERCENT));
  }

  private Optional<HydrationData> hydration(Node node, Figures outer) {
    return Keys.of(
            node, "hydration", problems, List.of("rate", "activation-energy", "shape", "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<Figure> rate = keys.required("rate", figures.figure(Dimension.RATE));
              Optional<Figure> energy =
                  keys.required("activation-energy", figures.figure(Dimension.MOLAR_ENERGY));
              Optional<Double> shape = keys.required("shape", Values.NUMBER);
              if (shape.filter(value -> !(value > 0 && value <= 2)).isPresent()) {
                problems.add(
                    keys.place("shape"), "out-of-range", "\"shape\" must lie between 0 and 2.");
                return Optional.empty();
              }
              if (rate.isEmpty() || energy.isEmpty() || shape.isEmpty()) {
                return Optional.empty();
              }
              return Optional.of(new HydrationData(rate.get(), energy.get(), shape.get()));
            });
  }

  private Optional<Kinetics> kinetics(Node node, Figures outer) {
    return Keys.of(
            node,
            "kinetics",
            problems,
            List.of("rate", "at", "activation-energy", "from", "to", "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<Figure> rate =
                  keys.required("rate", aboveZero(figures.figure(Dimension.RATE)));
              Optional<Double> at = temperature(keys, "at");
              Optional<Figure> energy =
                  keys.required(
                      "activation-energy", aboveZero(figures.figure(Dimension.MOLAR_ENERGY)));
              Optional<Double> from = temperature(keys, "from");
              Optional<Double> to = temperature(keys, "to");
              if (rate.isEmpty()
                  || at.isEmpty()
                  || energy.isEmpty()
                  || from.isEmpty()
                  || to.isEmpty()) {
                return Optional.empty();
              }
              if (!(from.get() < to.get() && from.get() <= at.get() && at.get() <= to.get())) {
                problems.add(
                    keys.place("from"),
                    "reversed-range",
                    "\"from\", \"at\" and \"to\" must not fall.");
                return Optional.empty();
              }
              return Optional.of(
                  new Kinetics(rate.get(), at.get(), energy.get(), from.get(), to.get()));
            });
  }

  private static Optional<Double> temperature(Keys keys, String key) {
    return keys.required(key, Values.quantity(Dimension.TEMPERATURE)).map(Quantity::inBase);
  }

  private Optional<Ingredient.Grade> grade(Node node, Figures outer) {
    return Keys.of(node, "a grade", problems, List.of("gum", "hydration", "source"))
        .map(
            keys -> {
              Figures figures = outer.of(keys);
              return new Ingredient.Grade(
                  known(keys, "gum", (value, what, into) -> gum(value, figures)),
                  known(keys, "hydration", (value, what, into) -> hydration(value, figures)));
            });
  }

  // Preservatives

  private Optional<InhibitoryLevel> inhibitory(Node node, Figures outer) {
    return Keys.of(
            node,
            "an inhibitory level",
            problems,
            List.of("group", "level", "basis", "at-pH", "source"))
        .flatMap(
            keys -> {
              Figures figures = outer.of(keys);
              Optional<String> group = keys.required("group", Values.word(IngredientWords.GROUPS));
              Optional<Figure> level = keys.required("level", figures.figure(Dimension.SHARE));
              Optional<String> basis = keys.required("basis", Values.word(IngredientWords.BASES));
              Optional<Double> atPH =
                  keys.optional("at-pH", Values.quantity(Dimension.PH)).map(Quantity::value);
              if (group.isEmpty() || level.isEmpty() || basis.isEmpty()) {
                return Optional.empty();
              }
              InhibitoryLevel.Basis counted =
                  basis.get().equals("total")
                      ? InhibitoryLevel.Basis.TOTAL
                      : InhibitoryLevel.Basis.UNDISSOCIATED;
              return Optional.of(new InhibitoryLevel(group.get(), level.get(), counted, atPH));
            });
  }

  // Blends

  private Optional<Map<String, Share>> composition(Node node, String what, Problems into) {
    return named(Values.SHARE)
        .read(node, what, into)
        .filter(
            parts -> {
              if (node instanceof Node.Mapping mapping && parts.size() < mapping.entries().size()) {
                return false;
              }
              Share sum = parts.values().stream().reduce(Share.ZERO, Share::plus);
              boolean good =
                  sum.equals(Share.ALL)
                      && parts.values().stream().allMatch(s -> s.compareTo(Share.ZERO) > 0);
              if (!good) {
                into.add(
                    node.place(),
                    "bad-sum",
                    what
                        + " must be shares above zero that add up to 100 %; they add up to "
                        + sum
                        + ".");
              }
              return good;
            });
  }

  /** A part of a whole: above 0 %, at most 100 %. */
  private static Reading<Figure> part(Reading<Figure> reading) {
    return (node, what, into) ->
        aboveZero(reading)
            .read(node, what, into)
            .filter(
                figure -> {
                  if (figure.likely() > 100) {
                    into.add(node.place(), "out-of-range", what + " must not be above 100 %.");
                  }
                  return figure.likely() <= 100;
                });
  }

  private Optional<Map<Equivalent, Integer>> countsAs(Node node, String what, Problems into) {
    return Keys.of(node, what, into, IngredientWords.EQUIVALENTS)
        .map(
            keys -> {
              Map<Equivalent, Integer> counts = new EnumMap<>(Equivalent.class);
              for (Equivalent equivalent : Equivalent.values()) {
                Optional<Integer> count = keys.optional(equivalent.word(), Values.WHOLE_NUMBER);
                if (count.filter(value -> value < 1).isPresent()) {
                  into.add(
                      keys.place(equivalent.word()),
                      "out-of-range",
                      Words.quoted(equivalent.word()) + " must be at least 1.");
                } else {
                  count.ifPresent(value -> counts.put(equivalent, value));
                }
              }
              return counts;
            });
  }

  /** A mapping from names to values that are read alike. */
  private static <T> Reading<Map<String, T>> named(Reading<T> reading) {
    return (node, what, problems) ->
        Keys.names(node, what, problems)
            .map(
                mapping -> {
                  Map<String, T> values = new LinkedHashMap<>();
                  for (Node.Entry entry : mapping.entries().values()) {
                    reading
                        .read(entry.value(), Words.quoted(entry.key()), problems)
                        .ifPresent(value -> values.put(entry.key().strip(), value));
                  }
                  return values;
                });
  }
}
