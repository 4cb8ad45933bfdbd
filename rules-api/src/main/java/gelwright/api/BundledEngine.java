package gelwright.api;

import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.calibration.Calibrated;
import gelwright.calibration.Calibrator;
import gelwright.calibration.Readings;
import gelwright.comparison.Comparer;
import gelwright.comparison.FormulaComparison;
import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.labelling.LabelDraft;
import gelwright.labelling.LabelDrafts;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.review.Include;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.RuleSet;
import gelwright.sheets.Bundled;
import gelwright.sheets.ExampleRunner;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.ReadingsReader;
import gelwright.sheets.RuleSheet;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import gelwright.stability.StabilityPlan;
import gelwright.stability.StabilityPlans;
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
    Read<OwnSheets.Ready> ready = sheets(ruleFolders, ingredientFolders).ready();
    List<Problem> problems = ready.problems();
    return ready
        .value()
        .map(all -> Attempt.<Loaded>of(new Everything(all.library(), all.knowledge())))
        .orElseGet(() -> Attempt.failed(problems));
  }

  @Override
  public Checked check(List<Path> ruleFolders, List<Path> ingredientFolders, LocalDate on) {
    OwnSheets sheets = sheets(ruleFolders, ingredientFolders);
    OwnSheets.Checked checked = ruleFolders.isEmpty() ? sheets.checkKnown(on) : sheets.checkOwn(on);
    return new Checked(
        checked.problems(),
        checked.sets().stream().mapToInt(set -> set.rules().size()).sum(),
        checked.sets().stream().mapToInt(set -> set.changes().size()).sum(),
        checked.results().stream().map(BundledEngine::outcome).toList(),
        checked.lacking().stream()
            .map(each -> new Lacking(each.rule(), each.kinds(), each.place()))
            .toList(),
        checked.unshown(),
        checked.examplesRun());
  }

  private static OwnSheets sheets(List<Path> ruleFolders, List<Path> ingredientFolders) {
    List<Path> own = new ArrayList<>(ingredientFolders);
    own.addAll(ruleFolders);
    return OwnSheets.read(Bundled.load(), own, Limits.USUAL);
  }

  private static ExampleOutcome outcome(ExampleRunner.Result result) {
    return new ExampleOutcome(
        result.rule(),
        result.expected(),
        result.got() + result.row().map(row -> " for " + row).orElse(""),
        result.agrees(),
        result.place());
  }

  private static final class Everything implements Loaded {
    private final Library library;
    private final Knowledge knowledge;
    private final Reviewer reviewer;
    private final Predictor predictor;
    private final Comparer comparer;
    private final FormulaReader reader = new FormulaReader();

    Everything(Library library, Knowledge knowledge) {
      this.library = library;
      this.knowledge = knowledge;
      this.reviewer = Reviewer.using(knowledge);
      this.predictor = Predictor.using(knowledge);
      this.comparer = Comparer.using(knowledge);
    }

    @Override
    public List<RuleSet> ruleSets() {
      return library.ruleSets();
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

    private static <T> Attempt<T> attempt(Read<T> read) {
      List<Problem> problems = read.problems();
      return read.value().map(Attempt::of).orElseGet(() -> Attempt.failed(problems));
    }

    @Override
    public Review review(Formula formula, LocalDate on, Set<Include> include) {
      return reviewer.review(formula, on, include);
    }

    @Override
    public Prediction predict(Formula formula, LocalDate on) {
      return predictor.predict(formula, on);
    }

    @Override
    public FormulaComparison compare(Formula first, Formula second, LocalDate on) {
      return comparer.compare(first, second, on);
    }

    @Override
    public Attempt<Readings> readReadings(byte[] content, String file) {
      return attempt(new ReadingsReader().read(content, file));
    }

    @Override
    public Calibrated calibrate(Readings readings) {
      return Calibrator.using(library.catalogue()).calibrate(readings);
    }

    @Override
    public BatchSheet batch(Formula formula, Quantity make, LocalDate on) {
      return BatchSheets.using(knowledge).of(formula, make, on);
    }

    @Override
    public LabelDraft label(Formula formula, LocalDate on) {
      return LabelDrafts.using(knowledge).of(formula, on);
    }

    @Override
    public StabilityPlan stability(Formula formula, LocalDate on) {
      return StabilityPlans.using(knowledge).of(formula, on);
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
