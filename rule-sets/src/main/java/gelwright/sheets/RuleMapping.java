package gelwright.sheets;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import gelwright.rule.Table;
import gelwright.rule.Text;
import gelwright.rule.Type;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.mapping.Reading;
import gelwright.sheets.mapping.Values;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Words;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** From the tree of a rule set sheet to the rule set and its examples. */
final class RuleMapping {
  private static final Pattern CLOSED = Pattern.compile("(names?) of \\[(.*)]");
  private static final Pattern ROW_OF = Pattern.compile("\\s*row\\s+of\\s+(\\S+)\\s*");
  private static final String COLUMN =
      "key, name, names, number, a unit such as Pa, or \"name of [a, b]\"";

  /** Stands in for a text that is missing or cannot be read; never part of a sound sheet. */
  private static final String STAND_IN = "?";

  private final Document document;
  private final Problems problems;

  RuleMapping(Document document, Problems problems) {
    this.document = document;
    this.problems = problems;
  }

  /** An example as it stands under a rule or a row. */
  private record Written(String expected, Node.Mapping overlay) {}

  private record Row(Table.Row row, List<Written> examples) {}

  private record ReadTable(Table table, List<Row> rows) {}

  private record ReadRule(
      Rule rule,
      Optional<String> base,
      List<Written> examples,
      Set<String> unshowable,
      Optional<String> table) {}

  /** Ids of rules with a problem here, and names of tables with one. */
  private final Set<String> faultyRules = new HashSet<>();

  private final Set<String> faultyTables = new HashSet<>();

  /**
   * Faulty tables of which not even the columns are known, so that no rule over them is checked.
   */
  private final Set<String> shapeless = new HashSet<>();

  /** Tables of which a column could not be read. */
  private final Set<String> halfShaped = new HashSet<>();

  /** What the rule book would say once more, in other words, of what is told here. */
  private final Set<Told> told = new HashSet<>();

  /**
   * A problem known before the rule book finds it.
   *
   * @param place of the rule
   * @param code of the problem in the rule book
   */
  record Told(Place place, String code) {}

  /**
   * What of a rule set could be read, whether or not there were problems. Where a text is missing
   * or cannot be read another one stands in for it, so that the rest of a rule can be looked at;
   * this is no rule set to review anything with.
   *
   * @param sheet the rules, tables, changes and examples that could be read
   * @param faulty ids of the rules with a problem here or in a table that they mention
   * @param told what the rule book need not say again
   */
  record Readable(RuleSheet sheet, Set<String> faulty, Set<Told> told) {
    Readable {
      faulty = Set.copyOf(faulty);
      told = Set.copyOf(told);
    }
  }

  /** All that can be read; empty when the sheet is no mapping. */
  Optional<Readable> read() {
    return Keys.of(document.root(), "a rule set", problems, RuleWords.SHEET).map(this::ruleSet);
  }

  private Readable ruleSet(Keys keys) {
    final Optional<String> id = keys.required("rule-set", Values.ID);
    final Optional<String> title = keys.required("title", Values.TEXT);
    final Optional<String> edition = keys.required("edition", Values.TEXT);
    List<ReadTable> tables = keys.optional("tables", named(this::table)).orElse(List.of());
    List<ReadRule> rules = keys.optional("rules", named(this::rule)).orElse(List.of());
    List<RuleSet.Change> changes = keys.list("changes", this::change);
    if (!keys.has("rules") && !keys.has("changes") && !keys.has("tables")) {
      problems.add(
          keys.place(), "missing-key", "A rule set has \"rules\", \"tables\" or \"changes\".");
    }
    for (Problem problem : document.problems()) {
      faulty(problem.place());
    }
    tellTables(keys, tables);
    for (ReadRule rule : rules) {
      if (mentions(rule.rule(), faultyTables)) {
        faultyRules.add(rule.rule().id());
      }
    }
    if (id.isEmpty()) {
      rules.forEach(rule -> faultyRules.add(rule.rule().id()));
    }
    List<Example> examples = examples(rules, tables);
    Map<String, Set<String>> unshowable = new HashMap<>();
    rules.forEach(rule -> unshowable.put(rule.rule().id(), rule.unshowable()));
    RuleSet set =
        new RuleSet(
            id.orElse("unnamed-" + Integer.toHexString(document.file().hashCode())),
            title.orElse(STAND_IN),
            edition.orElse(STAND_IN),
            rules.stream().map(ReadRule::rule).filter(rule -> !mentions(rule, shapeless)).toList(),
            tables.stream().map(ReadTable::table).toList(),
            changes,
            keys.place("rule-set"));
    return new Readable(new RuleSheet(set, examples, unshowable), faultyRules, told);
  }

