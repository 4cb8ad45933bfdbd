package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.batch.BatchSheet;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Source;
import gelwright.labelling.LabelDraft;
import gelwright.review.Editions;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import gelwright.rule.Severity;
import gelwright.stability.StabilityPlan;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Writes batch sheets, label drafts and stability plans as JSON, UTF-8, in a fixed order of keys.
 * Their forms are those of {@code batch-sheet}, {@code label-draft} and {@code stability-plan} in
 * {@code gelwright/schemas}; numbers are written as in {@link JsonReport}, but masses to weigh with
 * every digit.
 */
public final class PaperReport {
  private static final String BATCH_STANDING =
      "A plan for one batch: no release of the batch, and not a safety assessment.";

  private static final String LABEL_STANDING =
      "A draft with what is missing: not a label, not legal advice, and not a safety assessment.";

  private static final String STABILITY_STANDING =
      "A suggestion: a qualified safety assessor decides what is tested and whether it has passed.";

  private final boolean indented;

  private PaperReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static PaperReport indented() {
    return new PaperReport(true);
  }

  /** Writes each document on one line. */
  public static PaperReport compact() {
    return new PaperReport(false);
  }

  /** Writes a batch sheet, and a line feed. Does not close the stream. */
  public void write(BatchSheet sheet, OutputStream out) throws IOException {
    write(json -> batch(json, sheet), out);
  }

  /** Writes a label draft, and a line feed. Does not close the stream. */
  public void write(LabelDraft draft, OutputStream out) throws IOException {
    write(json -> label(json, draft), out);
  }

  /** Writes a stability plan, and a line feed. Does not close the stream. */
  public void write(StabilityPlan plan, OutputStream out) throws IOException {
    write(json -> stability(json, plan), out);
  }

  /** A batch sheet as text, with the line feed at its end. */
  public String text(BatchSheet sheet) {
    return text(json -> batch(json, sheet));
  }

  /** A label draft as text, with the line feed at its end. */
  public String text(LabelDraft draft) {
    return text(json -> label(json, draft));
  }

  /** A stability plan as text, with the line feed at its end. */
  public String text(StabilityPlan plan) {
    return text(json -> stability(json, plan));
  }

  /** Something that writes a document. */
  private interface Body {
    void write(JsonGenerator json) throws IOException;
  }

