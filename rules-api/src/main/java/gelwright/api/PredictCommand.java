package gelwright.api;

import gelwright.charts.Chart;
import gelwright.charts.CompositionBars;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import gelwright.prediction.Prediction;
import gelwright.problem.Spelling;
import gelwright.reports.PredictionReport;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Predicts what a formula is like. */
@Command(
    name = "predict",
    mixinStandardHelpOptions = true,
    description =
        "Tells what a formula is likely to be: every property with its range, sources and doubts, and"
            + " curves.")
final class PredictCommand implements Callable<Integer> {
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

  @Option(
      names = "--curve",
      paramLabel = "NAME",
      description =
          "The picture that svg draws: flow, preservatives, temperature, water-activity or"
              + " composition.")
  private Optional<String> curve = Optional.empty();

  @Mixin private ReportOptions report = new ReportOptions();

  /** How a prediction is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  PredictCommand(Engine engine, Terminal terminal) {
    this.engine = engine;
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    if (format == Format.SVG && curve.isEmpty()) {
      throw wrong(
          "--format svg draws one picture: say which with --curve flow, preservatives, temperature,"
              + " water-activity or composition.");
    }
    if (format != Format.SVG && curve.isPresent()) {
      throw wrong("--curve goes with --format svg; text and json tell of all curves.");
    }
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
    report.write(written(loaded.get().predict(formula.value().get(), day)), terminal);
    return ExitStatus.FINE;
  }

  private byte[] written(Prediction prediction) {
    return switch (format) {
      case TEXT -> report.encoded(PredictionText.of(prediction, report.ink(terminal)), terminal);
      case JSON -> PredictionReport.indented().text(prediction).getBytes(StandardCharsets.UTF_8);
      case SVG -> drawn(prediction).getBytes(StandardCharsets.UTF_8);
    };
  }

  private String drawn(Prediction prediction) {
    String name = curve.orElse("");
    if (name.equals(CompositionBars.NAME)) {
      return CompositionBars.of(prediction)
          .map(bars -> Chart.of(bars, prediction.formula()).svg(name))
          .orElseThrow(() -> wrong("--curve: no share of this formula is known."));
    }
    List<String> names = new ArrayList<>(prediction.curves().stream().map(Curve::name).toList());
    names.add(CompositionBars.NAME);
    Curve chosen =
        prediction
            .curve(name)
            .orElseThrow(
                () ->
                    wrong(
                        ("--curve: there is no curve " + name + ". " + Spelling.hint(name, names))
                            .strip()));
    return Chart.of(chosen, prediction.formula()).svg(name);
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
