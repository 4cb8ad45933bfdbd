package gelwright.sheets;

import gelwright.ingredient.Source;
import gelwright.problem.Problem;
import gelwright.profile.Profile;
import gelwright.review.Knowledge;
import gelwright.rule.Compilation;
import gelwright.rule.RuleBook;
import gelwright.sheets.tree.Read;
import java.util.List;
import java.util.stream.Collectors;

/** Knowledge ready for a reviewer: the bundled sheets read and their rules compiled. */
public final class BundledRuleSets {
  private BundledRuleSets() {}

  /**
   * The bundled knowledge. Takes a moment; keep the result, it is immutable.
   *
   * @throws IllegalStateException when a bundled sheet has a problem: that is a fault of the
   *     program
   */
  public static Knowledge load() {
    return compile(Bundled.load()).orThrow();
  }

  /** The knowledge of a library: its rules compiled, or all that is wrong with them. */
  public static Read<Knowledge> compile(Library library) {
    Compilation compilation =
        RuleBook.compile(
            library.ruleSets(),
            Profile.vocabulary(),
            library.catalogue().sources().stream().map(Source::id).collect(Collectors.toSet()));
    return compilation
        .book()
        .map(book -> sound(new Knowledge(library.catalogue(), book)))
        .orElseGet(() -> Read.failed(compilation.problems()));
  }

  private static Read<Knowledge> sound(Knowledge knowledge) {
    List<Problem> problems = knowledge.problems();
    return problems.isEmpty() ? Read.ok(knowledge) : Read.failed(problems);
  }
}
