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
public final class Examples {
  static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Path FOLDER = Path.of("../docs/examples");

  static final String COMFREY =
      """
      formula: Comfrey hedge gel
      product:
        kind: gel
        use: leave-on
        area: [body, hands]
        users: adults
        texture: serum
        dispensing: pump
        pH: 5.0 to 5.6
        markets: [EU]
        shelf-life: 12 months
      batch: 400 g
      equipment:
        balance: 0.01 g
        vessel: { diameter: 85 mm, cover: loose }
        stirrer: { type: propeller, diameter: 50 mm }
        room: { temperature: 22 °C, humidity: 50 % }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 4 % }
        - { phase: A, name: Tetrasodium Glutamate Diacetate, share: 0.1 % }
        - { phase: A, name: Xanthan Gum, share: 0.9 % }
        - { phase: B, name: Panthenol, share: 2 % }
        - { phase: B, name: Allantoin, share: 0.3 % }
        - { phase: C, name: Symphytum Asperum Leaf Extract, share: 2 % }
        - { phase: D, name: Sodium Benzoate, share: 0.45 % }
        - { phase: D, name: Potassium Sorbate, share: 0.25 % }
        - { phase: E, name: Lactic Acid, share: to-pH }
      method:
        - { do: heat, phase: A, to: 38 °C, over: 10 min }
        - { do: disperse, phase: A, with: Xanthan Gum, stir: 800 rpm }
        - { do: hydrate, phase: A, at: 38 °C, for: 45 min, stir: 400 rpm }
        - { do: cool, phase: A, to: 28 °C, over: 25 min }
        - { do: add, phase: B, into: A, at: 28 °C, stir: 400 rpm, for: 10 min }
        - { do: add, phase: C, into: A, at: 28 °C, stir: 300 rpm, for: 5 min }
        - { do: add, phase: D, into: A, at: 28 °C, stir: 300 rpm, for: 5 min }
        - { do: adjust-pH, with: Lactic Acid, to: 5.3 }
        - { do: fill }
      """;

  private static final OwnSheets.Ready READY =
      OwnSheets.read(Bundled.load(), List.of(), Limits.USUAL).ready().value().orElseThrow();

  private Examples() {}

  static Knowledge knowledge() {
    return READY.knowledge();
  }

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

  public static String sheet(String name) {
    try {
      return Files.readString(FOLDER.resolve(name));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A sheet with a plant extract that the catalogue does not know, with its curves. */
  public static Reports.Reviewed stranger() {
    return reviewed(COMFREY, "comfrey-hedge-gel.yaml", true);
  }

  /** An example with its curves. */
  public static Reports.Reviewed drawn(String name) {
    return reviewed(sheet(name), "docs/examples/" + name, true);
  }

  public static Reports.Reviewed reviewed(
      String sheet, String file, boolean draws, Include... include) {
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
