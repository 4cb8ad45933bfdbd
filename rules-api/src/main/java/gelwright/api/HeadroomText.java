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
    TextPage page = new TextPage(ink);
    page.line(ink.strong(Plain.line(review.formula())));
    if (!review.place().file().isEmpty()) {
      page.line(ink.quiet(Plain.line(review.place().file())));
    }
    page.line("");
    page.paragraph(Words.headroom(headroom), 0);
    table(page, headroom);
    for (Headroom each : headroom) {
      page.heading(Plain.line(each.what().text()));
      side(page, "less", each.down());
      side(page, "more", each.up());
    }
    page.line("");
    page.paragraph(Words.CLOSING, 0);
    return page.text();
  }

  private static void table(TextPage page, List<Headroom> headroom) {
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
    page.line("");
    for (List<String> row : rows) {
      StringBuilder line = new StringBuilder();
      for (int i = 0; i < widths.length; i++) {
        line.append(i == widths.length - 1 ? row.get(i) : Plain.pad(row.get(i), widths[i] + 2));
      }
      String words = line.toString().stripTrailing();
      page.line(row == rows.get(0) ? page.ink().quiet(words) : words);
    }
  }

  private static void side(TextPage page, String way, Headroom.Side side) {
    page.paragraph(way + ": ", Words.side(side), INDENT);
  }
}
