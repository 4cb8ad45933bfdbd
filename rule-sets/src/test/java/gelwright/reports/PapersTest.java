package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.SpecificationVersion;
import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.formula.Formula;
import gelwright.labelling.LabelDraft;
import gelwright.labelling.LabelDrafts;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Knowledge;
import gelwright.rule.Table;
import gelwright.sheets.Bundled;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.Library;
import gelwright.sheets.tree.Limits;
import gelwright.stability.StabilityPlan;
import gelwright.stability.StabilityPlans;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("batch sheets, label drafts, stability plans")
final class PapersTest {
  private static final Path EXAMPLES = Path.of("..", "docs", "examples");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final BatchSheets BATCHES = BatchSheets.using(KNOWLEDGE);
  private static final LabelDrafts LABELS = LabelDrafts.using(KNOWLEDGE);
  private static final StabilityPlans STABILITY = StabilityPlans.using(KNOWLEDGE);

  static Stream<Arguments> examples() throws IOException {
    try (Stream<Path> files = Files.list(EXAMPLES)) {
      return files.filter(path -> path.toString().endsWith(".yaml")).sorted().toList().stream()
          .map(path -> Arguments.of(path.getFileName().toString(), read(path)));
    }
  }

  private static Formula read(Path path) {
    try {
      return new FormulaReader().read(Files.readAllBytes(path), path.toString()).orThrow();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Formula formula(String sheet) {
    return new FormulaReader()
        .read(("formula: Bench gel\n" + sheet).getBytes(StandardCharsets.UTF_8), "bench.yaml")
        .orThrow();
  }

  private static Quantity grams(double grams) {
    return Quantity.of(grams, Unit.GRAM);
  }

  private static SchemaCheck schema(String name) {
    return SchemaCheck.of(
        "/gelwright/schemas/" + name + ".schema.json", SpecificationVersion.DRAFT_2020_12);
  }

  // --- JSON ---

  @ParameterizedTest(name = "{0}: all three fit their schemas and are the same twice")
  @MethodSource("examples")
  void schemas(String name, Formula formula) {
    String batch = PaperReport.indented().text(BATCHES.of(formula, grams(1234.5), DAY));
    assertEquals(List.of(), schema("batch-sheet").errors(batch));
    assertEquals(batch, PaperReport.indented().text(BATCHES.of(formula, grams(1234.5), DAY)));
    String label = PaperReport.compact().text(LABELS.of(formula, DAY));
    assertEquals(List.of(), schema("label-draft").errors(label));
    assertEquals(label, PaperReport.compact().text(LABELS.of(formula, DAY)));
    String plan = PaperReport.compact().text(STABILITY.of(formula, DAY));
    assertEquals(List.of(), schema("stability-plan").errors(plan));
    assertEquals(plan, PaperReport.compact().text(STABILITY.of(formula, DAY)));
  }

  @Test
  @DisplayName("the schemas do refuse: a document without its standing")
  void refusing() {
    String plan = PaperReport.compact().text(STABILITY.of(formula(PLAIN), DAY));
    String without = plan.replaceFirst("\"standing\":\"[^\"]*\",", "");
    assertFalse(schema("stability-plan").errors(without).isEmpty());
  }

  // --- batch sheets ---

  private static final String PLAIN =
      """
      batch: 500 g
      equipment: { balance: 0.01 g }
      product: { use: leave-on, markets: [EU], pH: 4.5 to 5.5, shelf-life: 12 months }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: 3.333 % }
        - { phase: A, name: Xanthan Gum, share: 0.7 % }
        - { phase: B, name: Sodium Benzoate, share: 0.4 % }
      """;

  @ParameterizedTest(name = "{0}: the masses add up to the batch, for any size")
  @MethodSource("examples")
  void sums(String name, Formula formula) {
    for (double batch : List.of(50.0, 137.0, 500.0, 2000.0, 12_345.67)) {
      BatchSheet sheet = BATCHES.of(formula, grams(batch), DAY);
      boolean all = sheet.weighings().stream().allMatch(each -> each.grams().isPresent());
      boolean said =
          sheet.remarks().stream().anyMatch(text -> text.contains("not add up to 100 %"));
      if (all) {
        assertEquals(
            said, sheet.grams().compareTo(sheet.sum()) != 0, () -> batch + " g: " + sheet.sum());
      }
      for (BatchSheet.Weighing line : sheet.weighings()) {
        line.grams()
            .ifPresent(mass -> assertEquals(0, mass.remainder(sheet.balance().step()).signum()));
      }
    }
  }

  private static String mass(BatchSheet sheet, String name) {
    return weighing(sheet, name).grams().map(BigDecimal::toPlainString).orElse("not known");
  }

  private static BatchSheet.Weighing weighing(BatchSheet sheet, String name) {
    return sheet.weighings().stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  @Test
  @DisplayName("what rounding leaves over goes to the water: 3.333 % of 500 g is 16.665 g")
  void rounding() {
    BatchSheet sheet = BATCHES.of(formula(PLAIN), grams(500), DAY);
    // 16.665 lies between two steps of 0.01 g; half to even gives 16.66.
    assertEquals("16.66", mass(sheet, "Glycerin"));
    assertEquals("3.50", mass(sheet, "Xanthan Gum"));
    assertEquals("2.00", mass(sheet, "Sodium Benzoate"));
    assertEquals("477.84", mass(sheet, "Aqua"));
  }

  @ParameterizedTest(name = "{0} g of {1}: {2}, {3} g at least")
  @CsvSource({
    // USP chapter 41: 2 · 0.41 · d / tolerance; 0.82 g for 1 % on a balance of 0.01 g, 0.164 g
    // for the 5 % of what is neither preservative nor active.
    "500, Sodium Benzoate, WELL, 0",
    "200, Sodium Benzoate, POORLY, 0.82",
    "200, Xanthan Gum, WELL, 0",
    "20, Xanthan Gum, POORLY, 0.164"
  })
  void balance(double batch, String name, BatchSheet.Fit fit, double least) {
    BatchSheet.Weighing line = weighing(BATCHES.of(formula(PLAIN), grams(batch), DAY), name);
    assertEquals(fit, line.fit());
    assertEquals(least, line.least().orElse(0.0), 1e-9);
    assertEquals(0.0082, line.error().orElseThrow(), 1e-9);
  }

  @Test
  @DisplayName("a batch between two steps of the balance is moved to the nearer one, and told")
  void offTheSteps() {
    BatchSheet sheet = BATCHES.of(formula(PLAIN.replace("0.01 g", "0.5 g")), grams(137.2), DAY);
    assertEquals(0, new BigDecimal("137").compareTo(sheet.grams()));
    assertEquals(0, sheet.grams().compareTo(sheet.sum()));
    assertTrue(sheet.remarks().get(0).startsWith("Asked for were 137.2 g"));
  }

  @Test
  @DisplayName("rule sets without the tables of papers: what they would tell is unknown")
  void noTables() {
    Library bundled = Bundled.load();
    Knowledge bare =
        BundledRuleSets.compile(
                new Library(
                    bundled.catalogue(),
                    bundled.ruleSheets().stream()
                        .filter(sheet -> !sheet.ruleSet().id().equals("papers"))
                        .toList(),
                    bundled.bases()))
            .orThrow();
    StabilityPlan plan = StabilityPlans.using(bare).of(formula(PLAIN), DAY);
    assertTrue(plan.unknown().stream().anyMatch(text -> text.contains("stability-tests")));
    BatchSheet sheet = BatchSheets.using(bare).of(formula(PLAIN), grams(500), DAY);
    assertTrue(sheet.unknown().stream().anyMatch(text -> text.contains("batch-record")));
    // No caution is lost for want of a place.
    assertTrue(sheet.cautions().stream().anyMatch(each -> each.rule().equals("caution.dust")));
    LabelDraft draft = LabelDrafts.using(bare).of(formula(PLAIN), DAY);
    assertTrue(draft.unknown().stream().anyMatch(text -> text.contains("label-fields")));
  }

  @Test
  @DisplayName("without a balance nothing is said to be weighed well")
  void noBalance() {
    BatchSheet sheet =
        BATCHES.of(formula(PLAIN.replace("equipment: { balance: 0.01 g }\n", "")), grams(500), DAY);
    assertFalse(sheet.balance().stated());
    assertTrue(
        sheet.weighings().stream()
            .allMatch(each -> each.fit() == BatchSheet.Fit.NOT_KNOWN && each.error().isEmpty()));
    assertTrue(sheet.unknown().stream().anyMatch(text -> text.contains("equipment.balance")));
  }

  @Test
  @DisplayName("what does not add up is said, and no mass is bent to hide it")
  void doesNotAddUp() {
    BatchSheet sheet =
        BATCHES.of(
            formula(
                """
                equipment: { balance: 0.01 g }
                ingredients:
                  - { phase: A, name: Aqua, share: 90 % }
                  - { phase: A, name: Glycerin, share: 4 % }
                """),
            grams(100),
            DAY);
    assertEquals("90.00", mass(sheet, "Aqua"));
    assertEquals("94.00", sheet.sum().toPlainString());
    assertTrue(sheet.remarks().stream().anyMatch(text -> text.contains("not add up to 100 %")));
  }

  @Test
  @DisplayName("acid per tenth of a pH: buffer capacity of benzoate (Van Slyke 1922)")
  void perTenth() {
    // β = 2.303·(C·Ka·[H]/(Ka + [H])² + [H] + [OH]), Van Slyke D. D., J. Biol. Chem. 52 (1922)
    // 525. At pH = pKa' the first term is C/4. pKa of benzoic acid 4.20 (CRC Handbook, recalled);
    // at an ionic strength of 0.035 mol/kg the mixed pKa' is 4.20 − 0.509·(√I/(1+√I) − 0.3·I) =
    // 4.12 (Davies). 0.5 % in 99.5 % of water: 0.5/144.1/0.0995 · 1 = 0.03487 mol/kg.
    BatchSheet sheet =
        BATCHES.of(
            formula(
                """
                ingredients:
                  - { phase: A, name: Aqua, share: rest }
                  - { phase: A, name: Sodium Benzoate, share: 0.5 % }
                  - { phase: B, name: Hydrochloric Acid, share: to-pH }
                method:
                  - { do: mix, phase: A, for: 5 min }
                  - { do: adjust-pH, with: Hydrochloric Acid, to: 4.12 }
                """),
            grams(1000),
            DAY);
    double beta = 2.303 * (0.03487 / 4 + Math.pow(10, -4.12));
    double gramsPerTenth = 0.1 * beta * 36.46 * 0.995; // of HCl in a kilogram of the batch
    BatchSheet.Adjusting adjusting = sheet.adjustings().get(0);
    assertEquals(gramsPerTenth, adjusting.perTenthAsBought().likely(), 0.03 * gramsPerTenth);
    assertEquals(10 * gramsPerTenth, adjusting.perTenth().likely(), 0.3 * gramsPerTenth);
    // The way there: as much acid as benzoate that has taken up a proton, half of it at pKa'.
    assertEquals(
        36.46 * 0.995 * (0.03487 / 2 + Math.pow(10, -4.12)),
        adjusting.needed().likely(),
        0.04 * adjusting.needed().likely());
  }

  @Test
  @DisplayName("an adjuster of half strength is weighed twice, its solution is the same")
  void strength() {
    String sheet =
        """
        product: { pH: 4.5 to 5.5 }
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Sodium Benzoate, share: 0.5 %% }
          - { phase: B, name: Lactic Acid, share: to-pH%s }
        """;
    BatchSheet.Adjusting pure =
        BATCHES.of(formula(sheet.formatted("")), grams(1000), DAY).adjustings().get(0);
    BatchSheet.Adjusting half =
        BATCHES
            .of(formula(sheet.formatted(", strength: 50 %")), grams(1000), DAY)
            .adjustings()
            .get(0);
    assertEquals(2 * pure.needed().likely(), half.needed().likely(), 1e-9);
    assertEquals(pure.perTenth().likely(), half.perTenth().likely(), 1e-9);
    assertEquals(2 * pure.perTenthAsBought().likely(), half.perTenthAsBought().likely(), 1e-9);
  }

  @Test
  @DisplayName("an amount that is not known stays unknown, and the water is an upper bound")
  void unknownAmount() {
    BatchSheet sheet =
        BATCHES.of(
            formula(
                """
                product: { pH: 4.5 to 5.5 }
                equipment: { balance: 0.01 g }
                ingredients:
                  - { phase: A, name: Aqua, share: rest }
                  - { phase: A, name: Moonlit Fern Juice, share: 3 % }
                  - { phase: B, name: Citric Acid, share: to-pH }
                """),
            grams(100),
            DAY);
    assertEquals("not known", mass(sheet, "Citric Acid"));
    assertEquals("97.00", mass(sheet, "Aqua"));
    assertTrue(weighing(sheet, "Aqua").remarks().get(0).startsWith("at most"));
    assertTrue(sheet.unknown().stream().anyMatch(text -> text.contains("Citric Acid")));
    assertTrue(sheet.adjustings().get(0).titration().isEmpty());
  }

  @Test
  @DisplayName("a caution bites at its step: lye when the pH is set, dust when the gum goes in")
  void cautions() {
    BatchSheet sheet =
        BATCHES.of(
            formula(
                """
                product: { pH: 5 to 6 }
                ingredients:
                  - { phase: A, name: Aqua, share: rest }
                  - { phase: A, name: Xanthan Gum, share: 0.7 % }
                  - { phase: B, name: Lactic Acid, share: 1 % }
                  - { phase: C, name: Sodium Hydroxide, share: to-pH }
                method:
                  - { do: heat, phase: A, to: 75 °C, over: 10 min }
                  - { do: disperse, phase: A, with: Xanthan Gum, stir: 800 rpm }
                  - { do: add, phase: B, into: A, for: 5 min, stir: 400 rpm }
                  - { do: adjust-pH, with: Sodium Hydroxide, to: 5.5 }
                """),
            grams(500),
            DAY);
    assertEquals(
        List.of("caution.hot-vessel"),
        sheet.steps().get(0).cautions().stream().map(BatchSheet.Caution::rule).toList());
    assertTrue(sheet.steps().get(1).again().contains("Fine powders do not belong in the lungs"));
    assertTrue(sheet.steps().get(3).again().contains("Lye burns"));
    assertTrue(
        sheet.weighingCautions().stream()
            .anyMatch(each -> each.rule().equals("caution.caustic-lye")));
    // Each is told in full once.
    List<String> told =
        Stream.concat(
                Stream.concat(sheet.weighingCautions().stream(), sheet.cautions().stream()),
                sheet.steps().stream().flatMap(step -> step.cautions().stream()))
            .map(BatchSheet.Caution::rule)
            .toList();
    assertEquals(Set.copyOf(told).size(), told.size());
  }

  @Test
  @DisplayName("another size of batch: a small one loses a larger part of its water")
  void otherSize() {
    Formula cream = read(EXAMPLES.resolve("wind-shelter-gel-cream.yaml"));
    BatchSheet large = BATCHES.of(cream, grams(2000), DAY);
    assertTrue(
        large.turned().stream()
            .anyMatch(each -> each.rule().equals("procedure.water-not-given-back")));
    assertTrue(large.remarks().stream().anyMatch(text -> text.contains("wider vessel")));
    assertTrue(large.remarks().stream().anyMatch(text -> text.contains("more slowly")));
    // π/4 · 8.5² cm² holds 56.7 mL a centimetre.
    assertEquals(2000 / 56.745 * 10, large.filling().orElseThrow().height(), 0.1);
    BatchSheet same = BATCHES.of(cream, grams(500), DAY);
    assertTrue(same.turned().isEmpty() && same.changes().isEmpty());
    assertTrue(same.unknown().stream().anyMatch(text -> text.contains("does not say")));
  }

  @Test
  @DisplayName("a line that no step takes in, and a step without its targets, are said")
  void procedure() {
    BatchSheet sheet =
        BATCHES.of(formula(PLAIN + "method:\n  - { do: heat, phase: A }\n"), grams(500), DAY);
    assertEquals(List.of("temperature", "time"), sheet.steps().get(0).missing());
    assertTrue(
        sheet.unknown().stream().anyMatch(text -> text.startsWith("When Sodium Benzoate goes in")));
    assertTrue(
        BATCHES.of(formula(PLAIN), grams(500), DAY).unknown().stream()
            .anyMatch(text -> text.contains("no procedure")));
  }

  @Test
  @DisplayName(
      "the record asks for what ISO 22716 names: number, lots, controls, deviations, yield")
  void record() {
    String items =
        BATCHES.of(formula(PLAIN), grams(500), DAY).record().stream()
            .map(each -> each.item() + " " + each.clause() + "\n")
            .collect(Collectors.joining());
    for (String asked :
        List.of(
            "Batch number",
            "Date",
            "signature",
            "cleaned",
            "lot numbers",
            "pH, viscosity",
            "Deviations",
            "Yield",
            "Released")) {
      assertTrue(items.contains(asked), asked);
    }
    assertTrue(
        BATCHES.of(formula(PLAIN), grams(500), DAY).record().stream()
            .allMatch(each -> !each.sources().isEmpty()));
  }

  @ParameterizedTest(name = "no batch of {0}")
  @ValueSource(strings = {"0.001 g", "2000 kL", "5 °C"})
  void noBatch(String mass) {
    Quantity quantity = Quantity.parse(mass).orElse(Quantity.of(0, Unit.GRAM));
    assertFalse(BatchSheets.canMake(quantity));
    Formula formula = formula(PLAIN);
    assertThrows(IllegalArgumentException.class, () -> BATCHES.of(formula, quantity, DAY));
  }

  // --- label drafts ---

  private static LabelDraft label(String lines) {
    return label("use: leave-on, markets: [EU], shelf-life: 12 months", lines);
  }

  private static LabelDraft label(String product, String lines) {
    return LABELS.of(
        formula(
            "product: { "
                + product
                + " }\ningredients:\n  - { name: Aqua, share: rest }\n"
                + lines),
        DAY);
  }

  @ParameterizedTest(name = "{0}")
  @CsvSource(
      delimiter = '|',
      value = {
        // Regulation (EC) No 1223/2009, Article 19(1)(g).
        "from most to least above 1 % | '  - { name: Squalane, share: 2 % }\n"
            + "  - { name: Glycerin, share: 5 % }' | Aqua, Glycerin, Squalane",
        "colourants last, whatever their share | '  - { name: CI 77491, share: 2 % }\n"
            + "  - { name: Glycerin, share: 1.5 % }' | Aqua, Glycerin, CI 77491",
        "a solution is its parts, and its water joins the water | '  - { name: Lactic Acid, share:"
            + " 5 %, strength: 80 % }' | Aqua, Lactic Acid",
        "a blend is its parts | '  - { name: \"Lactic Acid 80 % Solution\", share: 5 % }' | Aqua,"
            + " Lactic Acid",
        "scents stand together as Parfum | '  - { name: Glycerin, share: 3 % }\n"
            + "  - { name: Parfum, share: 0.2 % }' | Aqua, Glycerin, Parfum",
      })
  void list(String what, String lines, String list) {
    assertEquals(list, label(lines + "\n").list());
  }

  @Test
  @DisplayName("water from a solution is gathered: 95 % and 1 %")
  void water() {
    LabelDraft draft = label("  - { name: Lactic Acid, share: 5 %, strength: 80 % }\n");
    LabelDraft.Entry water = draft.entries().get(0);
    assertEquals(96, water.share().likely(), 1e-9);
    assertEquals(List.of("Aqua", "Lactic Acid"), water.from());
    assertTrue(water.remarks().get(0).contains("gathered"));
  }

  @Test
  @DisplayName("equal shares and an amount to pH leave the order in doubt")
  void doubts() {
    LabelDraft draft =
        label(
            "use: leave-on, markets: [EU], pH: 4.0 to 4.4",
            """
              - { name: Glycerin, share: 3 % }
              - { name: Betaine, share: 3 % }
              - { name: Sodium Lactate, share: 2 % }
              - { name: Niacinamide, share: 1 % }
              - { name: Citric Acid, share: to-pH }
            """);
    assertTrue(
        draft.doubts().contains("Glycerin and Betaine are equal: any of them may stand first."),
        () -> draft.doubts().toString());
    LabelDraft.Entry acid =
        draft.entries().stream()
            .filter(each -> each.name().equals("Citric Acid"))
            .findFirst()
            .orElseThrow();
    assertTrue(acid.share().low() < 1 && acid.share().high() > 1, () -> acid.share().toString());
    assertEquals(LabelDraft.Part.ABOUT_ONE_PERCENT, acid.part());
    assertTrue(
        draft.doubts().stream().anyMatch(text -> text.startsWith("Citric Acid may be at 1 %")));
    assertTrue(
        draft.doubts().stream()
            .anyMatch(text -> text.startsWith("Niacinamide stands before Citric Acid")));
    // Squarely apart: no doubt is told.
    assertTrue(
        draft.doubts().stream().noneMatch(text -> text.contains("Sodium Lactate")),
        () -> draft.doubts().toString());
  }

  @Test
  @DisplayName("an amount to pH that nobody can work out has no place, and no order is claimed")
  void noPlace() {
    LabelDraft draft =
        label(
            """
              - { name: Moonlit Fern Juice, share: 3 % }
              - { name: Citric Acid, share: to-pH }
            """);
    LabelDraft.Entry acid =
        draft.entries().stream()
            .filter(each -> each.name().equals("Citric Acid"))
            .findFirst()
            .orElseThrow();
    assertEquals(LabelDraft.Part.NOT_KNOWN, acid.part());
    assertTrue(draft.doubts().stream().anyMatch(text -> text.startsWith("Citric Acid")));
    assertTrue(
        draft.concerns().stream().anyMatch(each -> each.message().contains("Moonlit Fern Juice")));
  }

  @ParameterizedTest(name = "{0}, limonene {1} %: named {2}")
  @CsvSource({
    // Regulation (EU) 2023/1545: above 0.001 % in leave-on, above 0.01 % in rinse-off products.
    "leave-on, 0.002, true",
    "leave-on, 0.0005, false",
    "rinse-off, 0.005, false",
    "rinse-off, 0.02, true"
  })
  void allergens(String use, String percent, boolean named) {
    LabelDraft draft =
        label(
            "use: " + use + ", markets: [EU]",
            "  - { name: Limonene, share: " + percent + " % }\n");
    assertEquals(named ? "Aqua, Parfum, Limonene" : "Aqua, Parfum", draft.list());
  }

  @Test
  @DisplayName("a perfume that says nothing of its allergens: unknown, not none")
  void silentPerfume() {
    assertTrue(
        label("  - { name: Parfum, share: 0.3 % }\n").unknown().stream()
            .anyMatch(text -> text.startsWith("Which scents have to be named")));
  }

  @Test
  @DisplayName(
      "the words the law fixes stand on the draft with their source: vitamin A (EU 2024/996)")
  void words() {
    List<LabelDraft.Statement> fixed =
        label("  - { name: Retinol, share: 0.1 % }\n").statements().stream()
            .filter(each -> !each.words().isEmpty())
            .toList();
    assertEquals(1, fixed.size());
    assertEquals(
        List.of("Contains Vitamin A. Consider your daily intake before use"), fixed.get(0).words());
    assertTrue(
        fixed.get(0).sources().stream().anyMatch(source -> source.id().equals("eu-2024-996")));
  }

  @ParameterizedTest(name = "{0}: {1}")
  @CsvSource({
    // Article 19(1)(c): a date up to 30 months, a period after opening above.
    "shelf-life: 12 months, BEST_BEFORE",
    "shelf-life: 30 months, BEST_BEFORE",
    "shelf-life: 36 months, AFTER_OPENING",
    "kind: gel, NOT_KNOWN"
  })
  void durability(String product, LabelDraft.Durability durability) {
    assertEquals(
        durability,
        label(product + ", markets: [EU]", "  - { name: Glycerin, share: 3 % }\n").durability());
  }

  @Test
  @DisplayName("another market is said not to be covered")
  void otherMarkets() {
    LabelDraft both = label("markets: [EU, US]", "  - { name: Glycerin, share: 3 % }\n");
    assertEquals(List.of("EU"), both.covered());
    assertEquals(List.of("US"), both.notCovered());
    LabelDraft other = label("markets: [US]", "  - { name: Glycerin, share: 3 % }\n");
    assertEquals(List.of(), other.covered());
    assertTrue(other.remarks().get(0).contains("None of the markets"));
  }

  @Test
  @DisplayName(
      "every field of Article 19(1) (a) to (g) is there; what the sheet cannot know is missing")
  void fields() {
    LabelDraft draft = label("  - { name: Glycerin, share: 3 % }\n");
    for (String letter : List.of("a", "b", "c", "d", "e", "f", "g")) {
      assertTrue(
          draft.fields().stream()
              .anyMatch(field -> field.clause().equals("Article 19(1)(" + letter + ")")),
          letter);
    }
    assertEquals(
        Set.of("Responsible person", "Content", "Batch number", "Function"),
        draft.fields().stream()
            .filter(field -> field.value().isEmpty())
            .map(LabelDraft.Field::name)
            .collect(Collectors.toSet()));
  }

  @Test
  @DisplayName("a label on the sheet is held against the recipe, and the draft does not copy it")
  void labelOnTheSheet() {
    LabelDraft draft =
        LABELS.of(
            formula(
                PLAIN + "label: { ingredients: [Glycerin, Aqua, Xanthan Gum, Sodium Benzoate] }\n"),
            DAY);
    assertEquals("Aqua, Glycerin, Xanthan Gum, Sodium Benzoate", draft.list());
    assertTrue(draft.concerns().stream().anyMatch(each -> each.rule().equals("label.order")));
  }

  // --- stability plans ---

  private static List<String> tests(String product, String lines) {
    return STABILITY
        .of(
            formula(
                "product: { "
                    + product
                    + " }\ningredients:\n  - { name: Aqua, share: rest }\n"
                    + lines),
            DAY)
        .tests()
        .stream()
        .map(StabilityPlan.Test::name)
        .toList();
  }

  @ParameterizedTest(name = "{1} asks for: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "shelf-life: 12 months | { name: Xanthan Gum, share: 0.7 % } | Viscosity",
        "pH: 4 to 5 | { name: Glycerin, share: 3 % } | pH",
        "kind: gel | { name: Sodium Benzoate, share: 0.4 % } | Challenge test",
        "kind: gel | { name: Sodium Benzoate, share: 0.4 % } | Germ count",
        "kind: gel | { name: Retinol, share: 0.05 % } | Light and air",
        "kind: gel | { name: Retinol, share: 0.05 % } | What is left of the actives",
        "kind: scrub | { name: Pumice, share: 3 % } | Grains",
        "kind: gel | { name: Agar, share: 0.5 % } | Water that the gum lets go",
        "kind: mist | { name: Alcohol, share: 20 % } | Pack and product together",
        "kind: gel | { name: Glycerin, share: 3 % } | No preservative to test"
      })
  void asks(String product, String line, String test) {
    List<String> with = tests(product, "  - " + line + "\n");
    assertTrue(with.contains(test), () -> with.toString());
    // And nothing of the kind where there is only preserved water.
    List<String> without =
        test.equals("No preservative to test")
            ? tests("kind: gel", "  - { name: Sodium Benzoate, share: 0.4 % }\n")
            : tests("kind: gel", "  - { name: Betaine, share: 1 % }\n");
    assertFalse(without.contains(test), () -> without.toString());
  }

  @Test
  @DisplayName("oil in a gel without emulsifier asks for a look at the rim")
  void oil() {
    assertTrue(
        tests(
                "kind: gel-cream",
                "  - { name: Squalane, share: 3 % }\n  - { name: Xanthan Gum, share: 0.7 % }\n")
            .contains("A rim of oil"));
  }

  @Test
  @DisplayName("a shelf life that is not stated has no end, and the plan says so")
  void noShelfLife() {
    StabilityPlan plan =
        STABILITY.of(formula("ingredients:\n  - { name: Aqua, share: 100 % }\n"), DAY);
    assertEquals(Optional.empty(), plan.shelfLifeMonths());
    assertTrue(plan.tests().stream().anyMatch(StabilityPlan.Test::toTheEnd));
    assertTrue(plan.unknown().stream().anyMatch(text -> text.contains("product.shelf-life")));
    assertTrue(plan.unknown().stream().anyMatch(text -> text.contains("product.dispensing")));
  }

  @Test
  @DisplayName("what is not known leaves a test in, marked as perhaps")
  void perhaps() {
    StabilityPlan plan =
        STABILITY.of(
            formula(
                "ingredients:\n  - { name: Aqua, share: rest }\n"
                    + "  - { name: Moonlit Fern Juice, share: 3 % }\n"),
            DAY);
    StabilityPlan.Test grains =
        plan.tests().stream()
            .filter(each -> each.name().equals("Grains"))
            .findFirst()
            .orElseThrow();
    assertFalse(grains.sure());
    assertTrue(grains.missing().stream().anyMatch(text -> text.contains("Moonlit Fern Juice")));
  }

  @Test
  @DisplayName("a house adds a test of its own, and what it switches off is told, not lost")
  void house(@TempDir Path folder) throws IOException {
    Files.writeString(
        folder.resolve("house.yaml"),
        """
        rule-set: bench-house
        title: Of the bench
        edition: "1"
        tables:
          bench-stability-tests:
            columns:
              test: key
              follows-from: name
              if: name
              looks-at: name
              stored: name
              schedule: name
              accept: name
              why: name
            source: stability-practice
            rows:
              - { test: Greenhouse bench, follows-from: every product, if: applies, looks-at: look, stored: in the greenhouse, schedule: in-the-warm, accept: no change, why: It is hot there. }
        changes:
          - { switch-off: preservation.test-protection, because: tested elsewhere }
        """);
    Knowledge own =
        BundledRuleSets.compile(
                Bundled.withOwn(Bundled.load(), List.of(folder), Limits.USUAL).orThrow())
            .orThrow();
    StabilityPlan plan = StabilityPlans.using(own).of(formula(PLAIN), DAY);
    assertTrue(plan.tests().stream().anyMatch(each -> each.name().equals("Greenhouse bench")));
    assertTrue(plan.tests().stream().noneMatch(each -> each.name().equals("Challenge test")));
    assertTrue(
        plan.switchedOff().stream()
            .anyMatch(
                text -> text.startsWith("Challenge test") && text.contains("tested elsewhere")));
  }

  @Test
  @DisplayName("every test has what a plan needs, and every rule it names exists")
  void complete() {
    Set<String> rules =
        KNOWLEDGE.rules().rules().stream().map(each -> each.id()).collect(Collectors.toSet());
    Set<String> schedules =
        KNOWLEDGE.rules().rowsOf("stability-schedules").stream()
            .map(Table.Row::key)
            .collect(Collectors.toSet());
    for (Table.Row row : KNOWLEDGE.rules().rowsOf("stability-tests")) {
      String rule = row.name("follows-from").orElseThrow();
      assertTrue(rule.equals("every product") || rules.contains(rule), rule);
      assertTrue(schedules.contains(row.name("schedule").orElseThrow()), row.key());
      for (String column : List.of("looks-at", "stored", "accept", "if")) {
        assertTrue(row.name(column).isPresent(), row.key() + ": " + column);
      }
      assertTrue(row.name("why").isPresent() || rules.contains(rule), row.key());
      assertFalse(row.sources().isEmpty(), row.key());
    }
    for (Table.Row row : KNOWLEDGE.rules().rowsOf("cautions-at-steps")) {
      assertTrue(rules.contains(row.key()), row.key());
    }
  }
}