  /** A problem of the document's text, such as a key given twice, in a rule or a table. */
  private void faulty(Place place) {
    String[] parts = place.pointer().split("/", -1);
    if (parts.length > 2 && parts[1].equals("rules")) {
      faultyRules.add(parts[2]);
    } else if (parts.length > 2 && parts[1].equals("tables")) {
      faultyTables.add(parts[2]);
    }
  }

  private void tellTables(Keys keys, List<ReadTable> tables) {
    if (keys.node("tables").orElse(null) instanceof Node.Mapping mapping) {
      shapeless.addAll(mapping.entries().keySet());
      tables.stream()
          .filter(
              table ->
                  !table.table().columns().isEmpty() && !halfShaped.contains(table.table().name()))
          .forEach(table -> shapeless.remove(table.table().name()));
    }
    faultyTables.addAll(shapeless);
  }

  /** By the word alone: a rule not looked at for a word that means something else does no harm. */
  private static boolean mentions(Rule rule, Set<String> tables) {
    List<Text> texts = new ArrayList<>(List.of(rule.message()));
    rule.forEach().ifPresent(texts::add);
    rule.when().ifPresent(texts::add);
    rule.require().ifPresent(texts::add);
    return tables.stream()
        .anyMatch(table -> texts.stream().anyMatch(text -> text.text().contains(table)));
  }

  @FunctionalInterface
  private interface EntryReading<T> {
    Optional<T> read(Node.Entry entry);
  }

  private <T> Reading<List<T>> named(EntryReading<T> reading) {
    return (node, what, into) ->
        Keys.names(node, what, into)
            .map(
                mapping -> {
                  List<T> values = new ArrayList<>();
                  for (Node.Entry entry : mapping.entries().values()) {
                    boolean good =
                        Values.ID
                            .read(
                                Node.Scalar.text(entry.key(), entry.keyPlace()),
                                "The name here",
                                into)
                            .isPresent();
                    reading.read(entry).filter(value -> good).ifPresent(values::add);
                  }
                  return values;
                });
  }

  // Rules

  private Optional<ReadRule> rule(Node.Entry entry) {
    int before = problems.size();
    return Keys.of(entry.value(), "a rule", problems, RuleWords.RULE)
        .flatMap(keys -> rule(entry, keys, before));
  }

