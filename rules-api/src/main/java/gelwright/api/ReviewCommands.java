package gelwright.api;

import gelwright.api.html.Pages;
import gelwright.api.html.Reports;
import gelwright.formula.Formula;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.reports.JUnitReport;
import gelwright.reports.JsonReport;
import gelwright.reports.SarifReport;
import gelwright.reports.Unreadable;
import gelwright.review.Include;
import gelwright.review.Remedy;
import gelwright.review.Review;
import gelwright.rule.RuleSet;
import gelwright.rule.Severity;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The commands that review formulas. */
final class ReviewCommands {
  /** A sheet is a page of text; what is larger is something else. */
  private static final int MOST_BYTES = 16 * 1024 * 1024;

  private ReviewCommands() {}

  /** How a report is written. */
  enum Format {
    TEXT,
    JSON,
    HTML,
    SARIF,
    JUNIT
  }

  /** From which level on a finding fails the run. */
  enum FailOn {
    ERROR,
    WARNING,
    NOTE,
    NEVER;

    Optional<Severity> level() {
      return switch (this) {
        case ERROR -> Optional.of(Severity.ERROR);
        case WARNING -> Optional.of(Severity.WARNING);
        case NOTE -> Optional.of(Severity.NOTE);
        case NEVER -> Optional.empty();
      };
    }
  }

  /** Reads a formula sheet, or a table with the sheet beside it. */
  static Attempt<Formula> read(Path file, Engine.Loaded loaded) {
    String name = file.toString();
    Optional<Path> beside = SheetKind.brief(file);
    Attempt<byte[]> content = content(file);
    Attempt<byte[]> brief = beside.isEmpty() ? content : content(beside.get());
    if (content.value().isEmpty() || brief.value().isEmpty()) {
      return Attempt.failed(content.value().isEmpty() ? content.problems() : brief.problems());
    }
    return beside.isEmpty()
        ? loaded.read(content.value().get(), name)
        : loaded.read(content.value().get(), name, brief.value().get(), beside.get().toString());
  }

  /** What is in a file, as far as it is not too large for a sheet. */
  static Attempt<byte[]> content(Path file) {
    String name = file.toString();
    byte[] content;
    try (InputStream in = Files.newInputStream(file)) {
      content = in.readNBytes(MOST_BYTES + 1);
    } catch (IOException | SecurityException e) {
      return Attempt.failed(why(file, name).problems());
    }
    return content.length > MOST_BYTES
        ? Attempt.failed(
            SheetFiles.not(name, "too-large", "This file is too large for a formula sheet.")
                .problems())
        : Attempt.of(content);
  }

  private static Unreadable why(Path file, String name) {
    if (Files.isDirectory(file)) {
      return SheetFiles.not(
          name, "is-a-folder", "This is a folder; the command lint goes through folders.");
    }
    return Files.exists(file)
        ? SheetFiles.not(name, "unreadable", "This file could not be read; is it yours to read?")
        : SheetFiles.not(name, "no-such-file", "There is no such file.");
  }

  /** What both commands have in common. */
  abstract static class Common implements Callable<Integer> {
    private static final Set<String> REPORTING =
        Set.of("--format", "--fail-on", "--require-checked", "--leave-out-accepted");

    private final Engine engine;
    private final Terminal terminal;

    @Spec private CommandSpec spec = CommandSpec.create();

    @Mixin private KnowledgeOptions knowledge = new KnowledgeOptions();

    @Option(
        names = "--format",
        paramLabel = "FORMAT",
        description =
            "text, json, html, sarif or junit (default: text). HTML is one file and prints on A4.")
    private Format format = Format.TEXT;

    @Mixin private ReportOptions made = new ReportOptions();

    @Option(
        names = "--include",
        paramLabel = "WHAT",
        split = ",",
        description =
            "Also write: remedies (what would put each finding right), headroom (how far each number can"
                + " move), trace (how each finding came about, step by step).")
    private Set<Include> include = new LinkedHashSet<>();

