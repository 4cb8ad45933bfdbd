package gelwright.rule;

import static java.util.stream.Collectors.joining;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Bounded;
import gelwright.quantity.Dimension;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** A small vocabulary, tables and facts of an invented workshop, for the tests of the language. */
final class Workshop {
  static final Type SHARE = new Type.Number(Dimension.SHARE);
  static final Type PH = new Type.Number(Dimension.PH);
  static final Type STRESS = new Type.Number(Dimension.STRESS);
  static final Type VISCOSITY = new Type.Number(Dimension.VISCOSITY);
  static final Type TEMPERATURE = new Type.Number(Dimension.TEMPERATURE);
  static final Type TIME = new Type.Number(Dimension.TIME);
  static final Type NUMBER = new Type.Number(Dimension.NUMBER);
  static final Type ANY_NAME = new Type.Choice(Set.of());
  static final Type KIND = new Type.Choice(Set.of("gel", "gel-cream", "serum", "mist"));
  static final Type TEXTURE = new Type.Choice(Set.of("fluid", "serum", "soft-gel"));
  static final Type AREA = new Type.Choices(Set.of("face", "hands", "eye-area"));
  static final Type FUNCTIONS = new Type.Choices(Set.of());

  static final Vocabulary VOCABULARY =
      Vocabulary.builder()
          .property("oil.share", SHARE, Unit.PERCENT, true, "Sum of oils.")
          .property("gum.share", SHARE, Unit.PERCENT, true, "Sum of gums.")
          .property("emulsifier.share", SHARE, Unit.PERCENT, true, "Sum of emulsifiers.")
          .property("gel.oil-capacity", SHARE, Unit.PERCENT, false, "Oil the gel carries.")
          .property("gel.yield-stress", STRESS, Unit.PASCAL, false, "Yield stress.")
          .property("oil.yield-needed", STRESS, Unit.PASCAL, false, "Yield stress needed.")
          .property("gel.viscosity-at-rest", VISCOSITY, Unit.PASCAL_SECOND, false, "At 0.01 /s.")
          .property("water-phase.pH", PH, Unit.PH, false, "pH.")
          .property("water-phase.water-activity", NUMBER, Unit.NONE, false, "Water activity.")
          .property("process.peak-temperature", TEMPERATURE, Unit.CELSIUS, false, "Peak.")
          .property("room.temperature", TEMPERATURE, Unit.CELSIUS, true, "Room.")
          .property("process.time-hot", TIME, Unit.MINUTE, false, "Time hot.")
          .property("product.kind", KIND, Unit.NONE, true, "Kind of product.")
          .property("product.texture", TEXTURE, Unit.NONE, false, "Texture promised.")
          .property("product.area", AREA, Unit.NONE, false, "Where it goes.")
          .property("product.gum", ANY_NAME, Unit.NONE, false, "The main gum.")
          .property("formula.has-water", new Type.Truth(), Unit.NONE, true, "Whether water is in.")
          .property("formula.is-buffered", new Type.Truth(), Unit.NONE, false, "Whether buffered.")
          .property("particle.yield-needed", STRESS, Unit.PASCAL, false, "To hold grains.")
          .kind(
              "preservative",
              false,
              List.of(
                  property("undissociated", SHARE, Unit.PERCENT, false, 0),
                  property("share", SHARE, Unit.PERCENT, true, 1),
                  property("functions", FUNCTIONS, Unit.NONE, false, 2),
                  property("group", TEXTURE, Unit.NONE, false, 3),
                  property("is-lawful", new Type.Truth(), Unit.NONE, false, 4)))
          .kind("step", true, List.of(property("peak", TEMPERATURE, Unit.CELSIUS, true, 0)))
          .function(
              "gel.viscosity",
              List.of(new Type.Number(Dimension.RATE)),
              new Type.Number(Dimension.VISCOSITY),
              Unit.PASCAL_SECOND,
              "Viscosity at a shear rate.")
          .function(
              "share-of",
              List.of(ANY_NAME),
              new Type.Number(Dimension.SHARE),
              Unit.PERCENT,
              "Share of an ingredient.")
          .function(
              "share-of-all",
              List.of(FUNCTIONS),
              new Type.Number(Dimension.SHARE),
              Unit.PERCENT,
              "Share of several ingredients.")
          .build();

