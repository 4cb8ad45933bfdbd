package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.calibration.Calibration;
import gelwright.ingredient.Gum;
import gelwright.quantity.Unit;
import gelwright.sheets.LotSheet;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/**
 * Writes calibrations as JSON, UTF-8, in a fixed order of keys. The form is that of {@code
 * gelwright/schemas/calibration.schema.json}; numbers are written as in {@link JsonReport}. An
 * error that is infinite, because the readings do not fix the parameter, is left out.
 */
public final class CalibrationReport {
  private static final String STANDING =
      "Fitted to readings; its doubt is that of the readings. Not a certificate.";

  private final boolean indented;

  private CalibrationReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static CalibrationReport indented() {
    return new CalibrationReport(true);
  }

  /** Writes each document on one line. */
  public static CalibrationReport compact() {
    return new CalibrationReport(false);
  }

  /** Writes one calibration, and a line feed. Does not close the stream. */
  public void write(Calibration calibration, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      calibration(json, calibration);
      json.writeRaw('\n');
    }
  }

  /** One calibration as text, with the line feed at its end. */
  public String text(Calibration calibration) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(calibration, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void calibration(JsonGenerator json, Calibration calibration) throws IOException {
    json.writeStartObject();
    json.writeStringField("gum", calibration.lot().ingredient());
    json.writeStringField("lot", calibration.lot().name());
    json.writeStringField("standing", STANDING);
    json.writeStringField("chosen", calibration.chosen().form().word());
    json.writeStringField("because", calibration.because());
    json.writeArrayFieldStart("candidates");
    for (Calibration.Candidate candidate : calibration.candidates()) {
      candidate(json, candidate);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("residuals");
    for (Calibration.Residual residual : calibration.residuals()) {
      json.writeStartObject();
      JsonReport.number(json, "share", residual.share());
      JsonReport.number(json, "shear-rate", residual.shearRate());
      JsonReport.number(json, "stress", residual.stress());
      JsonReport.number(json, "fitted", residual.fitted());
      JsonReport.number(json, "off", residual.off());
      JsonReport.where(json, residual.place());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeObjectFieldStart("covers");
    json.writeObjectFieldStart("shear-rate");
    JsonReport.number(json, "from", calibration.slowest());
    JsonReport.number(json, "to", calibration.fastest());
    json.writeStringField("unit", Unit.PER_SECOND.symbol());
    json.writeEndObject();
    Optional<Gum> gum = calibration.lot().gum().toOptional();
    if (gum.isPresent()) {
      json.writeObjectFieldStart("share");
      JsonReport.number(json, "from", gum.get().from());
      JsonReport.number(json, "to", gum.get().to());
      json.writeStringField("unit", Unit.PERCENT.symbol());
      json.writeEndObject();
    }
    json.writeEndObject();
    json.writeArrayFieldStart("shared-doubts");
    for (Calibration.SharedDoubt doubt : calibration.shared()) {
      json.writeStartObject();
      json.writeStringField("doubt", doubt.what());
      JsonReport.number(json, "factor", doubt.factor());
      json.writeStringField("from", doubt.standing());
      json.writeEndObject();
    }
    json.writeEndArray();
    JsonReport.strings(json, "remarks", calibration.remarks());
    json.writeFieldName("curve");
    PredictionReport.curve(json, calibration.curve());
    JsonReport.sources(json, List.of(calibration.source()));
    json.writeStringField("sheet", LotSheet.text(calibration));
    json.writeEndObject();
  }

  private static void candidate(JsonGenerator json, Calibration.Candidate candidate)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("law", candidate.form().word());
    JsonReport.number(json, "at-share", candidate.at());
    json.writeArrayFieldStart("parameters");
    for (Calibration.Parameter parameter : candidate.parameters()) {
      json.writeStartObject();
      json.writeStringField("name", parameter.name());
      JsonReport.number(json, "value", parameter.value());
      String symbol = parameter.unit().symbol();
      json.writeStringField("unit", symbol.isEmpty() ? "1" : symbol);
      if (Double.isFinite(parameter.standardError())) {
        JsonReport.number(json, "standard-error", parameter.standardError());
        JsonReport.number(json, "within", parameter.within());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    JsonReport.number(json, "scatter", candidate.scatter());
    JsonReport.number(json, "criterion", candidate.criterion());
    JsonReport.number(json, "behind", candidate.behind());
    JsonReport.strings(json, "unsettled", candidate.unsettled());
    json.writeEndObject();
  }
}