    @Option(
        names = "--fail-on",
        paramLabel = "LEVEL",
        description =
            "End with status 1 for a finding of this level or worse: error, warning, note or never (default: error).")
    private FailOn failOn = FailOn.ERROR;

    @Option(
        names = "--require-checked",
        paramLabel = "SET",
        split = ",",
        description =
            "End with status 1 if a rule of these rule sets could not be checked, such as preservation,law-eu.")
    private Set<String> requireChecked = new LinkedHashSet<>();

    @Option(
        names = "--leave-out-accepted",
        description = "SARIF: leave accepted findings out instead of marking them as suppressed.")
    private boolean leaveOutAccepted;

    Common(Engine engine, Terminal terminal) {
      this.engine = engine;
      this.terminal = terminal;
    }

    abstract SheetFiles files(List<Path> apart);

    /** A report for people. */
    abstract String text(
        List<Review> reviews, List<Unreadable> unreadable, List<Path> skipped, Ink ink);

    /** Whether a report draws curves; one of a whole library leaves them out. */
    abstract boolean draws();

    /** Whether an option was given that is about reports; remedies may be asked for twice. */
    boolean asksForReport() {
      return !Set.of(Include.REMEDIES).containsAll(include)
          || spec.commandLine().getParseResult().matchedOptions().stream()
              .anyMatch(option -> REPORTING.contains(option.longestName()));
    }

    /** Tells what stands in the way; the status of that. */
    int failed(List<Problem> problems) {
      terminal.complain(TextReport.problems(problems));
      return ExitStatus.WRONG;
    }

    /** A mistake in the call. */
    ParameterException wrong(String message) {
      return new ParameterException(spec.commandLine(), message);
    }

    private sealed interface Done {
      /** What it is told with is there for a format that tells of more than the review. */
      record Reviewed(Review review, Optional<Reports.Reviewed> told) implements Done {}

      record Not(Unreadable file) implements Done {}
    }

    /** Does something else than report, where the call asks for it; gives its status. */
    Optional<Integer> instead(Engine.Loaded loaded, LocalDate day) throws IOException {
      return Optional.empty();
    }

    /** Writes into the file asked for, else to standard output. */
    final void write(byte[] content) {
      made.write(content, terminal);
    }

    @Override
    public Integer call() throws IOException {
      Optional<Engine.Loaded> loaded = knowledge.load(engine, terminal);
      if (loaded.isEmpty()) {
        return ExitStatus.WRONG;
      }
      known(loaded.get());
      LocalDate day = made.day(terminal);
      Optional<Integer> done = instead(loaded.get(), day);
      if (done.isPresent()) {
        return done.get();
      }
      SheetFiles found = files(knowledge.folders());
      List<Unreadable> unreadable = new ArrayList<>(found.unreadable());
      List<Review> reviews = new ArrayList<>();
      List<Reports.Reviewed> told = new ArrayList<>();
      for (Done each : reviewAll(found.files(), loaded.get(), day)) {
        if (each instanceof Done.Reviewed reviewed) {
          reviews.add(reviewed.review());
          reviewed.told().ifPresent(told::add);
        } else if (each instanceof Done.Not not) {
          unreadable.add(not.file());
        }
      }
      complain(reviews, unreadable);
      if (!found.skipped().isEmpty() && (format != Format.TEXT || reviews.isEmpty())) {
        terminal.complain(LintReport.skipped(found.skipped()) + "\n");
      }
      if (!reviews.isEmpty() || !unreadable.isEmpty()) {
        write(report(reviews, told, unreadable, found.skipped(), loaded.get().ruleSets()));
      }
      return new ExitStatus(failOn.level(), requireChecked).of(reviews, unreadable);
    }

    private void known(Engine.Loaded loaded) {
      List<String> ids = loaded.ruleSets().stream().map(RuleSet::id).toList();
      for (String set : requireChecked) {
        if (!ids.contains(set)) {
          throw wrong(
              ("--require-checked: there is no rule set " + set + ". " + Spelling.hint(set, ids))
                  .strip());
        }
      }
    }

