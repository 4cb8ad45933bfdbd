package gelwright.api;

import gelwright.api.html.Paper;
import java.util.ArrayList;
import java.util.List;

/**
 * A paper as plain text: what the HTML page says, for a terminal. What is to be filled in by hand
 * is left out, since nobody writes into a terminal.
 */
final class PaperText {
  private static final int GAP = 2;

  private final Ink ink;
  private final StringBuilder text = new StringBuilder();

  private PaperText(Ink ink) {
    this.ink = ink;
  }

  static String of(Paper paper, Ink ink) {
    PaperText report = new PaperText(ink);
    report.write(paper);
    return report.text.toString();
  }

  private void write(Paper paper) {
    line(ink.strong(paper.page().heading()));
    wrapped(paper.page().kind(), 0);
    paper.page().about().forEach(each -> wrapped(each, 0));
    for (Paper.Section section : paper.sections()) {
      List<Paper.Block> blocks =
          section.blocks().stream().filter(each -> !(each instanceof Paper.Blanks)).toList();
      if (blocks.isEmpty()) {
        continue;
      }
      line("");
      if (!section.heading().isEmpty()) {
        line(ink.strong(section.heading()));
      }
      blocks.forEach(this::block);
    }
    line("");
    line(ink.strong("What this is not"));
    paper.page().not().forEach(each -> wrapped(each, 2));
  }

  private void block(Paper.Block block) {
    if (block instanceof Paper.Words words) {
      wrapped(words.text(), 2);
    } else if (block instanceof Paper.Quoted quoted) {
      wrapped(quoted.text(), 4);
    } else if (block instanceof Paper.Facts facts) {
      for (Paper.Fact fact : facts.facts()) {
        hanging(
            fact.name()
                + ": "
                + fact.value()
                + (fact.beside().isEmpty() ? "" : " – " + fact.beside()),
            2,
            4);
      }
    } else if (block instanceof Paper.Points points) {
      int number = 0;
      for (String point : points.points()) {
        number++;
        hanging((points.numbered() ? number + ". " : "- ") + point, 2, 4);
      }
    } else if (block instanceof Paper.References references) {
      references.sources().forEach(each -> hanging(each, 2, 6));
    } else if (block instanceof Paper.Note note) {
      wrapped(note.kind().word() + ":", 2);
      note.points().forEach(each -> hanging("- " + each, 2, 4));
    } else if (block instanceof Paper.Table table) {
      table(table);
    } else if (block instanceof Paper.Picture picture && !picture.caption().isEmpty()) {
      wrapped("Picture: " + picture.caption(), 2);
    } else if (block instanceof Paper.Step step) {
      hanging(Plain.pad(step.number() + ".", 4) + step.what(), 2, 6);
      step.details().forEach(each -> wrapped(each, 6));
      step.cautions().forEach(each -> wrapped("Caution: " + each, 6));
    }
  }

  /** In columns where they fit into the line, else a row a paragraph. */
  private void table(Paper.Table table) {
    if (!table.caption().isEmpty()) {
      wrapped(table.caption(), 2);
    }
    List<Integer> shown = new ArrayList<>();
    List<Integer> widths = new ArrayList<>();
    int total = 2;
    for (int column = 0; column < table.columns().size(); column++) {
      Paper.Column each = table.columns().get(column);
      if (each.holds() == Paper.Holds.BLANK) {
        continue;
      }
      int width = Plain.length(each.name());
      for (Paper.Row row : table.rows()) {
        width = Math.max(width, Plain.length(row.cells().get(column).text()));
      }
      shown.add(column);
      widths.add(width);
      total += width + GAP;
    }
    if (total - GAP > TextPage.WIDTH) {
      table.rows().forEach(row -> paragraph(table, shown, row));
      return;
    }
    if (shown.size() > 1) {
      StringBuilder head = new StringBuilder();
      for (int i = 0; i < shown.size(); i++) {
        head.append(
            cell(table, shown.get(i), table.columns().get(shown.get(i)).name(), widths.get(i)));
      }
      line(ink.quiet("  " + head.toString().stripTrailing()));
    }
    table.rows().forEach(row -> columns(table, shown, widths, row));
  }

  /** A row in columns; what is to be said of a cell stands behind it or below it. */
  private void columns(
      Paper.Table table, List<Integer> shown, List<Integer> widths, Paper.Row row) {
    StringBuilder line = new StringBuilder("  ");
    for (int i = 0; i < shown.size(); i++) {
      line.append(cell(table, shown.get(i), row.cells().get(shown.get(i)).text(), widths.get(i)));
    }
    int last = shown.size() - 1;
    String behind = row.cells().get(shown.get(last)).beside();
    boolean fits = Plain.length(line) + Plain.length(behind) <= TextPage.WIDTH;
    line(fits ? line + behind : line.toString());
    int indent = 4;
    for (int i = 0; i < shown.size(); i++) {
      String beside = row.cells().get(shown.get(i)).beside();
      if (!beside.isEmpty() && !(fits && i == last)) {
        wrapped(beside, indent);
      }
      indent += widths.get(i) + GAP;
    }
  }

  private static String cell(Paper.Table table, int column, String text, int width) {
    boolean number = table.columns().get(column).holds() == Paper.Holds.NUMBER;
    int room = Math.max(0, width - Plain.length(text));
    return (number ? " ".repeat(room) + text : text + " ".repeat(room)) + " ".repeat(GAP);
  }

  private void paragraph(Paper.Table table, List<Integer> shown, Paper.Row row) {
    boolean first = true;
    for (int column : shown) {
      Paper.Cell cell = row.cells().get(column);
      String words =
          (first ? "- " : table.columns().get(column).name() + ": ")
              + cell.text()
              + (cell.beside().isEmpty() ? "" : " (" + cell.beside() + ")");
      if (!cell.text().isEmpty()) {
        hanging(words, first ? 2 : 4, first ? 4 : 6);
      }
      first = false;
    }
  }

  private void wrapped(String words, int indent) {
    hanging(words, indent, indent);
  }

  private void hanging(String words, int first, int later) {
    int indent = first;
    for (String line : Plain.wrap(words, TextPage.WIDTH - later)) {
      line(" ".repeat(indent) + line);
      indent = later;
    }
  }

  private void line(String line) {
    text.append(line.stripTrailing()).append('\n');
  }
}
