package gelwright.api.http;

import gelwright.comparison.FormulaComparison;
import gelwright.reports.ComparisonReport;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

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
    String curve = Pictures.asked(query, form);
    byte[] document = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Sheets.Two two = sheets.two(document, Reviews.format(body), limits);
              FormulaComparison comparison =
                  knowledge.comparer().compare(two.first(), two.second(), on);
              return form == MediaType.SVG
                  ? Pictures.drawn(comparison.curves(), curve, comparison.about())
                  : written(comparison);
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
}
