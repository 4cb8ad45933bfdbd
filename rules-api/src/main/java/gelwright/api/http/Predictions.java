package gelwright.api.http;

import gelwright.charts.Chart;
import gelwright.charts.CompositionBars;
import gelwright.formula.Formula;
import gelwright.prediction.Prediction;
import gelwright.reports.PredictionReport;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

/** Predictions of one formula sheet: its properties and curves, or one picture. */
final class Predictions {
  private static final Set<String> QUERY = Set.of("on", "curve");
  private static final List<MediaType> FORMS = List.of(MediaType.JSON, MediaType.SVG);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  Predictions(KnowledgeStore store, Evaluator evaluator, Guards guards, Supplier<LocalDate> today) {
    this.store = store;
    this.evaluator = evaluator;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
    this.today = today;
  }

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    MediaType body = exchange.bodyType(Reviews.FORMULAS);
    Map<String, String> query = exchange.query(QUERY);
    LocalDate on = Exchange.day(query, today.get());
    String curve = Pictures.asked(query, form);
    byte[] sheet = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Formula formula = sheets.formula(sheet, Reviews.format(body), limits);
              Prediction prediction = knowledge.predictor().predict(formula, on);
              return form == MediaType.SVG ? drawn(prediction, curve) : written(prediction);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.JSON) {
      exchange.headerMore("Link", "</v1/schemas/prediction>; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  private static byte[] drawn(Prediction prediction, String name) {
    if (!name.equals(CompositionBars.NAME)) {
      return Pictures.drawn(prediction.curves(), name, prediction.formula());
    }
    return CompositionBars.of(prediction)
        .map(bars -> Chart.of(bars, prediction.formula()).svg(name))
        .orElseThrow(
            () ->
                Trouble.of(
                    ProblemType.NOT_A_FORMULA,
                    "There is nothing to draw: no share of this formula is known."))
        .getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] written(Prediction prediction) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(65_536);
    PredictionReport.compact().write(prediction, out);
    return out.toByteArray();
  }
}
