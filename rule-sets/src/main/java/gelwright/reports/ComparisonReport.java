package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.comparison.Difference;
import gelwright.comparison.DutyChange;
import gelwright.comparison.FieldChange;
import gelwright.comparison.FindingChange;
import gelwright.comparison.FormulaComparison;
import gelwright.comparison.FormulaSide;
import gelwright.comparison.LineChange;
import gelwright.comparison.OpenCheck;
import gelwright.comparison.PropertyComparison;
import gelwright.comparison.StepChange;
import gelwright.formula.Step;
import gelwright.prediction.Curve;
import gelwright.quantity.Numbers;
import gelwright.quantity.Odds;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * Writes comparisons of two formulas as JSON, UTF-8, in a fixed order of keys. The form is that of
 * {@code gelwright/schemas/comparison.schema.json}; numbers are written as in {@link JsonReport}.
 */
public final class ComparisonReport {
  /** What every comparison says of itself. */
  private static final String STANDING =
      "A prediction with its sources, of both as made side by side: of the same lots, in the same"
          + " room, by the same hand. It does not say which of the two is better; it is not a"
          + " certificate, and not a safety assessment.";

  /** Stands for the formulas as a whole where JSON names what something is of. */
  private static final String BOTH = "both";

  private final boolean indented;

  private ComparisonReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static ComparisonReport indented() {
    return new ComparisonReport(true);
  }

  /** Writes each document on one line. */
  public static ComparisonReport compact() {
    return new ComparisonReport(false);
  }

