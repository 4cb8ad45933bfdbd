package gelwright.api;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import java.nio.file.Path;
import java.util.List;

/** The engine with the knowledge that the program brings. */
final class BundledEngine implements Engine {
  @Override
  public Attempt<Loaded> load(List<Path> ruleFolders, List<Path> ingredientFolders) {
    return Attempt.failed(
        List.of(
            Problem.of(
                Place.NOWHERE,
                "no-knowledge",
                "This build has no rule sets, so nothing can be checked.")));
  }
}
