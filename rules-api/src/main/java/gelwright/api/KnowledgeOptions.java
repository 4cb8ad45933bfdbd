package gelwright.api;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Which knowledge to use beside the bundled one. */
final class KnowledgeOptions {
  @Option(
      names = "--rules",
      paramLabel = "DIR",
      description = "Add the rule sets of this folder; may be given several times.")
  private List<Path> rules = new ArrayList<>();

  @Option(
      names = "--ingredients",
      paramLabel = "DIR",
      description =
          "Add the ingredient sheets of this folder; they win over bundled ones. May be given"
              + " several times.")
  private List<Path> ingredients = new ArrayList<>();

  List<Path> ruleFolders() {
    return List.copyOf(rules);
  }

  List<Path> ingredientFolders() {
    return List.copyOf(ingredients);
  }

  /** All folders that hold sheets of knowledge, not formulas. */
  List<Path> folders() {
    List<Path> all = new ArrayList<>(rules);
    all.addAll(ingredients);
    return all;
  }

  /** Loads it; tells on standard error what is wrong with it. */
  Optional<Engine.Loaded> load(Engine engine, Terminal terminal) {
    Attempt<Engine.Loaded> attempt = engine.load(rules, ingredients);
    if (attempt.value().isEmpty()) {
      terminal.complain(TextReport.problems(attempt.problems()));
    }
    return attempt.value();
  }
}
