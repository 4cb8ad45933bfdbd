package gelwright.api;

import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.review.Remedy;
import gelwright.sheets.SheetEditor;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** A remedy made in the text of the sheet that was reviewed. */
final class AppliedRemedy {
  private AppliedRemedy() {}

  /**
   * The text of the sheet with the remedy made.
   *
   * @param file of the sheet, or of the table that has its recipe
   * @param formula as read from there
   * @param remedy offered for it
   */
  static Attempt<byte[]> of(Path file, Formula formula, Remedy remedy) throws IOException {
    Optional<Path> beside = SheetKind.brief(file);
    if (beside.isPresent() && !leavesTheRest(remedy.edits(), formula)) {
      return Attempt.failed(
          List.of(
              new Problem(
                  new Place(file.toString(), 0, 0, ""),
                  "in-two-files",
                  "This remedy changes what stands in "
                      + beside.get()
                      + ", beside the table: "
                      + remedy.text(),
                  "Make the change by hand, in both files.")));
    }
    String text = new String(Files.readAllBytes(file), StandardCharsets.UTF_8);
    Read<String> changed = new SheetEditor().apply(remedy.edits(), text, file.toString());
    List<Problem> problems = changed.problems();
    return changed
        .value()
        .map(now -> Attempt.of(now.getBytes(StandardCharsets.UTF_8)))
        .orElseGet(() -> Attempt.failed(problems));
  }

  /** Whether edits change nothing but the recipe. */
  private static boolean leavesTheRest(List<Edit> edits, Formula formula) {
    Formula changed = Edit.all(edits, formula);
    return changed.method().equals(formula.method())
        && changed.brief().equals(formula.brief())
        && changed.batch().equals(formula.batch());
  }
}
