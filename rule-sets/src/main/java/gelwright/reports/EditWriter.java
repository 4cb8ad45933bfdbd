package gelwright.reports;

import com.fasterxml.jackson.core.JsonGenerator;
import gelwright.formula.Edit;
import gelwright.sheets.WrittenEdit;
import java.io.IOException;
import java.util.List;
import java.util.Map;

/** Writes an edit as a sheet has its words. */
final class EditWriter {
  private EditWriter() {}

  static void write(JsonGenerator json, Edit edit) throws IOException {
    json.writeStartObject();
    for (Map.Entry<String, Object> field : WrittenEdit.of(edit).entrySet()) {
      field(json, field.getKey(), field.getValue());
    }
    json.writeEndObject();
  }

  private static void field(JsonGenerator json, String name, Object value) throws IOException {
    if (value instanceof Integer number) {
      json.writeNumberField(name, number);
    } else if (value instanceof Map<?, ?> parts) {
      json.writeObjectFieldStart(name);
      for (Map.Entry<?, ?> part : parts.entrySet()) {
        field(json, String.valueOf(part.getKey()), part.getValue());
      }
      json.writeEndObject();
    } else if (value instanceof List<?> texts) {
      json.writeArrayFieldStart(name);
      for (Object text : texts) {
        json.writeString(String.valueOf(text));
      }
      json.writeEndArray();
    } else {
      json.writeStringField(name, String.valueOf(value));
    }
  }
}
