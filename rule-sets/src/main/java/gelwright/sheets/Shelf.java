package gelwright.sheets;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
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
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Collects sheets of every kind, told by their first keys, and puts them together. */
final class Shelf {
  private final Limits limits;
  private final Problems problems;
  private final List<Ingredient> ingredients = new ArrayList<>();
  private final List<Source> sources = new ArrayList<>();
  private final List<Text> cited = new ArrayList<>();
  private final List<RuleSheet> ruleSheets = new ArrayList<>();
  private final Map<String, Document> bases = new HashMap<>();

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
    ruleSheets.addAll(other.ruleSheets);
    other.bases.forEach(this::base);
  }

  void add(byte[] bytes, String file) {
    take(Document.read(bytes, file, Document.Format.of(file), limits)).ifPresent(this::add);
  }

  private void add(Document document) {
    Node.Mapping root =
        document.root() instanceof Node.Mapping mapping
            ? mapping
            : new Node.Mapping(document.root().place(), Map.of(), false);
    if (root.entries().containsKey("ingredients") && !root.entries().containsKey("formula")) {
      take(new IngredientReader(limits).read(document))
          .ifPresent(
              sheet -> {
                ingredients.addAll(sheet.ingredients());
                sources.addAll(sheet.sources());
                cited.addAll(sheet.cited());
              });
    } else if (root.entries().containsKey("sources")) {
      take(new SourceReader(limits).read(document)).ifPresent(sources::addAll);
    } else if (root.entries().containsKey("rule-set")) {
      take(new RuleSetReader(limits).read(document)).ifPresent(ruleSheets::add);
    } else if (root.entries().containsKey("formula")) {
      take(new FormulaReader(limits).read(document)).ifPresent(base -> base(base.name(), document));
    } else {
      problems.addAll(document.problems());
      problems.add(
          document.root().place(),
          "unknown-sheet",
          "This is no sheet.",
          "A sheet has one of the keys sources, ingredients, rule-set and formula.");
    }
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
    Catalogue catalogue = known.catalogue().with(ingredients, sources);
    for (Text id : cited) {
      if (catalogue.source(id.text()).isEmpty()) {
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
    return problems.orElse(() -> new Library(catalogue, allRules, allBases));
  }
}
