package gelwright.api;

import gelwright.api.html.Words;
import gelwright.prediction.Curve;
import gelwright.prediction.DoubtShare;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.quantity.Quantity;

/**
 * A prediction as a formulator reads it: a line a property, beneath it what is missing or the
 * doubts that matter most. The same prediction gives the same text.
 */
final class PredictionText {
  private static final int NAME = 34;
  private static final int VALUE = 36;

  /** Doubts told of a property; the rest stands in the JSON. */
  private static final int DOUBTS = 3;

  private final Ink ink;
  private final TextPage page;

  private PredictionText(Ink ink) {
    this.ink = ink;
    this.page = new TextPage(ink);
  }

  static String of(Prediction prediction, Ink ink) {
    PredictionText report = new PredictionText(ink);
    report.write(prediction);
    return report.page.text();
  }

  private void write(Prediction prediction) {
    page.line(ink.strong(Plain.line(prediction.formula())));
    if (!prediction.place().file().isEmpty()) {
      page.line(ink.quiet(Plain.line(prediction.place().file())));
    }
    page.paragraph(
        "Each number with the range that holds it 9 times in 10. Beneath it the doubts that matter"
            + " most: their part in the spread, and the number with the doubt at its low and its"
            + " high end.",
        0);
    String about = "";
    for (Predicted property : prediction.properties()) {
      String next = property.subject().isFormula() ? "The formula" : Plain.line(heading(property));
      if (!next.equals(about)) {
        about = next;
        page.heading(about);
      }
      property(property);
    }
    page.heading("Curves");
    for (Curve curve : prediction.curves()) {
      curve(curve);
    }
    page.sourceList();
    page.line("");
    page.paragraph(
        "Predicted for "
            + prediction.editions().on()
            + " with engine "
            + prediction.editions().engine()
            + Words.editions(prediction.editions().ruleSets())
            + ".",
        0);
    page.paragraph("Formula SHA-256 " + prediction.editions().formulaSha256(), 0);
    page.line("");
    page.paragraph(Words.CLOSING, 0);
  }

  private static String heading(Predicted property) {
    String kind = property.subject().kind();
    String name = property.subject().name();
    // A step is called "step 3" already.
    return name.startsWith(kind) ? name : kind + " " + name;
  }

  private void property(Predicted property) {
    String name = property.name();
    if (!property.subject().isFormula()) {
      name = name.substring(property.subject().kind().length() + 1);
    }
    String value = Words.range(property.shown());
    String start = "  " + Plain.pad(name, NAME - 2);
    String line = start + (start.endsWith(" ") ? "" : "  ") + Plain.pad(value, VALUE);
    String cited = page.cite(property.sources());
    page.row(
        (line.endsWith(" ") ? line : line + "  ")
            + property.origin()
            + (cited.isEmpty() ? "" : ", " + cited),
        NAME);
    if (!property.shown().missing().isEmpty()) {
      page.paragraph("missing: " + String.join("; ", Words.missing(property.shown().missing())), 4);
    }
    for (DoubtShare doubt : property.doubts().stream().limit(DOUBTS).toList()) {
      page.paragraph(
          percent(doubt.share())
              + " "
              + doubt.doubt()
              + ": "
              + Quantity.print(doubt.atLow(), property.shown().unit())
              + " / "
              + Quantity.print(doubt.atHigh(), property.shown().unit())
              + (doubt.settledBy().isEmpty() || doubt.settledBy().equals(doubt.doubt())
                  ? ""
                  : " – settled by " + doubt.settledBy()),
          4);
    }
  }

  private static String percent(double share) {
    return Plain.pad(Math.max(1, Math.round(100 * share)) + " %", 5);
  }

  private void curve(Curve curve) {
    int points = curve.series().stream().mapToInt(series -> series.points().size()).sum();
    page.row(
        "  "
            + Plain.pad(curve.name(), NAME - 2)
            + (curve.isKnown()
                ? Plain.count(curve.series().size(), "line") + ", " + points + " points"
                : "not known"),
        NAME);
    if (!curve.missing().isEmpty()) {
      page.paragraph("missing: " + String.join("; ", Words.missing(curve.missing())), 4);
    }
  }
}