    private void complain(List<Review> reviews, List<Unreadable> unreadable) {
      for (Unreadable file : unreadable) {
        terminal.complain(TextReport.problems(file.problems()));
      }
      if (reviews.isEmpty() && unreadable.isEmpty()) {
        terminal.complain("No formula sheet was found, so nothing was reviewed.\n");
      }
      for (Review review : reviews) {
        if (review.rules().isEmpty()) {
          terminal.complain(
              Plain.line(review.formula()) + ": no rule was run, so nothing was checked.\n");
        }
      }
    }

    /** Reviews side by side; the order of the files is kept. */
    private List<Done> reviewAll(List<Path> files, Engine.Loaded loaded, LocalDate day) {
      int threads = Math.max(1, Math.min(files.size(), Runtime.getRuntime().availableProcessors()));
      ExecutorService workers = Executors.newFixedThreadPool(threads);
      try {
        List<Future<Done>> futures = new ArrayList<>();
        for (Path file : files) {
          futures.add(workers.submit(() -> one(file, loaded, day)));
        }
        List<Done> all = new ArrayList<>();
        Progress progress = new Progress(terminal, files.size());
        for (int i = 0; i < files.size(); i++) {
          all.add(await(futures.get(i), files.get(i)));
          progress.at(i + 1);
        }
        progress.end();
        return all;
      } finally {
        workers.shutdownNow();
      }
    }

    private Done await(Future<Done> future, Path file) {
      try {
        return future.get();
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return new Done.Not(SheetFiles.not(file.toString(), "interrupted", "The run was ended."));
      } catch (ExecutionException e) {
        if (terminal.wantsStackTraces()) {
          e.printStackTrace(terminal.err());
        }
        return new Done.Not(
            SheetFiles.not(
                file.toString(),
                "internal-error",
                "The engine failed on this file: " + e.getCause() + "."));
      }
    }

    private Done one(Path file, Engine.Loaded loaded, LocalDate day) {
      Attempt<Formula> formula = read(file, loaded);
      if (formula.value().isEmpty()) {
        return new Done.Not(new Unreadable(file.toString(), formula.problems()));
      }
      Review review = loaded.review(formula.value().get(), day, include);
      return new Done.Reviewed(
          review,
          format == Format.HTML
              ? Optional.of(told(formula.value().get(), review, day, loaded))
              : Optional.empty());
    }

    private Reports.Reviewed told(
        Formula formula, Review review, LocalDate day, Engine.Loaded loaded) {
      return new Reports.Reviewed(
          formula,
          review,
          draws() ? Optional.of(loaded.predict(formula, day)) : Optional.empty(),
          loaded.batch(formula, Reports.batch(formula), day));
    }

    private byte[] report(
        List<Review> reviews,
        List<Reports.Reviewed> told,
        List<Unreadable> unreadable,
        List<Path> skipped,
        List<RuleSet> ruleSets)
        throws IOException {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      switch (format) {
        case TEXT ->
            bytes.write(
                made.encoded(text(reviews, unreadable, skipped, made.ink(terminal)), terminal));
        case JSON -> {
          if (reviews.size() == 1 && unreadable.isEmpty()) {
            JsonReport.indented().write(reviews.get(0), bytes);
          } else {
            JsonReport.indented().write(reviews, unreadable, bytes);
          }
        }
        case HTML ->
            bytes.write(Pages.of(Reports.of(told, unreadable)).getBytes(StandardCharsets.UTF_8));
        case SARIF -> {
          SarifReport sarif = SarifReport.describing(ruleSets);
          (leaveOutAccepted ? sarif.leavingOutAccepted() : sarif).write(reviews, unreadable, bytes);
        }
        case JUNIT -> JUnitReport.write(reviews, unreadable, bytes);
      }
      return bytes.toByteArray();
    }
  }

