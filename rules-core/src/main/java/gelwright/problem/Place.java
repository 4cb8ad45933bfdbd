package gelwright.problem;

import static java.util.Objects.requireNonNull;

/**
 * Where something stands in a document.
 *
 * @param file name as given by the caller; empty when the document has none
 * @param line from 1; 0 when unknown
 * @param column from 1, in characters; 0 when unknown
 * @param pointer JSON Pointer (RFC 6901) into the document tree; empty for the whole document
 */
public record Place(String file, int line, int column, String pointer) {
  /** No place in particular. */
  public static final Place NOWHERE = new Place("", 0, 0, "");

  public Place {
    requireNonNull(file, "file");
    requireNonNull(pointer, "pointer");
    if (line < 0 || column < 0) {
      throw new IllegalArgumentException(
          "line and column must be at least 0: " + line + ", " + column);
    }
  }

  /**
   * The place some characters further along the same line; unchanged where the column is unknown.
   */
  public Place plusColumns(int characters) {
    return column == 0 ? this : new Place(file, line, column + characters, pointer);
  }

  /** {@code file:line:column}, without what is not known. */
  @Override
  public String toString() {
    if (line == 0) {
      return file;
    }
    String position = column == 0 ? "" + line : line + ":" + column;
    return file.isEmpty() ? position : file + ":" + position;
  }
}
