package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.util.Optional;

/**
 * Reads rule sets: rules, tables and changes as texts with their places, and the examples. Whether
 * an expression means anything is for the rule book to say.
 */
public final class RuleSetReader {
  private final Limits limits;

  /** A reader with the usual limits. */
  public RuleSetReader() {
    this(Limits.USUAL);
  }

  public RuleSetReader(Limits limits) {
    this.limits = requireNonNull(limits, "limits");
  }

  /** The rule set of a sheet; its format is told by the file's name. */
  public Read<RuleSheet> read(byte[] bytes, String file) {
    return read(bytes, file, Document.Format.of(file));
  }

  /** The rule set of a sheet in a stated format. */
  public Read<RuleSheet> read(byte[] bytes, String file, Document.Format format) {
    return Document.read(bytes, file, format, limits).then(this::read);
  }

  /** The rule set of a sheet that is a tree already. */
  public Read<RuleSheet> read(Document document) {
    Problems problems = Problems.of(document, limits);
    Optional<RuleMapping.Readable> readable = readable(document, problems);
    return problems.orElse(() -> readable.orElseThrow().sheet());
  }

  /** What can be read of a sheet beside its problems, which may be none; empty for no mapping. */
  static Optional<RuleMapping.Readable> readable(Document document, Problems problems) {
    return new RuleMapping(document, problems).read();
  }
}
