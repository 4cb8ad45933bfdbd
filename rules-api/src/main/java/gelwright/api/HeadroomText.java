package gelwright.api;

import gelwright.api.html.Words;
import gelwright.review.Headroom;
import gelwright.review.Review;
import java.util.ArrayList;
import java.util.List;

/** How far the numbers of a formula can move, as a formulator reads it. */
final class HeadroomText {
  private static final int INDENT = 9;

  private HeadroomText() {}

  /** A table, and which rule changes first at either end. */
  static String of(Review review, List<Headroom> headroom, Ink ink) {
    StringBuilder text = new StringBuilder();
    text.append(ink.strong(Plain.line(review.formula()))).append('\n');
    if (!review.place().file().isEmpty()) {
      text.append(ink.quiet(Plain.line(review.place().file()))).append('\n');
    }
    text.append('\n');
    paragraph(text, "", Words.headroom(headroom), 0);
    table(text, headroom, ink);
    for (Headroom each : headroom) {
      text.append('\n').append(ink.strong(Plain.line(each.what().text()))).append('\n');
      side(text, "less", each.down());
      side(text, "more", each.up());
    }
    text.append('\n');
    paragraph(text, "", Words.CLOSING, 0);
    return text.toString();
  }

  private static void table(StringBuilder text, List<Headroom> headroom, Ink ink) {
    if (headroom.isEmpty()) {
      return;
    }
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("", "from", "now", "to"));
    for (Headroom each : headroom) {
      rows.add(
          List.of(
              Plain.line(each.what().text()),
              Words.end(each.down()),
              Words.written(each.now()),
              Words.end(each.up())));
    }
    int[] widths = new int[4];
    for (List<String> row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], Plain.length(row.get(i)));
      }
    }
    text.append('\n');
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < widths.length; i++) {
        line.append(i == widths.length - 1 ? row.get(i) : Plain.pad(row.get(i), widths[i] + 2));
      }
      String words = line.toString().stripTrailing();
      text.append(row == rows.get(0) ? ink.quiet(words) : words).append('\n');
    }
  }

  private static void side(StringBuilder text, String way, Headroom.Side side) {
    paragraph(text, way + ": ", Words.side(side), INDENT);
  }

  private static void paragraph(StringBuilder text, String label, String words, int indent) {
    for (String line : Plain.wrap(label + words, TextReport.WIDTH - indent)) {
      text.append(" ".repeat(indent)).append(line).append('\n');
    }
  }
}
