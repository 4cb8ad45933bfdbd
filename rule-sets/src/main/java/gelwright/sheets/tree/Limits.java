package gelwright.sheets.tree;

/**
 * How large a document may be. Past a limit reading stops with a problem that names the limit.
 *
 * @param bytes size of the document
 * @param depth how many sequences and mappings may stand inside one another
 * @param nodes how many scalars, sequences, mappings and keys there may be
 * @param scalarLength longest scalar or key, in characters
 * @param problems how many problems are listed before the rest is only counted
 */
public record Limits(int bytes, int depth, int nodes, int scalarLength, int problems) {
  /** What a sheet needs many times over: 1 MiB, 40 levels, 100 000 nodes, 10 000 characters. */
  public static final Limits USUAL = new Limits(1 << 20, 40, 100_000, 10_000, 500);

  public Limits {
    positive(bytes, "bytes");
    positive(depth, "depth");
    positive(nodes, "nodes");
    positive(scalarLength, "scalarLength");
    positive(problems, "problems");
    if (bytes == Integer.MAX_VALUE) {
      throw new IllegalArgumentException("bytes must be less than " + Integer.MAX_VALUE);
    }
    if (depth > 1_000) {
      // Trees are walked recursively; this many levels fit on any thread's stack.
      throw new IllegalArgumentException("depth must be at most 1000, is " + depth);
    }
  }

  private static void positive(int value, String name) {
    if (value < 1) {
      throw new IllegalArgumentException(name + " must be positive, is " + value);
    }
  }

  /** These limits with another size of the document. */
  public Limits withBytes(int most) {
    return new Limits(most, depth, nodes, scalarLength, problems);
  }
}
