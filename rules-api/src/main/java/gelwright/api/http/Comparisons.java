package gelwright.api.http;

import gelwright.charts.Chart;
import gelwright.comparison.FormulaComparison;
import gelwright.prediction.Curve;
import gelwright.reports.ComparisonReport;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/** Comparisons of two formula sheets in one body, or one curve of both as a picture. */
final class Comparisons {
  private static final Set<String> QUERY = Set.of("on", "curve");
  private static final List<MediaType> FORMS = List.of(MediaType.JSON, MediaType.SVG);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  Comparisons(KnowledgeStore store, Evaluator evaluator, Guards guards, Supplier<LocalDate> today) {
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
    String curve = query.getOrDefault("curve", "");
    if (curve.isEmpty() == (form == MediaType.SVG)) {
      throw Trouble.of(
          ProblemType.MALFORMED_REQUEST,
          "The parameter curve says which curve is drawn: it goes with Accept: image/svg+xml, and"
              + " a picture needs it.");
    }
    byte[] document = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Sheets.Two two = sheets.two(document, Reviews.format(body), limits);
              FormulaComparison comparison =
                  knowledge.comparer().compare(two.first(), two.second(), on);
              return form == MediaType.SVG ? drawn(comparison, curve) : written(comparison);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.JSON) {
      exchange.headerMore("Link", "</v1/schemas/comparison>; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  private static byte[] written(FormulaComparison comparison) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(131_072);
    ComparisonReport.compact().write(comparison, out);
    return out.toByteArray();
  }

  private static byte[] drawn(FormulaComparison comparison, String name) {
    Curve curve =
        comparison
            .curve(name)
            .orElseThrow(
                () ->
                    Trouble.of(
                        ProblemType.MALFORMED_REQUEST,
                        "The parameter curve takes one of: "
                            + comparison.curves().stream()
                                .map(Curve::name)
                                .collect(Collectors.joining(", "))
                            + "."));
    return Chart.of(curve, comparison.about()).svg(name).getBytes(StandardCharsets.UTF_8);
  }
}
