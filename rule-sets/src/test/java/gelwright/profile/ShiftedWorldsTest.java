package gelwright.profile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("a world with one doubt shifted")
final class ShiftedWorldsTest {
  private static final Catalogue CATALOGUE = BundledRuleSets.load().catalogue();

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "long-row-deodorant-gel",
        "morning-frost-serum",
        "nettle-calm-gel",
        "shade-mist",
        "soil-off-scrub",
        "wind-shelter-gel-cream"
      })
  @DisplayName("comes to the same numbers as one in which everything is computed anew")
  void asComputedAnew(String example) throws IOException {
    Path file = Path.of("..", "docs", "examples", example + ".yaml");
    Formula formula = new FormulaReader().read(Files.readAllBytes(file), file.toString()).orThrow();
    Model model = new Model(formula, CATALOGUE, List.of(), Optional.of(LocalDate.of(2026, 11, 25)));
    World likely = new World(model);
    int compared = 0;
    for (Definition definition : Properties.NUMBERS.values()) {
      for (World.NumberedDoubt doubt : likely.node(definition, 0).basis().doubts) {
        for (double by : new double[] {1, -1}) {
          // A draw takes nothing from the likely world.
          World anew = likely.draw(Map.of(doubt.doubt().name(), by));
          assertEquals(
              anew.of(definition),
              likely.shift(doubt, by).of(definition),
              definition.name() + ", " + doubt.doubt() + " shifted by " + by);
          compared++;
        }
      }
    }
    assertTrue(compared > 20, () -> "only a few doubts");
  }
}
