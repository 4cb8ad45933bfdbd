package gelwright.rule;

import gelwright.problem.Place;

/** Where the characters of a text stand in the document it comes from. */
final class Places {
  private Places() {}

  /** The place of the character at an offset of the text. A text of several lines goes on below. */
  static Place of(Text text, int offset) {
    Place start = text.place();
    if (start.line() == 0) {
      return start;
    }
    String written = text.text();
    int end = Math.min(offset, written.length());
    int lines = 0;
    int lineStart = 0;
    for (int i = 0; i < end; i++) {
      if (written.charAt(i) == '\n') {
        lines++;
        lineStart = i + 1;
      }
    }
    int columns = written.codePointCount(lineStart, end);
    if (lines == 0) {
      return start.plusColumns(columns);
    }
    return new Place(start.file(), start.line() + lines, columns + 1, start.pointer());
  }
}
