package gelwright.api.http;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.sheets.SheetEdits;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;

/** Edits made in the text of a sheet, such as those of a remedy. */
final class SheetChanges {
  /** What the posted sheet is called in problems that have their place in its text. */
  private static final String SHEET = "sheet";

  private final Evaluator evaluator;
  private final Sheets sheets;
  private final Limits limits;
  private final int most;

  SheetChanges(Evaluator evaluator, Guards guards) {
    this.evaluator = evaluator;
    this.sheets = new Sheets(guards);
    this.limits = guards.document();
    this.most = guards.formulaParts();
  }

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), List.of(MediaType.JSON));
    exchange.bodyType(List.of(MediaType.JSON));
    exchange.query(Set.of());
    byte[] body = exchange.body();
    byte[] answer = evaluator.now(() -> answer(body));
    exchange.header("Cache-Control", "no-store");
    exchange.answer(200, form, answer);
  }

  private byte[] answer(byte[] body) {
    // The sheet is one text of the body, as long as the body may be.
    Limits whole =
        new Limits(
            limits.bytes(), limits.depth(), limits.nodes(), limits.bytes(), limits.problems());
    Document document = sheets.document(body, Document.Format.JSON, whole);
    Read<SheetEdits> read = SheetEdits.read(document);
    SheetEdits asked =
        read.value()
            .orElseThrow(
                () ->
                    Trouble.of(
                        document.problems().isEmpty()
                            ? ProblemType.NOT_EDITED
                            : ProblemType.MALFORMED_DOCUMENT,
                        Sheets.first(read.problems()),
                        read.problems()));
    if (asked.edits().size() > most) {
      Problem many =
          Problem.of(
              new Place("", 0, 0, "/edits"),
              "too-many-parts",
              "This list has " + asked.edits().size() + " parts; at most " + most + " are read.");
      throw Trouble.of(ProblemType.NOT_EDITED, many.message(), List.of(many));
    }
    bounded(asked);
    Read<String> made = asked.made(limits);
    String changed = made.value().orElseThrow(() -> refused(made.problems()));
    return Json.object(json -> json.writeStringField("sheet", changed));
  }

  /** Keeps a sheet that is larger than others may be from being worked on. */
  private void bounded(SheetEdits asked) {
    if (!asked.isTree()) {
      return;
    }
    String text = asked.sheet();
    String body = text.startsWith("\uFEFF") ? text.substring(1) : text;
    try {
      sheets.formula(body.getBytes(StandardCharsets.UTF_8), asked.format(), limits);
    } catch (Trouble trouble) {
      throw refused(trouble.errors());
    }
  }

  private static Trouble refused(List<Problem> problems) {
    List<Problem> inSheet =
        problems.stream()
            .map(
                each ->
                    new Problem(
                        new Place(
                            SHEET,
                            each.place().line(),
                            each.place().column(),
                            each.place().pointer()),
                        each.code(),
                        each.message(),
                        each.hint()))
            .toList();
    return Trouble.of(ProblemType.NOT_EDITED, Sheets.first(inSheet), inSheet);
  }
}
