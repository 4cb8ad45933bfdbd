package gelwright.api.html;

import gelwright.batch.BatchSheets;
import gelwright.formula.Formula;
import gelwright.prediction.Predictor;
import gelwright.review.Include;
import gelwright.review.Knowledge;
import gelwright.review.Reviewer;
import gelwright.sheets.Bundled;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/** Example formulas, reviewed for the tests of reports. */
final class Examples {
  static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Path FOLDER = Path.of("../docs/examples");

  private static final OwnSheets.Ready READY =
      OwnSheets.read(Bundled.load(), List.of(), Limits.USUAL).ready().value().orElseThrow();

  private Examples() {}

  static Library library() {
    return READY.library();
  }

  static List<String> names() {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files
          .map(path -> path.getFileName().toString())
          .filter(name -> name.endsWith(".yaml"))
          .sorted()
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static String sheet(String name) {
    try {
      return Files.readString(FOLDER.resolve(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** An example with its curves. */
  static Reports.Reviewed drawn(String name) {
    return reviewed(sheet(name), "docs/examples/" + name, true);
  }

  static Reports.Reviewed reviewed(String sheet, String file, boolean draws, Include... include) {
    Read<Formula> read = new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), file);
    Formula formula =
        read.value().orElseThrow(() -> new AssertionError(read.problems().toString()));
    Knowledge knowledge = READY.knowledge();
    return new Reports.Reviewed(
        formula,
        Reviewer.using(knowledge).review(formula, DAY, Set.of(include)),
        draws ? Optional.of(Predictor.using(knowledge).predict(formula, DAY)) : Optional.empty(),
        BatchSheets.using(knowledge).of(formula, Reports.batch(formula), DAY));
  }
}
