package gelwright.api;

import gelwright.formula.Formula;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** A command that reads one formula sheet and writes something about it. */
abstract class OneSheetCommand implements Callable<Integer> {
  private final Engine engine;
  private final Terminal terminal;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

  @Mixin private ReportOptions report = new ReportOptions();

  @Parameters(paramLabel = "FILE", description = "A formula sheet: YAML, JSON or CSV.")
  private String file = "";

  OneSheetCommand(Engine engine, Terminal terminal) {
    this.engine = engine;
    this.terminal = terminal;
  }

  /** Looks at the call before anything is read. */
  void check() {}

  /** What is written. */
  abstract byte[] made(Engine.Loaded loaded, Formula formula, LocalDate day);

  @Override
  public final Integer call() {
    check();
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
    report.write(made(loaded.get(), formula.value().get(), report.day(terminal)), terminal);
    return ExitStatus.FINE;
  }

  /** Colour for what goes to a terminal, not into a file. */
  final Ink ink() {
    return report.ink(terminal);
  }

  /** A text for people in the charset of where it goes. */
  final byte[] encoded(String text) {
    return report.encoded(text, terminal);
  }

  /** A mistake in the call. */
  final ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
