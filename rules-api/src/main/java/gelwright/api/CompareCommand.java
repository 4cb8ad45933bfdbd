package gelwright.api;

import gelwright.charts.Chart;
import gelwright.comparison.FormulaComparison;
import gelwright.formula.Formula;
import gelwright.prediction.Curve;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.reports.ComparisonReport;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
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

/** Compares two formulas. */
@Command(
    name = "compare",
    mixinStandardHelpOptions = true,
    description =
        "Lays two formulas, or one made in two ways, side by side: what is stated differently, which"
            + " numbers differ and how surely, which findings come and go.")
final class CompareCommand implements Callable<Integer> {
  private static final String USUAL_CURVE = "flow";

  private final Engine engine;
  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

  @Mixin private ReportOptions report = new ReportOptions();

  @Parameters(
      index = "0",
      paramLabel = "FIRST",
      description = "The formula sheet that is compared with: YAML, JSON or CSV.")
  private String first = "";

  @Parameters(
      index = "1",
      paramLabel = "SECOND",
      description = "The formula sheet that is compared.")
  private String second = "";

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      description = "text, json or svg (default: text).")
  private Format format = Format.TEXT;

  @Option(
      names = "--curve",
      paramLabel = "NAME",
      description =
          "The curve that svg draws: flow (the usual one), flow-ratio, preservatives, temperature or"
              + " water-activity.")
  private Optional<String> curve = Optional.empty();

  /** How a comparison is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  CompareCommand(Engine engine, Terminal terminal) {
    this.engine = engine;
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    if (format != Format.SVG && curve.isPresent()) {
      throw wrong("--curve goes with --format svg; text and json tell of all curves.");
    }
    Path one = path(first);
    Path other = path(second);
    Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
    if (loaded.isEmpty()) {
      return ExitStatus.WRONG;
    }
    Attempt<Formula> before = ReviewCommands.read(one, loaded.get());
    Attempt<Formula> after = ReviewCommands.read(other, loaded.get());
    if (before.value().isEmpty() || after.value().isEmpty()) {
      List<Problem> problems = new ArrayList<>(before.problems());
      if (!one.equals(other)) {
        problems.addAll(after.problems());
      }
      terminal.complain(TextReport.problems(problems));
      return ExitStatus.WRONG;
    }
    FormulaComparison comparison =
        loaded.get().compare(before.value().get(), after.value().get(), report.day(terminal));
    report.write(written(comparison), terminal);
    return ExitStatus.FINE;
  }

  private Path path(String file) {
    try {
      return Path.of(file);
    } catch (InvalidPathException e) {
      throw wrong(file + " is no name of a file.");
    }
  }

  private byte[] written(FormulaComparison comparison) {
    return switch (format) {
      case TEXT -> report.encoded(ComparisonText.of(comparison, report.ink(terminal)), terminal);
      case JSON -> ComparisonReport.indented().text(comparison).getBytes(StandardCharsets.UTF_8);
      case SVG -> drawn(comparison).getBytes(StandardCharsets.UTF_8);
    };
  }

  private String drawn(FormulaComparison comparison) {
    String name = curve.orElse(USUAL_CURVE);
    List<String> names = comparison.curves().stream().map(Curve::name).toList();
    Curve chosen =
        comparison
            .curve(name)
            .orElseThrow(
                () ->
                    wrong(
                        ("--curve: there is no curve " + name + ". " + Spelling.hint(name, names))
                            .strip()));
    return Chart.of(chosen, comparison.about()).svg(name);
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
