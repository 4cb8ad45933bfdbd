package gelwright.api.http;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Collection;
import java.util.OptionalInt;

/**
 * Small JSON documents. Half a surrogate pair, which UTF-8 cannot write, becomes a question mark.
 */
final class Json {
  private static final JsonFactory FACTORY = new JsonFactory();

  private Json() {}

  /** Writes a part of a document. */
  @FunctionalInterface
  interface Part {
    void write(JsonGenerator json) throws IOException;
  }

  /** One object on one line, with a line feed. */
  static byte[] object(Part members) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(text)) {
      json.writeStartObject();
      members.write(json);
      json.writeEndObject();
      json.writeRaw('\n');
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible);
    }
    return text.toString().getBytes(StandardCharsets.UTF_8);
  }

  /** A problem document (RFC 9457). */
  static byte[] problem(Trouble trouble, OptionalInt line) {
    return problem(
        trouble.type(), trouble.type().status(), trouble.detail(), trouble.errors(), line);
  }

  static byte[] problem(
      ProblemType type,
      int status,
      String detail,
      Collection<Problem> errors,
      OptionalInt lineOfStream) {
    return object(
        json -> {
          json.writeStringField("type", type.address());
          json.writeStringField("title", type.title());
          json.writeNumberField("status", status);
          json.writeStringField("detail", detail);
          if (lineOfStream.isPresent()) {
            json.writeNumberField("line", lineOfStream.getAsInt());
          }
          if (!errors.isEmpty()) {
            problems(json, "errors", errors);
          }
        });
  }

  /** Problems of a document. */
  static void problems(JsonGenerator json, String field, Collection<Problem> problems)
      throws IOException {
    json.writeArrayFieldStart(field);
    for (Problem problem : problems) {
      json.writeStartObject();
      place(json, problem.place());
      json.writeStringField("code", problem.code());
      json.writeStringField("message", problem.message());
      if (!problem.hint().isEmpty()) {
        json.writeStringField("hint", problem.hint());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Members that say where something is; the pointer is empty for the whole document. */
  static void place(JsonGenerator json, Place place) throws IOException {
    if (!place.file().isEmpty()) {
      json.writeStringField("file", place.file());
    }
    json.writeStringField("pointer", place.pointer());
    if (place.line() > 0) {
      json.writeNumberField("line", place.line());
    }
    if (place.column() > 0) {
      json.writeNumberField("column", place.column());
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
}
