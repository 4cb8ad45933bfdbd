package gelwright.api;

import gelwright.batch.BatchSheet;
import gelwright.calibration.Calibrated;
import gelwright.calibration.Readings;
import gelwright.comparison.FormulaComparison;
import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.labelling.LabelDraft;
import gelwright.prediction.Prediction;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Quantity;
import gelwright.review.Include;
import gelwright.review.Review;
import gelwright.rule.RuleSet;
import gelwright.stability.StabilityPlan;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;

/** What the commands need of the engine, its readers and its knowledge. */
interface Engine {
  /** The bundled knowledge, with the sheets of these folders added; the later win. */
  Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders);

  /**
   * Checks the rule sets of these folders, or the bundled ones where there is no folder. A problem
   * in one rule does not keep the others from being checked.
   */
  Checked check(List<Path> ruleFolders, List<Path> ingredientFolders, LocalDate on);

  /** Knowledge that was read and found sound. Immutable; used by several threads. */
  interface Loaded {
    /** Bundled first, then the added ones, in order. */
    List<RuleSet> ruleSets();

    Catalogue catalogue();

    /**
     * Reads a formula sheet.
     *
     * @param content of the file
     * @param file its name; it tells the format and is shown in problems
     */
    Attempt<Formula> read(byte[] content, String file);

    /**
     * Reads a table with the sheet beside it that has its brief and method.
     *
     * @param content of the table
     * @param file name of the table
     * @param brief content of the sheet beside it
     * @param briefFile its name
     */
    Attempt<Formula> read(byte[] content, String file, byte[] brief, String briefFile);

    /** Reviews a formula, with what is asked for besides. */
    Review review(Formula formula, LocalDate on, Set<Include> include);

    /** Predicts what a formula is like. */
    Prediction predict(Formula formula, LocalDate on);

    /** Compares two formulas. */
    FormulaComparison compare(Formula first, Formula second, LocalDate on);

    /**
     * Reads a readings sheet.
     *
     * @param content of the file
     * @param file its name; it tells the format and is shown in problems
     */
    Attempt<Readings> readReadings(byte[] content, String file);

    /** Fits a lot's flow law to readings. */
    Calibrated calibrate(Readings readings);

    /** A batch sheet for a batch of this mass. */
    BatchSheet batch(Formula formula, Quantity make, LocalDate on);

    /** The draft of a label. */
    LabelDraft label(Formula formula, LocalDate on);

    /** A plan of stability tests. */
    StabilityPlan stability(Formula formula, LocalDate on);

    /** How many examples a rule has. */
    int examplesOf(String rule);
  }

  /**
   * What an example did.
   *
   * @param rule full id
   * @param expected what the example is there to show, such as {@code holds}
   * @param got what came out, or why nothing did
   * @param agrees whether the two agree
   * @param place of the example
   */
  record ExampleOutcome(String rule, String expected, String got, boolean agrees, Place place) {}

  /**
   * A rule without an example of each kind that it owes.
   *
   * @param rule full id
   * @param kinds what is missing, such as {@code breaks}
   * @param place of the rule
   */
  record Lacking(String rule, List<String> kinds, Place place) {
    public Lacking {
      kinds = List.copyOf(kinds);
    }
  }

  /**
   * What checking rule sets came to.
   *
   * @param problems of reading and compiling
   * @param rules how many rules there are, sound or not
   * @param changes how many changes of other rules
   * @param examples of the sound rules, run
   * @param lacking sound rules without all examples
   * @param unshown kinds of examples of which the sheets say that no sheet can show them
   * @param examplesRun false while sheets that examples rest on cannot be read
   */
  record Checked(
      List<Problem> problems,
      int rules,
      int changes,
      List<ExampleOutcome> examples,
      List<Lacking> lacking,
      int unshown,
      boolean examplesRun) {
    public Checked {
      problems = List.copyOf(problems);
      examples = List.copyOf(examples);
      lacking = List.copyOf(lacking);
    }
  }
}
