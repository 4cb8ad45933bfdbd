package gelwright.api;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.HelpCommand;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The command line: its commands, and what becomes of anything that goes wrong. */
final class Program {
  private final Engine engine;
  private final Terminal terminal;

  Program(Engine engine, Terminal terminal) {
    this.engine = engine;
    this.terminal = terminal;
  }

  /** Runs one command; gives the exit status and never throws. */
  int run(String... arguments) {
    try {
      StringWriter out = new StringWriter();
      CommandLine line = commandLine();
      line.setOut(new PrintWriter(out));
      line.setErr(new PrintWriter(terminal.err(), true, StandardCharsets.UTF_8));
      line.setColorScheme(
          Help.defaultColorScheme(terminal.ink() == Ink.COLOURED ? Help.Ansi.ON : Help.Ansi.OFF));
      int status = line.execute(arguments);
      line.getOut().flush();
      terminal.print(out.toString());
      return status;
    } catch (Exception | StackOverflowError | OutOfMemoryError unexpected) {
      return last(unexpected);
    }
  }

  private CommandLine commandLine() {
    CommandLine rules =
        new CommandLine(new RulesCommands())
            .addSubcommand("list", new RulesCommands.ListThem(engine, terminal))
            .addSubcommand("show", new RulesCommands.Show(engine, terminal))
            .addSubcommand("check", new RulesCommands.Check(engine, terminal));
    CommandLine ingredients =
        new CommandLine(new IngredientsCommands())
            .addSubcommand("find", new IngredientsCommands.Find(engine, terminal))
            .addSubcommand("show", new IngredientsCommands.Show(engine, terminal));
    return new CommandLine(new Top())
        .addSubcommand("review", new ReviewCommands.ReviewFiles(engine, terminal))
        .addSubcommand("lint", new ReviewCommands.Lint(engine, terminal))
        .addSubcommand("predict", new PredictCommand(engine, terminal))
        .addSubcommand("headroom", new HeadroomCommand(engine, terminal))
        .addSubcommand("compare", new CompareCommand(engine, terminal))
        .addSubcommand("calibrate", new CalibrateCommand(engine, terminal))
        .addSubcommand("batch", new PaperCommands.Batch(engine, terminal))
        .addSubcommand("label", new PaperCommands.Label(engine, terminal))
        .addSubcommand("stability", new PaperCommands.Stability(engine, terminal))
        .addSubcommand("rules", rules)
        .addSubcommand("ingredients", ingredients)
        .addSubcommand("serve", ServeCommand.line(terminal))
        .addSubcommand("help", new HelpCommand())
        .setCaseInsensitiveEnumValuesAllowed(true)
        // A file may be called @sheet.yaml.
        .setExpandAtFiles(false)
        .setUsageHelpWidth(100)
        .setUsageHelpAutoWidth(false)
        .setParameterExceptionHandler(this::wrongCall)
        .setExecutionExceptionHandler((problem, line, parsed) -> last(problem));
  }

  /** One line: what is wrong with the call, what may have been meant, where to read on. */
  private int wrongCall(ParameterException problem, String[] arguments) {
    terminal.complain(
        Plain.line(WrongCall.words(problem))
            + " See "
            + problem.getCommandLine().getCommandSpec().qualifiedName(" ")
            + " --help.\n");
    return ExitStatus.WRONG;
  }

  /** Nothing that a person gave should lead here; where it does, one line is enough for them. */
  private int last(Throwable unexpected) {
    if (terminal.wantsStackTraces()) {
      unexpected.printStackTrace(terminal.err());
    } else {
      String said = String.valueOf(unexpected.getMessage());
      terminal.complain(
          "Something went wrong that should not: "
              + Plain.line(unexpected.getClass().getSimpleName() + ", " + said)
              + " (GELWRIGHT_DEBUG=1 tells more)\n");
    }
    return ExitStatus.WRONG;
  }

  /** The program without a command. */
  @Command(
      name = "gelwright",
      mixinStandardHelpOptions = true,
      versionProvider = Version.class,
      description = {
        "Reviews recipes for water-based, gum-thickened cosmetics, with the procedure as written.",
        "It predicts, bounds and cites. It does not certify, and it is not a safety assessment."
      },
      commandListHeading = "%nCommands:%n",
      footer = {
        "",
        "Exit status: 0 nothing at or above the level asked for; 1 findings;",
        "2 the input could not be read or the call was wrong."
      })
  static final class Top implements Runnable {
    @Spec private CommandSpec spec = CommandSpec.create();

    @Override
    public void run() {
      throw new ParameterException(spec.commandLine(), "Say what to do: a command is missing.");
    }
  }

  /** The version of the jar. */
  static final class Version implements CommandLine.IVersionProvider {
    @Override
    public String[] getVersion() {
      String version = Program.class.getPackage().getImplementationVersion();
      return new String[] {"gelwright " + (version == null ? "(not packed)" : version)};
    }
  }
}
