package gelwright.api.html;

import gelwright.batch.BatchSheet;
import gelwright.labelling.LabelDraft;
import gelwright.stability.StabilityPlan;
import java.util.List;

/** Batch sheets, label drafts and stability plans as papers: the words around their data. */
public final class Papers {
  private Papers() {}

  /** A batch sheet to be filled in at the bench. */
  public static Paper of(BatchSheet sheet) {
    return new BatchPaper(sheet).paper();
  }

  /** A label draft to be checked and completed. */
  public static Paper of(LabelDraft draft) {
    return new LabelPaper(draft).paper();
  }

  /** A stability plan to be put before a safety assessor. */
  public static Paper of(StabilityPlan plan) {
    return new StabilityPaper(plan).paper();
  }

  /** The name and the version of a formula. */
  static String about(String version, String more) {
    return version.isBlank() ? Told.capital(more) : "Version " + Told.line(version) + ", " + more;
  }

  /** A note of what is not known; nothing when everything is. */
  static List<Paper.Block> unknown(List<String> unknown) {
    return unknown.isEmpty()
        ? List.of()
        : List.of(
            new Paper.Note(Paper.Note.Kind.MISSING, unknown.stream().map(Told::line).toList()));
  }

  /** The sources and the editions at the end of a paper. */
  static Paper.Section sources(Told.Cited cited, String rests) {
    return new Paper.Section(
        "Sources", List.of(new Paper.References(cited.all()), new Paper.Words(rests)));
  }
}
