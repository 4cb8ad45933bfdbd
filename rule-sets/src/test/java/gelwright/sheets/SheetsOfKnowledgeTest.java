package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import gelwright.rule.Rule;
import gelwright.rule.Severity;
import gelwright.rule.Table;
import gelwright.rule.Text;
import gelwright.rule.Type;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("sheets of ingredients, sources and rules")
final class SheetsOfKnowledgeTest {
  private static final IngredientSheet INGREDIENTS =
      new IngredientReader()
          .read(Samples.bytes("workshop.ingredients.yaml"), "ingredients.yaml")
          .orThrow();
  private static final Catalogue CATALOGUE =
      Catalogue.of(INGREDIENTS.ingredients(), INGREDIENTS.sources());
  private static final RuleSheet RULES =
      new RuleSetReader().read(Samples.bytes("workshop.rule-set.yaml"), "rules.yaml").orThrow();

  private static Ingredient ingredient(String name) {
    return CATALOGUE.find(name).orElseThrow();
  }

  @Test
  @DisplayName("figures keep their unit, range and sources; the innermost source counts")
  void figures() {
    Ingredient benzoate = ingredient("Sodium Benzoate");
    Figure mass = benzoate.trait(Trait.MOLAR_MASS).orElseThrow();
    assertEquals(0.1441, mass.likely(), 1e-12);
    assertEquals(Unit.GRAM_PER_MOL, mass.unit());
    assertEquals(0.0001, mass.spread(), 1e-12);
    assertEquals(List.of("made-up", "other"), mass.sources());
    assertEquals(List.of("made-up"), benzoate.trait(Trait.DENSITY).orElseThrow().sources());
    assertEquals(0, benzoate.trait(Trait.DENSITY).orElseThrow().spread());
    assertEquals(
        List.of("other"), benzoate.acid().toOptional().orElseThrow().pKa().get(0).sources());
    Figure level = benzoate.inhibitory().toOptional().orElseThrow().get(0).level();
    assertEquals(Estimate.Scale.FACTOR, level.scale());
    assertEquals(2, level.spread());
    assertEquals(0.2, level.likely(), 1e-12);
  }