  /** Reviews the files named. */
  @Command(
      name = "review",
      mixinStandardHelpOptions = true,
      description =
          "Reviews formula sheets: what breaks, what is borderline, what could not be checked, and why.")
  static final class ReviewFiles extends Common {
    @Parameters(
        paramLabel = "FILE",
        arity = "1..*",
        description = "Formula sheets: YAML, JSON or CSV.")
    private List<String> files = new ArrayList<>();

    @Option(
        names = "--apply",
        paramLabel = "N",
        description =
            "Write the sheet with remedy N made in it, in place of a report; --include remedies numbers them.")
    private Optional<Integer> apply = Optional.empty();

    ReviewFiles(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    @Override
    boolean draws() {
      return true;
    }

    @Override
    Optional<Integer> instead(Engine.Loaded loaded, LocalDate day) throws IOException {
      return apply.isPresent() ? Optional.of(applied(apply.get(), loaded, day)) : Optional.empty();
    }

    private int applied(int number, Engine.Loaded loaded, LocalDate day) throws IOException {
      if (asksForReport()) {
        throw wrong("--apply writes a sheet, not a report: leave the options of reports out.");
      }
      SheetFiles found = files(List.of());
      if (found.files().size() + found.unreadable().size() != 1) {
        throw wrong("--apply takes one file; " + files.size() + " are named.");
      }
      if (found.files().isEmpty()) {
        return failed(found.unreadable().get(0).problems());
      }
      Path file = found.files().get(0);
      Attempt<Formula> formula = read(file, loaded);
      if (formula.value().isEmpty()) {
        return failed(formula.problems());
      }
      List<Remedy> offers =
          loaded.review(formula.value().get(), day, Set.of(Include.REMEDIES)).offers();
      if (number < 1 || number > offers.size()) {
        throw wrong(
            "--apply: there is no remedy "
                + number
                + "; "
                + (offers.isEmpty()
                    ? "none is offered for this sheet."
                    : "this sheet has remedies 1 to " + offers.size() + "."));
      }
      Attempt<byte[]> changed =
          AppliedRemedy.of(file, formula.value().get(), offers.get(number - 1));
      if (changed.value().isEmpty()) {
        return failed(changed.problems());
      }
      write(changed.value().get());
      return ExitStatus.FINE;
    }

    @Override
    SheetFiles files(List<Path> apart) {
      Set<Path> paths = new LinkedHashSet<>();
      List<Unreadable> unreadable = new ArrayList<>();
      for (String file : files) {
        try {
          if (!paths.add(Path.of(file).normalize())) {
            throw wrong(file + " is named twice.");
          }
        } catch (InvalidPathException e) {
          unreadable.add(SheetFiles.not(file, "no-such-file", "This is no name of a file."));
        }
      }
      return new SheetFiles(List.copyOf(paths), List.of(), unreadable);
    }

    @Override
    String text(List<Review> reviews, List<Unreadable> unreadable, List<Path> skipped, Ink ink) {
      StringBuilder text = new StringBuilder();
      for (Review review : reviews) {
        text.append(text.length() == 0 ? "" : "\n" + "–".repeat(20) + "\n\n");
        text.append(TextReport.of(review, ink));
      }
      return text.toString();
    }
  }

  /** Reviews a whole library. */
  @Command(
      name = "lint",
      mixinStandardHelpOptions = true,
      description =
          "Reviews every formula sheet in folders, with all beneath them, and gives a table of the outcomes.")
  static final class Lint extends Common {
    @Parameters(
        paramLabel = "PATH",
        arity = "1..*",
        description =
            "Files, folders (every .yaml, .yml, .json and .csv in them), or patterns such as 'recipes/**/*.yaml'.")
    private List<String> paths = new ArrayList<>();

    Lint(Engine engine, Terminal terminal) {
      super(engine, terminal);
    }

    @Override
    boolean draws() {
      return false;
    }

    @Override
    SheetFiles files(List<Path> apart) {
      return SheetFiles.find(paths, apart);
    }

    @Override
    String text(List<Review> reviews, List<Unreadable> unreadable, List<Path> skipped, Ink ink) {
      return LintReport.of(reviews, unreadable, skipped, ink);
    }
  }
}