  static final Table WINDOWS =
      new Table(
          "texture-windows",
          Map.of(
              "least-yield", new Table.Column("least-yield", STRESS),
              "most-yield", new Table.Column("most-yield", STRESS),
              "pack", new Table.Column("pack", new Type.Choice(Set.of("jar", "pump"))),
              "areas", new Table.Column("areas", AREA)),
          List.of(
              row(
                  "serum",
                  Map.of(
                      "least-yield", number("1 Pa"),
                      "most-yield", number("8 Pa"),
                      "pack", names("pump"),
                      "areas", names("face", "hands"))),
              row("soft-gel", Map.of("least-yield", number("12 Pa"), "pack", names("jar")))),
          at(90));

  // Property names by slot, of the formula ("") and of each kind of item; and those of functions.
  private static final Map<String, String[]> NAMES = new HashMap<>();
  private static final String[] FUNCTION_NAMES = new String[VOCABULARY.functions().size()];

  static {
    NAMES.put("", slots(VOCABULARY.properties()));
    for (Vocabulary.ItemKind kind : VOCABULARY.kinds()) {
      NAMES.put(kind.name(), slots(kind.properties().values()));
    }
    VOCABULARY.functions().forEach(function -> FUNCTION_NAMES[function.slot()] = function.name());
  }

  private static String[] slots(Collection<Vocabulary.Property> properties) {
    String[] names = new String[properties.size()];
    properties.forEach(property -> names[property.slot()] = property.name());
    return names;
  }

  static final Set<String> SOURCES = Set.of("workshop-practice", "window-practice");

  private Workshop() {}

  private static Vocabulary.Property property(
      String name, Type type, Unit unit, boolean alwaysKnown, int slot) {
    return new Vocabulary.Property(name, type, unit, alwaysKnown, "Of an item.", slot);
  }

  static Place at(int line) {
    return new Place("house.yaml", line, 5, "");
  }

  static Text text(String text) {
    return new Text(text, at(10));
  }

  static Table.Row row(String key, Map<String, Table.Cell> cells) {
    return new Table.Row(key, cells, List.of(new Text("window-practice", at(91))), at(91));
  }

  static Table.Cell number(String written) {
    return new Table.Cell.Number(Quantity.parse(written).orElseThrow());
  }

  static Table.Cell names(String... names) {
    return new Table.Cell.Names(Set.of(names));
  }

  /** A rule in the making; every part can be replaced. */
  static final class Draft {
    private String id = "above-capacity";
    private String title = "More oil than this gel carries";
    private Rule.Kind kind = Rule.Kind.REQUIREMENT;
    private Optional<Text> forEach = Optional.empty();
    private Optional<Text> when = Optional.empty();
    private Optional<Text> require = Optional.of(at("oil.share <= gel.oil-capacity", 22));
    private Text message = at("{oil.share} of oil", 23);
    private String lesson = "A gum does not lower the tension between oil and water.";
    private List<Text> levers = List.of();
    private List<Text> sources = List.of(at("workshop-practice", 25));
    private boolean alwaysKnown;
    private List<String> aliases = List.of();

    private static Text at(String text, int line) {
      return new Text(text, Workshop.at(line));
    }

    Draft id(String newId) {
      id = newId;
      return this;
    }

    Draft title(String newTitle) {
      title = newTitle;
      return this;
    }

    Draft duty() {
      kind = Rule.Kind.DUTY;
      return this;
    }

    Draft forEach(String text) {
      forEach = Optional.of(at(text, 20));
      return this;
    }

    Draft when(String text) {
      when = Optional.of(at(text, 21));
      return this;
    }

    Draft require(String text) {
      require = Optional.of(at(text, 22));
      return this;
    }

    Draft requireNothing() {
      require = Optional.empty();
      return this;
    }

    Draft message(String text) {
      message = at(text, 23);
      return this;
    }

    Draft lesson(String text) {
      lesson = text;
      return this;
    }

    Draft lever(String text) {
      levers = List.of(at(text, 24));
      return this;
    }

    Draft sources(String... ids) {
      sources = List.of(ids).stream().map(source -> at(source, 25)).toList();
      return this;
    }

    Draft alwaysKnown() {
      alwaysKnown = true;
      return this;
    }

    Draft aliases(String... ids) {
      aliases = List.of(ids);
      return this;
    }

    Rule build() {
      return new Rule(
          id,
          at(title, 19),
          kind,
          Severity.WARNING,
          forEach,
          when,
          require,
          message,
          lesson,
          levers,
          sources,
          alwaysKnown,
          false,
          false,
          true,
          aliases,
          Workshop.at(18));
    }
  }

  static Draft draft() {
    return new Draft();
  }

