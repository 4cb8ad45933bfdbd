package gelwright.rule;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Checks and compiles rule sets as a whole: names across sets, tables, changes by a house, rules.
 */
final class BookReader {
  private static final Pattern KEBAB = Pattern.compile("(?:pH|[a-z0-9]++)(?:-(?:pH|[a-z0-9]++))*+");
  private static final Pattern ROWS = Pattern.compile("row\\s++of\\s++(\\S++)");
  private static final List<String> LEVERS =
      List.of("raise", "lower", "change", "replace", "reorder");

  /** Fields of a step are the formula's business; a rule only names them. */
  private static final String STEP = "step.";

  private final List<RuleSet> sets;
  private final Vocabulary vocabulary;
  private final Set<String> sources;
  private final List<Problem> problems = new ArrayList<>();
  private final Map<String, Table> tables = new TreeMap<>();
  private final Map<String, RuleSet.Change> changes = new HashMap<>();
  private final Map<String, Rule> rulesById = new LinkedHashMap<>();
  private final Map<String, String> fullIds = new HashMap<>();

  /** Tables and full ids of rules with a problem that is not within the text of a rule. */
  private final Set<String> unsoundTables = new HashSet<>();

  private final Set<String> unsoundRules = new HashSet<>();

  BookReader(List<RuleSet> sets, Vocabulary vocabulary, Set<String> sources) {
    this.sets = List.copyOf(sets);
    this.vocabulary = vocabulary;
    this.sources = Set.copyOf(sources);
  }

  List<Problem> problems() {
    return problems;
  }

  RuleBook read() {
    Map<String, String> editions = new TreeMap<>();
    for (RuleSet set : sets) {
      kebab(set.id(), "rule set", set.place());
      if (set.title().isBlank()) {
        add(set.place(), "missing-title", "Rule set '" + set.id() + "' has no title.", "");
      }
      if (set.edition().isBlank()) {
        add(
            set.place(),
            "missing-edition",
            "Rule set '" + set.id() + "' has no edition.",
            "Add one, such as 'edition: 2026.1'.");
      }
      if (editions.put(set.id(), set.edition()) != null) {
        add(set.place(), "duplicate-rule-set", "There are two rule sets '" + set.id() + "'.", "");
      }
      for (Table table : set.tables()) {
        int before = problems.size();
        table(table);
        if (problems.size() > before) {
          unsoundTables.add(table.name());
        }
      }
    }
    ids();
    sets.forEach(set -> set.changes().forEach(change -> change(set, change)));
    List<CompiledRule> compiled = new ArrayList<>();
    Map<String, CompiledRule> byId = new HashMap<>();
    Map<String, String> switchedOff = new TreeMap<>();
    for (RuleSet set : sets) {
      for (Rule rule : set.rules()) {
        String id = fullId(set, rule.id());
        Optional<RuleSet.Change> change = Optional.ofNullable(changes.get(id));
        Optional<CompiledRule> ready = rule(set, rule, change);
        if (unsoundRules.contains(id) || mentionsUnsoundTable(rule, change)) {
          continue;
        }
        if (change.isPresent() && change.get().how() == RuleSet.How.SWITCH_OFF) {
          switchedOff.put(id, change.get().because());
        } else if (ready.isPresent()) {
          compiled.add(ready.get());
          byId.put(id, ready.get());
          rule.aliases().forEach(alias -> byId.put(fullId(set, alias), ready.get()));
        }
      }
    }
    return new RuleBook(compiled, byId, switchedOff, editions, tables);
  }

  /** By the word alone: a rule left out for a word that means something else does no harm. */
  private boolean mentionsUnsoundTable(Rule rule, Optional<RuleSet.Change> change) {
    if (unsoundTables.isEmpty()) {
      return false;
    }
    List<Text> texts = new ArrayList<>(List.of(rule.message()));
    rule.forEach().ifPresent(texts::add);
    rule.when().ifPresent(texts::add);
    rule.require().ifPresent(texts::add);
    change.flatMap(RuleSet.Change::when).ifPresent(texts::add);
    change.flatMap(RuleSet.Change::require).ifPresent(texts::add);
    return unsoundTables.stream()
        .anyMatch(table -> texts.stream().anyMatch(text -> text.text().contains(table)));
  }

  private static String fullId(RuleSet set, String id) {
    return set.id() + "." + id;
  }