  @Test
  @DisplayName("given, none and unknown are three different things")
  void known() {
    assertEquals(Known.none(), ingredient("Sodium Benzoate").heat());
    assertEquals(Known.unknown(), ingredient("Dew Coil").heat());
    assertEquals(Known.given(Set.of()), ingredient("Dew Coil").functions());
    assertEquals(Known.unknown(), ingredient("Dew Cross").functions());
    assertEquals(Known.none(), ingredient("Dew Syrup").charge());
    assertEquals(Known.given("anionic"), ingredient("Sodium Benzoate").charge());
    assertTrue(ingredient("Dew Blend").measured());
    assertEquals(
        List.of("anhydrous", "mono"), List.copyOf(ingredient("Citric Acid").hydrates().keySet()));
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "density: 1 g/mL | 2:22 no-source",
        "source: s, density: 1 g | 2:33 wrong-dimension",
        "source: s, density: 40 g/mL | 2:33 out-of-range",
        "source: s, density: { is: 1 g/mL, within: 5 } | 2:54 bad-range",
        "source: s, density: { is: 1 g/mL, within: ±2 min } | 2:54 bad-range",
        "source: s, density: { is: 1 g/mL, within: ×0.5 } | 2:54 not-possible",
        "source: s, log-Kow: { is: -1, within: ×2 } | 2:48 not-possible",
        "source: s, use-from: 2 %, use-to: 1 % | 2:47 reversed-range",
        "cas: 532-32-2 | 2:18 bad-cas",
        "functions: [thickener] | 2:25 unknown-word",
        "'made-of': { Aqua: 40 %, Lye: 59.99999999 % } | 2:24 bad-sum",
        "'made-of': { Aqua: 140 %, Lye: -40 % } | 2:24 bad-sum",
        "source: s, acid: { pKa: [5, 3], charge: 0, counter-ions: 0 } | 2:37 reversed-range",
        "source: s, acid: { pKa: [5], charge: 0.5, counter-ions: 0 } | 2:50 bad-number",
        "source: s, acid: { pKa: [5], charge: 0 } | 2:30 missing-key",
        "source: s, gum: { law: coil, parameters: {}, range: 1 % to 2 % } | 2:54 missing-key",
        "heat: [] | 2:19 empty-list",
        "densty: 5 | 2:13 unknown-key",
      })
  @DisplayName("an ingredient with")
  void badIngredients(String keys, String problem) {
    Read<IngredientSheet> read =
        new IngredientReader()
            .read(
                Samples.utf8("ingredients:\n  Dew Salt: { " + keys + " }\n".replace("'", "")),
                "x.yaml");
    List<String> brief = Samples.brief(read.problems());
    String code = problem.substring(problem.indexOf(' '));
    assertTrue(
        brief.stream().anyMatch(p -> p.startsWith("2:") && p.endsWith(code)), brief.toString());
    assertTrue(read.value().isEmpty());
  }

  @Test
  @DisplayName("rule texts keep the place of their first character: plain, quoted, folded, literal")
  void textPlaces() {
    List<String> lines = Samples.text("workshop.rule-set.yaml").lines().toList();
    Rule oil = RULES.ruleSet().rules().get(0);
    Rule window = RULES.ruleSet().rules().get(1);
    for (Text text :
        List.of(
            oil.title(),
            oil.when().orElseThrow(),
            oil.require().orElseThrow(),
            oil.message(),
            oil.levers().get(1),
            oil.sources().get(0),
            window.require().orElseThrow(),
            window.forEach().orElseThrow())) {
      String at = lines.get(text.place().line() - 1).substring(text.place().column() - 1);
      assertTrue(at.startsWith(text.text()), text + " is not at " + at);
    }
    assertEquals("gel.yield-stress >= row.least-yield", window.require().orElseThrow().text());
  }

  @Test
  @DisplayName("a rule's keys, and what they are when left out")
  void rules() {
    Rule oil = RULES.ruleSet().rules().get(0);
    assertTrue(oil.mustBeKnown() && oil.keepWhenBorderline() && !oil.mayBeAccepted());
    assertEquals(List.of("oily"), oil.aliases());
    Rule duty = RULES.ruleSet().rules().get(2);
    assertEquals(Rule.Kind.DUTY, duty.kind());
    assertEquals(Severity.NOTE, duty.severity());
    assertTrue(duty.mayBeAccepted() && !duty.mustBeKnown());
    assertEquals(3, RULES.ruleSet().changes().size());
    assertEquals("2026.1", RULES.ruleSet().edition());
  }

  @Test
  @DisplayName("a table's columns, cells and sources")
  void tables() {
    Table table = RULES.ruleSet().tables().get(0);
    assertEquals(new Type.Choices(Set.of("face", "hands")), table.columns().get("areas").type());
    assertEquals("soft-gel", table.rows().get(0).key());
    assertEquals("bench", table.rows().get(0).sources().get(0).text());
    assertEquals(2, table.rows().get(1).sources().size());
    assertEquals(Optional.empty(), table.rows().get(1).cell("factor"));
    assertEquals(
        Optional.of(new Table.Cell.Names(Set.of("gel"))), table.rows().get(1).cell("texture"));
  }

  @Test
  @DisplayName("examples name rule, row, base and what is expected")
  void examples() {
    assertEquals(
        List.of(
            "too-much-oil Optional.empty holds",
            "too-much-oil Optional.empty breaks",
            "too-much-oil Optional.empty unknown",
            "by-row Optional[soft-gel] holds"),
        RULES.examples().stream().map(e -> e.rule() + " " + e.row() + " " + e.expected()).toList());
  }

  // Overlays

  private static Overlay.Applied overlay(String base, String overlay) {
    return tryOverlay(base, overlay).orThrow();
  }

  private static Read<Overlay.Applied> tryOverlay(String base, String overlay) {
    Node node = Document.read(Samples.utf8(overlay), "overlay.yaml").orThrow().root();
    return Overlay.apply(Document.read(Samples.bytes(base), base).orThrow(), (Node.Mapping) node);
  }

  private static Formula read(Overlay.Applied applied) {
    return new FormulaReader().read(applied.formula()).orThrow();
  }

  @Test
  @DisplayName(
      "an overlay changes lines, adds one, changes a step and the brief, and removes parts")
  void overlays() {
    Formula formula =
        read(
            overlay(
                "wind-shelter.formula.yaml",
                """
                sclerotium gum: 0.5 %
                Pumice: { size: 900 µm }
                Jojoba Esters: { share: 2 %, phase: B }
                step 3: { for: 5 min }
                product: { texture: gel, pH: none }
                measured: none
                without: [Glycerin, label, product.markets]
                """));
    assertEquals("Sclerotium Gum", formula.lines().get(1).name());
    assertEquals(
        "0.5 %",
        ((gelwright.formula.Amount.Stated) formula.lines().get(1).amount()).share().toString());
    assertEquals(900, formula.lines().get(4).size().orElseThrow().value());
    assertEquals("C", formula.lines().get(4).phase());
    assertEquals("Jojoba Esters", formula.lines().get(6).name());
    assertEquals(5, formula.method().get(2).lasting().orElseThrow().value());
    assertEquals(38, formula.method().get(2).temperature().orElseThrow().value());
    assertEquals(Optional.of("gel"), formula.brief().texture());
    assertEquals(Optional.empty(), formula.brief().pH());
    assertEquals(Optional.of("gel-cream"), formula.brief().kind());
    assertEquals(List.of(), formula.measured());
    assertEquals(Optional.empty(), formula.label());
    assertEquals(List.of(), formula.brief().markets());
    assertEquals("overlay.yaml", formula.place("/ingredients/1/share").file());
  }

  @Test
  @DisplayName("knowledge can be taken away from ingredients")
  void forgotten() {
    Overlay.Applied applied =
        overlay(
            "shade-mist.formula.yaml",
            "without: [density of sodium benzoate, pKa of Sodium Benzoate, gum of Dew Gum]\n");
    Catalogue less = applied.of(CATALOGUE).orThrow();
    assertEquals(Optional.empty(), less.find("Sodium Benzoate").orElseThrow().trait(Trait.DENSITY));
    assertEquals(Known.unknown(), less.find("Sodium Benzoate").orElseThrow().acid());
    assertEquals(Known.unknown(), less.find("Dew Gum").orElseThrow().gum());
    assertTrue(CATALOGUE.find("Dew Gum").orElseThrow().gum().toOptional().isPresent());
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "without: Glycerine | nothing-to-remove",
        "without: method | nothing-to-remove",
        "without: { a: b } | wrong-type",
        "step 3: { do: fill } | no-such-step",
        "step 1: fill | wrong-type",
      })
  @DisplayName("an overlay that changes nothing")
  void idleOverlays(String overlay, String code) {
    assertEquals(code, tryOverlay("shade-mist.formula.yaml", overlay).problems().get(0).code());
  }

  // Own sheets

  @Test
  @DisplayName("the bundled sheets are sound: every source cited is there, every rule set reads")
  void bundled() {
    Library knowledge = Bundled.load();
    assertTrue(knowledge.catalogue().find("Aqua").isPresent());
    assertFalse(knowledge.ruleSets().isEmpty());
    assertTrue(
        Bundled.names().stream().filter(name -> name.startsWith("gelwright/bases/")).count()
            == knowledge.bases().size());
  }

  @TestFactory
  @DisplayName("example applies to its base")
  Stream<DynamicTest> bundledExamples() {
    Library knowledge = Bundled.load();
    return knowledge.ruleSheets().stream()
        .flatMap(sheet -> sheet.examples().stream().map(example -> Map.entry(sheet, example)))
        .map(
            entry -> {
              Example example = entry.getValue();
              return dynamicTest(
                  entry.getKey().ruleSet().id()
                      + "."
                      + example.rule()
                      + " "
                      + example.expected()
                      + " at line "
                      + example.overlay().place().line(),
                  () -> {
                    Document base = knowledge.bases().get(example.base());
                    assertNotNull(base, "no base formula " + example.base());
                    Overlay.Applied applied = Overlay.apply(base, example.overlay()).orThrow();
                    new FormulaReader().read(applied.formula()).orThrow();
                    applied.of(knowledge.catalogue()).orThrow();
                  });
            });
  }

  private static final Library NOTHING =
      new Library(Catalogue.of(List.of(), List.of()), List.of(), Map.of());

  @Test
  @DisplayName("a folder of own sheets of every kind")
  void ownFolder(@TempDir Path folder) throws IOException {
    for (String name :
        List.of(
            "workshop.sources.yaml",
            "workshop.ingredients.yaml",
            "workshop.rule-set.yaml",
            "shade-mist.formula.yaml")) {
      Files.write(folder.resolve(name), Samples.bytes(name));
    }
    Library knowledge = Bundled.withOwn(NOTHING, List.of(folder), Limits.USUAL).orThrow();
    assertEquals(4, knowledge.catalogue().sources().size());
    assertEquals(1, knowledge.ruleSets().size());
    assertEquals(Set.of("Shade mist"), knowledge.bases().keySet());
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "a.yaml | 'ingredients: { X: { source: nowhere, density: 1 g/mL } }' | 1:29 unknown-source",
        "a.yaml | 'recipes: []' | 1:1 unknown-sheet",
        "a.yaml | '[' | 1:2 not-yaml",
        "a.txt | 'x' | 0:0 no-sheets",
      })
  @DisplayName("a folder with")
  void badFolders(String file, String content, String problem, @TempDir Path folder)
      throws IOException {
    Files.writeString(folder.resolve(file), content);
    assertEquals(
        List.of(problem),
        Samples.brief(Bundled.withOwn(NOTHING, List.of(folder), Limits.USUAL).problems()));
  }

  @Test
  @DisplayName("a folder that is not there is a problem")
  void noFolder(@TempDir Path folder) {
    assertEquals(
        List.of("0:0 unreadable"),
        Samples.brief(
            Bundled.withOwn(NOTHING, List.of(folder.resolve("none")), Limits.USUAL).problems()));
  }
}
