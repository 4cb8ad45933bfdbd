package gelwright.api;

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
    StringBuilder plain = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            point -> {
              if (Character.isWhitespace(point)) {
                plain.append(' ');
              } else if (!Character.isISOControl(point)
                  && !turns(point)
                  && Character.getType(point) != Character.SURROGATE) {
                plain.appendCodePoint(point);
              }
            });
    return plain.toString().strip();
  }

  /** Unicode's explicit directional formatting characters (UAX #9, section 2). */
  private static boolean turns(int point) {
    return (point >= 0x202a && point <= 0x202e)
        || (point >= 0x2066 && point <= 0x2069)
        || point == 0x200e
        || point == 0x200f
        || point == 0x061c;
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
    return number + " " + noun + (number == 1 ? "" : "s");
  }
}
