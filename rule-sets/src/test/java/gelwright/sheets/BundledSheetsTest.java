package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.rule.Severity;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("the bundled sheets")
final class BundledSheetsTest {
  private static final Path RESOURCES = Path.of("src", "main", "resources");
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Library LIBRARY = Bundled.load();

  /**
   * The only kinds of example that a bundled rule may be without, each for a reason: a sheet
   * without lines and one with two lines that take the rest are refused when they are read, so
   * nothing a sheet says breaks the two rules or escapes the caution; the law of a market that is
   * not in the library is unknown and never broken.
   */
  private static final Map<String, Set<String>> NOT_SHOWN =
      new TreeMap<>(
          Map.of(
              "composition.not-empty", Set.of("breaks"),
              "composition.one-rest", Set.of("breaks"),
              "caution.not-a-safety-assessment", Set.of("does-not-apply"),
              "law-eu.market-without-rules", Set.of("breaks")));

  /** An example formula and the rules that must speak of it. */
  record Planted(String sheet, List<String> rules) {
    @Override
    public String toString() {
      return sheet + (rules.isEmpty() ? " -> no error, no warning" : " -> " + rules);
    }
  }

  @Test
  @DisplayName("index.txt lists exactly the bundled files")
  void index() throws IOException {
    Set<String> files;
    try (Stream<Path> all = Files.walk(RESOURCES.resolve("gelwright"))) {
      files =
          all.filter(Files::isRegularFile)
              .map(file -> RESOURCES.relativize(file).toString().replace('\\', '/'))
              .filter(name -> !name.equals("gelwright/index.txt"))
              .collect(Collectors.toCollection(TreeSet::new));
    }
    assertEquals(files, new TreeSet<>(Bundled.names()));
    assertEquals(files.size(), Bundled.names().size(), "a name twice");
  }

  @Test
  @DisplayName(
      "at least 100 rules and 350 examples; each rule has its examples and does as they say")
  void examples() {
    OwnSheets.Checked checked = OwnSheets.read(LIBRARY, List.of(), Limits.USUAL).checkKnown(ON);
    assertEquals(List.of(), checked.problems());
    assertTrue(checked.examplesRun());
    assertEquals(List.of(), checked.results().stream().filter(each -> !each.agrees()).toList());
    assertEquals(List.of(), checked.lacking());
    int rules = checked.sets().stream().mapToInt(set -> set.rules().size()).sum();
    assertTrue(rules >= 100, rules + " rules");
    assertTrue(checked.results().size() >= 350, checked.results().size() + " examples");
  }

  @Test
  @DisplayName("kinds of example that no sheet can show: these, and none beside them")
  void notShown() {
    Map<String, Set<String>> none = new TreeMap<>();
    for (RuleSheet sheet : LIBRARY.ruleSheets()) {
      sheet
          .unshowable()
          .forEach(
              (rule, kinds) -> {
                if (!kinds.isEmpty()) {
                  none.put(sheet.ruleSet().id() + "." + rule, kinds);
                }
              });
    }
    assertEquals(NOT_SHOWN, none);
  }

  static List<Planted> planted() throws IOException {
    byte[] bytes;
    try (InputStream in = BundledSheetsTest.class.getResourceAsStream("/planted-mistakes.yaml")) {
      bytes = in.readAllBytes();
    }
    Node.Mapping root = (Node.Mapping) Document.read(bytes, "planted.yaml").orThrow().root();
    List<Planted> rows = new ArrayList<>();
    for (Node.Entry entry :
        ((Node.Mapping) root.get("examples").orElseThrow()).entries().values()) {
      rows.add(
          new Planted(
              entry.key(),
              ((Node.Sequence) entry.value())
                  .items().stream().map(item -> ((Node.Scalar) item).text()).toList()));
    }
    return rows;
  }

  @Test
  @DisplayName("every example formula is in the list of planted mistakes, three without any")
  void allPlanted() throws IOException {
    Set<String> sheets;
    try (Stream<Path> all = Files.list(EXAMPLES)) {
      sheets =
          all.map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".yaml"))
              .collect(Collectors.toCollection(TreeSet::new));
    }
    assertEquals(
        sheets,
        planted().stream().map(Planted::sheet).collect(Collectors.toCollection(TreeSet::new)));
    assertEquals(3, planted().stream().filter(row -> row.rules().isEmpty()).count());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("planted")
  @DisplayName("planted mistakes are found")
  void mistakes(Planted row) throws IOException {
    Formula formula =
        new FormulaReader()
            .read(Files.readAllBytes(EXAMPLES.resolve(row.sheet())), row.sheet())
            .orThrow();
    Review review = Reviewer.using(BundledRuleSets.compile(LIBRARY).orThrow()).review(formula, ON);
    List<Finding> open = review.findings().stream().filter(each -> !each.isAccepted()).toList();
    if (row.rules().isEmpty()) {
      assertEquals(
          List.of(),
          open.stream()
              .filter(each -> each.level() != Severity.NOTE)
              .map(each -> each.rule() + " " + each.outcome().word() + ": " + each.message())
              .toList());
    } else {
      Set<String> spoken =
          open.stream()
              .filter(
                  each -> each.outcome() == Outcome.BREAKS || each.outcome() == Outcome.BORDERLINE)
              .filter(each -> each.level() == each.severity())
              .map(Finding::rule)
              .collect(Collectors.toCollection(TreeSet::new));
      Set<String> silent = new TreeSet<>(row.rules());
      silent.removeAll(spoken);
      assertEquals(Set.of(), silent, () -> "spoke: " + spoken);
    }
  }
}
