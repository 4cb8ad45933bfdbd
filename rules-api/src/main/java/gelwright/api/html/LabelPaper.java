package gelwright.api.html;

import gelwright.api.html.Paper.Cell;
import gelwright.api.html.Paper.Column;
import gelwright.api.html.Paper.Holds;
import gelwright.api.html.Paper.Note;
import gelwright.api.html.Paper.Row;
import gelwright.api.html.Paper.Section;
import gelwright.api.html.Paper.Table;
import gelwright.api.html.Paper.Words;
import gelwright.labelling.LabelDraft;
import gelwright.review.Outcome;
import java.util.ArrayList;
import java.util.List;

/** The paper of a label draft. */
final class LabelPaper {
  private static final List<String> NOT =
      List.of(
          "A draft made from the formula sheet, with what is missing. It is not a label and not"
              + " legal advice: the responsible person answers for what stands on the pack.",
          "It certifies nothing. Translations, claims, symbols, sizes of letters and other laws"
              + " (aerosols, flammable liquids, packaging, languages of the country of sale) are not"
              + " drafted here.");

  private final LabelDraft draft;
  private final Told.Cited cited = new Told.Cited();

  LabelPaper(LabelDraft draft) {
    this.draft = draft;
  }

  Paper paper() {
    List<Section> sections = new ArrayList<>();
    if (!draft.concerns().isEmpty()) {
      sections.add(new Section("", List.of(concerns())));
    }
    sections.add(new Section("Ingredient list", list()));
    sections.add(new Section("Where each entry comes from", List.of(entries())));
    if (!draft.statements().isEmpty()) {
      sections.add(new Section("What the rules ask for", List.of(statements(draft.statements()))));
    }
    sections.add(new Section("What stands on the pack", List.of(fields())));
    if (!draft.precautions().isEmpty()) {
      sections.add(
          new Section(
              "Precautions to think of",
              List.of(
                  new Words(
                      "The law leaves these to the safety assessment; they follow from what is"
                          + " in the product."),
                  statements(draft.precautions()))));
    }
    if (!draft.unknown().isEmpty()) {
      sections.add(new Section("", Papers.unknown(draft.unknown())));
    }
    sections.add(
        new Section(
            "Remarks",
            List.of(new Paper.Points(false, draft.remarks().stream().map(Told::line).toList()))));
    sections.add(Papers.sources(cited, Told.rests(draft.editions())));
    return new Paper(
        new Page("Label draft", Told.line(draft.formula()), List.of(about()), NOT), sections);
  }

  private String about() {
    String markets =
        draft.covered().isEmpty()
            ? draft.notCovered().isEmpty()
                ? "for the European Union, since the sheet names no market"
                : "in the order of the European Union; not covered: "
                    + Told.line(String.join(", ", draft.notCovered()))
            : "for "
                + Told.line(String.join(", ", draft.covered()))
                + (draft.notCovered().isEmpty()
                    ? ""
                    : "; not covered: " + Told.line(String.join(", ", draft.notCovered())));
    return Papers.about(draft.version(), markets + "; to be sold from " + draft.editions().on());
  }

  private Paper.Block concerns() {
    List<String> points = new ArrayList<>();
    points.add("The review finds, of the law, the label and the recipe:");
    for (LabelDraft.Concern concern : draft.concerns()) {
      points.add(
          Told.capital(concern.level().word())
              + (concern.outcome() == Outcome.BORDERLINE ? ", borderline" : "")
              + ": "
              + Told.line(concern.title())
              + ". "
              + Told.line(concern.message()));
    }
    return new Note(Note.Kind.CAUTION, points);
  }

  private List<Paper.Block> list() {
    List<Paper.Block> blocks = new ArrayList<>();
    blocks.add(new Paper.Quoted("Ingredients: " + Told.line(draft.list())));
    if (!draft.doubts().isEmpty()) {
      List<String> points = new ArrayList<>();
      points.add("The order is not certain everywhere:");
      draft.doubts().forEach(each -> points.add(Told.line(each)));
      blocks.add(new Note(Note.Kind.NOTE, points));
    }
    return blocks;
  }

  private Paper.Block entries() {
    List<Row> rows = new ArrayList<>();
    for (LabelDraft.Entry entry : draft.entries()) {
      List<String> from = entry.from().stream().filter(line -> !line.equals(entry.name())).toList();
      rows.add(
          new Row(
              List.of(
                  new Cell(Told.line(entry.name()), Told.line(String.join("; ", entry.remarks()))),
                  Cell.of(Told.range(entry.share())),
                  Cell.of(place(entry.part())),
                  Cell.of(
                      from.isEmpty()
                          ? entry.part() == LabelDraft.Part.ALLERGEN ? "its carriers" : "–"
                          : Told.line(String.join(", ", entry.from())))),
              false));
    }
    return new Table(
        "",
        List.of(
            new Column("Name", Holds.TEXT),
            new Column("Share", Holds.TEXT),
            new Column("Place", Holds.TEXT),
            new Column("Comes with", Holds.TEXT)),
        rows);
  }

  private static String place(LabelDraft.Part part) {
    return switch (part) {
      case FROM_ONE_PERCENT -> "at 1 % or more: by share";
      case ABOUT_ONE_PERCENT -> "about 1 %: in doubt";
      case BELOW_ONE_PERCENT -> "below 1 %: any order";
      case ALLERGEN -> "scent to be named";
      case COLOURANT -> "colourant: last";
      case NOT_KNOWN -> "not known";
    };
  }

  private Paper.Block statements(List<LabelDraft.Statement> statements) {
    List<String> points = new ArrayList<>();
    for (LabelDraft.Statement statement : statements) {
      String words =
          statement.words().isEmpty()
              ? ""
              : "‘" + Told.line(String.join("’ or ‘", statement.words())) + "’ – ";
      points.add(
          (statement.sure() ? "" : "Perhaps: ")
              + words
              + Told.line(statement.message())
              + (statement.missing().isEmpty()
                  ? ""
                  : " Not known: " + Told.line(String.join(", ", statement.missing())) + ".")
              + cited.behind(statement.sources()));
    }
    return new Paper.Points(false, points);
  }

  private Paper.Block fields() {
    List<Row> rows = new ArrayList<>();
    for (LabelDraft.Field field : draft.fields()) {
      String by = cited.of(field.sources());
      rows.add(
          new Row(
              List.of(
                  new Cell(
                      Told.line(field.name()),
                      Told.line(field.clause() + (field.clause().isEmpty() ? "" : " " + by))),
                  new Cell(
                      field.value().map(Told::line).orElse("missing"), Told.line(field.asks())),
                  Cell.of("")),
              false));
    }
    return new Table(
        "",
        List.of(
            new Column("Field", Holds.TEXT),
            new Column("Draft", Holds.TEXT),
            new Column("As printed", Holds.BLANK)),
        rows);
  }
}
