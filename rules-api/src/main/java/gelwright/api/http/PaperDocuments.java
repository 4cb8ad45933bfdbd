package gelwright.api.http;

import gelwright.api.html.Pages;
import gelwright.api.html.Papers;
import gelwright.api.html.Style;
import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.formula.Formula;
import gelwright.labelling.LabelDraft;
import gelwright.quantity.Quantity;
import gelwright.reports.PaperReport;
import gelwright.sheets.tree.Limits;
import gelwright.stability.StabilityPlan;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;

/** Batch sheets, label drafts and stability plans of one formula sheet, as data or as a page. */
final class PaperDocuments {
  private static final List<MediaType> FORMS = List.of(MediaType.JSON, MediaType.HTML);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  PaperDocuments(
      KnowledgeStore store, Evaluator evaluator, Guards guards, Supplier<LocalDate> today) {
    this.store = store;
    this.evaluator = evaluator;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
    this.today = today;
  }

  /** Makes the document of a formula and writes it down. */
  private interface Making {
    byte[] make(KnowledgeStore.Snapshot knowledge, Formula formula, LocalDate on, MediaType form)
        throws IOException;
  }

  void batch(Exchange exchange) {
    Map<String, String> query = exchange.query(Set.of("on", "make"));
    Quantity make =
        Quantity.parse(query.getOrDefault("make", ""))
            .filter(BatchSheets::canMake)
            .orElseThrow(
                () ->
                    Trouble.of(
                        ProblemType.MALFORMED_REQUEST,
                        "The parameter make takes the mass of the batch, such as 2kg or 500g, from"
                            + " 0.01 g to 1000 tonnes."));
    answer(
        exchange,
        query,
        "batch-sheet",
        (knowledge, formula, on, form) -> {
          BatchSheet sheet = knowledge.batchSheets().of(formula, make, on);
          return form == MediaType.HTML
              ? page(Pages.of(Papers.of(sheet)))
              : bytes(out -> PaperReport.compact().write(sheet, out));
        });
  }

  void label(Exchange exchange) {
    answer(
        exchange,
        exchange.query(Set.of("on")),
        "label-draft",
        (knowledge, formula, on, form) -> {
          LabelDraft draft = knowledge.labelDrafts().of(formula, on);
          return form == MediaType.HTML
              ? page(Pages.of(Papers.of(draft)))
              : bytes(out -> PaperReport.compact().write(draft, out));
        });
  }

  void stability(Exchange exchange) {
    answer(
        exchange,
        exchange.query(Set.of("on")),
        "stability-plan",
        (knowledge, formula, on, form) -> {
          StabilityPlan plan = knowledge.stabilityPlans().of(formula, on);
          return form == MediaType.HTML
              ? page(Pages.of(Papers.of(plan)))
              : bytes(out -> PaperReport.compact().write(plan, out));
        });
  }

  private void answer(Exchange exchange, Map<String, String> query, String schema, Making making) {
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    MediaType body = exchange.bodyType(Reviews.FORMULAS);
    LocalDate on = Exchange.day(query, today.get());
    byte[] sheet = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Formula formula = sheets.formula(sheet, Reviews.format(body), limits);
              return making.make(knowledge, formula, on, form);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.HTML) {
      // The one sheet in the page, and nothing else, may be used.
      exchange.header("Content-Security-Policy", Style.HOUSE.policyOfAnswer());
    } else {
      exchange.headerMore("Link", "</v1/schemas/" + schema + ">; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  /** Writes a document into a stream. */
  private interface Writing {
    void write(ByteArrayOutputStream out) throws IOException;
  }

  private static byte[] bytes(Writing writing) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(32_768);
    writing.write(out);
    return out.toByteArray();
  }

  private static byte[] page(String html) {
    return html.getBytes(StandardCharsets.UTF_8);
  }
}
