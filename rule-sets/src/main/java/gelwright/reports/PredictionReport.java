package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.ingredient.Source;
import gelwright.prediction.Curve;
import gelwright.prediction.DoubtShare;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.TreeMap;

/**
 * Writes predictions as JSON, UTF-8, in a fixed order of keys. The form is that of {@code
 * gelwright/schemas/prediction.schema.json}; numbers are written as in {@link JsonReport}.
 */
public final class PredictionReport {
  /** What every prediction says of itself. */
  static final String STANDING =
      "A prediction with its sources: not a certificate, and not a safety assessment.";

  private final boolean indented;

  private PredictionReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static PredictionReport indented() {
    return new PredictionReport(true);
  }

  /** Writes each document on one line. */
  public static PredictionReport compact() {
    return new PredictionReport(false);
  }

  /** Writes one prediction, and a line feed. Does not close the stream. */
  public void write(Prediction prediction, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      prediction(json, prediction);
      json.writeRaw('\n');
    }
  }

  /** One prediction as text, with the line feed at its end. */
  public String text(Prediction prediction) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(prediction, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void prediction(JsonGenerator json, Prediction prediction) throws IOException {
    json.writeStartObject();
    json.writeStringField("formula", prediction.formula());
    JsonReport.editions(json, prediction.editions());
    json.writeStringField("standing", STANDING);
    TreeMap<String, Source> sources = new TreeMap<>();
    json.writeArrayFieldStart("properties");
    for (Predicted property : prediction.properties()) {
      property.sources().forEach(source -> sources.put(source.id(), source));
      property(json, property, prediction.formula());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("curves");
    for (Curve curve : prediction.curves()) {
      curve(json, curve);
    }
    json.writeEndArray();
    JsonReport.sources(json, List.copyOf(sources.values()));
    JsonReport.where(json, prediction.place());
    json.writeEndObject();
  }

  private static void property(JsonGenerator json, Predicted property, String formula)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("name", property.name());
    JsonReport.subject(json, property.subject(), formula);
    json.writeStringField("meaning", property.meaning());
    JsonReport.numbers(json, property.shown());
    json.writeStringField("origin", property.origin());
    JsonReport.strings(json, "sources", property.sources().stream().map(Source::id).toList());
    JsonReport.missing(json, property.shown().missing());
    json.writeArrayFieldStart("doubts");
    for (DoubtShare doubt : property.doubts()) {
      json.writeStartObject();
      json.writeStringField("doubt", doubt.doubt());
      if (!doubt.settledBy().isEmpty()) {
        json.writeStringField("settled-by", doubt.settledBy());
      }
      JsonReport.number(json, "share", doubt.share());
      JsonReport.number(json, "at-low", doubt.atLow());
      JsonReport.number(json, "at-high", doubt.atHigh());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  static void curve(JsonGenerator json, Curve curve) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", curve.name());
    json.writeStringField("title", curve.title());
    axis(json, "x", curve.x());
    axis(json, "y", curve.y());
    json.writeBooleanField("known", curve.isKnown());
    json.writeArrayFieldStart("series");
    for (Curve.Series series : curve.series()) {
      json.writeStartObject();
      json.writeStringField("name", series.name());
      json.writeStringField("kind", kind(series.kind()));
      json.writeArrayFieldStart("points");
      for (Curve.Point point : series.points()) {
        json.writeStartObject();
        JsonReport.number(json, "x", point.x());
        JsonReport.number(json, "low", point.low());
        JsonReport.number(json, "likely", point.likely());
        JsonReport.number(json, "high", point.high());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("marks");
    for (Curve.Mark mark : curve.marks()) {
      json.writeStartObject();
      json.writeStringField("label", mark.label());
      JsonReport.number(json, "x-from", mark.xFrom());
      JsonReport.number(json, "x-to", mark.xTo());
      JsonReport.number(json, "y-from", mark.yFrom());
      JsonReport.number(json, "y-to", mark.yTo());
      json.writeEndObject();
    }
    json.writeEndArray();
    JsonReport.missing(json, curve.missing());
    json.writeEndObject();
  }

  private static void axis(JsonGenerator json, String field, Curve.Axis axis) throws IOException {
    json.writeObjectFieldStart(field);
    json.writeStringField("quantity", axis.quantity());
    json.writeStringField("unit", axis.unit().isEmpty() ? "1" : axis.unit());
    json.writeStringField("scale", axis.logarithmic() ? "logarithmic" : "linear");
    json.writeEndObject();
  }

  private static String kind(Curve.Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
