package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.SpecificationVersion;
import gelwright.charts.Chart;
import gelwright.comparison.Change;
import gelwright.comparison.Comparer;
import gelwright.comparison.Difference;
import gelwright.comparison.DutyChange;
import gelwright.comparison.FieldChange;
import gelwright.comparison.FindingChange;
import gelwright.comparison.FormulaComparison;
import gelwright.comparison.LineChange;
import gelwright.comparison.PropertyComparison;
import gelwright.comparison.PropertyComparison.Verdict;
import gelwright.comparison.StepChange;
import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.prediction.Curve;
import gelwright.quantity.Odds;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("comparisons of two formulas")
final class ComparisonsTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Comparer COMPARER = Comparer.using(BundledRuleSets.load());

  private static final Formula WARM = read(EXAMPLES.resolve("compare/wind-shelter-warm.yaml"));
  private static final Formula COLD = read(EXAMPLES.resolve("compare/wind-shelter-cold.yaml"));

  private static final String GEL =
      """
      formula: Bench gel
      product: { kind: gel, use: leave-on, area: [hands], users: adults, texture: gel, dispensing: tube, pH: 5.0 to 5.6, markets: [EU] }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 5 % }
        - { phase: A, name: Sclerotium Gum, share: 1.2 % }
        - { phase: B, name: Sodium Benzoate, share: 0.4 % }
      method:
        - { do: hydrate, phase: A, at: 38 °C, for: 60 min, stir: 400 rpm }
        - { do: cool, phase: A, to: 25 °C, over: 20 min }
        - { do: add, phase: B, into: A, at: 25 °C, for: 5 min, stir: 400 rpm }
      """;

  private static Formula read(Path path) {
    try {
      return new FormulaReader().read(Files.readAllBytes(path), path.toString()).orThrow();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static Formula read(String sheet) {
    return new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), "sheet.yaml").orThrow();
  }

  private static FormulaComparison compare(Formula first, Formula second) {
    return COMPARER.compare(first, second, DAY);
  }

  private static PropertyComparison property(FormulaComparison comparison, String name) {
    return comparison.property(name).orElseThrow();
  }

  static Stream<Arguments> examples() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      return files.filter(path -> path.toString().endsWith(".yaml")).sorted().toList().stream()
          .map(path -> Arguments.of(path.getFileName().toString(), read(path)));
    }
  }

  // --- Warm and cold

  @Test
  @DisplayName("warm against cold: ranges overlap almost wholly, and yet the cold gel is weaker")
  void cancels() {
    FormulaComparison comparison = compare(WARM, COLD);
    PropertyComparison stress = property(comparison, "gel.yield-stress");
    double factor = stress.first().high() / stress.first().likely();
    assertTrue(factor > 2, "the gum is known to a factor of " + factor);
    assertTrue(stress.second().high() > stress.first().likely(), "the two ranges overlap");
    Difference ratio = stress.difference();
    assertEquals(Difference.Kind.RATIO, ratio.kind());
    assertTrue(ratio.high() / ratio.likely() < 1.25, "what both share cancels: " + ratio);
    assertTrue(stress.lower().low() > 0.9, "odds " + stress.lower());
    assertEquals(Verdict.PROBABLY_LOWER, stress.verdict());
    assertEquals(Verdict.CLEARLY_LOWER, property(comparison, "gel.hydration").verdict());
    assertTrue(
        stress.undecidedBy().stream().noneMatch(each -> each.doubt().startsWith("yield of")),
        stress.undecidedBy().toString());
  }

  @Test
  @DisplayName("warm against cold: only the procedure differs, step by step")
  void procedure() {
    FormulaComparison comparison = compare(WARM, COLD);
    assertEquals(List.of(), comparison.brief());
    assertTrue(comparison.recipe().stream().allMatch(line -> line.change() == Change.SAME));
    assertEquals(
        List.of("removed", "same", "changed", "removed", "changed", "same", "changed", "same"),
        comparison.method().stream().map(step -> step.change().word()).toList());
    StepChange hydration = comparison.method().get(2);
    assertEquals(3, hydration.firstNumber().orElseThrow());
    assertEquals(2, hydration.secondNumber().orElseThrow());
    assertEquals(
        List.of(new FieldChange("temperature", Optional.of("38 °C"), Optional.of("22 °C"))),
        hydration.fields());
    PropertyComparison peak = property(comparison, "process.peak-temperature");
    assertEquals(Verdict.CERTAINLY_LOWER, peak.verdict());
    assertEquals(-16, peak.difference().likely(), 1e-9);
    assertEquals(Unit.KELVIN, peak.difference().unit());
    assertEquals(
        Verdict.CERTAINLY_LOWER,
        comparison
            .property("ingredient.peak-temperature", "Sclerotium Gum")
            .orElseThrow()
            .verdict());
  }

  @Test
  @DisplayName("warm against cold: a finding comes, others go, each with the outcome over there")
  void findings() {
    FormulaComparison comparison = compare(WARM, COLD);
    FindingChange gained = change(comparison, "hydration.not-fully-hydrated");
    assertEquals(FindingChange.Kind.GAINED, gained.kind());
    assertEquals(Optional.of(Outcome.HOLDS), gained.firstOutcome());
    assertEquals(Optional.of(Outcome.BORDERLINE), gained.secondOutcome());
    FindingChange lost = change(comparison, "procedure.water-not-given-back");
    assertEquals(FindingChange.Kind.LOST, lost.kind());
    assertEquals(Optional.of(Outcome.HOLDS), lost.secondOutcome());
    assertEquals(
        FindingChange.Kind.CHANGED, change(comparison, "texture.yields-too-easily").kind());
    assertTrue(
        comparison.unchecked().stream()
            .anyMatch(open -> open.rule().equals("oil-load.coarse-drops")));
  }

  private static FindingChange change(FormulaComparison comparison, String rule) {
    return comparison.findings().stream()
        .filter(each -> each.finding().rule().equals(rule))
        .findFirst()
        .orElseThrow();
  }

  @Test
  @DisplayName("the pH of two adjustments is two things: it does not cancel")
  void twoAdjustments() {
    PropertyComparison acidity = property(compare(WARM, COLD), "water-phase.pH");
    assertEquals(Verdict.CANNOT_BE_TOLD_APART, acidity.verdict());
    assertEquals(0.5, acidity.higher().low(), 1e-9);
    assertEquals(2, acidity.undecidedBy().size());
  }

  @Test
  @DisplayName("the raw materials' own pH is one thing where the materials are the same")
  void materials() {
    Formula more = read(GEL.replace("share: 0.4 %", "share: 0.45 %").replace("gel\n", "gel 2\n"));
    PropertyComparison acidity = property(compare(read(GEL), more), "water-phase.pH");
    double alone = acidity.first().high() - acidity.first().likely();
    double apart = acidity.difference().high() - acidity.difference().likely();
    assertTrue(apart < 0.2 * alone, apart + " of " + alone);
    Formula other = read(GEL.replace("Glycerin", "Propanediol"));
    PropertyComparison open = property(compare(read(GEL), other), "water-phase.pH");
    double both = open.difference().high() - open.difference().likely();
    assertTrue(both > 1.3 * alone, both + " of " + alone);
  }

  @Test
  @DisplayName("readings of two batches never cancel, though both sheets have one name")
  void readings() {
    String measured = "measured: [{ what: pH, value: 5.4, at: 25 °C }]\n";
    Formula first = read(GEL + measured);
    Formula second = read((GEL + measured).replace("value: 5.4", "value: 5.5"));
    PropertyComparison acidity = property(compare(first, second), "water-phase.pH");
    double one = acidity.first().high() - acidity.first().likely();
    double apart = acidity.difference().high() - acidity.difference().likely();
    assertEquals(Math.sqrt(2) * one, apart, 1e-9);
  }

  // --- What holds of any two

  @ParameterizedTest(name = "{0} with itself -> nothing differs, every number is the same")
  @MethodSource("examples")
  void itself(String name, Formula formula) {
    FormulaComparison comparison = compare(formula, formula);
    assertEquals(List.of(), comparison.brief());
    assertTrue(comparison.recipe().stream().allMatch(line -> line.change() == Change.SAME));
    assertTrue(comparison.method().stream().allMatch(step -> step.change() == Change.SAME));
    assertEquals(formula.lines().size(), comparison.recipe().size());
    assertEquals(formula.method().size(), comparison.method().size());
    for (PropertyComparison property : comparison.properties()) {
      assertEquals(Verdict.SAME, property.verdict(), property.name());
      assertEquals(property.first(), property.second());
    }
    assertTrue(
        comparison.findings().stream().allMatch(each -> each.kind() == FindingChange.Kind.KEPT));
    assertTrue(
        comparison.duties().stream().allMatch(each -> each.kind() == FindingChange.Kind.KEPT));
    assertNotEquals(comparison.first().label(), comparison.second().label());
  }

  private static final Map<Verdict, Verdict> MIRROR =
      Map.of(
          Verdict.SAME, Verdict.SAME,
          Verdict.CERTAINLY_HIGHER, Verdict.CERTAINLY_LOWER,
          Verdict.CLEARLY_HIGHER, Verdict.CLEARLY_LOWER,
          Verdict.PROBABLY_HIGHER, Verdict.PROBABLY_LOWER,
          Verdict.CANNOT_BE_TOLD_APART, Verdict.CANNOT_BE_TOLD_APART,
          Verdict.PROBABLY_LOWER, Verdict.PROBABLY_HIGHER,
          Verdict.CLEARLY_LOWER, Verdict.CLEARLY_HIGHER,
          Verdict.CERTAINLY_LOWER, Verdict.CERTAINLY_HIGHER,
          Verdict.UNKNOWN, Verdict.UNKNOWN);

  static Stream<Arguments> pairs() throws IOException {
    List<Arguments> all = examples().toList();
    List<Arguments> pairs = new ArrayList<>();
    pairs.add(Arguments.of("warm, cold", WARM, COLD));
    for (int i = 0; i < all.size(); i += 2) {
      Object[] one = all.get(i).get();
      Object[] other = all.get((i + 1) % all.size()).get();
      pairs.add(Arguments.of(one[0] + ", " + other[0], one[1], other[1]));
    }
    return pairs.stream();
  }

  @ParameterizedTest(name = "{0}: second beside first mirrors first beside second")
  @MethodSource("pairs")
  void mirrors(String name, Formula a, Formula b) {
    FormulaComparison there = compare(a, b);
    FormulaComparison back = compare(b, a);
    Map<String, PropertyComparison> byName = new TreeMap<>();
    back.properties().forEach(each -> byName.put(each.subject() + each.name(), each));
    assertEquals(byName.size(), there.properties().size());
    for (PropertyComparison one : there.properties()) {
      PropertyComparison other = byName.get(one.subject() + one.name());
      assertEquals(MIRROR.get(one.verdict()), other.verdict(), one.name());
      near(one.first(), other.second());
      near(one.second(), other.first());
      near(one.name(), one.higher(), other.lower());
      near(one.name(), one.lower(), other.higher());
    }
    assertEquals(
        count(there, Change.ADDED), count(back, Change.REMOVED), "lines added and removed");
    assertEquals(count(there, Change.CHANGED), count(back, Change.CHANGED));
    assertEquals(
        findings(there, FindingChange.Kind.GAINED), findings(back, FindingChange.Kind.LOST));
    assertEquals(
        findings(there, FindingChange.Kind.CHANGED), findings(back, FindingChange.Kind.CHANGED));
    assertEquals(duties(there, FindingChange.Kind.LOST), duties(back, FindingChange.Kind.GAINED));
    assertEquals(steps(there, false), steps(back, true));
    assertEquals(there.unchecked().size(), back.unchecked().size());
  }

  // Doubts are summed in the order of their names, in which the two formulas have changed places.
  private static void near(Shown a, Shown b) {
    assertEquals(a.name(), b.name());
    assertEquals(a.missing(), b.missing());
    near(a.name(), a.likely(), b.likely());
    near(a.name(), a.low(), b.low());
    near(a.name(), a.high(), b.high());
  }

  private static void near(String name, double a, double b) {
    if (Double.compare(a, b) != 0) {
      assertEquals(a, b, 1e-9 * Math.max(1e-9, Math.abs(a)), name);
    }
  }

  private static void near(String name, Odds a, Odds b) {
    assertEquals(a.low(), b.low(), 1e-9, name);
    assertEquals(a.high(), b.high(), 1e-9, name);
  }

  private static long count(FormulaComparison comparison, Change change) {
    return comparison.recipe().stream().filter(each -> each.change() == change).count();
  }

  private static Set<String> findings(FormulaComparison comparison, FindingChange.Kind kind) {
    Set<String> all = new java.util.TreeSet<>();
    for (FindingChange each : comparison.findings()) {
      if (each.kind() == kind && !each.finding().subject().kind().equals("step")) {
        all.add(each.finding().rule() + each.finding().subject());
      }
    }
    return all;
  }

  private static long duties(FormulaComparison comparison, FindingChange.Kind kind) {
    return comparison.duties().stream().map(DutyChange::kind).filter(kind::equals).count();
  }

  private static Set<List<Integer>> steps(FormulaComparison comparison, boolean mirrored) {
    Set<List<Integer>> all = new java.util.HashSet<>();
    for (StepChange step : comparison.method()) {
      int first = step.firstNumber().orElse(0);
      int second = step.secondNumber().orElse(0);
      all.add(mirrored ? List.of(second, first) : List.of(first, second));
    }
    return all;
  }

  // --- The recipe

  @ParameterizedTest(name = "seed {0}")
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  @DisplayName("lines taken out, put in, changed and shuffled -> found, each line told once")
  void recipe(long seed) {
    Random random = new Random(seed);
    Formula base = read(EXAMPLES.resolve("wind-shelter-gel-cream.yaml"));
    List<Line> lines = new ArrayList<>();
    int removed = 0;
    int changed = 0;
    for (Line line : base.lines()) {
      int lot = random.nextInt(4);
      if (line.amount() instanceof Amount.Stated stated && lot == 0) {
        removed++;
      } else if (line.amount() instanceof Amount.Stated stated && lot == 1) {
        changed++;
        lines.add(
            Line.of(
                line.phase(),
                line.name(),
                new Amount.Stated(new Share(stated.share().units() + Share.PER_PERCENT / 8))));
      } else {
        lines.add(line);
      }
    }
    lines.add(Line.of("E", "Bisabolol", new Amount.Stated(new Share(Share.PER_PERCENT / 5))));
    Collections.shuffle(lines, random);
    Formula other =
        new Formula(
            base.name(),
            base.version(),
            base.brief(),
            base.batch(),
            base.equipment(),
            lines,
            base.method(),
            base.label(),
            base.measured(),
            base.accepted(),
            Map.of());
    FormulaComparison comparison = compare(base, other);
    assertEquals(removed, count(comparison, Change.REMOVED));
    assertEquals(1, count(comparison, Change.ADDED));
    // What is left to 100 %, and with it the amount to the pH, changes as well.
    long stated =
        comparison.recipe().stream()
            .filter(each -> each.change() == Change.CHANGED)
            .filter(each -> each.second().orElseThrow().line().amount() instanceof Amount.Stated)
            .count();
    assertEquals(changed, stated);
    LineChange water =
        comparison.recipe().stream()
            .filter(each -> each.ingredient().equals("Aqua"))
            .findFirst()
            .orElseThrow();
    assertEquals(Change.CHANGED, water.change());
    assertTrue(water.fields().get(0).first().orElseThrow().startsWith("rest ("));
    List<Integer> told = new ArrayList<>();
    comparison.recipe().forEach(each -> each.first().ifPresent(line -> told.add(line.number())));
    assertEquals(base.lines().size(), Set.copyOf(told).size());
    assertEquals(base.lines().size(), told.size());
    assertEquals(
        lines.size(), comparison.recipe().stream().filter(e -> e.second().isPresent()).count());
  }

  @Test
  @DisplayName("a synonym and another phase of two lines of one ingredient -> phase changed only")
  void phase() {
    Formula first = read(GEL);
    Formula second =
        read(
            GEL.replace("{ phase: A, name: Glycerin", "{ phase: B, name: glycerin")
                .replace(
                    "share: 0.4 % }",
                    "share: 0.4 % }\n  - { phase: C, name: Glycerin, share: 1 % }"));
    FormulaComparison comparison = compare(first, second);
    List<LineChange> glycerin =
        comparison.recipe().stream().filter(each -> each.ingredient().equals("Glycerin")).toList();
    assertEquals(
        List.of(Change.CHANGED, Change.ADDED), glycerin.stream().map(LineChange::change).toList());
    assertEquals(
        List.of(new FieldChange("phase", Optional.of("A"), Optional.of("B"))),
        glycerin.get(0).fields());
  }

  @Test
  @DisplayName("texture and batch -> told in the brief")
  void brief() {
    Formula second = read(GEL.replace("texture: gel", "texture: serum") + "batch: 200 g\n");
    assertEquals(
        List.of(
            new FieldChange("texture", Optional.of("gel"), Optional.of("serum")),
            new FieldChange("batch", Optional.empty(), Optional.of("200 g"))),
        compare(read(GEL), second).brief());
  }

  // --- What is not known

  @Test
  @DisplayName("a gum nobody knows on one side -> unknown, and it is named")
  void unknown() {
    Formula second = read(GEL.replace("Sclerotium Gum", "Nobody Knows Gum"));
    FormulaComparison comparison = compare(read(GEL), second);
    PropertyComparison stress = property(comparison, "gel.yield-stress");
    assertEquals(Verdict.UNKNOWN, stress.verdict());
    assertTrue(stress.first().isKnown());
    assertFalse(stress.second().isKnown());
    assertFalse(stress.difference().isKnown());
    assertTrue(stress.second().missing().toString().contains("Nobody Knows Gum"));
    assertFalse(comparison.unchecked().isEmpty());
    Curve ratio = comparison.curve("flow-ratio").orElseThrow();
    assertFalse(ratio.isKnown());
    assertTrue(ratio.missing().toString().contains("Nobody Knows Gum"));
  }

  // --- Curves and JSON

  @Test
  @DisplayName("both flow curves in one: two lines, two dashes, both told in words")
  void flow() {
    FormulaComparison comparison = compare(WARM, COLD);
    Curve flow = comparison.curve("flow").orElseThrow();
    assertEquals(
        List.of(WARM.name(), COLD.name()), flow.series().stream().map(Curve.Series::name).toList());
    assertEquals(flow.marks().size(), Set.copyOf(flow.marks()).size());
    String svg = Chart.of(flow, comparison.about()).svg("flow");
    assertTrue(svg.contains("stroke-dasharray"), "the second line is dashed");
    String told = svg.substring(svg.indexOf("<desc"), svg.indexOf("</desc>"));
    assertTrue(told.contains(WARM.name() + ": ") && told.contains(COLD.name() + ": "), told);
    Curve ratio = comparison.curve("flow-ratio").orElseThrow();
    PropertyComparison pouring = property(comparison, "gel.viscosity-pouring");
    Curve.Point at =
        ratio.series().get(0).points().stream()
            .filter(point -> Math.abs(point.x() - 10) < 1e-9)
            .findFirst()
            .orElseThrow();
    assertEquals(pouring.difference().likely(), at.likely(), 1e-9);
    assertEquals(pouring.difference().low(), at.low(), 1e-9);
  }

  @Test
  @DisplayName("readings of both -> diamonds and open circles, each explained")
  void shapes() {
    String reading =
        "measured: [{ what: viscosity, value: 3.3 Pa·s, shear-rate: 10 /s, at: 25 °C }]\n";
    FormulaComparison comparison =
        compare(
            read(GEL + reading),
            read((GEL + reading).replace("3.3", "2.1").replace("gel\n", "gel, thinner\n")));
    Curve flow = comparison.curve("flow").orElseThrow();
    assertEquals(
        List.of("readings of Bench gel", "readings of Bench gel, thinner"),
        flow.series().stream()
            .filter(each -> each.kind() == Curve.Kind.MEASURED)
            .map(Curve.Series::name)
            .toList());
    String svg = Chart.of(flow, comparison.about()).svg("flow");
    assertTrue(svg.contains("Diamonds: readings of Bench gel."), svg);
    assertTrue(svg.contains("Open circles: readings of Bench gel, thinner."), svg);
  }

  @ParameterizedTest(name = "{0} -> JSON as its schema says, the same bytes twice, no NaN")
  @MethodSource("pairs")
  void json(String name, Formula a, Formula b) {
    SchemaCheck schema =
        SchemaCheck.of(
            "/gelwright/schemas/comparison.schema.json", SpecificationVersion.DRAFT_2020_12);
    String text = ComparisonReport.indented().text(compare(a, b));
    assertEquals(List.of(), schema.errors(text));
    assertFalse(text.contains("NaN") || text.contains("Infinity"));
    assertEquals(text, ComparisonReport.indented().text(compare(a, b)));
    for (String field : List.of("recipe", "verdict", "change", "difference", "fields")) {
      String broken = text.replaceFirst("\"" + field + "\"", "\"" + field + "s\"");
      assertFalse(schema.errors(broken).isEmpty(), field);
    }
  }
}
