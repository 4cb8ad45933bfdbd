package gelwright.api.http;

import gelwright.api.html.Pages;
import gelwright.api.html.Reports;
import gelwright.api.html.Style;
import gelwright.formula.Formula;
import gelwright.reports.JsonReport;
import gelwright.reports.SarifReport;
import gelwright.review.Include;
import gelwright.review.Review;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;

/** Reviews of one formula sheet. */
final class Reviews {
  static final Set<String> QUERY = Set.of("on", "include");
  static final List<MediaType> FORMULAS = List.of(MediaType.JSON, MediaType.YAML);
  private static final List<MediaType> FORMS =
      List.of(MediaType.JSON, MediaType.SARIF, MediaType.HTML);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Metrics metrics;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  Reviews(
      KnowledgeStore store,
      Evaluator evaluator,
      Metrics metrics,
      Guards guards,
      Supplier<LocalDate> today) {
    this.store = store;
    this.evaluator = evaluator;
    this.metrics = metrics;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
    this.today = today;
  }

  /**
   * What a request asks for.
   *
   * @param on the day
   * @param include what the review is to carry besides
   */
  record Asked(LocalDate on, Set<Include> include) {}

  static Asked asked(Map<String, String> query, LocalDate today) {
    Set<Include> include = EnumSet.noneOf(Include.class);
    if (query.containsKey("include")) {
      for (String word : query.getOrDefault("include", "").split(",", -1)) {
        include.add(
            included(word)
                .orElseThrow(
                    () ->
                        Trouble.of(
                            ProblemType.MALFORMED_REQUEST,
                            "The parameter include takes, separated by commas: "
                                + String.join(", ", words())
                                + ".")));
      }
    }
    return new Asked(Exchange.day(query, today), include);
  }

  private static List<String> words() {
    return EnumSet.allOf(Include.class).stream()
        .map(one -> one.name().toLowerCase(Locale.ROOT))
        .toList();
  }

  private static Optional<Include> included(String word) {
    return EnumSet.allOf(Include.class).stream()
        .filter(one -> one.name().toLowerCase(Locale.ROOT).equals(word))
        .findAny();
  }

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    MediaType body = exchange.bodyType(FORMULAS);
    Asked asked = asked(exchange.query(QUERY), today.get());
    byte[] sheet = exchange.body();
    KnowledgeStore.Snapshot knowledge = store.current();
    byte[] answer =
        evaluator.now(
            () -> {
              Formula formula = sheets.formula(sheet, format(body), limits);
              Review review = knowledge.reviewer().review(formula, asked.on(), asked.include());
              metrics.reviewed(review);
              return form == MediaType.HTML
                  ? page(formula, review, asked.on(), knowledge)
                  : written(review, form, knowledge);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.headerMore("Vary", "Accept");
    if (form == MediaType.HTML) {
      // The one sheet in the page, and nothing else, may be used.
      exchange.header("Content-Security-Policy", Style.HOUSE.policyOfAnswer());
    } else {
      exchange.headerMore("Link", "</v1/schemas/review>; rel=\"describedby\"");
    }
    exchange.answer(200, form, answer);
  }

  static Document.Format format(MediaType type) {
    return type == MediaType.YAML ? Document.Format.YAML : Document.Format.JSON;
  }

  private static byte[] page(
      Formula formula, Review review, LocalDate on, KnowledgeStore.Snapshot knowledge) {
    Reports.Reviewed reviewed =
        new Reports.Reviewed(
            formula,
            review,
            Optional.of(knowledge.predictor().predict(formula, on)),
            knowledge.batchSheets().of(formula, Reports.batch(formula), on));
    return Pages.of(Reports.of(reviewed)).getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] written(Review review, MediaType form, KnowledgeStore.Snapshot knowledge)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream(65_536);
    if (form == MediaType.SARIF) {
      SarifReport.describing(knowledge.ruleSets()).write(List.of(review), List.of(), out);
    } else {
      JsonReport.compact().write(review, out);
    }
    return out.toByteArray();
  }
}
