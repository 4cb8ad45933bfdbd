package gelwright.api;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.problem.Place;
import gelwright.review.Review;
import gelwright.rule.RuleSet;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;

/** What the commands need of the engine, its readers and its knowledge. */
interface Engine {
  /** The bundled knowledge, with the sheets of these folders added; the later win. */
  Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders);

  /** Knowledge that was read and found sound. Immutable; used by several threads. */
  interface Loaded {
    /** Bundled first, then the added ones, in order. */
    List<RuleSet> ruleSets();

    /** The rule sets that came from the added folders. */
    List<RuleSet> added();

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

    /** Reviews a formula. */
    Review review(Formula formula, LocalDate on, boolean trace);

    /** The examples that the rules of these sets bring with them, run for a date. */
    List<ExampleOutcome> runExamples(List<RuleSet> sets, LocalDate on);

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
}
