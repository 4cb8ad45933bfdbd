package gelwright.api;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;

/** A call of the program, on 25 November 2026, as its user sees it. */
record Ran(int status, String out, String err) {
  static Ran of(Engine engine, String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status =
        new Program(
                engine,
                new Terminal(
                    out,
                    StandardCharsets.UTF_8,
                    new PrintStream(err, true, StandardCharsets.UTF_8),
                    false,
                    Map.of(),
                    () -> LocalDate.of(2026, 11, 25)))
            .run(arguments);
    return new Ran(
        status, out.toString(StandardCharsets.UTF_8), err.toString(StandardCharsets.UTF_8));
  }

  /** Reading the bundled sheets once is enough for all the lines. */
  static final class LoadedOnce implements Engine {
    private final Engine engine = new BundledEngine();
    private final Attempt<Loaded> bundled = engine.load(List.of(), List.of());

    @Override
    public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
      return ruleFolders.isEmpty() && ingredientFolders.isEmpty()
          ? bundled
          : engine.load(ruleFolders, ingredientFolders);
    }

    @Override
    public Checked check(List<Path> ruleFolders, List<Path> ingredientFolders, LocalDate on) {
      return engine.check(ruleFolders, ingredientFolders, on);
    }
  }
}
