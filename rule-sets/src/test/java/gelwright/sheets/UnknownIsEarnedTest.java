package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicContainer.dynamicContainer;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Trait;
import gelwright.problem.Place;
import gelwright.quantity.Share;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.review.Subject;
import gelwright.review.Verdict;
import gelwright.rule.CompiledRule;
import gelwright.rule.RuleBook;
import java.io.IOException;
import java.io.InputStream;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicNode;
import org.junit.jupiter.api.TestFactory;

/**
 * Takes away what is known, piece by piece, of every bundled ingredient in a recipe that has it,
 * and reviews again: a rule may become unknown, and then says what it misses; it never becomes met.
 */
@DisplayName("unknown is earned: what is deleted from an ingredient sheet never makes a rule hold")
final class UnknownIsEarnedTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);

  private static final Set<Outcome> TROUBLE =
      EnumSet.of(
          Outcome.BREAKS, Outcome.BORDERLINE, Outcome.UNKNOWN, Outcome.APPLIES, Outcome.MAY_APPLY);

  private static final Set<Outcome> DOES_NOT_CONCERN =
      EnumSet.of(Outcome.NOT_APPLICABLE, Outcome.DOES_NOT_APPLY);

  private static final Set<Outcome> OPEN = EnumSet.of(Outcome.UNKNOWN, Outcome.MAY_APPLY);

  private static final Set<String> READ_AS_IT_STANDS =
      Set.of(
          "charge",
          "use-from",
          "use-to",
          "pH-from",
          "pH-to",
          "log-Kow",
          "solubility",
          "interfacial-tension",
          "inhibitory");

  /** The base formula an ingredient is put into, by its first function that is listed here. */
  private static final Map<String, String> BASES = bases();

  private final Library library = Bundled.load();
  private final RuleBook rules = BundledRuleSets.compile(library).orThrow().rules();
  private final Map<String, Formula> formulas = new ConcurrentHashMap<>();
  private final AtomicInteger deletions = new AtomicInteger();
  private final AtomicInteger changes = new AtomicInteger();
  private final AtomicInteger becameUnknown = new AtomicInteger();

  private static Map<String, String> bases() {
    Map<String, String> bases = new LinkedHashMap<>();
    bases.put("gum", "plain xanthan serum");
    bases.put("oil", "gel-cream with oil");
    bases.put("particle", "scrub with shell powder");
    bases.put("exfoliant", "scrub with shell powder");
    bases.put("surfactant", "rinse-off wash gel");
    bases.put("deodorant", "deodorant gel");
    bases.put("preservative", "plain sclerotium gel");
    bases.put("active", "serum with actives");
    bases.put("ethanol", "spray mist");
    bases.put("fragrance", "spray mist");
    bases.put("emulsifier", "gel-cream with oil");
    bases.put("solubiliser", "spray mist");
    return bases;
  }

  @TestFactory
  @DisplayName("by ingredient sheet")
  Stream<DynamicNode> everyIngredient() {
    List<DynamicNode> sheets = new ArrayList<>();
    int number = 0;
    for (String name : Bundled.names()) {
      if (name.startsWith("gelwright/ingredients/")) {
        List<DynamicNode> tests = new ArrayList<>();
        for (Ingredient each : ingredients(name)) {
          boolean askAll = number++ % 10 == 0;
          // All are worked on at once, on as many cores as there are; each test waits for its own.
          CompletableFuture<List<String>> faults =
              CompletableFuture.supplyAsync(() -> deleteEverythingOf(each, askAll));
          tests.add(
              dynamicTest(each.name(), () -> assertEquals("", String.join("\n", faults.join()))));
        }
        sheets.add(dynamicContainer(name.substring(name.lastIndexOf('/') + 1), tests));
      }
    }
    sheets.add(dynamicTest("the deletions were many and mattered", this::reachedSomething));
    return sheets.stream();
  }

  private void reachedSomething() {
    assertTrue(deletions.get() > 5_000, "pieces of knowledge deleted: " + deletions);
    assertTrue(changes.get() > 3_000, "outcomes that changed: " + changes);
    assertEquals(changes.get(), becameUnknown.get(), "every change is to unknown or may apply");
  }

  private static List<Ingredient> ingredients(String resource) {
    try (InputStream in = Bundled.class.getResourceAsStream("/" + resource)) {
      return new IngredientReader().read(in.readAllBytes(), resource).orThrow().ingredients();
    } catch (IOException exception) {
      throw new IllegalStateException(resource, exception);
    }
  }

  private List<String> deleteEverythingOf(Ingredient ingredient, boolean askAll) {
    if (!ingredient.composition().isEmpty()) {
      return List.of(); // a blend is what its parts are, and they have tests of their own
    }
    List<String> faults = new ArrayList<>();
    for (Formula formula : List.of(usual(ingredient), tooMuch(ingredient))) {
      List<Ingredient> shelf = shelf(formula);
      SortedMap<String, Map<Subject, Verdict>> before = reviewer(shelf).verdicts(formula, ON);
      for (String datum : data(ingredient)) {
        delete(datum, ingredient, formula, shelf, before, askAll, faults);
      }
      ingredient
          .acid()
          .toOptional()
          .flatMap(acid -> library.catalogue().find(acid.parent()))
          .ifPresent(
              parent -> delete("molar-mass", parent, formula, shelf, before, askAll, faults));
    }
    return faults;
  }

  /** What the recipe needs of the catalogue; a small one is quick to make anew. */
  private List<Ingredient> shelf(Formula formula) {
    Map<String, Ingredient> shelf = new TreeMap<>();
    for (Line line : formula.lines()) {
      Ingredient ingredient = library.catalogue().find(line.name()).orElseThrow();
      shelf.put(ingredient.name(), ingredient);
      ingredient
          .acid()
          .toOptional()
          .flatMap(acid -> library.catalogue().find(acid.parent()))
          .ifPresent(parent -> shelf.put(parent.name(), parent));
    }
    return List.copyOf(shelf.values());
  }

  private Reviewer reviewer(List<Ingredient> ingredients) {
    return Reviewer.using(new Knowledge(Catalogue.of(ingredients, List.of()), rules));
  }

  private void delete(
      String datum,
      Ingredient ingredient,
      Formula formula,
      List<Ingredient> shelf,
      SortedMap<String, Map<Subject, Verdict>> before,
      boolean askAll,
      List<String> faults) {
    deletions.incrementAndGet();
    Ingredient poorer =
        new Overlay.Removal(datum, ingredient.name(), Place.NOWHERE).from(ingredient);
    List<Ingredient> without =
        shelf.stream().map(each -> each.equals(ingredient) ? poorer : each).toList();
    SortedMap<String, Map<Subject, Verdict>> after = after(datum, formula, without, askAll);
    for (String rule : after.keySet()) {
      Map<Subject, Verdict> was = before.get(rule);
      Map<Subject, Verdict> is = after.get(rule);
      if (was.equals(is)) {
        continue;
      }
      Set<Subject> subjects = new LinkedHashSet<>(was.keySet());
      subjects.addAll(is.keySet());
      for (Subject subject : subjects) {
        Optional<Outcome> old = Optional.ofNullable(was.get(subject)).map(Verdict::outcome);
        Optional<Verdict> now = verdict(is, subject, ingredient);
        compare(datum, ingredient, formula, rule, subject, old, now, faults);
      }
    }
  }

  // A trait that is read as it stands can only matter to a rule that reads it; of every tenth
  // ingredient all rules are asked all the same, to see that this is so.
  private SortedMap<String, Map<Subject, Verdict>> after(
      String datum, Formula formula, List<Ingredient> without, boolean askAll) {
    Reviewer forgetful = reviewer(without);
    if (!READ_AS_IT_STANDS.contains(datum) || askAll) {
      return forgetful.verdicts(formula, ON);
    }
    SortedMap<String, Map<Subject, Verdict>> after = new TreeMap<>();
    for (CompiledRule rule : rules.rules()) {
      if (rule.inputs().stream().anyMatch(input -> input.contains("." + datum))) {
        after.put(rule.id(), forgetful.verdicts(formula, ON, rule.id()));
      }
    }
    return after;
  }

  private void compare(
      String datum,
      Ingredient ingredient,
      Formula formula,
      String rule,
      Subject subject,
      Optional<Outcome> old,
      Optional<Verdict> now,
      List<String> faults) {
    Optional<Outcome> is = now.map(Verdict::outcome);
    if (old.equals(is) || (old.isEmpty() && DOES_NOT_CONCERN.contains(is.orElseThrow()))) {
      return;
    }
    changes.incrementAndGet();
    String what =
        formula.name()
            + " without "
            + datum
            + " of "
            + ingredient.name()
            + ": "
            + rule
            + " for '"
            + subject.name()
            + "' was "
            + old.map(Outcome::word).orElse("absent")
            + ", is "
            + is.map(Outcome::word).orElse("absent");
    boolean trouble = old.isPresent() && TROUBLE.contains(old.get());
    if (is.isEmpty() ? trouble : !OPEN.contains(is.get())) {
      faults.add(what);
    } else if (now.isPresent()
        && now.get().missing().stream().noneMatch(each -> names(each, datum, ingredient))) {
      faults.add(what + ", missing " + now.get().missing());
    } else {
      becameUnknown.incrementAndGet();
    }
  }

  // An ingredient whose heat limits are unknown is one subject instead of one per kind.
  private static Optional<Verdict> verdict(
      Map<Subject, Verdict> verdicts, Subject subject, Ingredient ingredient) {
    Verdict own = verdicts.get(subject);
    if (own == null && subject.name().startsWith(ingredient.name() + ", ")) {
      own = verdicts.get(new Subject(subject.kind(), ingredient.name()));
    }
    return Optional.ofNullable(own);
  }

  private static boolean names(String missing, String datum, Ingredient ingredient) {
    return missing.contains(ingredient.name()) || missing.contains(datum);
  }

  /** Everything the sheet tells of the ingredient that can be forgotten. */
  private static List<String> data(Ingredient ingredient) {
    List<String> data = new ArrayList<>();
    if (!ingredient.functions().isUnknown()) {
      data.add("functions");
    }
    if (!ingredient.charge().isUnknown()) {
      data.add("charge");
    }
    if (!ingredient.dissolves().isUnknown()) {
      data.add("dissolves");
    }
    if (!ingredient.acid().isUnknown()) {
      data.add("acid");
    }
    if (!ingredient.heat().isUnknown()) {
      data.add("heat");
    }
    if (!ingredient.gum().isUnknown()) {
      data.add("gum");
    }
    if (!ingredient.hydration().isUnknown()) {
      data.add("hydration");
    }
    if (!ingredient.inhibitory().isUnknown()) {
      data.add("inhibitory");
    }
    if (!ingredient.hydrates().isEmpty()) {
      data.add("hydrates");
    }
    for (Trait trait : Trait.values()) {
      if (ingredient.trait(trait).isPresent()) {
        data.add(trait.key());
      }
    }
    return data;
  }

  /** A recipe with a usual share of the ingredient. */
  private Formula usual(Ingredient ingredient) {
    double from = ingredient.trait(Trait.USE_LEAST).map(Figure::likely).orElse(0.5);
    double to = ingredient.trait(Trait.USE_MOST).map(Figure::likely).orElse(2.0);
    return with(ingredient, Math.min(20, (from + to) / 2));
  }

  /** A recipe with more of it than is usual, in which more rules break. */
  private Formula tooMuch(Ingredient ingredient) {
    double to = ingredient.trait(Trait.USE_MOST).map(Figure::likely).orElse(5.0);
    return with(ingredient, Math.min(40, 2 * to));
  }

  private Formula with(Ingredient ingredient, double percent) {
    Set<String> functions = ingredient.functions().toOptional().orElse(Set.of());
    String base =
        BASES.entrySet().stream()
            .filter(entry -> functions.contains(entry.getKey()))
            .map(Map.Entry::getValue)
            .findFirst()
            .orElse("serum with actives");
    Formula formula =
        formulas.computeIfAbsent(
            base, name -> new FormulaReader().read(library.bases().get(name)).orThrow());
    List<Line> lines = new ArrayList<>();
    boolean there = false;
    for (Line line : formula.lines()) {
      boolean same = library.catalogue().find(line.name()).filter(ingredient::equals).isPresent();
      there |= same;
      lines.add(
          same && line.amount() instanceof Amount.Stated
              ? line(line.phase(), ingredient, percent)
              : line);
    }
    if (!there) {
      String phase = functions.contains("oil") || functions.contains("fragrance") ? "B" : "A";
      lines.add(line(phase, ingredient, percent));
    }
    return new Formula(
        formula.name() + " with " + percent + " % " + ingredient.name(),
        formula.version(),
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        lines,
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        formula.places());
  }

  private static Line line(String phase, Ingredient ingredient, double percent) {
    return Line.of(phase, ingredient.name(), new Amount.Stated(Share.nearest(percent)));
  }
}
