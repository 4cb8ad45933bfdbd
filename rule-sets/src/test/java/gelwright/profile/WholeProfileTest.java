package gelwright.profile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.quantity.Estimate;
import gelwright.review.Reviewer;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What must hold for the whole profile of a formula, on the eight examples. */
@DisplayName("the whole profile of the examples")
final class WholeProfileTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Catalogue CATALOGUE = BundledRuleSets.load().catalogue();
  private static final Reviewer REVIEWER = Reviewer.using(BundledRuleSets.load());

  /** Draws of all doubts at once. */
  private static final int DRAWS = 600;

  static List<Formula> examples() throws IOException {
    List<Formula> formulas = new ArrayList<>();
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      for (Path file : files.filter(each -> each.toString().endsWith(".yaml")).sorted().toList()) {
        formulas.add(new FormulaReader().read(Files.readAllBytes(file), file.toString()).orThrow());
      }
    }
    return formulas;
  }

  private static Formula withLines(Formula formula, List<Line> lines) {
    return new Formula(
        formula.name(),
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

  @ParameterizedTest(name = "{0}")
  @MethodSource("examples")
  @DisplayName("the order of the ingredients changes no number and no verdict")
  void order(Formula formula) {
    Profile straight = Profile.of(formula, CATALOGUE);
    var verdicts = new TreeMap<String, Map<String, String>>();
    outcomes(formula, verdicts);
    assertFalse(verdicts.isEmpty());
    Random random = new Random(20261125);
    for (int run = 0; run < 5; run++) {
      List<Line> lines = new ArrayList<>(formula.lines());
      Collections.shuffle(lines, random);
      Formula shuffled = withLines(formula, lines);
      Profile other = Profile.of(shuffled, CATALOGUE);
      for (int i = 0; i < straight.values().size(); i++) {
        Profile.Value one = straight.values().get(i);
        Profile.Value two = other.values().get(i);
        assertEquals(one.name(), two.name());
        assertNear(one.name(), one.value().atLeast(), two.value().atLeast());
        assertNear(one.name(), one.value().atMost(), two.value().atMost());
        assertEquals(one.value().missing(), two.value().missing(), one.name());
      }
      var others = new TreeMap<String, Map<String, String>>();
      outcomes(shuffled, others);
      assertEquals(verdicts, others);
    }
  }

  private static void outcomes(Formula formula, Map<String, Map<String, String>> into) {
    REVIEWER
        .verdicts(formula, ON)
        .forEach(
            (rule, bySubject) ->
                bySubject.forEach(
                    (subject, verdict) ->
                        into.computeIfAbsent(rule, key -> new TreeMap<>())
                            .put(subject.toString(), verdict.outcome().word())));
  }

  private static void assertNear(String name, Estimate expected, Estimate actual) {
    assertNear(name, expected.likely(), actual.likely());
    assertNear(name, expected.low(), actual.low());
    assertNear(name, expected.high(), actual.high());
  }

  private static void assertNear(String name, double expected, double actual) {
    if (expected != actual) {
      assertEquals(expected, actual, 1e-7 * Math.max(1e-3, Math.abs(expected)), name);
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("examples")
  @DisplayName("no number is NaN, no range is upside down")
  void defined(Formula formula) {
    for (Profile.Value value : Profile.of(formula, CATALOGUE).values()) {
      for (Estimate end : List.of(value.value().atLeast(), value.value().atMost())) {
        assertFalse(Double.isNaN(end.likely()), value.name());
        assertFalse(Double.isNaN(end.low()) || Double.isNaN(end.high()), value.name());
        assertTrue(end.low() <= end.likely() && end.likely() <= end.high(), value.name());
      }
    }
  }
}
