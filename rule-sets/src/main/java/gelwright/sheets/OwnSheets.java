package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.profile.Profile;
import gelwright.review.Knowledge;
import gelwright.rule.Rule;
import gelwright.rule.RuleBook;
import gelwright.rule.RuleSet;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Own sheets on top of known ones, read and compiled so that everything wrong with them comes at
 * once: a typo in one rule hides neither the dimension error in another nor the example that does
 * not do what it says.
 */
public final class OwnSheets {
  private final Library known;
  private final Shelf.Readable readable;
  private final RuleBook.SoundPart compiled;
  private final List<Problem> problems;

  private OwnSheets(Library known, Shelf.Readable readable) {
    this.known = known;
    this.readable = readable;
    this.compiled =
        RuleBook.soundPart(readable.library().ruleSets(), Profile.vocabulary(), readable.sources());
    List<Problem> all = new ArrayList<>(readable.problems());
    compiled.problems().stream()
        .filter(
            problem ->
                !readable.told().contains(new RuleMapping.Told(problem.place(), problem.code())))
        .forEach(all::add);
    all.addAll(new Knowledge(readable.library().catalogue(), compiled.book()).problems());
    this.problems = all.stream().distinct().sorted(Problem.IN_ORDER).toList();
  }

  /**
   * Reads and compiles.
   *
   * @param known usually what {@link Bundled#load()} gave
   * @param places files and folders, as {@link Bundled#withOwn} takes them; may be none
   * @param limits of each sheet
   */
  public static OwnSheets read(Library known, List<Path> places, Limits limits) {
    requireNonNull(known, "known");
    return new OwnSheets(known, Bundled.shelf(places, limits).readableOnTopOf(known));
  }

  /**
   * Compiles one own sheet that is a tree already.
   *
   * @param known usually what {@link Bundled#load()} gave
   * @param sheet of any kind, usually a rule set
   * @param limits of what is told
   */
  public static OwnSheets of(Library known, Document sheet, Limits limits) {
    requireNonNull(known, "known");
    Shelf shelf = new Shelf(limits);
    shelf.add(sheet);
    return new OwnSheets(known, shelf.readableOnTopOf(known));
  }

  /** All problems of reading and compiling, in the order of the documents. */
  public List<Problem> problems() {
    return problems;
  }

  /**
   * Knowledge to review with.
   *
   * @param library the known sheets and the own ones
   * @param knowledge its catalogue and its rules, compiled
   */
  public record Ready(Library library, Knowledge knowledge) {}

  /** The knowledge, or all problems: where there is one nothing is reviewed. */
  public Read<Ready> ready() {
    return problems.isEmpty()
        ? Read.ok(
            new Ready(
                readable.library(), new Knowledge(readable.library().catalogue(), compiled.book())))
        : Read.failed(problems);
  }

  /**
   * A rule without all the examples that it owes: a requirement one that holds, one that breaks
   * and, unless it is always known, one that cannot be checked; a duty one where it applies and one
   * where it does not. A sheet can say of a kind that no sheet shows it: {@code breaks: none}.
   *
   * @param rule full id
   * @param kinds the missing kinds, such as {@code breaks}
   * @param place of the rule
   */
  public record Lacking(String rule, List<String> kinds, Place place) {
    public Lacking {
      kinds = List.copyOf(kinds);
    }
  }

  /**
   * What a check came to.
   *
   * @param problems of reading and compiling
   * @param sets that were checked, as far as they could be read
   * @param results of the examples of sound rules
   * @param lacking sound rules without all their examples
   * @param unshown how many kinds of examples the sheets say that no sheet can show
   * @param examplesRun whether examples were run; not while an ingredient or a base formula of the
   *     own sheets cannot be read, because examples may rest on it
   */
  public record Checked(
      List<Problem> problems,
      List<RuleSet> sets,
      List<ExampleRunner.Result> results,
      List<Lacking> lacking,
      int unshown,
      boolean examplesRun) {
    public Checked {
      problems = List.copyOf(problems);
      sets = List.copyOf(sets);
      results = List.copyOf(results);
      lacking = List.copyOf(lacking);
    }
  }

  /** Checks the own rule sets, with all rules that are sound. */
  public Checked checkOwn(LocalDate on) {
    return check(readable.own(), compiled.book(), on);
  }

  /**
   * Checks the known rule sets as they are without the own ones: what a house changes does not make
   * their examples wrong. Own ingredients count.
   */
  public Checked checkKnown(LocalDate on) {
    return check(
        known.ruleSheets(),
        RuleBook.soundPart(known.ruleSets(), Profile.vocabulary(), readable.sources()).book(),
        on);
  }

  private Checked check(List<RuleSheet> sheets, RuleBook book, LocalDate on) {
    ExampleRunner runner = new ExampleRunner(readable.library(), book);
    List<ExampleRunner.Result> results = new ArrayList<>();
    List<Lacking> lacking = new ArrayList<>();
    int unshown = 0;
    for (RuleSheet sheet : sheets) {
      if (readable.examplesCanRun()) {
        runner.run(sheet, on).stream()
            .filter(result -> !readable.faulty().contains(result.rule()))
            .forEach(results::add);
      }
      for (Rule rule : sheet.ruleSet().rules()) {
        String id = sheet.ruleSet().id() + "." + rule.id();
        if (book.rule(id).isPresent() && !readable.faulty().contains(id)) {
          Set<String> none = sheet.unshowable().getOrDefault(rule.id(), Set.of());
          unshown += none.size();
          List<String> kinds = lacking(rule, sheet, none);
          if (!kinds.isEmpty()) {
            lacking.add(new Lacking(id, kinds, rule.place()));
          }
        }
      }
    }
    return new Checked(
        problems,
        sheets.stream().map(RuleSheet::ruleSet).toList(),
        results,
        lacking,
        unshown,
        readable.examplesCanRun());
  }

  private static List<String> lacking(Rule rule, RuleSheet sheet, Set<String> none) {
    Set<String> shown =
        sheet.examples().stream()
            .filter(example -> example.rule().equals(rule.id()))
            .map(Example::expected)
            .collect(Collectors.toSet());
    List<String> owed = new ArrayList<>();
    if (rule.kind() == Rule.Kind.DUTY) {
      owed.add("applies");
      if (rule.when().isPresent()) {
        owed.add("does-not-apply");
      }
    } else {
      owed.addAll(List.of("holds", "breaks"));
      if (!rule.alwaysKnown()) {
        owed.add("unknown");
      }
    }
    owed.removeIf(kind -> shown.contains(kind) || none.contains(kind));
    return owed;
  }
}