  private Optional<ReadRule> rule(Node.Entry entry, Keys keys, int before) {
    final Optional<Text> title = keys.required("title", Values.PLACED_TEXT);
    final Optional<String> kind = keys.optional("kind", Values.word(RuleWords.KINDS));
    // Where the kind cannot be read, what only a requirement must have is not asked for.
    final boolean duty =
        kind.filter("duty"::equals).isPresent() || (keys.has("kind") && kind.isEmpty());
    Reading<String> severities = Values.word(RuleWords.SEVERITIES);
    final Optional<Severity> severity =
        (duty ? keys.optional("severity", severities) : keys.required("severity", severities))
            .flatMap(Severity::of)
            .or(() -> duty ? Optional.of(Severity.NOTE) : Optional.empty());
    final Optional<Text> forEach = keys.optional("for each", Values.PLACED_TEXT);
    final Optional<Text> when = keys.optional("when", Values.PLACED_TEXT);
    final Optional<Text> require =
        duty
            ? keys.optional("require", Values.PLACED_TEXT)
            : keys.required("require", Values.PLACED_TEXT);
    final Optional<Text> message = keys.required("message", Values.PLACED_TEXT);
    final Optional<String> lesson = keys.required("lesson", Values.TEXT);
    final List<Text> levers = keys.list("levers", Values.PLACED_TEXT);
    final List<Text> sources =
        keys.optional("sources", Values.oneOrMore(Values.PLACED_TEXT)).orElse(List.of());
    final boolean alwaysKnown = keys.optional("always-known", Values.YES_OR_NO).orElse(false);
    final boolean mustBeKnown = keys.optional("must-be-known", Values.YES_OR_NO).orElse(false);
    final boolean keep = keys.optional("when-borderline", Values.word(List.of("keep"))).isPresent();
    final boolean mayBeAccepted = keys.optional("may-be-accepted", Values.YES_OR_NO).orElse(true);
    final List<String> aliases =
        keys.optional("aliases", Values.oneOrMore(Values.TEXT)).orElse(List.of());
    Optional<Keys> examples =
        keys.optional(
            "examples", (node, what, into) -> Keys.of(node, "examples", into, RuleWords.EXAMPLES));
    Optional<String> base = examples.flatMap(e -> e.required("base", Values.TEXT));
    Set<String> unshowable = new HashSet<>();
    List<Written> written = examples.map(e -> written(e, unshowable)).orElse(List.of());
    if (keys.has("for each") && forEach.isEmpty()) {
      // Without it the names of a row or an item mean nothing, and all of them would be told.
      return Optional.empty();
    }
    if (require.isEmpty() && !duty) {
      told.add(new Told(entry.keyPlace(), "missing-require"));
    }
    if (keys.has("sources") && sources.isEmpty() && problems.size() > before) {
      told.add(new Told(entry.keyPlace(), "missing-source"));
    }
    if ((keys.has("when") && when.isEmpty()) || (keys.has("kind") && kind.isEmpty())) {
      told.add(new Told(entry.keyPlace(), "missing-when"));
    }
    boolean faulty = problems.size() > before;
    if (faulty) {
      faultyRules.add(entry.key());
    }
    Optional<String> table =
        forEach
            .map(text -> ROW_OF.matcher(text.text()))
            .filter(Matcher::matches)
            .map(m -> m.group(1));
    return Optional.of(
        new ReadRule(
            new Rule(
                entry.key(),
                title.orElseGet(() -> standIn(entry)),
                duty ? Rule.Kind.DUTY : Rule.Kind.REQUIREMENT,
                severity.orElse(Severity.ERROR),
                forEach,
                when,
                require,
                message.orElseGet(() -> standIn(entry)),
                lesson.orElse(STAND_IN),
                levers,
                sources,
                // Whether a rule can be unknown is no question while a part of it is missing.
                alwaysKnown && !faulty,
                mustBeKnown,
                keep,
                mayBeAccepted,
                aliases,
                entry.keyPlace()),
            base,
            written,
            unshowable,
            table));
  }

  private static Text standIn(Node.Entry entry) {
    return new Text(STAND_IN, entry.keyPlace());
  }

  /** Examples of a rule; the kinds that are {@code none} go to {@code unshowable}. */
  private List<Written> written(Keys keys, Set<String> unshowable) {
    RuleWords.EXPECTED.stream()
        .filter(kind -> keys.node(kind).filter(node -> Values.isWord(node, "none")).isPresent())
        .forEach(unshowable::add);
    return written(keys, RuleWords.EXPECTED.stream().filter(k -> !unshowable.contains(k)).toList());
  }

  private List<Written> written(Keys keys, List<String> kinds) {
    List<Written> written = new ArrayList<>();
    for (String expected : kinds) {
      keys.optional(expected, Values.listOf(RuleMapping::overlay))
          .ifPresent(
              overlays -> overlays.forEach(overlay -> written.add(new Written(expected, overlay))));
    }
    return written;
  }

  private static Optional<Node.Mapping> overlay(Node node, String what, Problems problems) {
    return Keys.names(node, what, problems);
  }

  private List<Example> examples(List<ReadRule> rules, List<ReadTable> tables) {
    List<Example> examples = new ArrayList<>();
    for (ReadRule rule : rules) {
      for (Written written : rule.examples()) {
        examples.add(
            new Example(
                rule.rule().id(),
                Optional.empty(),
                rule.base().orElse(""),
                written.expected(),
                written.overlay()));
      }
    }
    for (ReadTable table : tables) {
      List<ReadRule> over =
          rules.stream()
              .filter(rule -> rule.table().filter(table.table().name()::equals).isPresent())
              .toList();
      for (Row row : table.rows()) {
        for (Written written : row.examples()) {
          examples.addAll(ofRow(table, row, written, over));
        }
      }
    }
    return examples;
  }

