package gelwright.api.http;

import gelwright.calibration.Calibrated;
import gelwright.calibration.Calibration;
import gelwright.calibration.Calibrator;
import gelwright.calibration.Readings;
import gelwright.charts.Chart;
import gelwright.ingredient.Catalogue;
import gelwright.reports.CalibrationReport;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;

/** Calibrations of one readings sheet: the lot's law with its sheet, or a picture of the two. */
final class Calibrations {
  private static final List<MediaType> FORMS = List.of(MediaType.JSON, MediaType.SVG);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;

  Calibrations(KnowledgeStore store, Evaluator evaluator, Guards guards) {
    this.store = store;
    this.evaluator = evaluator;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
  }

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    MediaType body = exchange.bodyType(Reviews.FORMULAS);
    exchange.query(Set.of());
    byte[] sheet = exchange.body();
    Catalogue catalogue = store.current().library().catalogue();
    byte[] answer =
        evaluator.now(
            () -> {
              Readings readings = sheets.readings(sheet, Reviews.format(body), limits);
              Calibration calibration = calibration(catalogue, readings);
              return form == MediaType.SVG ? drawn(calibration) : written(calibration);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.JSON) {
      exchange.headerMore("Link", "</v1/schemas/calibration>; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  private static Calibration calibration(Catalogue catalogue, Readings readings) {
    Calibrated calibrated = Calibrator.using(catalogue).calibrate(readings);
    return calibrated
        .value()
        .orElseThrow(
            () ->
                Trouble.of(
                    ProblemType.NO_CALIBRATION,
                    Sheets.first(calibrated.problems()),
                    calibrated.problems()));
  }

  private static byte[] written(Calibration calibration) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(16_384);
    CalibrationReport.compact().write(calibration, out);
    return out.toByteArray();
  }

  private static byte[] drawn(Calibration calibration) {
    return Chart.of(
            calibration.curve(),
            calibration.lot().ingredient() + ", lot " + calibration.lot().name())
        .svg("calibration")
        .getBytes(StandardCharsets.UTF_8);
  }
}
