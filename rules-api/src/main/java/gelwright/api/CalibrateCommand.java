package gelwright.api;

import gelwright.calibration.Calibrated;
import gelwright.calibration.Calibration;
import gelwright.calibration.Readings;
import gelwright.charts.Chart;
import gelwright.reports.CalibrationReport;
import gelwright.sheets.LotSheet;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Fits a lot's flow law to readings. */
@Command(
    name = "calibrate",
    mixinStandardHelpOptions = true,
    description =
        "Fits the flow law of one lot of gum to readings, and writes the ingredient sheet with which"
            + " later reviews use it.")
final class CalibrateCommand implements Callable<Integer> {
  private final Engine engine;
  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

  @Parameters(paramLabel = "FILE", description = "A readings sheet: YAML or JSON.")
  private String file = "";

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      description = "text, json or svg (default: text); svg draws readings and law.")
  private Format format = Format.TEXT;

  @Option(
      names = "--sheet",
      paramLabel = "FILE",
      description =
          "Write the lot's ingredient sheet into this file. Lay it into the folder given to"
              + " --ingredients, and write lot: NAME on the line of the gum.")
  private Optional<Path> sheet = Optional.empty();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write into this file instead of standard output.")
  private Optional<Path> out = Optional.empty();

  /** How a calibration is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  CalibrateCommand(Engine engine, Terminal terminal) {
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
    Attempt<byte[]> content = ReviewCommands.content(path);
    Attempt<Readings> readings =
        content.value().isPresent()
            ? loaded.get().readReadings(content.value().get(), path.toString())
            : Attempt.failed(content.problems());
    if (readings.value().isEmpty()) {
      terminal.complain(TextReport.problems(readings.problems()));
      return ExitStatus.WRONG;
    }
    Calibrated calibrated = loaded.get().calibrate(readings.value().get());
    if (calibrated.value().isEmpty()) {
      terminal.complain(TextReport.problems(calibrated.problems()));
      return ExitStatus.WRONG;
    }
    Calibration calibration = calibrated.value().get();
    if (sheet.isPresent()) {
      write(sheet.get(), "--sheet", LotSheet.text(calibration).getBytes(StandardCharsets.UTF_8));
    }
    byte[] written = written(calibration);
    if (out.isPresent()) {
      write(out.get(), "--out", written);
    } else {
      print(written);
    }
    return ExitStatus.FINE;
  }

  private byte[] written(Calibration calibration) {
    return switch (format) {
      case TEXT ->
          CalibrationText.of(calibration, out.isPresent() ? Ink.PLAIN : terminal.ink())
              .getBytes(out.isPresent() ? StandardCharsets.UTF_8 : terminal.charset());
      case JSON -> CalibrationReport.indented().text(calibration).getBytes(StandardCharsets.UTF_8);
      case SVG ->
          Chart.of(
                  calibration.curve(),
                  calibration.lot().ingredient() + ", lot " + calibration.lot().name())
              .svg("calibration")
              .getBytes(StandardCharsets.UTF_8);
    };
  }

  private void write(Path path, String option, byte[] content) {
    try {
      Files.write(path, content);
    } catch (IOException e) {
      throw wrong(option + ": " + path + " could not be written.");
    }
  }

  private void print(byte[] content) {
    try {
      terminal.out().write(content);
      terminal.out().flush();
    } catch (IOException e) {
      throw wrong("Standard output could not be written.");
    }
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
