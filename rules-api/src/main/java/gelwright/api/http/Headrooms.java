package gelwright.api.http;

import gelwright.charts.Chart;
import gelwright.charts.HeadroomBars;
import gelwright.formula.Formula;
import gelwright.reports.HeadroomReport;
import gelwright.review.Include;
import gelwright.review.Review;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

/** How far the numbers of one formula sheet can move, as numbers or as a picture. */
final class Headrooms {
  private static final Set<String> QUERY = Set.of("on");
  private static final List<MediaType> FORMS = List.of(MediaType.JSON, MediaType.SVG);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  Headrooms(KnowledgeStore store, Evaluator evaluator, Guards guards, Supplier<LocalDate> today) {
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
    byte[] sheet = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Formula formula = sheets.formula(sheet, Reviews.format(body), limits);
              Review review = knowledge.reviewer().review(formula, on, Set.of(Include.HEADROOM));
              return form == MediaType.SVG ? drawn(review) : written(review);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.JSON) {
      exchange.headerMore("Link", "</v1/schemas/headroom>; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  private static byte[] written(Review review) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(16_384);
    HeadroomReport.compact().write(review, out);
    return out.toByteArray();
  }

  private static byte[] drawn(Review review) {
    return review
        .headroom()
        .flatMap(HeadroomBars::of)
        .map(bars -> Chart.of(bars, review.formula()).svg("headroom"))
        .orElseThrow(
            () ->
                Trouble.of(
                    ProblemType.NOT_A_FORMULA,
                    "There is nothing to draw: no number of this formula can be moved."))
        .getBytes(StandardCharsets.UTF_8);
  }
}
