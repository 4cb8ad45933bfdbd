package gelwright.api;

import gelwright.api.html.Words;
import gelwright.ingredient.Source;
import gelwright.prediction.Curve;
import gelwright.prediction.DoubtShare;
import gelwright.prediction.Predicted;
import gelwright.prediction.Prediction;
import gelwright.quantity.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

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
  private final StringBuilder text = new StringBuilder();
  private final Map<Source, Integer> sources = new LinkedHashMap<>();

  private PredictionText(Ink ink) {
    this.ink = ink;
  }

  static String of(Prediction prediction, Ink ink) {
    PredictionText report = new PredictionText(ink);
    report.write(prediction);
    return report.text.toString();
  }

  private void write(Prediction prediction) {
    line(ink.strong(Plain.line(prediction.formula())));
    if (!prediction.place().file().isEmpty()) {
      line(ink.quiet(Plain.line(prediction.place().file())));
    }
    paragraph(
        "Each number with the range that holds it 9 times in 10. Beneath it the doubts that matter"
            + " most: their part in the spread, and the number with the doubt at its low and its"
            + " high end.",
        0);
    String about = "";
    for (Predicted property : prediction.properties()) {
      String next = property.subject().isFormula() ? "The formula" : Plain.line(heading(property));
      if (!next.equals(about)) {
        about = next;
        line("");
        line(ink.strong(about));
      }
      property(property);
    }
    line("");
    line(ink.strong("Curves"));
    for (Curve curve : prediction.curves()) {
      curve(curve);
    }
    sourceList();
    line("");
    paragraph(
        "Predicted for "
            + prediction.editions().on()
            + " with engine "
            + prediction.editions().engine()
            + Words.editions(prediction.editions().ruleSets())
            + ".",
        0);
    paragraph("Formula SHA-256 " + prediction.editions().formulaSha256(), 0);
    line("");
    paragraph(Words.CLOSING, 0);
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
    String cited = cite(property.sources());
    paragraph(
        (line.endsWith(" ") ? line : line + "  ")
            + property.origin()
            + (cited.isEmpty() ? "" : ", " + cited));
    if (!property.shown().missing().isEmpty()) {
      paragraph("missing: " + String.join("; ", Words.missing(property.shown().missing())), 4);
    }
    for (DoubtShare doubt : property.doubts().stream().limit(DOUBTS).toList()) {
      paragraph(
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
    paragraph(
        "  "
            + Plain.pad(curve.name(), NAME - 2)
            + (curve.isKnown()
                ? Plain.count(curve.series().size(), "line") + ", " + points + " points"
                : "not known"));
    if (!curve.missing().isEmpty()) {
      paragraph("missing: " + String.join("; ", Words.missing(curve.missing())), 4);
    }
  }

  private String cite(List<Source> cited) {
    Map<Source.Standing, List<String>> numbers = new TreeMap<>();
    for (Source source : cited) {
      int number = sources.computeIfAbsent(source, key -> sources.size() + 1);
      numbers.computeIfAbsent(source.standing(), key -> new ArrayList<>()).add("[" + number + "]");
    }
    List<String> parts = new ArrayList<>();
    numbers.forEach(
        (standing, list) ->
            parts.add((Words.besideNumber(standing) + " " + String.join(" ", list)).strip()));
    return String.join("; ", parts);
  }

  private void sourceList() {
    if (sources.isEmpty()) {
      return;
    }
    line("");
    line(ink.strong("Sources"));
    sources.forEach(
        (source, number) -> {
          String beside = Words.besideNumber(source.standing());
          paragraph(
              "["
                  + number
                  + "] "
                  + (beside.isEmpty() ? "published" : beside)
                  + " – "
                  + source.citation(),
              2);
        });
  }

  /** The first line keeps its columns; what does not fit goes on beneath the last of them. */
  private void paragraph(String row) {
    String plain = row.stripTrailing();
    if (Plain.length(plain) <= TextReport.WIDTH) {
      line(plain);
      return;
    }
    int cut = plain.lastIndexOf(' ', TextReport.WIDTH);
    if (cut <= NAME) {
      line(plain);
      return;
    }
    line(plain.substring(0, cut));
    paragraph(plain.substring(cut + 1), NAME);
  }

  private void paragraph(String words, int indent) {
    for (String line : Plain.wrap(words, TextReport.WIDTH - indent)) {
      line(" ".repeat(indent) + line);
    }
  }

  private void line(String line) {
    text.append(line.stripTrailing()).append('\n');
  }
}
