package gelwright.api;

import gelwright.api.html.Words;
import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
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
    paragraph(
        text,
        "",
        headroom.isEmpty()
            ? "No number of this formula can be moved: there is no water, or no line that asks for the"
                + " rest, to take up the difference."
            : "How far each number can move, all others staying as they are and the water taking up"
                + " the difference, before a rule changes its outcome.",
        0);
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
              end(each.down()),
              written(each.now()),
              end(each.up())));
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

  private static String end(Headroom.Side side) {
    return written(side.free()) + (side.change().isEmpty() ? " or beyond" : "");
  }

  private static void side(StringBuilder text, String way, Headroom.Side side) {
    if (side.change().isEmpty()) {
      paragraph(text, way + ": ", "nothing changes as far as " + written(side.free()) + ".", INDENT);
      return;
    }
    Headroom.Change change = side.change().get();
    String subject = Words.subject(change.concern().subject());
    paragraph(
        text,
        way + ": ",
        "at "
            + written(change.at())
            + " "
            + change.concern().rule()
            + (subject.isEmpty() ? "" : " (" + subject + ")")
            + " goes from "
            + change.from().word()
            + " to "
            + change.to().word()
            + (change.others() == 0
                ? "."
                : ", and " + Plain.count(change.others(), "other outcome") + " with it."),
        INDENT);
  }

  /** A share to six digits, as the balance allows. */
  private static String written(Quantity quantity) {
    return quantity.unit() == Unit.PERCENT
        ? Numbers.significant(quantity.value(), 6) + " %"
        : quantity.toString();
  }

  private static void paragraph(StringBuilder text, String label, String words, int indent) {
    for (String line : Plain.wrap(label + words, TextReport.WIDTH - indent)) {
      text.append(" ".repeat(indent)).append(line).append('\n');
    }
  }
}
