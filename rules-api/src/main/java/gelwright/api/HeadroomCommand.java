package gelwright.api;

import gelwright.charts.Chart;
import gelwright.charts.HeadroomBars;
import gelwright.formula.Formula;
import gelwright.reports.HeadroomReport;
import gelwright.review.Headroom;
import gelwright.review.Include;
import gelwright.review.Review;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Tells how far the numbers of a formula can move. */
@Command(
    name = "headroom",
    mixinStandardHelpOptions = true,
    description =
        "Tells how far each share, the pH and each temperature can move before the first rule changes"
            + " its outcome, and which rule that is.")
final class HeadroomCommand extends OneSheetCommand {
  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      description = "text, json or svg (default: text).")
  private Format format = Format.TEXT;

  /** How the headroom is written. */
  enum Format {
    TEXT,
    JSON,
    SVG
  }

  HeadroomCommand(Engine engine, Terminal terminal) {
    super(engine, terminal);
  }

  @Override
  byte[] made(Engine.Loaded loaded, Formula formula, LocalDate day) {
    Review review = loaded.review(formula, day, Set.of(Include.HEADROOM));
    List<Headroom> headroom = review.headroom().orElse(List.of());
    return switch (format) {
      case TEXT -> encoded(HeadroomText.of(review, headroom, ink()));
      case JSON -> HeadroomReport.indented().text(review).getBytes(StandardCharsets.UTF_8);
      case SVG ->
          HeadroomBars.of(headroom)
              .map(bars -> Chart.of(bars, review.formula()).svg("headroom"))
              .orElseThrow(
                  () -> wrong("There is nothing to draw: no number of this formula can be moved."))
              .getBytes(StandardCharsets.UTF_8);
    };
  }
}