  static RuleSet set(String id, List<Table> tables, List<RuleSet.Change> changes, Draft... rules) {
    List<Rule> built = new ArrayList<>();
    for (Draft rule : rules) {
      built.add(rule.build());
    }
    return new RuleSet(id, "Title of " + id, "2026.1", built, tables, changes, at(1));
  }

  static Compilation compile(Draft... rules) {
    return RuleBook.compile(
        List.of(set("oil-load", List.of(WINDOWS), List.of(), rules)), VOCABULARY, SOURCES);
  }

  static CompiledRule compiled(Draft rule) {
    Compilation compilation = compile(rule);
    return compilation
        .book()
        .orElseThrow(() -> new AssertionError(print(compilation.problems())))
        .rules()
        .get(0);
  }

  static String print(List<Problem> problems) {
    return problems.stream().map(Problem::toString).collect(joining("\n"));
  }

  /** Checks a condition as a rule's requirement would be, without a for each. */
  static Optional<Term.OfTruth> check(String condition, List<Problem> problems) {
    return check(condition, Checker.Context.NOTHING, problems);
  }

  static Optional<Term.OfTruth> check(
      String condition, Checker.Context context, List<Problem> problems) {
    Text text = text(condition);
    return Parser.parse(text, problems)
        .flatMap(
            new Checker(text, VOCABULARY, Map.of(WINDOWS.name(), WINDOWS), context, problems)
                ::condition);
  }

  static Checker.Context items(String kind) {
    return new Checker.Context.Items(VOCABULARY.kind(kind).orElseThrow());
  }

  static Estimate about(double likely, double range, String doubt) {
    return Estimate.within(likely, range, new Doubt(doubt, ""));
  }

  /** Facts from maps by property name; what is left out is unknown, and missing under its name. */
  static final class MapFacts implements Facts {
    final Map<String, Bounded> numbers = new HashMap<>();
    final Map<String, Chosen> choices = new HashMap<>();
    final Map<String, Truth> truths = new HashMap<>();
    final Map<String, List<Item>> items = new LinkedHashMap<>();
    final List<String> asked = new ArrayList<>();
    private final String kind;

    MapFacts() {
      this("");
    }

    private MapFacts(String kind) {
      this.kind = kind;
    }

    MapFacts number(String name, double base) {
      numbers.put(name, Bounded.exact(base));
      return this;
    }

    MapFacts number(String name, Bounded value) {
      numbers.put(name, value);
      return this;
    }

    MapFacts choice(String name, String... names) {
      choices.put(name, Chosen.of(Set.of(names)));
      return this;
    }

    MapFacts truth(String name, Truth truth) {
      truths.put(name, truth);
      return this;
    }

    MapFacts item(String kindName, String name, Odds membership, MapFacts properties) {
      MapFacts facts = new MapFacts(kindName);
      facts.numbers.putAll(properties.numbers);
      facts.choices.putAll(properties.choices);
      facts.truths.putAll(properties.truths);
      Set<String> missing = membership == Odds.CERTAIN ? Set.of() : Set.of("functions of " + name);
      items
          .computeIfAbsent(kindName, unused -> new ArrayList<>())
          .add(new MapItem(name, membership, missing, facts));
      return this;
    }

    private String name(int slot) {
      String name = NAMES.get(kind)[slot];
      asked.add(name);
      return name;
    }

    @Override
    public Bounded number(int slot) {
      String name = name(slot);
      return numbers.getOrDefault(name, Bounded.unknown(Set.of(name)));
    }

    @Override
    public Chosen choice(int slot) {
      String name = name(slot);
      return choices.getOrDefault(name, Chosen.unknown(Set.of(name)));
    }

    @Override
    public Truth truth(int slot) {
      String name = name(slot);
      return truths.getOrDefault(name, Truth.open(Set.of(name)));
    }

    @Override
    public Bounded call(int slot, List<Argument> arguments) {
      String call = FUNCTION_NAMES[slot] + arguments.stream().map(MapFacts::print).toList();
      return numbers.getOrDefault(call, Bounded.unknown(Set.of(call)));
    }

    private static String print(Argument argument) {
      return argument instanceof Argument.Number number
          ? number.value().atLeast().toString()
          : new TreeSet<>(((Argument.Names) argument).value().names()).toString();
    }

    @Override
    public List<? extends Item> items(int slot) {
      return VOCABULARY.kinds().stream()
          .filter(itemKind -> itemKind.slot() == slot)
          .findFirst()
          .map(itemKind -> items.getOrDefault(itemKind.name(), List.of()))
          .orElseThrow();
    }
  }

  private record MapItem(String name, Odds membership, Set<String> membershipMissing, Facts facts)
      implements Facts.Item {}
}
