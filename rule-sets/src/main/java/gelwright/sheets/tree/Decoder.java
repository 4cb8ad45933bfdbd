package gelwright.sheets.tree;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;

/** From bytes to text: strict UTF-8, nothing replaced, no character that cannot be seen. */
public final class Decoder {
  private static final char BYTE_ORDER_MARK = '\uFEFF';

  private Decoder() {}

  /** The text of a document, without a byte order mark; fails past {@link Limits#bytes()}. */
  public static Read<String> decode(byte[] bytes, String file, Limits limits) {
    Place start = new Place(file, 1, 1, "");
    if (bytes.length > limits.bytes()) {
      return fail(
          start,
          "too-large",
          "The document has more than the " + limits.bytes() + " bytes that are read.",
          "");
    }
    if (looksLikeUtf16(bytes)) {
      return fail(
          start,
          "wrong-encoding",
          "The document is not UTF-8 but UTF-16 or UTF-32.",
          SAVE_AS_UTF_8);
    }
    CharBuffer characters = CharBuffer.allocate(bytes.length + 1);
    ByteBuffer rest = ByteBuffer.wrap(bytes);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(rest, characters, true);
    String text = characters.flip().toString();
    boolean marked = !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK;
    String body = marked ? text.substring(1) : text;
    if (result.isError()) {
      return fail(
          placeAt(body, body.length(), file),
          "wrong-encoding",
          String.format(
              Locale.ROOT, "The byte %02X here is not UTF-8.", bytes[rest.position()] & 0xFF),
          SAVE_AS_UTF_8);
    }
    for (int i = 0; i < body.length(); i++) {
      char character = body.charAt(i);
      if (!readable(character)) {
        return fail(
            placeAt(body, i, file),
            "control-character",
            String.format(
                Locale.ROOT, "The character U+%04X has no place in a sheet.", (int) character),
            character == 0 ? "This looks like a binary file or UTF-16. " + SAVE_AS_UTF_8 : "");
      }
    }
    if (body.isBlank()) {
      return fail(start, "empty-document", "The document is empty.", "");
    }
    return Read.ok(body);
  }

  private static final String SAVE_AS_UTF_8 = "Save the file as UTF-8.";

  /** What YAML 1.2 calls printable (section 5.1), less the marks of byte order. */
  private static boolean readable(char c) {
    return (c >= 0x20 && c <= 0x7E)
        || c == '\t'
        || c == '\n'
        || c == '\r'
        || c == 0x85
        || (c >= 0xA0 && c <= 0xFFFD && c != BYTE_ORDER_MARK);
  }

  private static boolean looksLikeUtf16(byte[] bytes) {
    if (bytes.length < 2) {
      return false;
    }
    int first = bytes[0] & 0xFF;
    int second = bytes[1] & 0xFF;
    return (first == 0xFE && second == 0xFF) || (first == 0xFF && second == 0xFE);
  }

  private static <T> Read<T> fail(Place place, String code, String message, String hint) {
    return Read.failed(List.of(new Problem(place, code, message, hint)));
  }

  /** The place of a character of a text. */
  static Place placeAt(String text, int index, String file) {
    int line = 1;
    int column = 1;
    for (int i = 0; i < index; i++) {
      char character = text.charAt(i);
      if (character == '\n' || (character == '\r' && !followedByNewline(text, i))) {
        line++;
        column = 1;
      } else if (!Character.isLowSurrogate(character) && character != '\r') {
        column++;
      }
    }
    return new Place(file, line, column, "");
  }

  private static boolean followedByNewline(String text, int index) {
    return index + 1 < text.length() && text.charAt(index + 1) == '\n';
  }
}
