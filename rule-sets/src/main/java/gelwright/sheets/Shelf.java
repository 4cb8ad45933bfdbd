package gelwright.sheets;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.rule.Text;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import gelwright.sheets.tree.Words;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Collects sheets of every kind, told by their first keys, and puts them together. */
final class Shelf {
  private final Limits limits;
  private final Problems problems;
  private final List<Ingredient> ingredients = new ArrayList<>();
  private final List<Source> sources = new ArrayList<>();
  private final List<Text> cited = new ArrayList<>();
  private final List<Lot> lots = new ArrayList<>();
  private final List<Text> lotsOf = new ArrayList<>();
  private final List<RuleSheet> ruleSheets = new ArrayList<>();
  private final Map<String, Document> bases = new HashMap<>();
  private final Set<String> namedSources = new HashSet<>();
  private final Set<String> faulty = new HashSet<>();
  private final Set<RuleMapping.Told> told = new HashSet<>();
  private boolean examplesCanRun = true;

  Shelf(Limits limits) {
    this.limits = limits;
    this.problems = new Problems(limits);
  }

  void problem(Place place, String code, String message, String hint) {
    problems.add(place, code, message, hint);
  }

  /** Takes over what another shelf has collected, behind what is here. */
  void add(Shelf other) {
    problems.addAll(other.problems.inOrder());
    ingredients.addAll(other.ingredients);
    sources.addAll(other.sources);
    cited.addAll(other.cited);
    lots.addAll(other.lots);
    lotsOf.addAll(other.lotsOf);
    ruleSheets.addAll(other.ruleSheets);
    other.bases.forEach(this::base);
  }

  void add(byte[] bytes, String file) {
    take(Document.read(bytes, file, Document.Format.of(file), limits)).ifPresent(this::add);
  }

  void add(Document document) {
    if (document.root() instanceof Node.Mapping mapping
        && mapping.get("sources").orElse(null) instanceof Node.Mapping named) {
      namedSources.addAll(named.entries().keySet());
    }
    Node.Mapping root =
        document.root() instanceof Node.Mapping mapping
            ? mapping
            : new Node.Mapping(document.root().place(), Map.of(), false);
    boolean ingredients =
        root.entries().containsKey("ingredients") || root.entries().containsKey("lots");
    if (ingredients && !root.entries().containsKey("formula")) {
      Read<IngredientSheet> read = new IngredientReader(limits).read(document);
      examplesCanRun &= read.isOk();
      take(read)
          .ifPresent(
              sheet -> {
                this.ingredients.addAll(sheet.ingredients());
                lots.addAll(sheet.lots());
                lotsOf.addAll(sheet.lotsOf());
                sources.addAll(sheet.sources());
                cited.addAll(sheet.cited());
              });
    } else if (root.entries().containsKey("sources")) {
      take(new SourceReader(limits).read(document)).ifPresent(sources::addAll);
    } else if (root.entries().containsKey("rule-set")) {
      Problems found = Problems.of(document, limits);
      RuleSetReader.readable(document, found).ifPresent(sheet -> add(sheet, found.size()));
      problems.addAll(found.inOrder());
    } else if (root.entries().containsKey("formula")) {
      Read<Formula> read = new FormulaReader(limits).read(document);
      examplesCanRun &= read.isOk();
      take(read).ifPresent(base -> base(base.name(), document));
    } else {
      problems.addAll(document.problems());
      problems.add(
          document.root().place(),
          "unknown-sheet",
          "This is no sheet.",
          root.entries().containsKey(ReadingsMapping.FIRST)
              ? "Readings are for calibrate, which writes the sheet that belongs here."
              : "A sheet has one of the keys sources, ingredients, lots, rule-set and formula.");
    }
  }

  private void add(RuleMapping.Readable sheet, int found) {
    ruleSheets.add(sheet.sheet());
    told.addAll(sheet.told());
    Set<String> ids = new HashSet<>(sheet.faulty());
    if (found > limits.problems()) {
      // Problems past the limit are only counted, so nothing is known to be without one.
      sheet.sheet().ruleSet().rules().forEach(rule -> ids.add(rule.id()));
    }
    ids.forEach(id -> faulty.add(sheet.sheet().ruleSet().id() + "." + id));
  }

  private void base(String name, Document document) {
    if (bases.put(name, document) != null) {
      problems.add(
          document.root().place(),
          "duplicate-name",
          "There is another base formula " + Words.quoted(name) + ".");
    }
  }

  private <T> Optional<T> take(Read<T> read) {
    problems.addAll(read.problems());
    return read.value();
  }

  /** What the sheets say, later ones beating earlier ones and those known before. */
  Read<Library> onTopOf(Library known) {
    Readable readable = readableOnTopOf(known);
    return readable.problems().isEmpty()
        ? Read.ok(readable.library())
        : Read.failed(readable.problems());
  }

  /** The same as far as it can be read, for one who wants to know all that is wrong at once. */
  Readable readableOnTopOf(Library known) {
    Catalogue catalogue = known.catalogue().with(ingredients, sources).withLots(lots);
    for (Text name : lotsOf) {
      if (catalogue.find(name.text()).isEmpty()) {
        problems.add(
            name.place(),
            "unknown-ingredient",
            "There are lots of " + Words.quoted(name.text()) + ", which is no ingredient.",
            Spelling.hint(name.text(), catalogue.closest(name.text(), 2)));
      }
    }
    for (Text id : cited) {
      if (catalogue.source(id.text()).isEmpty() && !namedSources.contains(id.text())) {
        problems.add(
            id.place(),
            "unknown-source",
            "There is no source " + Words.quoted(id.text()) + ".",
            Spelling.hint(id.text(), catalogue.sources().stream().map(Source::id).toList()));
      }
    }
    List<RuleSheet> allRules = new ArrayList<>(known.ruleSheets());
    allRules.addAll(ruleSheets);
    Map<String, Document> allBases = new HashMap<>(known.bases());
    allBases.putAll(bases);
    Library library = new Library(catalogue, allRules, allBases);
    Set<String> ids = new HashSet<>(namedSources);
    catalogue.sources().forEach(source -> ids.add(source.id()));
    return new Readable(library, ruleSheets, problems.inOrder(), ids, faulty, told, examplesCanRun);
  }

  /**
   * What could be read, whether or not there were problems.
   *
   * @param library everything readable; rules may have stand-ins for what is missing in them
   * @param own the rule sheets of this shelf alone
   * @param problems of reading, in order
   * @param sources ids of all sources, also of those that could not be read
   * @param faulty full ids of rules with a problem of reading
   * @param told what the rule book need not say again
   * @param examplesCanRun whether all ingredients and base formulas are as they should be
   */
  record Readable(
      Library library,
      List<RuleSheet> own,
      List<Problem> problems,
      Set<String> sources,
      Set<String> faulty,
      Set<RuleMapping.Told> told,
      boolean examplesCanRun) {
    Readable {
      own = List.copyOf(own);
      problems = List.copyOf(problems);
      sources = Set.copyOf(sources);
      faulty = Set.copyOf(faulty);
      told = Set.copyOf(told);
    }
  }
}
