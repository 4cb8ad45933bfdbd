package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.quantity.Quantity;
import gelwright.review.Headroom;
import gelwright.review.Review;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Writes how far the numbers of a formula can move as JSON, UTF-8, in a fixed order of keys. The
 * form is that of {@code gelwright/schemas/headroom.schema.json}; numbers are written as in {@link
 * JsonReport}.
 */
public final class HeadroomReport {
  private final boolean indented;

  private HeadroomReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static HeadroomReport indented() {
    return new HeadroomReport(true);
  }

  /** Writes each document on one line. */
  public static HeadroomReport compact() {
    return new HeadroomReport(false);
  }

  /**
   * Writes the headroom of a review that was asked for it, and a line feed. Does not close the
   * stream.
   *
   * @throws IllegalArgumentException when the review was not asked for headroom
   */
  public void write(Review review, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      json.writeStartObject();
      json.writeStringField("formula", review.formula());
      JsonReport.editions(json, review.editions());
      json.writeStringField("standing", PredictionReport.STANDING);
      write(
          json,
          review
              .headroom()
              .orElseThrow(() -> new IllegalArgumentException("review was not asked for headroom")),
          review.formula());
      JsonReport.where(json, review.place());
      json.writeEndObject();
      json.writeRaw('\n');
    }
  }

  /** The same as text, with the line feed at its end. */
  public String text(Review review) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(review, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  static void write(JsonGenerator json, List<Headroom> all, String formula) throws IOException {
    json.writeArrayFieldStart("headroom");
    for (Headroom each : all) {
      json.writeStartObject();
      what(json, each.what());
      json.writeStringField("text", each.what().text());
      exact(json, "now", each.now());
      json.writeStringField("unit", JsonReport.unit(each.now().unit()));
      exact(json, "grid", each.grid());
      side(json, "lower", each.down(), formula);
      side(json, "upper", each.up(), formula);
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private static void what(JsonGenerator json, Headroom.What what) throws IOException {
    json.writeObjectFieldStart("what");
    if (what instanceof Headroom.What.ShareOf share) {
      json.writeStringField("ingredient", share.ingredient());
      json.writeNumberField("line", share.line() + 1);
    } else if (what instanceof Headroom.What.Temperature temperature) {
      json.writeNumberField("step", temperature.step() + 1);
      json.writeStringField("field", "temperature");
    } else {
      json.writeStringField("pH", "target");
    }
    json.writeEndObject();
  }

  private static void side(JsonGenerator json, String name, Headroom.Side side, String formula)
      throws IOException {
    json.writeObjectFieldStart(name);
    exact(json, "free", side.free());
    exact(json, "gap", side.gap());
    if (side.change().isEmpty()) {
      json.writeBooleanField("open", true);
    } else {
      Headroom.Change change = side.change().get();
      exact(json, "at", change.at());
      json.writeStringField("rule", change.concern().rule());
      JsonReport.subject(json, change.concern().subject(), formula);
      json.writeStringField("from", change.from().word());
      json.writeStringField("to", change.to().word());
      json.writeNumberField("others", change.others());
    }
    json.writeEndObject();
  }

  // A share on the grid of a fine balance has more digits than the four of a property.
  private static void exact(JsonGenerator json, String field, Quantity quantity)
      throws IOException {
    json.writeFieldName(field);
    json.writeNumber(
        new java.math.BigDecimal(quantity.value())
            .round(new java.math.MathContext(9))
            .stripTrailingZeros()
            .toPlainString());
  }
}