  private void ids() {
    for (RuleSet set : sets) {
      for (Rule rule : set.rules()) {
        String id = fullId(set, rule.id());
        int before = problems.size();
        kebab(rule.id(), "rule", rule.place());
        if (fullIds.put(id, id) != null) {
          add(rule.place(), "duplicate-rule", "There are two rules '" + id + "'.", "");
        }
        unsoundSince(before, id);
        rulesById.put(id, rule);
      }
    }
    for (RuleSet set : sets) {
      for (Rule rule : set.rules()) {
        for (String alias : rule.aliases()) {
          int before = problems.size();
          kebab(alias, "earlier id", rule.place());
          String id = fullId(set, alias);
          if (fullIds.putIfAbsent(id, fullId(set, rule.id())) != null) {
            add(
                rule.place(),
                "duplicate-rule",
                "The earlier id '" + id + "' is in use for another rule.",
                "");
          }
          unsoundSince(before, fullId(set, rule.id()));
        }
      }
    }
  }

  private void unsoundSince(int before, String id) {
    if (problems.size() > before) {
      unsoundRules.add(id);
    }
  }

  private void kebab(String id, String what, Place place) {
    if (id.length() > 80 || !KEBAB.matcher(id).matches()) {
      add(
          place,
          "id",
          "'" + id + "' cannot name a " + what + ".",
          "Use small letters, digits and single hyphens: 'oil-load'.");
    }
  }

  // Tables

  private void table(Table table) {
    kebab(table.name(), "table", table.place());
    if (tables.putIfAbsent(table.name(), table) != null) {
      add(table.place(), "duplicate-table", "There are two tables '" + table.name() + "'.", "");
    }
    table.columns().forEach((name, column) -> kebab(name, "column", table.place()));
    for (Table.Column column : table.columns().values()) {
      if (column.type() instanceof Type.Truth) {
        add(
            table.place(),
            "table-cell",
            "Column '" + column.name() + "' can hold numbers or names, not conditions.",
            "");
      }
    }
    Set<String> keys = new HashSet<>();
    for (Table.Row row : table.rows()) {
      if (row.key().isBlank()) {
        add(row.place(), "missing-key", "This row of table " + table.name() + " has no key.", "");
      } else if (!keys.add(row.key())) {
        add(
            row.place(),
            "duplicate-row",
            "Table " + table.name() + " has two rows '" + row.key() + "'.",
            "");
      }
      row.sources().forEach(this::source);
      new TreeMap<>(row.cells()).forEach((column, cell) -> cell(table, row, column, cell));
    }
  }

  private void cell(Table table, Table.Row row, String name, Table.Cell cell) {
    Table.Column column = table.columns().get(name);
    String where = "'" + name + "' of row '" + row.key() + "' of table " + table.name();
    if (column == null) {
      add(
          row.place(),
          "unknown-column",
          "Table " + table.name() + " has no column '" + name + "'.",
          Spelling.hint(name, table.columns().keySet()));
    } else if (cell instanceof Table.Cell.Number number) {
      if (!(column.type() instanceof Type.Number type)) {
        add(row.place(), "table-cell", where + " is a number; names belong there.", "");
      } else if (!type.dimension().equals(number.value().dimension())) {
        add(
            row.place(),
            "table-cell",
            where
                + " is "
                + Checker.words(number.value().dimension())
                + "; the column holds "
                + Checker.words(type.dimension())
                + ".",
            "");
      }
    } else if (cell instanceof Table.Cell.Names names) {
      Set<String> options;
      if (column.type() instanceof Type.Choice choice) {
        options = choice.options();
        if (names.names().size() != 1) {
          add(row.place(), "table-cell", where + " must be exactly one name.", "");
        }
      } else if (column.type() instanceof Type.Choices choices) {
        options = choices.options();
      } else {
        add(row.place(), "table-cell", where + " is a name; a number belongs there.", "");
        return;
      }
      for (String written : new TreeSet<>(names.names())) {
        if (!options.isEmpty() && !options.contains(written)) {
          add(
              row.place(),
              "unknown-option",
              "'" + written + "' is not possible for " + where + ".",
              Spelling.hint(written, options));
        }
      }
    }
  }

  private void source(Text source) {
    if (!sources.contains(source.text())) {
      add(
          source.place(),
          "unknown-source",
          "There is no source '" + source.text() + "'.",
          Spelling.hint(source.text(), sources));
    }
  }

  // Changes by a house

