package gelwright.api;

import gelwright.api.html.Pages;
import gelwright.api.html.Paper;
import gelwright.api.html.Papers;
import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.formula.Formula;
import gelwright.labelling.LabelDraft;
import gelwright.quantity.Quantity;
import gelwright.reports.PaperReport;
import gelwright.stability.StabilityPlan;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The commands that write papers for the bench, the pack and the assessor. */
final class PaperCommands {
  private PaperCommands() {}

  /** How a paper is written. */
  enum Format {
    TEXT,
    JSON,
    HTML
  }

  /** What the three commands have in common. */
  abstract static class Common implements Callable<Integer> {
    private final Engine engine;
    private final Terminal terminal;

    @Spec private CommandSpec spec = CommandSpec.create();

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Parameters(paramLabel = "FILE", description = "A formula sheet: YAML, JSON or CSV.")
    private String file = "";

    @Option(
        names = "--format",
        paramLabel = "FORMAT",
        description = "text, json or html (default: text). HTML is one file and prints on A4.")
    private Format format = Format.TEXT;

    @Option(
        names = "--out",
        paramLabel = "FILE",
        description = "Write into this file instead of standard output.")
    private Optional<Path> out = Optional.empty();

    @Option(
        names = "--on",
        paramLabel = "DATE",
        description = "Make it for this day, such as 2026-11-25 (default: today).")
    private Optional<LocalDate> on = Optional.empty();

    Common(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    /** A document in the two forms it comes in. */
    record Made(Supplier<Paper> paper, Supplier<String> json) {}

    /** Makes it, or says why it cannot be made. */
    abstract Made made(Engine.Loaded knowledge, Formula formula, LocalDate day);

    /** Looks at the call before anything is read. */
    void check() {}

    @Override
    public Integer call() {
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
      LocalDate day = on.orElseGet(terminal.today());
      write(written(made(loaded.get(), formula.value().get(), day)));
      return ExitStatus.FINE;
    }

    private byte[] written(Made made) {
      return switch (format) {
        case TEXT ->
            PaperText.of(made.paper().get(), out.isPresent() ? Ink.PLAIN : terminal.ink())
                .getBytes(out.isPresent() ? StandardCharsets.UTF_8 : terminal.charset());
        case JSON -> made.json().get().getBytes(StandardCharsets.UTF_8);
        case HTML -> Pages.of(made.paper().get()).getBytes(StandardCharsets.UTF_8);
      };
    }

    private void write(byte[] content) {
      try {
        if (out.isPresent()) {
          Files.write(out.get(), content);
        } else {
          terminal.out().write(content);
          terminal.out().flush();
        }
      } catch (IOException e) {
        throw wrong(
            out.map(path -> "--out: " + path + " could not be written.")
                .orElse("Standard output could not be written."));
      }
    }

    ParameterException wrong(String message) {
      return new ParameterException(spec.commandLine(), message);
    }
  }

  /** A batch sheet. */
  @Command(
      name = "batch",
      mixinStandardHelpOptions = true,
      description =
          "Writes a batch sheet: what to weigh, what to do, what to check and to write down, for a"
              + " batch of any size.")
  static final class Batch extends Common {
    @Option(
        names = "--make",
        paramLabel = "MASS",
        required = true,
        description = "Mass of the batch, such as 2kg or 500 g.")
    private String make = "";

    Batch(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    @Override
    void check() {
      mass();
    }

    private Quantity mass() {
      return Quantity.parse(make)
          .filter(BatchSheets::canMake)
          .orElseThrow(
              () ->
                  wrong(
                      "--make takes the mass of a batch, such as 2kg or 500 g, from 0.01 g to 1000"
                          + " tonnes; "
                          + Plain.line(make)
                          + " is none."));
    }

    @Override
    Made made(Engine.Loaded knowledge, Formula formula, LocalDate day) {
      BatchSheet sheet = knowledge.batch(formula, mass(), day);
      return new Made(() -> Papers.of(sheet), () -> PaperReport.indented().text(sheet));
    }
  }

  /** A label draft. */
  @Command(
      name = "label",
      mixinStandardHelpOptions = true,
      description =
          "Drafts a label for the European Union: the ingredient list in its order, warnings, and"
              + " what is missing.")
  static final class Label extends Common {
    Label(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    @Override
    Made made(Engine.Loaded knowledge, Formula formula, LocalDate day) {
      LabelDraft draft = knowledge.label(formula, day);
      return new Made(() -> Papers.of(draft), () -> PaperReport.indented().text(draft));
    }
  }

  /** A stability plan. */
  @Command(
      name = "stability",
      mixinStandardHelpOptions = true,
      description =
          "Suggests stability and challenge tests by what the formula contains: conditions, times,"
              + " what passes, and why.")
  static final class Stability extends Common {
    Stability(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    @Override
    Made made(Engine.Loaded knowledge, Formula formula, LocalDate day) {
      StabilityPlan plan = knowledge.stability(formula, day);
      return new Made(() -> Papers.of(plan), () -> PaperReport.indented().text(plan));
    }
  }
}
