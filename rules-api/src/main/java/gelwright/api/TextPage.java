package gelwright.api;

import gelwright.api.html.Words;
import gelwright.ingredient.Source;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** A page of plain text with numbered sources, as reports for people are written. */
final class TextPage {
  static final int WIDTH = 84;

  private final Ink ink;
  private final StringBuilder text = new StringBuilder();
  private final Map<Source, Integer> sources = new LinkedHashMap<>();

  TextPage(Ink ink) {
    this.ink = ink;
  }

  Ink ink() {
    return ink;
  }

  /** What stands on it. */
  String text() {
    return text.toString();
  }

  void line(String line) {
    text.append(line.stripTrailing()).append('\n');
  }

  void heading(String title) {
    line("");
    line(ink.strong(title));
  }

  /** A text in lines, all of it so far from the edge. */
  void paragraph(String words, int indent) {
    paragraph("", words, indent);
  }

  /** A text wrapped beneath its first words, all of it so far from the edge. */
  void paragraph(String first, String words, int indent) {
    if (words.isEmpty()) {
      return;
    }
    boolean hanging = first.equals("- ") || first.equals("| ") || first.startsWith("[");
    int hang = hanging ? Plain.length(first) : 0;
    List<String> lines = Plain.wrap(hang > 0 ? words : first + words, WIDTH - indent - hang);
    for (int i = 0; i < lines.size(); i++) {
      String before = hang == 0 ? "" : i == 0 ? first : " ".repeat(hang);
      line(" ".repeat(indent) + before + lines.get(i));
    }
  }

  /**
   * A line of columns: it keeps them, and what does not fit goes on beneath the last of them.
   *
   * @param column where that one begins
   */
  void row(String row, int column) {
    String plain = row.stripTrailing();
    if (Plain.length(plain) <= WIDTH) {
      line(plain);
      return;
    }
    int cut = plain.lastIndexOf(' ', WIDTH);
    if (cut <= column) {
      line(plain);
      return;
    }
    line(plain.substring(0, cut));
    List<String> rest = Plain.wrap(plain.substring(cut + 1), WIDTH - column);
    rest.forEach(more -> line(" ".repeat(column) + more));
  }

  void bullets(String title, List<String> lines) {
    if (lines.isEmpty()) {
      return;
    }
    heading(title);
    for (String one : lines) {
      paragraph("- ", one, 2);
    }
  }

  /** Numbers of sources by standing: {@code [5]; common practice [4] [8]; from memory [7]}. */
  String cite(Iterable<Source> cited) {
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

  /** All that were cited. */
  void sourceList() {
    if (sources.isEmpty()) {
      return;
    }
    heading("Sources");
    Set<Source.Standing> used = new TreeSet<>();
    for (Map.Entry<Source, Integer> source : sources.entrySet()) {
      Source.Standing standing = source.getKey().standing();
      used.add(standing);
      String beside = Words.besideNumber(standing);
      paragraph(
          "[" + source.getValue() + "] ",
          (beside.isEmpty() ? "published" : beside) + " – " + source.getKey().citation(),
          2);
    }
    List<String> meanings = new ArrayList<>();
    for (Source.Standing standing : used) {
      if (standing != Source.Standing.PUBLISHED) {
        meanings.add(Words.standing(standing));
      }
    }
    if (!meanings.isEmpty()) {
      paragraph("(" + String.join("; ", meanings) + ")", 2);
    }
  }
}
