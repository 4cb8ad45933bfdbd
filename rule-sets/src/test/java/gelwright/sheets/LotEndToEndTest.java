package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.calibration.Calibration;
import gelwright.calibration.Calibrator;
import gelwright.calibration.Readings;
import gelwright.formula.Formula;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.profile.GumLaw;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.tree.Limits;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From readings to a review that uses them: the sheet on the way is a file like any other. */
@DisplayName("a lot from its readings to a review")
final class LotEndToEndTest {
  private static final Path READINGS =
      Path.of("..", "docs", "examples", "readings", "sclerotium-gum-bench-3.yaml");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 29);

  @TempDir static Path folder;

  private static Calibration calibration;
  private static Library bundled;
  private static Library own;

  @BeforeAll
  static void calibrate() throws IOException {
    bundled = Bundled.load();
    Readings readings =
        new ReadingsReader().read(Files.readAllBytes(READINGS), READINGS.toString()).orThrow();
    calibration = Calibrator.using(bundled.catalogue()).calibrate(readings).value().orElseThrow();
    Path sheet = folder.resolve("lots.yaml");
    Files.writeString(sheet, LotSheet.text(calibration));
    own = Bundled.withOwn(bundled, List.of(folder), Limits.USUAL).orThrow();
  }

  private static Formula formula(String gum, String... more) {
    String sheet =
        """
        formula: Lot trial
        product: { kind: gel, use: leave-on, area: [hands], users: adults, texture: soft-gel, dispensing: pump }
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Sclerotium Gum, %s }
        %s
        method:
          - { do: heat, phase: A, to: 38 °C, over: 10 min }
          - { do: disperse, phase: A, with: Sclerotium Gum, stir: 800 rpm }
          - { do: hydrate, phase: A, at: 38 °C, for: 300 min, stir: 400 rpm }
          - { do: cool, phase: A, to: 25 °C, over: 10 min }
        label:
          ingredients: [Aqua, Sclerotium Gum]
        """
            .formatted(gum, String.join("\n", more));
    return new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), "trial.yaml").orThrow();
  }

  private static Knowledge knowledge(Library library) {
    return OwnSheets.read(bundled, library == own ? List.of(folder) : List.of(), Limits.USUAL)
        .ready()
        .orThrow()
        .knowledge();
  }

  private static Prediction predicted(Library library, Formula formula) {
    return Predictor.using(knowledge(library)).predict(formula, DAY);
  }

  private static Predicted property(Library library, Formula formula, String name) {
    return predicted(library, formula).property(name).orElseThrow();
  }

  @Test
  @DisplayName("the written sheet reads back as the same lot and the same source")
  void readsBack() {
    Lot lot = own.catalogue().lot("sclerotium gum", "Bench 3").orElseThrow();
    assertEquals(calibration.lot(), lot);
    Source source = own.catalogue().source(calibration.source().id()).orElseThrow();
    assertEquals(calibration.source(), source);
    assertEquals(Source.Standing.MEASURED, source.standing());
  }

  @Test
  @DisplayName("a name full of quotes, colons and line breaks reads back, too")
  void hostileNames() {
    Readings readings = calibration.readings();
    String name = "b\"3\": { x }\n# - \\ \u0007 & *a \u2028 µ";
    Readings odd =
        new Readings(
            readings.gum(),
            readings.grade(),
            name,
            readings.date(),
            "a\n\"b\": [c]",
            readings.celsius(),
            readings.salt(),
            readings.weighing(),
            readings.series(),
            readings.place());
    Calibration made = Calibrator.using(bundled.catalogue()).calibrate(odd).value().orElseThrow();
    IngredientSheet sheet =
        new IngredientReader()
            .read(LotSheet.text(made).getBytes(StandardCharsets.UTF_8), "lot.yaml")
            .orThrow();
    assertEquals(List.of(made.lot()), sheet.lots());
    assertEquals(made.source().citation(), sheet.sources().get(0).citation());
  }

  @Test
  @DisplayName("a line with the lot is predicted with it: measured, narrower, at the lot's own law")
  void predicted() {
    Predicted usual = property(own, formula("share: 0.9 %"), "gel.yield-stress");
    Predicted lot = property(own, formula("share: 0.9 %, lot: bench 3"), "gel.yield-stress");
    assertEquals("predicted", usual.origin());
    assertEquals("measured", lot.origin());
    assertTrue(
        lot.shown().high() / lot.shown().low() < 0.4 * usual.shown().high() / usual.shown().low(),
        lot.shown() + " against " + usual.shown());
    Gum gum = calibration.lot().gum().toOptional().orElseThrow();
    double law = GumLaw.likely(gum).at(0.9).yieldStress();
    // All but a trace has hydrated after five hours.
    assertEquals(law, lot.shown().likely(), 0.02 * law);
    assertTrue(
        lot.sources().stream().anyMatch(source -> source.id().equals(calibration.source().id())));
    assertTrue(
        lot.doubts().stream()
            .anyMatch(doubt -> doubt.doubt().equals("readings of Sclerotium Gum, lot bench 3")));
  }

  @Test
  @DisplayName("beyond the shear rates that were read the slope is a doubt of its own")
  void beyond() {
    Predicted spraying =
        property(own, formula("share: 0.9 %, lot: bench 3"), "gel.viscosity-spraying");
    Predicted pouring =
        property(own, formula("share: 0.9 %, lot: bench 3"), "gel.viscosity-pouring");
    assertTrue(
        spraying.doubts().stream()
            .anyMatch(doubt -> doubt.doubt().startsWith("slope of the flow curve away")));
    assertTrue(
        pouring.doubts().stream()
            .noneMatch(doubt -> doubt.doubt().startsWith("slope of the flow curve away")));
  }

  @Test
  @DisplayName("outside the shares of the lot the gel is not known, though the usual law would be")
  void narrow() {
    Predicted usual = property(own, formula("share: 0.4 %"), "gel.yield-stress");
    Predicted lot = property(own, formula("share: 0.4 %, lot: bench 3"), "gel.yield-stress");
    assertTrue(usual.shown().isKnown());
    assertFalse(lot.shown().isKnown());
    assertTrue(
        lot.shown().missing().toString().contains("flow of Sclerotium Gum, lot bench 3 outside"),
        lot.shown().missing().toString());
  }

  @Test
  @DisplayName("a lot that no sheet knows leaves the gel unknown: the usual law is not put in")
  void stranger() {
    for (Library library : List.of(own, bundled)) {
      String name = library == own ? "bench 4" : "bench 3";
      Predicted lot = property(library, formula("share: 0.9 %, lot: " + name), "gel.yield-stress");
      assertFalse(lot.shown().isKnown());
      assertTrue(
          lot.shown().missing().contains("flow law of Sclerotium Gum, lot " + name),
          lot.shown().missing().toString());
    }
  }

  @Test
  @DisplayName(
      "the same gum of a lot and without one are two gums of one name; neither is measured")
  void both() {
    Formula two =
        formula(
            "share: 0.8 %, lot: bench 3", "  - { phase: A, name: Sclerotium Gum, share: 0.4 % }");
    Predicted mixed = property(own, two, "gel.yield-stress");
    assertEquals("predicted", mixed.origin());
    assertFalse(mixed.shown().missing().contains("flow law of Sclerotium Gum"));
  }

  @Test
  @DisplayName("the review calls the gum by its INCI name, lot or not, and finds it on the label")
  void review() {
    Knowledge knowledge = knowledge(own);
    Review review = Reviewer.using(knowledge).review(formula("share: 0.9 %, lot: bench 3"), DAY);
    Review plain = Reviewer.using(knowledge).review(formula("share: 0.9 %"), DAY);
    assertTrue(
        review.findings().stream()
            .noneMatch(finding -> finding.rule().startsWith("label.ingredient")),
        review.findings().toString());
    assertEquals(plain.rules().keySet(), review.rules().keySet());
    var yield = review.properties().get("gel.yield-stress");
    assertEquals("measured", yield.origin());
  }

  @Test
  @DisplayName("lots of what is no ingredient are told with their place")
  void lotsOfNothing() throws IOException {
    Path file = folder.resolve("..").resolve("odd-lots.yaml");
    Files.writeString(
        file, "lots:\n  Sclerotum Gum:\n    a: { note: x }\n", StandardCharsets.UTF_8);
    var read = Bundled.withOwn(bundled, List.of(file), Limits.USUAL);
    Files.delete(file);
    assertEquals(1, read.problems().size());
    assertEquals("unknown-ingredient", read.problems().get(0).code());
    assertEquals(2, read.problems().get(0).place().line());
    assertTrue(read.problems().get(0).hint().contains("Sclerotium Gum"));
  }
}
