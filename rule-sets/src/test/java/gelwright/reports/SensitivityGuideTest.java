package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.prediction.DoubtShare;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.quantity.Quantity;
import gelwright.review.Shown;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * Holds the sensitivity page to what is predicted of the example formulas; {@code
 * -Dgolden.update=true} writes it anew.
 */
@DisplayName("docs/guide/sensitivity.md")
final class SensitivityGuideTest {
  private static final Path PROJECT = Path.of("..");
  private static final Path PAGE = PROJECT.resolve("docs/guide/sensitivity.md");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);

  /** Less of the spread than this is left out. */
  private static final double WORTH_TELLING = 0.05;

  /** A number whose range is narrower than this part of it is as good as known. */
  private static final double LEAST_SPREAD = 0.03;

  private static final String HEAD =
      """
      # What moves each number most

      For each example formula, the properties that are in doubt and what the doubt comes from. *Part* is how much of the
      spread (the variance; of the logarithm where a number is known to a factor) comes from it. *Low* and *high* are the
      property with that doubt at either end of its 90 % range and all others at their middle. What explains less than 5 % is
      left out, and so are numbers whose range is narrower than 3 % of them. Numbers of which only a bound is known do not appear
      either: `predict` tells of those what is missing. Computed by the engine for 2026-11-25; a test holds this page to it. See
      [what a formula is like](predict.md).

      Three things stand out. How a gel flows rests almost wholly on the flow law of its gum, so **one measured viscosity is
      worth more than anything else**. How well a preservative acid works rests on the pH, so measure it on the finished
      product. How far a gum is hydrated rests on its hydration rate, which a second viscosity a day later settles.
      """;

  @Test
  @DisplayName("is what the engine predicts")
  void isAsKept() throws IOException {
    String page = page();
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(PAGE, page);
    }
    assertTrue(Files.exists(PAGE), "no page");
    assertEquals(Files.readString(PAGE), page);
  }

  private static String page() throws IOException {
    Predictor predictor = Predictor.using(BundledRuleSets.load());
    StringBuilder page = new StringBuilder(HEAD);
    List<Path> sheets;
    try (Stream<Path> files = Files.list(PROJECT.resolve("docs/examples"))) {
      sheets = files.filter(path -> path.toString().endsWith(".yaml")).sorted().toList();
    }
    for (Path sheet : sheets) {
      Prediction prediction =
          predictor.predict(
              new FormulaReader().read(Files.readAllBytes(sheet), sheet.toString()).orThrow(), DAY);
      page.append("\n## ").append(prediction.formula()).append("\n\n");
      page.append("| property | value | what moves it most | part | low | high |\n");
      page.append("|---|---|---|---|---|---|\n");
      for (Predicted property : prediction.properties()) {
        if (isWorthTelling(property)) {
          rows(property).forEach(page::append);
        }
      }
    }
    return page.toString();
  }

  private static boolean isWorthTelling(Predicted property) {
    Shown shown = property.shown();
    return !property.name().endsWith(".undissociated-share")
        && shown.high() - shown.low() >= LEAST_SPREAD * Math.abs(shown.likely());
  }

  private static List<String> rows(Predicted property) {
    List<String> rows = new ArrayList<>();
    // Each on two lines at most: the largest two doubts.
    for (DoubtShare doubt : property.doubts().stream().limit(2).toList()) {
      if (doubt.share() < WORTH_TELLING && !rows.isEmpty()) {
        break;
      }
      Shown shown = property.shown();
      boolean first = rows.isEmpty();
      rows.add(
          "| "
              + (first ? name(property) : "")
              + " | "
              + (first ? value(shown) : "")
              + " | "
              + doubt.doubt()
              + " | "
              + Math.round(100 * doubt.share())
              + " % | "
              + Quantity.print(doubt.atLow(), shown.unit())
              + " | "
              + Quantity.print(doubt.atHigh(), shown.unit())
              + " |\n");
    }
    return rows;
  }

  private static String name(Predicted property) {
    return "`"
        + property.name()
        + "`"
        + (property.subject().isFormula() ? "" : " " + property.subject().name());
  }

  private static String value(Shown shown) {
    return Quantity.print(shown.likely(), shown.unit())
        + " ("
        + Quantity.print(shown.low(), shown.unit())
        + " to "
        + Quantity.print(shown.high(), shown.unit())
        + ")";
  }
}