  private List<Example> ofRow(ReadTable table, Row row, Written written, List<ReadRule> over) {
    List<Example> examples = new ArrayList<>();
    for (ReadRule rule : over) {
      rule.base()
          .ifPresent(
              base ->
                  examples.add(
                      new Example(
                          rule.rule().id(),
                          Optional.of(row.row().key()),
                          base,
                          written.expected(),
                          written.overlay())));
    }
    if (over.stream().anyMatch(rule -> faultyRules.contains(rule.rule().id()))) {
      return examples;
    }
    if (examples.isEmpty()) {
      problems.add(
          written.overlay().place(),
          "unused-example",
          "No rule with a base formula in its examples goes through the rows of table "
              + table.table().name()
              + ".",
          "Write \"for each: row of " + table.table().name() + "\" and \"base\" in such a rule.");
    }
    return examples;
  }

  // Tables

  private Optional<ReadTable> table(Node.Entry entry) {
    final int before = problems.size();
    Optional<Keys> found = Keys.of(entry.value(), "a table", problems, RuleWords.TABLE);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    final int beforeColumns = problems.size();
    Keys keys = found.get();
    Map<String, Optional<Type>> types = new LinkedHashMap<>();
    List<String> keyColumns = new ArrayList<>();
    keys.required("columns", Keys::names)
        .ifPresent(
            mapping -> {
              for (Node.Entry column : mapping.entries().values()) {
                column(column, types, keyColumns);
              }
              if (problems.size() > beforeColumns || keyColumns.size() != 1) {
                halfShaped.add(entry.key());
              }
              if (keyColumns.size() != 1) {
                problems.add(
                    mapping.place(),
                    "key-column",
                    keyColumns.isEmpty()
                        ? "One column must be the key of the table."
                        : "Only one column can be the key of the table.");
              }
            });
    List<Text> defaults =
        keys.optional("source", Values.oneOrMore(Values.PLACED_TEXT)).orElse(List.of());
    List<Row> rows =
        keys.required(
                "rows", Values.listOf((node, what, into) -> row(node, types, keyColumns, defaults)))
            .orElse(List.of());
    if (problems.size() > before) {
      faultyTables.add(entry.key());
    }
    Map<String, Table.Column> columns = new LinkedHashMap<>();
    types.forEach(
        (name, type) -> type.ifPresent(t -> columns.put(name, new Table.Column(name, t))));
    return Optional.of(
        new ReadTable(
            new Table(entry.key(), columns, rows.stream().map(Row::row).toList(), entry.keyPlace()),
            rows));
  }

  private void column(
      Node.Entry column, Map<String, Optional<Type>> types, List<String> keyColumns) {
    Values.ID.read(
        Node.Scalar.text(column.key(), column.keyPlace()), "The name of a column", problems);
    // A column that could not be read is still known: its cells are no unknown keys.
    types.put(
        column.key(),
        Values.parsed(RuleMapping::type, COLUMN)
            .read(column.value(), Words.quoted(column.key()), problems));
    if (Values.isWord(column.value(), "key")) {
      keyColumns.add(column.key());
    }
    if (List.of("source", "holds", "breaks").contains(column.key())) {
      problems.add(
          column.keyPlace(),
          "reserved-name",
          "A column cannot be named \"" + column.key() + "\": rows have such a key anyway.");
    }
  }

  private static Optional<Type> type(String text) {
    switch (text) {
      case "key", "name" -> {
        return Optional.of(new Type.Choice(Set.of()));
      }
      case "names" -> {
        return Optional.of(new Type.Choices(Set.of()));
      }
      case "number" -> {
        return Optional.of(new Type.Number(Dimension.NUMBER));
      }
      default -> {
        Matcher closed = CLOSED.matcher(text);
        if (closed.matches()) {
          Set<String> options = new LinkedHashSet<>();
          for (String option : closed.group(2).split(",", -1)) {
            if (!option.isBlank()) {
              options.add(option.strip());
            }
          }
          return options.isEmpty()
              ? Optional.empty()
              : Optional.of(
                  closed.group(1).equals("name")
                      ? new Type.Choice(options)
                      : new Type.Choices(options));
        }
        return Unit.of(text)
            .filter(unit -> unit != Unit.NONE)
            .map(unit -> new Type.Number(unit.dimension()));
      }
    }
  }