  /** Writes one comparison, and a line feed. Does not close the stream. */
  public void write(FormulaComparison comparison, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      comparison(json, comparison);
      json.writeRaw('\n');
    }
  }

  /** One comparison as text, with the line feed at its end. */
  public String text(FormulaComparison comparison) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(comparison, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void comparison(JsonGenerator json, FormulaComparison comparison)
      throws IOException {
    json.writeStartObject();
    side(json, "first", comparison.first());
    side(json, "second", comparison.second());
    json.writeStringField("standing", STANDING);
    fields(json, "brief", comparison.brief());
    json.writeArrayFieldStart("recipe");
    for (LineChange line : comparison.recipe()) {
      line(json, line);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("method");
    for (StepChange step : comparison.method()) {
      step(json, step);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("properties");
    for (PropertyComparison property : comparison.properties()) {
      property(json, property);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("findings");
    for (FindingChange change : comparison.findings()) {
      finding(json, change);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("duties");
    for (DutyChange change : comparison.duties()) {
      duty(json, change);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("unchecked");
    for (OpenCheck open : comparison.unchecked()) {
      json.writeStartObject();
      json.writeStringField("rule", open.rule());
      JsonReport.subject(json, open.subject(), BOTH);
      strings(json, "first", open.first());
      strings(json, "second", open.second());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("curves");
    for (Curve curve : comparison.curves()) {
      PredictionReport.curve(json, curve);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void side(JsonGenerator json, String field, FormulaSide side) throws IOException {
    json.writeObjectFieldStart(field);
    json.writeStringField("label", side.label());
    json.writeStringField("formula", side.formula());
    if (!side.version().isEmpty()) {
      json.writeStringField("version", side.version());
    }
    JsonReport.editions(json, side.editions());
    json.writeStringField("outcome", side.outcome().word());
    json.writeStringField("level", side.level().word());
    JsonReport.where(json, side.place());
    json.writeEndObject();
  }

  private static void fields(JsonGenerator json, String name, List<FieldChange> fields)
      throws IOException {
    json.writeArrayFieldStart(name);
    for (FieldChange field : fields) {
      json.writeStartObject();
      json.writeStringField("field", field.field());
      string(json, "first", field.first());
      string(json, "second", field.second());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void line(JsonGenerator json, LineChange line) throws IOException {
    json.writeStartObject();
    json.writeStringField("ingredient", line.ingredient());
    json.writeStringField("change", line.change().word());
    recipeLine(json, "first", line.first());
    recipeLine(json, "second", line.second());
    fields(json, "fields", line.fields());
    json.writeEndObject();
  }

  private static void recipeLine(
      JsonGenerator json, String field, Optional<LineChange.RecipeLine> line) throws IOException {
    if (line.isEmpty()) {
      return;
    }
    json.writeObjectFieldStart(field);
    json.writeNumberField("number", line.get().number());
    json.writeStringField("name", line.get().line().name());
    if (!line.get().line().phase().isEmpty()) {
      json.writeStringField("phase", line.get().line().phase());
    }
    numbers(json, "share", line.get().share());
    json.writeEndObject();
  }

  private static void step(JsonGenerator json, StepChange step) throws IOException {
    json.writeStartObject();
    json.writeStringField("change", step.change().word());
    if (step.first().isPresent()) {
      step(json, "first", step.firstNumber().orElseThrow(), step.first().get());
    }
    if (step.second().isPresent()) {
      step(json, "second", step.secondNumber().orElseThrow(), step.second().get());
    }
    fields(json, "fields", step.fields());
    json.writeEndObject();
  }

  /** Parts of a step in words, as a person reads them; the sheet has them as values. */
  private static void step(JsonGenerator json, String field, int number, Step step)
      throws IOException {
    json.writeObjectFieldStart(field);
    json.writeNumberField("number", number);
    json.writeStringField("do", step.action().word());
    string(json, "phase", step.phase());
    if (!step.with().isEmpty()) {
      JsonReport.strings(json, "with", step.with());
    }
    string(json, "into", step.into());
    string(json, "temperature", step.temperature().map(Object::toString));
    string(json, "pH", step.pH().map(Numbers::plain));
    string(json, "over", step.over().map(Object::toString));
    string(json, "for", step.lasting().map(Object::toString));
    string(json, "stir", step.stir().map(Object::toString));
    json.writeEndObject();
  }

  private static void property(JsonGenerator json, PropertyComparison property) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", property.name());
    JsonReport.subject(json, property.subject(), BOTH);
    json.writeStringField("meaning", property.meaning());
    number(json, "first", property.first(), property.firstOrigin());
    number(json, "second", property.second(), property.secondOrigin());
    Difference difference = property.difference();
    json.writeObjectFieldStart("difference");
    json.writeStringField("kind", difference.kind().word());
    JsonReport.number(json, "low", difference.low());
    JsonReport.number(json, "likely", difference.likely());
    JsonReport.number(json, "high", difference.high());
    json.writeStringField("unit", JsonReport.unit(difference.unit()));
    json.writeEndObject();
    odds(json, "odds-higher", property.higher());
    odds(json, "odds-lower", property.lower());
    json.writeStringField("verdict", property.verdict().word());
    json.writeArrayFieldStart("undecided-by");
    for (PropertyComparison.OpenDoubt doubt : property.undecidedBy()) {
      json.writeStartObject();
      json.writeStringField("doubt", doubt.doubt());
      if (!doubt.settledBy().isEmpty()) {
        json.writeStringField("settled-by", doubt.settledBy());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void number(JsonGenerator json, String field, Shown shown, String origin)
      throws IOException {
    json.writeObjectFieldStart(field);
    JsonReport.numbers(json, shown);
    json.writeStringField("origin", origin);
    JsonReport.missing(json, shown.missing());
    json.writeEndObject();
  }

  private static void numbers(JsonGenerator json, String field, Shown shown) throws IOException {
    json.writeObjectFieldStart(field);
    JsonReport.numbers(json, shown);
    JsonReport.missing(json, shown.missing());
    json.writeEndObject();
  }

  private static void odds(JsonGenerator json, String field, Odds odds) throws IOException {
    json.writeObjectFieldStart(field);
    JsonReport.number(json, "low", odds.low());
    JsonReport.number(json, "high", odds.high());
    json.writeEndObject();
  }

  private static void finding(JsonGenerator json, FindingChange change) throws IOException {
    json.writeStartObject();
    json.writeStringField("change", change.kind().word());
    json.writeStringField("rule", change.finding().rule());
    json.writeStringField("title", change.finding().title());
    JsonReport.subject(json, change.finding().subject(), BOTH);
    finding(json, "first", change.first(), change.firstOutcome());
    finding(json, "second", change.second(), change.secondOutcome());
    json.writeStringField("lesson", change.finding().lesson());
    JsonReport.sources(json, change.finding().sources());
    json.writeEndObject();
  }

  private static void finding(
      JsonGenerator json, String field, Optional<Finding> finding, Optional<Outcome> outcome)
      throws IOException {
    if (outcome.isEmpty()) {
      return;
    }
    json.writeObjectFieldStart(field);
    json.writeStringField("outcome", outcome.get().word());
    if (finding.isPresent()) {
      json.writeStringField("level", finding.get().level().word());
      odds(json, "odds", finding.get().odds());
      JsonReport.subject(json, finding.get().subject(), BOTH);
      json.writeStringField("message", finding.get().message());
      JsonReport.missing(json, finding.get().missing());
      json.writeBooleanField("accepted", finding.get().isAccepted());
      JsonReport.where(json, finding.get().where());
    }
    json.writeEndObject();
  }

  private static void duty(JsonGenerator json, DutyChange change) throws IOException {
    json.writeStartObject();
    json.writeStringField("change", change.kind().word());
    json.writeStringField("rule", change.duty().rule());
    json.writeStringField("title", change.duty().title());
    JsonReport.subject(json, change.duty().subject(), BOTH);
    json.writeStringField("message", change.duty().message());
    string(json, "first", change.first().map(Duty::applies).map(Outcome::word));
    string(json, "second", change.second().map(Duty::applies).map(Outcome::word));
    json.writeEndObject();
  }

  private static void string(JsonGenerator json, String field, Optional<String> text)
      throws IOException {
    if (text.isPresent()) {
      json.writeStringField(field, text.get());
    }
  }

  private static void strings(JsonGenerator json, String field, Optional<List<String>> texts)
      throws IOException {
    if (texts.isPresent()) {
      JsonReport.strings(json, field, texts.get());
    }
  }
}
