package gelwright.api;

import gelwright.charts.Chart;
import gelwright.charts.CompositionBars;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import gelwright.prediction.Prediction;
import gelwright.problem.Spelling;
import gelwright.reports.PredictionReport;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Predicts what a formula is like. */
@Command(
    name = "predict",
    mixinStandardHelpOptions = true,
    description =
        "Tells what a formula is likely to be: every property with its range, sources and doubts, and"
            + " curves.")
final class PredictCommand extends OneSheetCommand {
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

  /** How a prediction is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  PredictCommand(Engine engine, Terminal terminal) {
    super(engine, terminal);
  }

  @Override
  void check() {
    if (format == Format.SVG && curve.isEmpty()) {
      throw wrong(
          "--format svg draws one picture: say which with --curve flow, preservatives, temperature,"
              + " water-activity or composition.");
    }
    if (format != Format.SVG && curve.isPresent()) {
      throw wrong("--curve goes with --format svg; text and json tell of all curves.");
    }
  }

  @Override
  byte[] made(Engine.Loaded loaded, Formula formula, LocalDate day) {
    Prediction prediction = loaded.predict(formula, day);
    return switch (format) {
      case TEXT -> encoded(PredictionText.of(prediction, ink()));
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
}
