package gelwright.sheets.tree;

/** Pieces of a user's text in messages. */
public final class Words {
  private static final int LONGEST = 60;

  private Words() {}

  /** A piece of a user's text in quotes, cut short where it is long, its line breaks taken out. */
  public static String quoted(String text) {
    String line = text.strip().replaceAll("\\s+", " ");
    if (line.codePointCount(0, line.length()) <= LONGEST) {
      return "\"" + line + "\"";
    }
    return "\"" + line.substring(0, line.offsetByCodePoints(0, LONGEST)) + "…\"";
  }
}
