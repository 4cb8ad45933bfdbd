package gelwright.api;

import gelwright.api.html.Told;
import java.util.ArrayList;
import java.util.List;

/** Text as it may go to a terminal. */
final class Plain {
  private Plain() {}

  /**
   * A text without what could steer a terminal or turn its order of reading: control characters,
   * escape sequences, overrides of direction. Line breaks and tabs become spaces.
   */
  static String line(String text) {
    return Told.line(text);
  }

  /** A text in lines of at most so many characters; a longer word stands alone. */
  static List<String> wrap(String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : line(text).split(" +", -1)) {
      if (line.length() > 0 && length(line) + 1 + length(word) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  static int length(CharSequence text) {
    return Character.codePointCount(text, 0, text.length());
  }

  /** A text filled with spaces to a width. */
  static String pad(String text, int width) {
    return text + " ".repeat(Math.max(0, width - length(text)));
  }

  /** A number with its noun: {@code 1 rule}, {@code 2 rules}. */
  static String count(int number, String noun) {
    return Told.count(number, noun);
  }
}
