package gelwright.api.http;

import gelwright.problem.Problem;
import gelwright.sheets.ExampleRunner;
import gelwright.sheets.Library;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.function.Supplier;

/** Checks of a posted rule set: all that is wrong with it at once, and what its examples do. */
final class RuleChecks {
  private static final Set<String> QUERY = Set.of("on");

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final Supplier<LocalDate> today;

  RuleChecks(KnowledgeStore store, Evaluator evaluator, Guards guards, Supplier<LocalDate> today) {
    this.store = store;
    this.evaluator = evaluator;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
    this.today = today;
  }

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), List.of(MediaType.JSON));
    MediaType body = exchange.bodyType(Reviews.FORMULAS);
    LocalDate on = Exchange.day(exchange.query(QUERY), today.get());
    byte[] sheet = exchange.body();
    Library known = store.current().library();
    byte[] answer =
        evaluator.now(
            () -> {
              Document document = sheets.document(sheet, Reviews.format(body), limits);
              return check(document, known, on);
            });
    exchange.header("Cache-Control", "no-store");
    exchange.answer(200, form, answer);
  }

  private byte[] check(Document document, Library known, LocalDate on) {
    String id = id(document);
    if (id.isEmpty()) {
      Problem none =
          new Problem(
              document.root().place(),
              "not-a-rule-set",
              "This is no rule set: it has no key rule-set with a name.",
              "The form of a rule set is /v1/schemas/rule-set.");
      return written(
          new OwnSheets.Checked(List.of(none), List.of(), List.of(), List.of(), 0, false), "");
    }
    // A set that is known takes the place of the known one, so that an edited copy can be checked.
    Library others =
        new Library(
            known.catalogue(),
            known.ruleSheets().stream().filter(one -> !one.ruleSet().id().equals(id)).toList(),
            known.bases());
    return written(OwnSheets.of(others, document, limits).checkOwn(on), id);
  }

  private static String id(Document document) {
    return document.root() instanceof Node.Mapping mapping
            && mapping.get("rule-set").orElse(null) instanceof Node.Scalar name
        ? name.text()
        : "";
  }

  private static byte[] written(OwnSheets.Checked checked, String id) {
    boolean agree = checked.results().stream().allMatch(ExampleRunner.Result::agrees);
    return Json.object(
        json -> {
          json.writeStringField("rule-set", id);
          json.writeBooleanField(
              "sound", checked.problems().isEmpty() && agree && checked.lacking().isEmpty());
          json.writeNumberField(
              "rules", checked.sets().stream().mapToInt(set -> set.rules().size()).sum());
          json.writeNumberField(
              "changes", checked.sets().stream().mapToInt(set -> set.changes().size()).sum());
          Json.problems(json, "problems", checked.problems());
          json.writeBooleanField("examples-run", checked.examplesRun());
          json.writeArrayFieldStart("examples");
          for (ExampleRunner.Result result : checked.results()) {
            json.writeStartObject();
            json.writeStringField("rule", result.rule());
            if (result.row().isPresent()) {
              json.writeStringField("row", result.row().get());
            }
            json.writeStringField("expected", result.expected());
            json.writeStringField("got", result.got());
            json.writeBooleanField("agrees", result.agrees());
            Json.place(json, result.place());
            json.writeEndObject();
          }
          json.writeEndArray();
          json.writeArrayFieldStart("lacking");
          for (OwnSheets.Lacking lacking : checked.lacking()) {
            json.writeStartObject();
            json.writeStringField("rule", lacking.rule());
            Json.strings(json, "kinds", lacking.kinds());
            Json.place(json, lacking.place());
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }
}
