package gelwright.reports;

import com.fasterxml.jackson.core.JsonEncoding;
import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.JsonGeneratorDelegate;
import java.io.IOException;
import java.io.OutputStream;

/**
 * Writes JSON in UTF-8 and never stumbles over a text: half a surrogate pair, which UTF-8 cannot
 * write, becomes U+FFFD.
 */
final class WellFormed extends JsonGeneratorDelegate {
  private static final JsonFactory JSON =
      JsonFactory.builder().disable(StreamWriteFeature.AUTO_CLOSE_TARGET).build();

  private static final char REPLACEMENT = '\ufffd';

  private WellFormed(JsonGenerator generator) {
    super(generator, false);
  }

  static JsonGenerator open(OutputStream out, boolean indented) throws IOException {
    JsonGenerator json = JSON.createGenerator(out, JsonEncoding.UTF8);
    if (indented) {
      DefaultIndenter lines = new DefaultIndenter("  ", "\n");
      DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
      printer.indentArraysWith(lines);
      printer.indentObjectsWith(lines);
      json.setPrettyPrinter(printer);
    }
    return new WellFormed(json);
  }

  @Override
  public void writeFieldName(String name) throws IOException {
    delegate.writeFieldName(mended(name));
  }

  @Override
  public void writeString(String text) throws IOException {
    delegate.writeString(mended(text));
  }

  static String mended(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (isHalf(text, i)) {
        StringBuilder mended = new StringBuilder(text);
        for (int j = i; j < mended.length(); j++) {
          if (isHalf(mended, j)) {
            mended.setCharAt(j, REPLACEMENT);
          }
        }
        return mended.toString();
      }
    }
    return text;
  }

  private static boolean isHalf(CharSequence text, int i) {
    char character = text.charAt(i);
    if (Character.isHighSurrogate(character)) {
      return i + 1 == text.length() || !Character.isLowSurrogate(text.charAt(i + 1));
    }
    return Character.isLowSurrogate(character)
        && (i == 0 || !Character.isHighSurrogate(text.charAt(i - 1)));
  }
}
