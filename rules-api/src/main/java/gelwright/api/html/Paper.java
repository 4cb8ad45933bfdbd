package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A document made of sections, for the screen and for A4 paper. The same paper is written as HTML
 * by {@link Pages} and as plain text by the command line, so that both say the same.
 *
 * @param page what stands around it
 * @param sections in order
 */
public record Paper(Page page, List<Section> sections) {
  public Paper {
    requireNonNull(page, "page");
    sections = List.copyOf(sections);
  }

  /**
   * A part of the document.
   *
   * @param heading empty for what needs none
   * @param blocks in order
   */
  public record Section(String heading, List<Block> blocks) {
    public Section {
      requireNonNull(heading, "heading");
      blocks = List.copyOf(blocks);
    }
  }

  /** Something in a section. */
  public sealed interface Block {}

  /** A paragraph. */
  public record Words(String text) implements Block {
    public Words {
      requireNonNull(text, "text");
    }
  }

  /** Words as they may stand elsewhere, such as on a label; set in a frame. */
  public record Quoted(String text) implements Block {
    public Quoted {
      requireNonNull(text, "text");
    }
  }

  /** Short facts with their names. */
  public record Facts(List<Fact> facts) implements Block {
    public Facts {
      facts = List.copyOf(facts);
    }
  }

  /**
   * A fact.
   *
   * @param name what it is
   * @param value what it comes to; never empty, "unknown" has its reason beside it
   * @param beside where it comes from or what it rests on; may be empty
   */
  public record Fact(String name, String value, String beside) {
    public Fact {
      requireNonNull(name, "name");
      requireNonNull(value, "value");
      requireNonNull(beside, "beside");
    }
  }

  /** A list; numbered where the order matters. */
  public record Points(boolean numbered, List<String> points) implements Block {
    public Points {
      points = List.copyOf(points);
    }
  }

  /** Sources, each with its number in front. */
  public record References(List<String> sources) implements Block {
    public References {
      sources = List.copyOf(sources);
    }
  }

  /**
   * A table.
   *
   * @param caption one line above it; may be empty
   * @param columns from left to right
   * @param rows with a cell for each column
   */
  public record Table(String caption, List<Column> columns, List<Row> rows) implements Block {
    public Table {
      requireNonNull(caption, "caption");
      columns = List.copyOf(columns);
      rows = List.copyOf(rows);
      for (Row row : rows) {
        if (row.cells().size() != columns.size()) {
          throw new IllegalArgumentException("rows: a row has not a cell for each column");
        }
      }
    }
  }

  /** What a column holds. */
  public enum Holds {
    TEXT,
    NUMBER,
    /** A blank to be filled in by hand. */
    BLANK
  }

  /**
   * A column.
   *
   * @param name its heading
   * @param holds numbers stand to the right, blanks keep room for a pen
   */
  public record Column(String name, Holds holds) {
    public Column {
      requireNonNull(name, "name");
      requireNonNull(holds, "holds");
    }
  }

  /**
   * A row.
   *
   * @param cells one for each column
   * @param total whether it sums up the rows above it
   */
  public record Row(List<Cell> cells, boolean total) {
    public Row {
      cells = List.copyOf(cells);
    }
  }

  /**
   * A cell.
   *
   * @param text may be empty
   * @param beside what is to be said of it in small letters below; may be empty
   */
  public record Cell(String text, String beside) {
    public Cell {
      requireNonNull(text, "text");
      requireNonNull(beside, "beside");
    }

    public static Cell of(String text) {
      return new Cell(text, "");
    }
  }

  /**
   * A note set apart from the text.
   *
   * @param kind what the note is
   * @param points what it says
   */
  public record Note(Kind kind, List<String> points) implements Block {
    public Note {
      requireNonNull(kind, "kind");
      points = List.copyOf(points);
    }

    /** What a note is; the word says it, not the colour. */
    public enum Kind {
      CAUTION("Caution"),
      MISSING("Not known"),
      NOTE("Note");

      private final String word;

      Kind(String word) {
        this.word = word;
      }

      public String word() {
        return word;
      }
    }
  }

  /**
   * A step of work with room for what was done.
   *
   * @param number as the sheet counts
   * @param what what to do
   * @param details targets, one a line
   * @param cautions what can hurt at this step
   * @param blanks what is to be written down
   */
  public record Step(
      int number, String what, List<String> details, List<String> cautions, List<String> blanks)
      implements Block {
    public Step {
      requireNonNull(what, "what");
      details = List.copyOf(details);
      cautions = List.copyOf(cautions);
      blanks = List.copyOf(blanks);
    }
  }

  /** Lines to be filled in by hand, each with its name. */
  public record Blanks(List<String> names) implements Block {
    public Blanks {
      names = List.copyOf(names);
    }
  }

  /**
   * A picture.
   *
   * @param svg an SVG element as {@link gelwright.charts.Chart} draws it; it goes into the page as
   *     it is
   * @param caption one line below it; may be empty
   */
  public record Picture(String svg, String caption) implements Block {
    public Picture {
      requireNonNull(svg, "svg");
      requireNonNull(caption, "caption");
    }
  }
}
