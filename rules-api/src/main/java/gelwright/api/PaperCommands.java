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
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

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
  abstract static class Common extends OneSheetCommand {
    @Option(
        names = "--format",
        paramLabel = "FORMAT",
        description = "text, json or html (default: text). HTML is one file and prints on A4.")
    private Format format = Format.TEXT;

    Common(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    /** A document in the two forms it comes in. */
    record Made(Supplier<Paper> paper, Supplier<String> json) {}

    /** Makes it, or says why it cannot be made. */
    abstract Made document(Engine.Loaded knowledge, Formula formula, LocalDate day);

    @Override
    final byte[] made(Engine.Loaded loaded, Formula formula, LocalDate day) {
      Made made = document(loaded, formula, day);
      return switch (format) {
        case TEXT -> encoded(PaperText.of(made.paper().get(), ink()));
        case JSON -> made.json().get().getBytes(StandardCharsets.UTF_8);
        case HTML -> Pages.of(made.paper().get()).getBytes(StandardCharsets.UTF_8);
      };
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
    Made document(Engine.Loaded knowledge, Formula formula, LocalDate day) {
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
    Made document(Engine.Loaded knowledge, Formula formula, LocalDate day) {
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
    Made document(Engine.Loaded knowledge, Formula formula, LocalDate day) {
      StabilityPlan plan = knowledge.stability(formula, day);
      return new Made(() -> Papers.of(plan), () -> PaperReport.indented().text(plan));
    }
  }
}
