package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.formula.Acceptance;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Odds;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Shown;
import gelwright.review.Subject;
import gelwright.rule.Trace;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * Writes reviews as JSON, UTF-8, in a fixed order of keys. The form is that of {@code
 * gelwright/schemas/review.schema.json}.
 *
 * <p>Numbers have at most four significant digits. An end of a range that is not bounded, and a
 * likely value that is not known, are left out. {@code odds} is a number where it is known and an
 * object with {@code low} and {@code high} elsewhere. A plain number has the unit {@code "1"}.
 */
public final class JsonReport {
  private static final MathContext FOUR_DIGITS = new MathContext(4, RoundingMode.HALF_EVEN);

  /** Beyond these powers of ten a number is written with an exponent. */
  private static final int MOST_PLAIN_DIGITS = 12;

  /** Powers of ten, all of them exact. */
  private static final double[] TENS = {
    1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13
  };

  private final boolean indented;

  private JsonReport(boolean indented) {
    this.indented = indented;
  }

  /** Writes with line breaks, for people and for version control. */
  public static JsonReport indented() {
    return new JsonReport(true);
  }

  /** Writes each document on one line. */
  public static JsonReport compact() {
    return new JsonReport(false);
  }

  /** Writes one review as it is, and a line feed. Does not close the stream. */
  public void write(Review review, OutputStream out) throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      review(json, review);
      json.writeRaw('\n');
    }
  }

  /**
   * Writes several reviews as one document, and a line feed: {@code {"reviews": [...]}}, and {@code
   * "unreadable"} where there are files that could not be read. Does not close the stream.
   */
  public void write(List<Review> reviews, List<Unreadable> unreadable, OutputStream out)
      throws IOException {
    try (JsonGenerator json = WellFormed.open(out, indented)) {
      json.writeStartObject();
      json.writeArrayFieldStart("reviews");
      for (Review review : reviews) {
        review(json, review);
      }
      json.writeEndArray();
      if (!unreadable.isEmpty()) {
        json.writeArrayFieldStart("unreadable");
        for (Unreadable file : unreadable) {
          unreadable(json, file);
        }
        json.writeEndArray();
      }
      json.writeEndObject();
      json.writeRaw('\n');
    }
  }

  /** One review as text, with the line feed at its end. */
  public String text(Review review) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      write(review, bytes);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return bytes.toString(StandardCharsets.UTF_8);
  }

  private static void review(JsonGenerator json, Review review) throws IOException {
    json.writeStartObject();
    json.writeStringField("formula", review.formula());
    editions(json, review.editions());
    json.writeStringField("outcome", review.outcome().word());
    json.writeStringField("level", review.level().word());
    counts(json, review);
    json.writeArrayFieldStart("findings");
    RemedyWriter remedies = new RemedyWriter(review);
    for (Finding finding : review.findings()) {
      finding(json, finding, review.formula(), remedies);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("duties");
    for (Duty duty : review.duties()) {
      duty(json, duty, review.formula());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("measure-next");
    for (Review.MeasureNext next : review.measureNext()) {
      json.writeStartObject();
      json.writeStringField("what", next.what());
      strings(json, "decides", next.decides());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("unchecked");
    for (Review.Unchecked unchecked : review.unchecked()) {
      json.writeStartObject();
      json.writeStringField("rule", unchecked.rule());
      subject(json, unchecked.subject(), review.formula());
      strings(json, "missing", unchecked.missing());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeObjectFieldStart("properties");
    for (Map.Entry<String, Review.PropertyValue> property : review.properties().entrySet()) {
      Review.PropertyValue value = property.getValue();
      json.writeObjectFieldStart(property.getKey());
      numbers(json, value.shown());
      json.writeStringField("origin", value.origin());
      strings(json, "sources", value.sources());
      missing(json, value.shown().missing());
      json.writeEndObject();
    }
    json.writeEndObject();
    json.writeObjectFieldStart("rules");
    for (Map.Entry<String, Outcome> rule : review.rules().entrySet()) {
      json.writeStringField(rule.getKey(), rule.getValue().word());
    }
    json.writeEndObject();
    json.writeObjectFieldStart("switched-off");
    for (Map.Entry<String, String> rule : review.switchedOff().entrySet()) {
      json.writeStringField(rule.getKey(), rule.getValue());
    }
    json.writeEndObject();
    strings(json, "cautions", review.cautions());
    if (review.headroom().isPresent()) {
      HeadroomReport.write(json, review.headroom().get(), review.formula());
    }
    where(json, review.place());
    json.writeEndObject();
  }

  static void editions(JsonGenerator json, Editions editions) throws IOException {
    json.writeObjectFieldStart("editions");
    json.writeStringField("engine", editions.engine());
    json.writeObjectFieldStart("rule-sets");
    for (Map.Entry<String, String> set : editions.ruleSets().entrySet()) {
      json.writeStringField(set.getKey(), set.getValue());
    }
    json.writeEndObject();
    json.writeStringField("on", editions.on().toString());
    json.writeStringField("formula-sha256", editions.formulaSha256());
    json.writeEndObject();
  }

  private static void counts(JsonGenerator json, Review review) throws IOException {
    json.writeObjectFieldStart("counts");
    for (Outcome outcome :
        List.of(
            Outcome.HOLDS,
            Outcome.BORDERLINE,
            Outcome.BREAKS,
            Outcome.UNKNOWN,
            Outcome.NOT_APPLICABLE)) {
      json.writeNumberField(outcome.word(), count(review, outcome));
    }
    json.writeNumberField(
        "duties", count(review, Outcome.APPLIES) + count(review, Outcome.MAY_APPLY));
    json.writeNumberField(Outcome.DOES_NOT_APPLY.word(), count(review, Outcome.DOES_NOT_APPLY));
    json.writeNumberField("accepted", review.accepted());
    json.writeEndObject();
  }

  static int count(Review review, Outcome outcome) {
    return review.counts().getOrDefault(outcome, 0);
  }

  private static void finding(
      JsonGenerator json, Finding finding, String formula, RemedyWriter remedies)
      throws IOException {
    json.writeStartObject();
    json.writeStringField("rule", finding.rule());
    json.writeStringField("title", finding.title());
    json.writeStringField("severity", finding.severity().word());
    json.writeStringField("outcome", finding.outcome().word());
    odds(json, finding.odds());
    json.writeStringField("level", finding.level().word());
    subject(json, finding.subject(), formula);
    if (finding.observed().isPresent()) {
      shown(json, "observed", finding.observed().get());
    }
    if (finding.limit().isPresent()) {
      shown(json, "limit", finding.limit().get());
    }
    json.writeStringField("message", finding.message());
    json.writeStringField("lesson", finding.lesson());
    sources(json, finding.sources());
    missing(json, finding.missing());
    json.writeBooleanField("must-be-known", finding.mustBeKnown());
    strings(json, "settled-by", finding.settledBy());
    if (finding.acceptance().isPresent()) {
      Acceptance acceptance = finding.acceptance().get();
      json.writeObjectFieldStart("accepted");
      json.writeStringField("because", acceptance.because());
      json.writeStringField("until", acceptance.until().toString());
      if (acceptance.observed().isPresent()) {
        Quantity observed = acceptance.observed().get();
        json.writeObjectFieldStart("observed");
        number(json, "value", observed.value());
        json.writeStringField("unit", unit(observed.unit()));
        json.writeEndObject();
      }
      json.writeEndObject();
    }
    remedies.write(json, finding);
    where(json, finding.where());
    if (finding.trace().isPresent()) {
      json.writeFieldName("trace");
      trace(json, finding.trace().get());
    }
    json.writeEndObject();
  }

  private static void duty(JsonGenerator json, Duty duty, String formula) throws IOException {
    json.writeStartObject();
    json.writeStringField("rule", duty.rule());
    json.writeStringField("title", duty.title());
    json.writeStringField("applies", applies(duty.applies()));
    if (duty.applies() == Outcome.HOLDS || duty.applies() == Outcome.BREAKS) {
      json.writeBooleanField("done", duty.applies() == Outcome.HOLDS);
    }
    json.writeStringField("severity", duty.severity().word());
    subject(json, duty.subject(), formula);
    json.writeStringField("message", duty.message());
    json.writeStringField("lesson", duty.lesson());
    missing(json, duty.missing());
    sources(json, duty.sources());
    json.writeEndObject();
  }

  private static String applies(Outcome outcome) {
    return switch (outcome) {
      case MAY_APPLY, UNKNOWN, BORDERLINE -> "maybe";
      case DOES_NOT_APPLY, NOT_APPLICABLE -> "no";
      case APPLIES, HOLDS, BREAKS -> "yes";
    };
  }

  private static void unreadable(JsonGenerator json, Unreadable file) throws IOException {
    json.writeStartObject();
    json.writeStringField("file", file.file());
    json.writeArrayFieldStart("problems");
    for (Problem problem : file.problems()) {
      json.writeStartObject();
      json.writeStringField("code", problem.code());
      json.writeStringField("message", problem.message());
      if (!problem.hint().isEmpty()) {
        json.writeStringField("hint", problem.hint());
      }
      where(json, problem.place());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void odds(JsonGenerator json, Odds odds) throws IOException {
    if (odds.low() == odds.high()) {
      number(json, "odds", odds.low());
      return;
    }
    json.writeObjectFieldStart("odds");
    number(json, "low", odds.low());
    number(json, "high", odds.high());
    json.writeEndObject();
  }

  /**
   * One key, so that {@code subject.ingredient} can be asked for; the formula as a whole by name.
   */
  static void subject(JsonGenerator json, Subject subject, String formula) throws IOException {
    json.writeObjectFieldStart("subject");
    if (subject.isFormula()) {
      json.writeStringField("formula", formula);
    } else {
      json.writeStringField(subject.kind(), subject.name());
    }
    json.writeEndObject();
  }

  private static void shown(JsonGenerator json, String field, Shown shown) throws IOException {
    json.writeObjectFieldStart(field);
    json.writeStringField("name", shown.name());
    numbers(json, shown);
    missing(json, shown.missing());
    json.writeEndObject();
  }

  static void numbers(JsonGenerator json, Shown shown) throws IOException {
    number(json, "low", shown.low());
    number(json, "likely", shown.likely());
    number(json, "high", shown.high());
    json.writeStringField("unit", unit(shown.unit()));
  }

  static String unit(Unit unit) {
    return unit == Unit.NONE ? "1" : unit.symbol();
  }

  static void number(JsonGenerator json, String field, double value) throws IOException {
    if (Double.isFinite(value)) {
      json.writeFieldName(field);
      json.writeNumber(digits(value));
    }
  }

  /** At most four significant digits, without idle zeros, valid as a JSON number. */
  static String digits(double value) {
    if (value == 0) {
      return "0";
    }
    String quick = quickDigits(value);
    return quick.isEmpty() ? exactDigits(value) : quick;
  }

  /**
   * The same by binary arithmetic, which is right unless the number lies next to the middle between
   * two neighbours of four digits; empty there, and for what is very large or very small.
   */
  private static String quickDigits(double value) {
    double size = Math.abs(value);
    if (!(size >= 1e-9 && size < 1e12)) {
      return "";
    }
    // The power of ten of the first digit; the estimate may be one off at a power itself.
    int exponent = (int) Math.floor(Math.log10(size));
    double scaled = scaled(size, 3 - exponent);
    if (scaled >= 10_000) {
      exponent++;
      scaled = scaled(size, 3 - exponent);
    } else if (scaled < 1_000) {
      exponent--;
      scaled = scaled(size, 3 - exponent);
    }
    double whole = Math.floor(scaled);
    double part = scaled - whole;
    // One multiplication is good to 1e-12 of a number of four digits.
    if (!(scaled >= 1_000 && scaled < 10_000) || Math.abs(part - 0.5) < 1e-9) {
      return "";
    }
    int digits = (int) whole + (part > 0.5 ? 1 : 0);
    int places = 3 - exponent;
    while (digits % 10 == 0 && places > 0) {
      digits /= 10;
      places--;
    }
    StringBuilder text = new StringBuilder(16);
    if (value < 0) {
      text.append('-');
    }
    int from = text.length();
    text.append(digits);
    if (places > 0) {
      while (text.length() - from <= places) {
        text.insert(from, '0');
      }
      text.insert(text.length() - places, '.');
    }
    for (int i = places; i < 0; i++) {
      text.append('0');
    }
    return text.toString();
  }

  private static double scaled(double size, int places) {
    return places >= 0 ? size * TENS[places] : size / TENS[-places];
  }

  static String exactDigits(double value) {
    BigDecimal rounded = new BigDecimal(value).round(FOUR_DIGITS).stripTrailingZeros();
    int exponent = rounded.precision() - rounded.scale() - 1;
    return Math.abs(exponent) > MOST_PLAIN_DIGITS ? rounded.toString() : rounded.toPlainString();
  }

  static void sources(JsonGenerator json, List<Source> sources) throws IOException {
    json.writeArrayFieldStart("sources");
    for (Source source : sources) {
      json.writeStartObject();
      json.writeStringField("id", source.id());
      json.writeStringField("citation", source.citation());
      json.writeStringField("standing", source.standing().word());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  static void missing(JsonGenerator json, Collection<String> missing) throws IOException {
    if (!missing.isEmpty()) {
      strings(json, "missing", missing);
    }
  }

  static void strings(JsonGenerator json, String field, Collection<String> texts)
      throws IOException {
    json.writeArrayFieldStart(field);
    for (String text : texts) {
      json.writeString(text);
    }
    json.writeEndArray();
  }

  static void where(JsonGenerator json, Place place) throws IOException {
    if (place.equals(Place.NOWHERE)) {
      return;
    }
    json.writeObjectFieldStart("where");
    if (!place.file().isEmpty()) {
      json.writeStringField("file", place.file());
    }
    if (place.line() > 0) {
      json.writeNumberField("line", place.line());
    }
    if (place.column() > 0) {
      json.writeNumberField("column", place.column());
    }
    if (!place.pointer().isEmpty()) {
      json.writeStringField("pointer", place.pointer());
    }
    json.writeEndObject();
  }

  private static void trace(JsonGenerator json, Trace trace) throws IOException {
    json.writeStartObject();
    json.writeStringField("text", trace.text());
    json.writeStringField("value", trace.value());
    missing(json, new TreeSet<>(trace.missing()));
    where(json, trace.place());
    if (!trace.parts().isEmpty()) {
      json.writeArrayFieldStart("parts");
      for (Trace part : trace.parts()) {
        trace(json, part);
      }
      json.writeEndArray();
    }
    json.writeEndObject();
  }
}