  private Optional<Row> row(
      Node node, Map<String, Optional<Type>> types, List<String> keyColumns, List<Text> defaults) {
    List<String> known = new ArrayList<>(types.keySet());
    known.add("source");
    known.addAll(RuleWords.EXPECTED);
    Optional<Keys> found = Keys.of(node, "a row of this table", problems, known);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    Optional<String> key =
        keyColumns.isEmpty() ? Optional.empty() : keys.required(keyColumns.get(0), Values.TEXT);
    Map<String, Table.Cell> cells = new LinkedHashMap<>();
    types.forEach(
        (name, type) ->
            type.filter(t -> !keyColumns.contains(name))
                .flatMap(t -> keys.optional(name, cell(t)))
                .ifPresent(cell -> cells.put(name, cell)));
    List<Text> sources =
        keys.optional("source", Values.oneOrMore(Values.PLACED_TEXT)).orElse(defaults);
    List<Written> written = written(keys, RuleWords.EXPECTED);
    if (key.isEmpty()) {
      return Optional.empty();
    }
    cells.put(keyColumns.get(0), new Table.Cell.Names(Set.of(key.get())));
    return Optional.of(new Row(new Table.Row(key.get(), cells, sources, keys.place()), written));
  }

  private static Reading<Table.Cell> cell(Type type) {
    if (type instanceof Type.Number number) {
      return Values.quantity(number.dimension()).map(RuleMapping::number);
    }
    if (type instanceof Type.Choice choice) {
      return name(choice.options()).map(name -> new Table.Cell.Names(Set.of(name)));
    }
    Set<String> options = type instanceof Type.Choices choices ? choices.options() : Set.of();
    return Values.oneOrMore(name(options))
        .map(names -> new Table.Cell.Names(new LinkedHashSet<>(names)));
  }

  private static Table.Cell number(Quantity quantity) {
    return new Table.Cell.Number(quantity);
  }

  private static Reading<String> name(Set<String> options) {
    return options.isEmpty() ? Values.TEXT : Values.word(options.stream().sorted().toList());
  }

  // Changes

  private Optional<RuleSet.Change> change(Node node, String what, Problems into) {
    Optional<Keys> found = Keys.of(node, "a change", into, RuleWords.CHANGE);
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = found.get();
    List<String> directions = RuleWords.DIRECTIONS.stream().filter(keys::has).toList();
    if (directions.size() != 1) {
      into.add(
          keys.place(),
          directions.isEmpty() ? "missing-key" : "several-directions",
          "A change has one of the keys tighten, relax and switch-off, with the id of a rule.");
    }
    Optional<Text> rule = Optional.empty();
    for (String direction : directions) {
      rule =
          keys.optional(
              direction,
              (value, name, problem) ->
                  FormulaMapping.RULE
                      .read(value, name, problem)
                      .flatMap(id -> Values.PLACED_TEXT.read(value, name, problem)));
    }
    Optional<Text> require = keys.optional("require", Values.PLACED_TEXT);
    Optional<Text> when = keys.optional("when", Values.PLACED_TEXT);
    Optional<Severity> severity =
        keys.optional("severity", Values.word(RuleWords.SEVERITIES)).flatMap(Severity::of);
    Optional<String> because = keys.required("because", Values.TEXT);
    if (directions.size() != 1 || rule.isEmpty() || because.isEmpty()) {
      return Optional.empty();
    }
    boolean off = directions.get(0).equals("switch-off");
    if (off && (require.isPresent() || when.isPresent() || severity.isPresent())) {
      into.add(
          keys.place(),
          "misplaced-key",
          "A rule that is switched off has no requirement, condition or severity.");
    }
    if (!off && require.isEmpty() && when.isEmpty() && severity.isEmpty()) {
      into.add(
          keys.place(),
          "missing-key",
          "The change changes nothing: write \"require\", \"when\" or \"severity\".");
    }
    RuleSet.How how =
        RuleSet.How.valueOf(directions.get(0).toUpperCase(Locale.ROOT).replace('-', '_'));
    return Optional.of(new RuleSet.Change(rule.get(), how, require, when, severity, because.get()));
  }
}