  private void write(Body body, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      body.write(json);
      json.writeRaw('\n');
    }
  }

  private String text(Body body) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(body, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  /** Writes one of a list. */
  private interface Each<T> {
    void write(JsonGenerator json, T item) throws IOException;
  }

  private static <T> void array(JsonGenerator json, String field, List<T> items, Each<T> each)
      throws IOException {
    json.writeArrayFieldStart(field);
    for (T item : items) {
      json.writeStartObject();
      each.write(json, item);
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void head(
      JsonGenerator json, String formula, String version, Editions editions, String standing)
      throws IOException {
    json.writeStringField("formula", formula);
    text(json, "version", version);
    JsonReport.editions(json, editions);
    json.writeStringField("standing", standing);
  }

  private static void text(JsonGenerator json, String field, String value) throws IOException {
    if (!value.isEmpty()) {
      json.writeStringField(field, value);
    }
  }

  private static void exact(JsonGenerator json, String field, BigDecimal value) throws IOException {
    json.writeFieldName(field);
    json.writeNumber(value.stripTrailingZeros().toPlainString());
  }

  private static void exact(JsonGenerator json, String field, Optional<BigDecimal> value)
      throws IOException {
    if (value.isPresent()) {
      exact(json, field, value.get());
    }
  }

  private static void shown(JsonGenerator json, String field, Shown shown) throws IOException {
    json.writeObjectFieldStart(field);
    JsonReport.numbers(json, shown);
    JsonReport.missing(json, shown.missing());
    json.writeEndObject();
  }

  private static void span(JsonGenerator json, String field, Optional<Span> span)
      throws IOException {
    if (span.isPresent()) {
      json.writeObjectFieldStart(field);
      JsonReport.number(json, "from", span.get().from());
      JsonReport.number(json, "to", span.get().to());
      json.writeEndObject();
    }
  }

  private static String word(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static void concern(
      JsonGenerator json,
      String rule,
      String title,
      Severity level,
      Outcome outcome,
      String message)
      throws IOException {
    json.writeStringField("rule", rule);
    json.writeStringField("title", title);
    json.writeStringField("level", level.word());
    json.writeStringField("outcome", outcome.word());
    json.writeStringField("message", message);
  }

  // --- batch sheets ---

  private static void batch(JsonGenerator json, BatchSheet sheet) throws IOException {
    json.writeStartObject();
    head(json, sheet.formula(), sheet.version(), sheet.editions(), BATCH_STANDING);
    exact(json, "grams", sheet.grams());
    exact(json, "written-for", sheet.writtenFor());
    json.writeObjectFieldStart("balance");
    exact(json, "step", sheet.balance().step());
    json.writeBooleanField("stated", sheet.balance().stated());
    json.writeEndObject();
    array(json, "weighings", sheet.weighings(), PaperReport::weighing);
    exact(json, "sum", sheet.sum());
    array(json, "steps", sheet.steps(), PaperReport::step);
    array(json, "adjusting", sheet.adjustings(), PaperReport::adjusting);
    array(
        json,
        "targets",
        sheet.targets(),
        (out, target) -> {
          out.writeStringField("property", target.property());
          out.writeStringField("meaning", target.meaning());
          span(out, "aimed", target.aimed());
          shown(out, "expected", target.expected());
        });
    shown(json, "water-lost", sheet.waterLost());
    if (sheet.filling().isPresent()) {
      json.writeObjectFieldStart("filling");
      JsonReport.number(json, "diameter", sheet.filling().get().diameter());
      JsonReport.number(json, "height", sheet.filling().get().height());
      json.writeEndObject();
    }
    array(
        json,
        "changes",
        sheet.changes(),
        (out, change) -> {
          out.writeStringField("property", change.now().name());
          out.writeStringField("meaning", change.meaning());
          shown(out, "before", change.before());
          shown(out, "now", change.now());
        });
    array(
        json,
        "turned",
        sheet.turned(),
        (out, turned) -> {
          out.writeStringField("rule", turned.rule());
          out.writeStringField("title", turned.title());
          out.writeStringField("before", turned.before().word());
          out.writeStringField("now", turned.now().word());
          text(out, "message", turned.message());
        });
    array(
        json,
        "concerns",
        sheet.concerns(),
        (out, one) ->
            concern(out, one.rule(), one.title(), one.level(), one.outcome(), one.message()));
    array(json, "cautions-while-weighing", sheet.weighingCautions(), PaperReport::caution);
    array(json, "cautions", sheet.cautions(), PaperReport::caution);
    array(
        json,
        "record",
        sheet.record(),
        (out, item) -> {
          out.writeStringField("part", item.part());
          out.writeStringField("item", item.item());
          text(out, "clause", item.clause());
          JsonReport.sources(out, item.sources());
        });
    JsonReport.strings(json, "remarks", sheet.remarks());
    JsonReport.strings(json, "unknown", sheet.unknown());
    JsonReport.where(json, sheet.place());
    json.writeEndObject();
  }

  private static void weighing(JsonGenerator json, BatchSheet.Weighing line) throws IOException {
    json.writeStringField("phase", line.phase());
    json.writeStringField("name", line.name());
    json.writeStringField(
        "how",
        switch (line.how()) {
          case STATED -> "stated";
          case REST -> "rest";
          case TO_PH -> "to-pH";
        });
    exact(json, "share", line.share().map(share -> BigDecimal.valueOf(share.units(), 8)));
    exact(json, "grams", line.grams());
    if (line.expected().isPresent()) {
      shown(json, "expected", line.expected().get());
    }
    if (line.error().isPresent()) {
      JsonReport.number(json, "error", line.error().get());
    }
    json.writeStringField("weighed", word(line.fit()));
    if (line.least().isPresent()) {
      JsonReport.number(json, "least", line.least().get());
    }
    JsonReport.strings(json, "remarks", line.remarks());
    JsonReport.missing(json, line.missing());
  }

  private static void caution(JsonGenerator json, BatchSheet.Caution caution) throws IOException {
    json.writeStringField("rule", caution.rule());
    json.writeStringField("title", caution.title());
    json.writeStringField("message", caution.message());
    json.writeStringField("applies", caution.sure() ? "yes" : "maybe");
    JsonReport.sources(json, caution.sources());
  }

  private static void step(JsonGenerator json, BatchSheet.WorkStep work) throws IOException {
    Step step = work.step();
    json.writeNumberField("number", work.number());
    json.writeStringField("do", step.action().word());
    text(json, "phase", step.phase().orElse(""));
    if (!step.with().isEmpty()) {
      JsonReport.strings(json, "with", step.with());
    }
    text(json, "into", step.into().orElse(""));
    text(json, "temperature", step.temperature().map(Object::toString).orElse(""));
    if (step.pH().isPresent()) {
      JsonReport.number(json, "pH", step.pH().get());
    }
    text(json, "over", step.over().map(Object::toString).orElse(""));
    text(json, "for", step.lasting().map(Object::toString).orElse(""));
    text(json, "stir", step.stir().map(Object::toString).orElse(""));
    array(
        json,
        "joining",
        work.joining(),
        (out, joining) -> {
          out.writeStringField("name", joining.name());
          exact(out, "grams", joining.grams());
        });
    array(json, "cautions", work.cautions(), PaperReport::caution);
    JsonReport.strings(json, "again", work.again());
    JsonReport.strings(json, "not-given", work.missing());
  }

  private static void adjusting(JsonGenerator json, BatchSheet.Adjusting adjusting)
      throws IOException {
    json.writeStringField("name", adjusting.name());
    shown(json, "target", adjusting.target());
    span(json, "within", adjusting.within());
    shown(json, "before", adjusting.before());
    shown(json, "needed", adjusting.needed());
    shown(json, "solution-per-tenth", adjusting.perTenth());
    shown(json, "per-tenth", adjusting.perTenthAsBought());
    array(
        json,
        "titration",
        adjusting.titration(),
        (out, point) -> {
          JsonReport.number(out, "pH", point.pH());
          shown(out, "solution", point.solution());
        });
    if (adjusting.waterHeldBack().isPresent()) {
      JsonReport.number(json, "water-held-back", adjusting.waterHeldBack().get());
    }
    JsonReport.missing(json, adjusting.missing());
  }

  // --- label drafts ---

  private static void label(JsonGenerator json, LabelDraft draft) throws IOException {
    json.writeStartObject();
    head(json, draft.formula(), draft.version(), draft.editions(), LABEL_STANDING);
    JsonReport.strings(json, "covered", draft.covered());
    JsonReport.strings(json, "not-covered", draft.notCovered());
    json.writeStringField("ingredients", draft.list());
    array(
        json,
        "entries",
        draft.entries(),
        (out, entry) -> {
          out.writeStringField("name", entry.name());
          out.writeStringField("part", word(entry.part()));
          shown(out, "share", entry.share());
          JsonReport.strings(out, "from", entry.from());
          JsonReport.strings(out, "remarks", entry.remarks());
        });
    JsonReport.strings(json, "doubts", draft.doubts());
    array(json, "statements", draft.statements(), PaperReport::statement);
    array(
        json,
        "fields",
        draft.fields(),
        (out, field) -> {
          out.writeStringField("name", field.name());
          text(out, "clause", field.clause());
          text(out, "value", field.value().orElse(""));
          out.writeStringField("asks", field.asks());
          JsonReport.sources(out, field.sources());
        });
    json.writeStringField("durability", word(draft.durability()));
    array(json, "precautions", draft.precautions(), PaperReport::statement);
    array(
        json,
        "concerns",
        draft.concerns(),
        (out, one) ->
            concern(out, one.rule(), one.title(), one.level(), one.outcome(), one.message()));
    JsonReport.strings(json, "remarks", draft.remarks());
    JsonReport.strings(json, "unknown", draft.unknown());
    JsonReport.where(json, draft.place());
    json.writeEndObject();
  }

  private static void statement(JsonGenerator json, LabelDraft.Statement statement)
      throws IOException {
    json.writeStringField("rule", statement.rule());
    json.writeStringField("title", statement.title());
    if (!statement.words().isEmpty()) {
      JsonReport.strings(json, "words", statement.words());
    }
    json.writeStringField("message", statement.message());
    json.writeStringField("applies", statement.sure() ? "yes" : "maybe");
    JsonReport.missing(json, statement.missing());
    JsonReport.sources(json, statement.sources());
  }

  // --- stability plans ---

  private static void stability(JsonGenerator json, StabilityPlan plan) throws IOException {
    json.writeStartObject();
    head(json, plan.formula(), plan.version(), plan.editions(), STABILITY_STANDING);
    if (plan.shelfLifeMonths().isPresent()) {
      JsonReport.number(json, "shelf-life-months", plan.shelfLifeMonths().get());
    }
    text(json, "pack", plan.pack().orElse(""));
    array(json, "tests", plan.tests(), PaperReport::test);
    array(
        json,
        "calendar",
        plan.calendar(),
        (out, due) -> {
          JsonReport.number(out, "day", due.day());
          out.writeStringField("when", due.when());
          JsonReport.strings(out, "tests", due.tests());
        });
    JsonReport.strings(json, "switched-off", plan.switchedOff());
    JsonReport.strings(json, "unknown", plan.unknown());
    JsonReport.where(json, plan.place());
    json.writeEndObject();
  }

  private static void test(JsonGenerator json, StabilityPlan.Test test) throws IOException {
    json.writeStringField("name", test.name());
    text(json, "rule", test.rule());
    if (!test.about().isEmpty()) {
      JsonReport.strings(json, "about", test.about());
    }
    json.writeStringField("looks-at", test.looksAt());
    json.writeStringField("stored", test.stored());
    json.writeStringField("counts", test.counts());
    json.writeArrayFieldStart("at");
    for (double time : test.at()) {
      json.writeNumber(JsonReport.digits(time));
    }
    json.writeEndArray();
    json.writeBooleanField("end-not-known", test.toTheEnd());
    json.writeStringField("accept", test.accept());
    json.writeStringField("why", test.why());
    json.writeStringField("applies", test.sure() ? "yes" : "maybe");
    JsonReport.missing(json, test.missing());
    List<Source> sources = test.sources();
    JsonReport.sources(json, sources);
  }
}
