package gelwright.sheets.tree;

import java.util.regex.Pattern;

/** Pieces of a user's text in messages. */
public final class Words {
  private static final int LONGEST = 60;
  private static final Pattern SPACE = Pattern.compile("\\s+");

  private Words() {}

  /** A piece of a user's text in quotes, cut short where it is long, its line breaks taken out. */
  public static String quoted(String text) {
    String line = isPlain(text) ? text : SPACE.matcher(text.strip()).replaceAll(" ");
    if (line.codePointCount(0, line.length()) <= LONGEST) {
      return "\"" + line + "\"";
    }
    return "\"" + line.substring(0, line.offsetByCodePoints(0, LONGEST)) + "…\"";
  }

  // Keys are quoted for every value that is read, in case it cannot be.
  private static boolean isPlain(String text) {
    for (int i = 0; i < text.length(); i++) {
      char character = text.charAt(i);
      if (character <= ' ' || character >= 127) {
        return false;
      }
    }
    return true;
  }
}
