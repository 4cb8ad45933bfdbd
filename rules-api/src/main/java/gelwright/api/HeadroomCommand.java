package gelwright.api;

import gelwright.charts.Chart;
import gelwright.charts.HeadroomBars;
import gelwright.formula.Formula;
import gelwright.reports.HeadroomReport;
import gelwright.review.Headroom;
import gelwright.review.Include;
import gelwright.review.Review;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Tells how far the numbers of a formula can move. */
@Command(
    name = "headroom",
    mixinStandardHelpOptions = true,
    description =
        "Tells how far each share, the pH and each temperature can move before the first rule changes"
            + " its outcome, and which rule that is.")
final class HeadroomCommand implements Callable<Integer> {
  private final Engine engine;
  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

  @Parameters(paramLabel = "FILE", description = "A formula sheet: YAML, JSON or CSV.")
  private String file = "";

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      description = "text, json or svg (default: text).")
  private Format format = Format.TEXT;

  @Mixin private ReportOptions report = new ReportOptions();

  /** How the headroom is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  HeadroomCommand(Engine engine, Terminal terminal) {
    this.engine = engine;
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    Path path;
    try {
      path = Path.of(file);
    } catch (InvalidPathException e) {
      throw wrong(file + " is no name of a file.");
    }
    Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
    if (loaded.isEmpty()) {
      return ExitStatus.WRONG;
    }
    Attempt<Formula> formula = ReviewCommands.read(path, loaded.get());
    if (formula.value().isEmpty()) {
      terminal.complain(TextReport.problems(formula.problems()));
      return ExitStatus.WRONG;
    }
    LocalDate day = report.day(terminal);
    report.write(
        written(loaded.get().review(formula.value().get(), day, Set.of(Include.HEADROOM))),
        terminal);
    return ExitStatus.FINE;
  }

  private byte[] written(Review review) {
    List<Headroom> headroom = review.headroom().orElse(List.of());
    return switch (format) {
      case TEXT ->
          report.encoded(HeadroomText.of(review, headroom, report.ink(terminal)), terminal);
      case JSON -> HeadroomReport.indented().text(review).getBytes(StandardCharsets.UTF_8);
      case SVG ->
          HeadroomBars.of(headroom)
              .map(bars -> Chart.of(bars, review.formula()).svg("headroom"))
              .orElseThrow(
                  () -> wrong("There is nothing to draw: no number of this formula can be moved."))
              .getBytes(StandardCharsets.UTF_8);
    };
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
