package gelwright.api;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.problem.Problem;
import gelwright.review.Include;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.RuleSet;
import gelwright.sheets.Bundled;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.ExampleRunner;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.RuleSheet;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The engine with the knowledge that the program brings. */
final class BundledEngine implements Engine {
  @Override
  public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
    Library bundled = Bundled.load();
    List<Path> own = new ArrayList<>(ingredientFolders);
    own.addAll(ruleFolders);
    Read<Library> library =
        own.isEmpty() ? Read.ok(bundled) : Bundled.withOwn(bundled, own, Limits.USUAL);
    if (library.value().isEmpty()) {
      return Attempt.failed(library.problems());
    }
    Library all = library.value().get();
    Read<Knowledge> knowledge = BundledRuleSets.compile(all);
    return knowledge
        .value()
        .map(ready -> Attempt.<Loaded>of(new Everything(all, bundled.ruleSheets().size(), ready)))
        .orElseGet(() -> Attempt.failed(knowledge.problems()));
  }

  private static final class Everything implements Loaded {
    private final Library library;
    private final int bundledSets;
    private final Knowledge knowledge;
    private final Reviewer reviewer;
    private final FormulaReader reader = new FormulaReader();

    Everything(Library library, int bundledSets, Knowledge knowledge) {
      this.library = library;
      this.bundledSets = bundledSets;
      this.knowledge = knowledge;
      this.reviewer = Reviewer.using(knowledge);
    }

    @Override
    public List<RuleSet> ruleSets() {
      return library.ruleSets();
    }

    @Override
    public List<RuleSet> added() {
      List<RuleSet> all = library.ruleSets();
      return all.subList(bundledSets, all.size());
    }

    @Override
    public Catalogue catalogue() {
      return library.catalogue();
    }

    @Override
    public Attempt<Formula> read(byte[] content, String file) {
      return attempt(reader.read(content, file));
    }

    @Override
    public Attempt<Formula> read(byte[] content, String file, byte[] brief, String briefFile) {
      return attempt(
          Document.read(brief, briefFile, Document.Format.of(briefFile), Limits.USUAL)
              .then(beside -> reader.readTable(content, file, Optional.of(beside))));
    }

    private static Attempt<Formula> attempt(Read<Formula> read) {
      List<Problem> problems = read.problems();
      return read.value().map(Attempt::of).orElseGet(() -> Attempt.failed(problems));
    }

    @Override
    public Review review(Formula formula, LocalDate on, boolean trace) {
      return reviewer.review(formula, on, trace ? Set.of(Include.TRACE) : Set.of());
    }

    @Override
    public List<ExampleOutcome> runExamples(List<RuleSet> sets, LocalDate on) {
      ExampleRunner runner = new ExampleRunner(library, knowledge.rules());
      List<ExampleOutcome> outcomes = new ArrayList<>();
      for (RuleSheet sheet : library.ruleSheets()) {
        if (sets.contains(sheet.ruleSet())) {
          for (ExampleRunner.Result result : runner.run(sheet, on)) {
            outcomes.add(
                new ExampleOutcome(
                    result.rule(),
                    result.expected(),
                    result.got() + result.row().map(row -> " for " + row).orElse(""),
                    result.agrees(),
                    result.place()));
          }
        }
      }
      return outcomes;
    }

    @Override
    public int examplesOf(String rule) {
      int count = 0;
      for (RuleSheet sheet : library.ruleSheets()) {
        for (var example : sheet.examples()) {
          if (rule.equals(sheet.ruleSet().id() + "." + example.rule())) {
            count++;
          }
        }
      }
      return count;
    }
  }
}