  private void change(RuleSet set, RuleSet.Change change) {
    int before = problems.size();
    String written = change.rule().text().strip();
    Place place = change.rule().place();
    if (change.because().isBlank()) {
      add(
          place,
          "change-without-reason",
          "The change of '" + written + "' says no reason.",
          "Add 'because: ...'.");
    }
    String id = fullIds.get(written);
    if (id == null) {
      add(
          place,
          "unknown-rule",
          "There is no rule '" + written + "'.",
          Spelling.hint(written, fullIds.keySet()));
      return;
    }
    if (set.rules().stream().anyMatch(rule -> fullId(set, rule.id()).equals(id))) {
      add(
          place,
          "change-of-own-rule",
          "'" + id + "' is a rule of the same set.",
          "Write the rule as it should be.");
    }
    if (changes.putIfAbsent(id, change) != null) {
      add(place, "duplicate-change", "'" + id + "' is changed twice.", "Keep one of the changes.");
    }
    Rule rule = rulesById.get(id);
    boolean changesNothing =
        change.require().isEmpty() && change.when().isEmpty() && change.severity().isEmpty();
    if (change.how() == RuleSet.How.SWITCH_OFF) {
      if (!changesNothing) {
        add(
            place,
            "change-direction",
            "'" + id + "' is switched off and changed at the same time.",
            "Do one of the two.");
      }
    } else if (changesNothing) {
      add(
          place,
          "change-direction",
          "The change of '" + id + "' changes nothing.",
          "Give a new 'require', 'when' or 'severity'.");
    }
    if (rule != null && change.severity().isPresent()) {
      int direction = change.severity().get().compareTo(rule.severity());
      boolean wrong =
          (change.how() == RuleSet.How.TIGHTEN && direction < 0)
              || (change.how() == RuleSet.How.RELAX && direction > 0);
      if (wrong) {
        add(
            place,
            "change-direction",
            "'"
                + id
                + "' is "
                + (direction < 0 ? "tightened to a lower" : "relaxed to a higher")
                + " severity: "
                + rule.severity().word()
                + " to "
                + change.severity().get().word()
                + ".",
            direction < 0 ? "Say 'relax'." : "Say 'tighten'.");
      }
    }
    unsoundSince(before, id);
  }

  // Rules

  private Optional<CompiledRule> rule(RuleSet set, Rule rule, Optional<RuleSet.Change> change) {
    int before = problems.size();
    furnishings(rule);
    Optional<Checker.Context> context = context(rule);
    if (context.isEmpty()) {
      // Names cannot be looked up, but what is not understood at all is said in the same pass.
      rule.when().ifPresent(text -> Parser.parse(text, problems));
      rule.require().ifPresent(text -> Parser.parse(text, problems));
      return Optional.empty();
    }
    Optional<CompiledRule.Condition> when =
        rule.when().flatMap(text -> condition(text, context.get()));
    Optional<CompiledRule.Condition> require =
        rule.require().flatMap(text -> condition(text, context.get()));
    Checker messageChecker =
        new Checker(rule.message(), vocabulary, tables, context.get(), problems);
    Optional<Template> message = Template.of(rule.message(), messageChecker, problems);
    if (rule.alwaysKnown() && problems.size() == before) {
      Set<String> open = canBeUnknown(context.get(), when, require);
      if (!open.isEmpty()) {
        add(
            rule.place(),
            "can-be-unknown",
            "This rule says it is always known, but these can be unknown: "
                + String.join("; ", open)
                + ".",
            "Leave out 'always-known', or ask 'is known' first.");
      }
    }
    boolean replacesWhen = change.isPresent() && change.get().when().isPresent();
    boolean replacesRequire = change.isPresent() && change.get().require().isPresent();
    if (replacesWhen) {
      when = change.get().when().flatMap(text -> condition(text, context.get()));
    }
    if (replacesRequire) {
      require = change.get().require().flatMap(text -> condition(text, context.get()));
    }
    if (message.isEmpty() || problems.size() > before) {
      return Optional.empty();
    }
    return Optional.of(
        new CompiledRule(
            set,
            rule,
            change,
            context.get(),
            when,
            require,
            message.get(),
            canBeUnknown(context.get(), when, require).isEmpty()));
  }

  private static Set<String> canBeUnknown(
      Checker.Context context,
      Optional<CompiledRule.Condition> when,
      Optional<CompiledRule.Condition> require) {
    Set<String> open = new TreeSet<>();
    if (context instanceof Checker.Context.Items items && !items.kind().membershipAlwaysKnown()) {
      open.add("which ingredients count as " + items.kind().name());
    }
    when.ifPresent(condition -> Checker.canBeUnknown(condition.term(), open));
    require.ifPresent(condition -> Checker.canBeUnknown(condition.term(), open));
    return open;
  }

