package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.calibration.Readings;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.util.Optional;

/**
 * Reads readings sheets: what was measured on one lot of gum, to be calibrated with.
 *
 * <p>Immutable and safe to share between threads. Whatever is wrong with how a sheet is written is
 * told in one pass; whether the readings make sense is for the calibrator to say.
 */
public final class ReadingsReader {
  private final Limits limits;

  /** A reader with the usual limits. */
  public ReadingsReader() {
    this(Limits.USUAL);
  }

  public ReadingsReader(Limits limits) {
    this.limits = requireNonNull(limits, "limits");
  }

  /** The readings of a sheet; its format is told by the file's name. */
  public Read<Readings> read(byte[] bytes, String file) {
    return Document.read(bytes, file, Document.Format.of(file), limits).then(this::read);
  }

  /** The readings of a sheet that is a tree already. */
  public Read<Readings> read(Document document) {
    Problems problems = Problems.of(document, limits);
    Optional<Readings> readings = new ReadingsMapping(document.root(), problems).read();
    return problems.orElse(readings::orElseThrow);
  }
}
