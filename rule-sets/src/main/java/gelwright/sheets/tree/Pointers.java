package gelwright.sheets.tree;

/** JSON Pointers (RFC 6901). */
final class Pointers {
  private Pointers() {}

  /** A key as a part of a pointer. */
  static String escape(String key) {
    return key.replace("~", "~0").replace("/", "~1");
  }
}
