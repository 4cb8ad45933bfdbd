package gelwright.review;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;

/** The example formulas, and random ones around them. */
public final class Variations {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");

  private Variations() {}

  /** The example formulas, in the order of their files. */
  public static List<Formula> examples() {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      List<Formula> formulas = new ArrayList<>();
      for (Path file : files.filter(each -> each.toString().endsWith(".yaml")).sorted().toList()) {
        formulas.add(
            new FormulaReader()
                .read(Files.readAllBytes(file), file.getFileName().toString())
                .orThrow());
      }
      return formulas;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A formula with one to four random changes; what it adds up to stays as it is. */
  public static Formula around(Formula formula, Random random) {
    Formula changed = formula;
    int count = 1 + random.nextInt(4);
    for (int i = 0; i < count; i++) {
      changed = Edit.all(edits(changed, random), changed);
    }
    return changed;
  }

  /** One random change, in one or two edits. */
  public static List<Edit> edits(Formula formula, Random random) {
    return switch (random.nextInt(8)) {
      case 0, 1, 2 -> share(formula, random);
      case 3 -> List.of(new Edit.OfPH(Optional.empty(), (35 + random.nextInt(40)) / 10.0));
      case 4 -> step(formula, random);
      case 5 ->
          List.of(
              new Edit.OfBrief(
                  Edit.Promise.TEXTURE,
                  formula.brief().texture().orElse(""),
                  Brief.TEXTURES.get(random.nextInt(Brief.TEXTURES.size()))));
      case 6 ->
          List.of(
              new Edit.OfBrief(
                  Edit.Promise.DISPENSING,
                  formula.brief().dispensing().orElse(""),
                  Brief.DISPENSING.get(random.nextInt(Brief.DISPENSING.size()))));
      default ->
          List.of(
              new Edit.OfBatch(
                  formula.batch(), Quantity.of(50 * (1 + random.nextInt(40)), Unit.GRAM)));
    };
  }

  private static List<Edit> share(Formula formula, Random random) {
    List<Integer> stated = new ArrayList<>();
    for (int i = 0; i < formula.lines().size(); i++) {
      if (formula.lines().get(i).amount() instanceof Amount.Stated
          && !formula.lines().get(i).name().equals("Aqua")) {
        stated.add(i);
      }
    }
    int index = stated.get(random.nextInt(stated.size()));
    Line line = formula.lines().get(index);
    Share from = ((Amount.Stated) line.amount()).share();
    double times = Math.exp(0.8 * random.nextGaussian());
    // To a thousandth of a percent, and never more than the water has room for.
    double percent = Math.round(1000 * Math.min(from.percent() * times, 15)) / 1000.0;
    Share to = Share.nearest(Math.max(0.001, percent));
    List<Edit> edits = new ArrayList<>();
    edits.add(new Edit.OfAmount(index, line.name(), line.amount(), new Amount.Stated(to)));
    for (int i = 0; i < formula.lines().size(); i++) {
      Line water = formula.lines().get(i);
      if (water.name().equals("Aqua") && water.amount() instanceof Amount.Stated stands) {
        Amount left = new Amount.Stated(stands.share().minus(to.minus(from)));
        edits.add(new Edit.OfAmount(i, water.name(), water.amount(), left));
      }
    }
    return edits;
  }

  private static List<Edit> step(Formula formula, Random random) {
    List<Edit> possible = new ArrayList<>();
    for (int i = 0; i < formula.method().size(); i++) {
      Step step = formula.method().get(i);
      if (step.temperature().isPresent()) {
        possible.add(
            new Edit.OfStep(
                i,
                "at",
                Edit.Part.TEMPERATURE,
                step.temperature(),
                Quantity.of(20 + random.nextInt(65), Unit.CELSIUS)));
      }
      if (step.lasting().isPresent()) {
        possible.add(
            new Edit.OfStep(
                i,
                "for",
                Edit.Part.LASTING,
                step.lasting(),
                Quantity.of(1 + random.nextInt(90), Unit.MINUTE)));
      }
      if (step.stir().isPresent()) {
        possible.add(
            new Edit.OfStep(
                i,
                "stir",
                Edit.Part.STIR,
                step.stir(),
                Quantity.of(50 * (1 + random.nextInt(40)), Unit.RPM)));
      }
    }
    int other = random.nextInt(formula.method().size());
    possible.add(new Edit.Move(random.nextInt(formula.method().size()), other));
    return List.of(possible.get(random.nextInt(possible.size())));
  }
}