  private void furnishings(Rule rule) {
    if (rule.title().text().isBlank()) {
      add(rule.place(), "missing-title", "Rule '" + rule.id() + "' has no title.", "");
    }
    if (rule.message().text().isBlank()) {
      add(rule.place(), "missing-message", "Rule '" + rule.id() + "' has no message.", "");
    }
    if (rule.lesson().isBlank()) {
      add(
          rule.place(),
          "missing-lesson",
          "Rule '" + rule.id() + "' has no lesson.",
          "Say in two to five sentences why it matters.");
    }
    if (rule.sources().isEmpty()) {
      add(
          rule.place(),
          "missing-source",
          "Rule '" + rule.id() + "' names no source.",
          "Name one; common practice is a source too, and says so.");
    }
    rule.sources().forEach(this::source);
    rule.levers().forEach(this::lever);
    if (rule.kind() == Rule.Kind.REQUIREMENT && rule.require().isEmpty()) {
      add(
          rule.place(),
          "missing-require",
          "Rule '" + rule.id() + "' requires nothing.",
          "Add 'require', or make it a duty.");
    }
    if (rule.kind() == Rule.Kind.DUTY && rule.when().isEmpty() && rule.forEach().isEmpty()) {
      add(
          rule.place(),
          "missing-when",
          "Duty '" + rule.id() + "' does not say when it applies.",
          "Add 'when' or 'for each'.");
    }
  }

  private void lever(Text lever) {
    String written = lever.text().strip();
    int space = written.indexOf(' ');
    String verb = space < 0 ? written : written.substring(0, space);
    String words = space < 0 ? "" : written.substring(space + 1).strip();
    if (!LEVERS.contains(verb)) {
      String hint = Spelling.hint(verb, LEVERS);
      add(
          lever.place(),
          "lever",
          "'" + written + "' is no lever.",
          hint.isEmpty() ? "Start with " + String.join(", ", LEVERS) + "." : hint);
      return;
    }
    if (words.isEmpty()) {
      add(
          lever.place(),
          "lever",
          "'" + written + "' does not say what to " + verb + ".",
          "Name a property, 'share of ...' or 'pH'.");
      return;
    }
    boolean dottedName = words.indexOf('.') > 0 && words.chars().noneMatch(Character::isWhitespace);
    if (!dottedName || vocabulary.property(words).isPresent() || isItemProperty(words)) {
      return;
    }
    if (words.startsWith(STEP) && KEBAB.matcher(words.substring(STEP.length())).matches()) {
      return;
    }
    Set<String> known = new TreeSet<>();
    vocabulary.properties().forEach(property -> known.add(property.name()));
    vocabulary
        .kinds()
        .forEach(
            kind ->
                kind.properties().keySet().forEach(name -> known.add(kind.name() + "." + name)));
    int column = lever.text().indexOf(words);
    add(
        Places.of(lever, Math.max(0, column)),
        "unknown-name",
        "There is no property '" + words + "'.",
        Spelling.hint(words, known));
  }

  private boolean isItemProperty(String words) {
    int dot = words.indexOf('.');
    return vocabulary
        .kind(words.substring(0, dot))
        .map(kind -> kind.properties().containsKey(words.substring(dot + 1)))
        .orElse(false);
  }

  private Optional<Checker.Context> context(Rule rule) {
    if (rule.forEach().isEmpty()) {
      return Optional.of(Checker.Context.NOTHING);
    }
    Text text = rule.forEach().get();
    String written = text.text().strip();
    Matcher rows = ROWS.matcher(written);
    if (rows.matches()) {
      Table table = tables.get(rows.group(1));
      if (table == null) {
        add(
            Places.of(text, text.text().indexOf(rows.group(1))),
            "unknown-table",
            "There is no table '" + rows.group(1) + "'.",
            Spelling.hint(rows.group(1), tables.keySet()));
        return Optional.empty();
      }
      return Optional.of(new Checker.Context.Rows(table));
    }
    Optional<Vocabulary.ItemKind> kind = vocabulary.kind(written);
    if (kind.isEmpty()) {
      Collection<String> kinds =
          vocabulary.kinds().stream().map(Vocabulary.ItemKind::name).collect(Collectors.toList());
      String hint = Spelling.hint(written, kinds);
      add(
          text.place(),
          "unknown-kind",
          "A rule cannot go through each '" + written + "'.",
          hint.isEmpty() ? "Possible: " + String.join(", ", kinds) + ", or 'row of TABLE'." : hint);
      return Optional.empty();
    }
    return kind.map(Checker.Context.Items::new);
  }

  private Optional<CompiledRule.Condition> condition(Text text, Checker.Context context) {
    Checker checker = new Checker(text, vocabulary, tables, context, problems);
    return Parser.parse(text, problems)
        .flatMap(checker::condition)
        .map(term -> new CompiledRule.Condition(term, text));
  }

  private void add(Place place, String code, String message, String hint) {
    problems.add(new Problem(place, code, message, hint));
  }
}
