package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Node;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
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

@DisplayName("classic mistakes and sound formulas")
final class ClassicMistakesTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Path SOUND = Path.of("src", "test", "resources", "sound-formulas");
  private static final Library LIBRARY = Bundled.load();
  private static final Reviewer REVIEWER =
      Reviewer.using(BundledRuleSets.compile(LIBRARY).orThrow());

  /** What a student gets wrong, and the rule that must tell. */
  record Mistake(
      String name,
      String wrong,
      String base,
      Node.Mapping formula,
      String rule,
      String level,
      Node.Mapping twin) {
    @Override
    public String toString() {
      return name + " -> " + rule + " as " + level;
    }
  }

  static List<Mistake> mistakes() throws IOException {
    byte[] bytes;
    try (InputStream in = ClassicMistakesTest.class.getResourceAsStream("/classic-mistakes.yaml")) {
      bytes = in.readAllBytes();
    }
    Node.Mapping root = (Node.Mapping) Document.read(bytes, "mistakes.yaml").orThrow().root();
    List<Mistake> rows = new ArrayList<>();
    for (Node.Entry entry :
        ((Node.Mapping) root.get("mistakes").orElseThrow()).entries().values()) {
      Node.Mapping row = (Node.Mapping) entry.value();
      rows.add(
          new Mistake(
              entry.key(),
              text(row, "wrong"),
              text(row, "base"),
              (Node.Mapping) row.get("formula").orElseThrow(),
              text(row, "rule"),
              text(row, "level"),
              (Node.Mapping) row.get("twin").orElseThrow()));
    }
    return rows;
  }

  private static String text(Node.Mapping row, String key) {
    return ((Node.Scalar) row.get(key).orElseThrow()).text();
  }

  private static List<Finding> findings(Mistake mistake, Node.Mapping overlay) {
    Overlay.Applied applied = Overlay.apply(LIBRARY.bases().get(mistake.base()), overlay).orThrow();
    Formula formula = new FormulaReader().read(applied.formula()).orThrow();
    Knowledge knowledge = BundledRuleSets.compile(LIBRARY).orThrow();
    Reviewer reviewer =
        applied.removals().isEmpty()
            ? REVIEWER
            : Reviewer.using(
                new Knowledge(applied.of(LIBRARY.catalogue()).orThrow(), knowledge.rules()));
    return reviewer.review(formula, ON).findings().stream()
        .filter(each -> each.rule().equals(mistake.rule()))
        .toList();
  }

  private static String words(Finding finding) {
    return finding.level().name().toLowerCase(Locale.ROOT)
        + " "
        + finding.outcome().word()
        + ": "
        + finding.message();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("mistakes")
  @DisplayName("the rule speaks of the mistake")
  void speaks(Mistake mistake) {
    List<Finding> findings = findings(mistake, mistake.formula());
    assertTrue(
        findings.stream()
            .filter(
                each -> each.outcome() == Outcome.BREAKS || each.outcome() == Outcome.BORDERLINE)
            .anyMatch(each -> each.level().name().toLowerCase(Locale.ROOT).equals(mistake.level())),
        () -> "said: " + findings.stream().map(ClassicMistakesTest::words).toList());
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("mistakes")
  @DisplayName("the rule has nothing to say of the twin without the mistake")
  void silent(Mistake mistake) {
    assertEquals(
        List.of(),
        findings(mistake, mistake.twin()).stream().map(ClassicMistakesTest::words).toList());
  }

  @Test
  @DisplayName(
      "at least 60 mistakes, in every rule set but law, label, caution and the tables of papers")
  void enough() throws IOException {
    List<Mistake> mistakes = mistakes();
    assertTrue(mistakes.size() >= 60, mistakes.size() + " mistakes");
    assertEquals(mistakes.size(), mistakes.stream().map(Mistake::name).distinct().count(), "names");
    Set<String> sets =
        mistakes.stream()
            .map(each -> each.rule().substring(0, each.rule().indexOf('.')))
            .collect(Collectors.toCollection(TreeSet::new));
    assertEquals(
        LIBRARY.ruleSets().stream()
            .map(set -> set.id())
            .filter(id -> !Set.of("law-eu", "label", "caution", "papers").contains(id))
            .collect(Collectors.toCollection(TreeSet::new)),
        sets);
  }

  static List<String> sound() throws IOException {
    try (Stream<Path> all = Files.list(SOUND)) {
      return all.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("sound")
  @DisplayName("a formula written with care raises no error and at most two warnings")
  void raisesNoAlarm(String name) throws IOException {
    Formula formula =
        new FormulaReader().read(Files.readAllBytes(SOUND.resolve(name)), name).orThrow();
    Review review = REVIEWER.review(formula, ON);
    Map<String, List<String>> loud = new TreeMap<>();
    for (Finding finding : review.findings()) {
      loud.computeIfAbsent(finding.level().name(), level -> new ArrayList<>())
          .add(finding.rule() + " " + words(finding));
    }
    assertEquals(List.of(), loud.getOrDefault("ERROR", List.of()));
    List<String> warnings = loud.getOrDefault("WARNING", List.of());
    assertTrue(warnings.size() <= 2, () -> String.join("\n", warnings));
  }

  @Test
  @DisplayName("at least 25 sound formulas, of every kind of product")
  void allKinds() throws IOException {
    Set<String> kinds = new TreeSet<>();
    List<String> names = sound();
    for (String name : names) {
      new FormulaReader()
          .read(Files.readAllBytes(SOUND.resolve(name)), name)
          .orThrow()
          .brief()
          .kind()
          .ifPresent(kinds::add);
    }
    assertTrue(names.size() >= 25, names.size() + " formulas");
    assertEquals(
        Set.of("mist", "lotion", "serum", "gel", "gel-cream", "scrub", "mask", "wash", "deodorant"),
        kinds);
  }
}
