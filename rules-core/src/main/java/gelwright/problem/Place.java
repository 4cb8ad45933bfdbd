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
  public static final Place NOWHERE = new Place("", 0, 0, "");

  public Place {
    requireNonNull(file, "file");
    requireNonNull(pointer, "pointer");
  }

  /** The place some characters further along the same line. */
  public Place plusColumns(int characters) {
    return new Place(file, line, column + characters, pointer);
  }

  @Override
  public String toString() {
    return line == 0 ? file : file + ":" + line + ":" + column;
  }
}
