package gelwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.prediction.Predictor;
import gelwright.sheets.Bundled;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Limits;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("composition as bars")
final class CompositionBarsTest {
  private static final OwnSheets.Ready READY =
      OwnSheets.read(Bundled.load(), List.of(), Limits.USUAL).ready().value().orElseThrow();

  private static Optional<Bars> bars(String lines) {
    String sheet = "formula: Bench gel\ningredients:\n" + lines;
    Formula formula =
        new FormulaReader()
            .read(sheet.getBytes(StandardCharsets.UTF_8), "gel.yaml")
            .value()
            .orElseThrow();
    return CompositionBars.of(
        Predictor.using(READY.knowledge()).predict(formula, LocalDate.of(2026, 11, 25)));
  }

  @Test
  @DisplayName("from most to least, water in the title with its share")
  void order() {
    Bars bars =
        bars("""
                  - { name: Xanthan Gum, share: 1 % }
                  - { name: Aqua, share: rest }
                  - { name: Glycerin, share: 4 % }
                """)
            .orElseThrow();
    assertEquals(
        List.of("Glycerin 4 %", "Xanthan Gum 1 %"),
        bars.bars().stream().map(bar -> bar.name() + " " + bar.label()).toList());
    assertEquals("Composition beside the water (Aqua 95 %)", bars.title());
    assertEquals("%", bars.unit());
    String svg = Chart.of(bars, "Bench gel").svg("composition");
    assertTrue(svg.contains("Glycerin 4 %; Xanthan Gum 1 %"), "the telling has the shares");
  }

  @Test
  @DisplayName("water alone leaves nothing to draw")
  void waterAlone() {
    assertTrue(bars("  - { name: Aqua, share: 100 % }\n").isEmpty());
  }
}
