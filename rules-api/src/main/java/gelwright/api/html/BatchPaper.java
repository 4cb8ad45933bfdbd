package gelwright.api.html;

import gelwright.api.html.Paper.Cell;
import gelwright.api.html.Paper.Column;
import gelwright.api.html.Paper.Fact;
import gelwright.api.html.Paper.Holds;
import gelwright.api.html.Paper.Note;
import gelwright.api.html.Paper.Row;
import gelwright.api.html.Paper.Section;
import gelwright.api.html.Paper.Table;
import gelwright.api.html.Paper.Words;
import gelwright.batch.BatchSheet;
import gelwright.formula.Step;
import gelwright.ingredient.Source;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The paper of a batch sheet. */
final class BatchPaper {
  private static final List<String> NOT =
      List.of(
          "A plan with its sources, computed from the sheet. It does not release the batch: that is"
              + " for the person who answers for its quality, with the results written down here.",
          "It is not a safety assessment and certifies nothing. Before the product is given away or"
              + " sold a qualified person has to assess its safety, a challenge test (ISO 11930)"
              + " has to show that it is preserved, and local law has to be followed.");

  private final BatchSheet sheet;
  private final Told.Cited cited = new Told.Cited();

  BatchPaper(BatchSheet sheet) {
    this.sheet = sheet;
  }

  Paper paper() {
    List<Section> sections = new ArrayList<>();
    sections.add(new Section("", List.of(new Paper.Blanks(List.of("Batch number", "Date")))));
    add(sections, "", concerns());
    add(sections, "Before you start", record("before"));
    add(sections, "Take care", cautions(sheet.cautions()));
    sections.add(new Section("Weigh", weighings()));
    add(sections, "Make", steps());
    for (BatchSheet.Adjusting adjusting : sheet.adjustings()) {
      sections.add(
          new Section("Adjust the pH with " + Told.line(adjusting.name()), adjusting(adjusting)));
    }
    sections.add(new Section("Give back the water", water()));
    sections.add(new Section("Check", targets()));
    add(sections, "While making", record("while-making"));
    add(sections, "Another size of batch", changes());
    add(sections, "Pack", record("packing"));
    add(sections, "Decide", record("after"));
    add(sections, "", Papers.unknown(sheet.unknown()));
    add(sections, "Remarks", points(sheet.remarks()));
    sections.add(Papers.sources(cited, Told.rests(sheet.editions())));
    return new Paper(
        new Page("Batch sheet", Told.line(sheet.formula()), List.of(about()), NOT), sections);
  }

  private static void add(List<Section> sections, String heading, List<Paper.Block> blocks) {
    if (!blocks.isEmpty()) {
      sections.add(new Section(heading, blocks));
    }
  }

  private String about() {
    return Papers.about(
        sheet.version(),
        "a batch of "
            + grams(sheet.grams())
            + sheet
                .writtenFor()
                .filter(grams -> grams.compareTo(sheet.grams()) != 0)
                .map(grams -> "; the formula sheet was written for " + grams(grams))
                .orElse(""));
  }

  private static String grams(BigDecimal grams) {
    return grams.stripTrailingZeros().toPlainString() + " g";
  }

  /** On the balance's steps, with all their digits: 26.00 g on a balance of 0.01 g. */
  private String onSteps(BigDecimal grams) {
    int digits = Math.max(0, sheet.balance().step().stripTrailingZeros().scale());
    return grams.setScale(digits, RoundingMode.HALF_EVEN).toPlainString() + " g";
  }

  private static List<Paper.Block> points(List<String> texts) {
    return texts.isEmpty()
        ? List.of()
        : List.of(new Paper.Points(false, texts.stream().map(Told::line).toList()));
  }

  private List<Paper.Block> concerns() {
    if (sheet.concerns().isEmpty()) {
      return List.of();
    }
    List<String> points = new ArrayList<>();
    points.add("The review of this batch speaks against making it as it is:");
    for (BatchSheet.Concern concern : sheet.concerns()) {
      points.add(
          Told.capital(concern.level().word())
              + (concern.outcome() == Outcome.BORDERLINE ? ", borderline" : "")
              + ": "
              + Told.line(concern.title())
              + ". "
              + Told.line(concern.message()));
    }
    return List.of(new Note(Note.Kind.CAUTION, points));
  }

  private List<Paper.Block> record(String part) {
    List<BatchSheet.RecordItem> items =
        sheet.record().stream().filter(item -> item.part().equals(part)).toList();
    if (items.isEmpty()) {
      return List.of();
    }
    List<Source> first = items.get(0).sources();
    boolean same = items.stream().allMatch(item -> item.sources().equals(first));
    List<Row> rows = new ArrayList<>();
    for (BatchSheet.RecordItem item : items) {
      String clause = item.clause().isEmpty() ? "" : "clause " + Told.line(item.clause());
      String by = same ? "" : cited.of(item.sources());
      rows.add(
          new Row(
              List.of(
                  new Cell(Told.line(item.item()), (clause + " " + by).strip()),
                  Cell.of(""),
                  Cell.of("")),
              false));
    }
    return List.of(
        new Table(
            same && !first.isEmpty() ? "Clauses: " + cited.of(first) : "",
            List.of(
                new Column("Item", Holds.TEXT),
                new Column("Written down", Holds.BLANK),
                new Column("Initials", Holds.BLANK)),
            rows));
  }

  private List<Paper.Block> cautions(List<BatchSheet.Caution> cautions) {
    return points(told(cautions));
  }

  /** Those that apply in full; of those that may apply, since something is missing, the titles. */
  private List<String> told(List<BatchSheet.Caution> cautions) {
    List<String> told = new ArrayList<>();
    List<String> perhaps = new ArrayList<>();
    for (BatchSheet.Caution caution : cautions) {
      if (caution.sure()) {
        told.add(caution.message() + cited.behind(caution.sources()));
      } else {
        perhaps.add(caution.title() + " (" + caution.rule() + ")");
      }
    }
    if (!perhaps.isEmpty()) {
      told.add(
          "Perhaps also, not known because something is missing on the sheet: "
              + String.join("; ", perhaps)
              + ".");
    }
    return told.stream().map(Told::line).toList();
  }

  private List<Paper.Block> weighings() {
    List<Paper.Block> blocks = new ArrayList<>();
    if (!sheet.weighingCautions().isEmpty()) {
      blocks.add(new Note(Note.Kind.CAUTION, told(sheet.weighingCautions())));
    }
    List<Row> rows = new ArrayList<>();
    for (BatchSheet.Weighing line : sheet.weighings()) {
      rows.add(
          new Row(
              List.of(
                  Cell.of(Told.line(line.phase())),
                  new Cell(Told.line(line.name()), beside(line)),
                  new Cell(mass(line), error(line)),
                  Cell.of(""),
                  Cell.of(""),
                  Cell.of("")),
              false));
    }
    rows.add(
        new Row(
            List.of(
                Cell.of(""),
                Cell.of("Sum"),
                Cell.of(onSteps(sheet.sum())),
                Cell.of(""),
                Cell.of(""),
                Cell.of("")),
            true));
    blocks.add(
        new Table(
            "",
            List.of(
                new Column("Phase", Holds.TEXT),
                new Column("Ingredient", Holds.TEXT),
                new Column("Mass", Holds.NUMBER),
                new Column("Weighed", Holds.BLANK),
                new Column("Lot number", Holds.BLANK),
                new Column("Initials", Holds.BLANK)),
            rows));
    blocks.add(
        new Words(
            sheet.balance().stated()
                ? "Beside each mass what the weighing may be off by (95 %, USP chapter 41, only the"
                    + " rounding of the balance counted). Where the balance cannot weigh a mass well"
                    + " enough, it stands below the name."
                : "The balance is not stated: what a weighing may be off by is not known."));
    return blocks;
  }

  private static String beside(BatchSheet.Weighing line) {
    List<String> parts = new ArrayList<>();
    String share = line.share().map(Object::toString).orElse("");
    switch (line.how()) {
      case STATED -> parts.add(share);
      case REST ->
          parts.add(
              line.grams().isPresent() ? "the rest, " + percent(line) : "the rest, not known");
      case TO_PH ->
          parts.add(
              line.expected()
                  .filter(Shown::isKnown)
                  .map(range -> "to pH, expect " + Told.range(range))
                  .orElse("to pH, how much is not known"));
    }
    parts.addAll(line.remarks());
    if (line.how() == BatchSheet.How.STATED && !line.missing().isEmpty()) {
      parts.add("not known without " + String.join(", ", line.missing()));
    } else if (!line.missing().isEmpty()) {
      parts.add("what is missing stands under Not known");
    }
    return Told.line(String.join("; ", parts));
  }

  private static String percent(BatchSheet.Weighing line) {
    return line.share().map(share -> Quantity.print(share.percent(), Unit.PERCENT)).orElse("");
  }

  private String mass(BatchSheet.Weighing line) {
    return line.grams()
        .map(grams -> (line.how() == BatchSheet.How.TO_PH ? "about " : "") + onSteps(grams))
        .orElse("not known");
  }

  private static String error(BatchSheet.Weighing line) {
    if (line.error().isEmpty() || line.grams().isEmpty()) {
      return "";
    }
    double error = line.error().get();
    double part = 100 * error / line.grams().get().doubleValue();
    return "± "
        + Quantity.print(error, Unit.GRAM)
        + (part < 0.1 ? "" : ", " + Quantity.print(part, Unit.PERCENT))
        + (line.fit() == BatchSheet.Fit.POORLY ? " – too much" : "");
  }

  private List<Paper.Block> steps() {
    List<Paper.Block> blocks = new ArrayList<>();
    for (BatchSheet.WorkStep work : sheet.steps()) {
      List<String> details = new ArrayList<>();
      if (!work.joining().isEmpty()) {
        details.add(
            "Into the vessel: "
                + String.join(
                    ", ",
                    work.joining().stream()
                        .map(
                            each ->
                                Told.line(each.name())
                                    + each.grams()
                                        .map(grams -> " " + onSteps(grams))
                                        .orElse(" (mass not known)"))
                        .toList())
                + ".");
      }
      if (!work.missing().isEmpty()) {
        details.add(
            "The sheet does not say: " + String.join(", ", work.missing()) + ". Write it down.");
      }
      List<String> cautions = new ArrayList<>(told(work.cautions()));
      if (!work.again().isEmpty()) {
        cautions.add("As before: " + Told.line(String.join("; ", work.again())) + ".");
      }
      blocks.add(
          new Paper.Step(work.number(), what(work.step()), details, cautions, blanks(work.step())));
    }
    return blocks;
  }

  /** A step of a method as a sentence. */
  static String what(Step step) {
    StringBuilder what = new StringBuilder(verb(step));
    step.phase().ifPresent(phase -> what.append(" phase ").append(Told.line(phase)));
    if (step.action() == Step.Action.HYDRATE) {
      what.append(" swell");
    }
    if (!step.with().isEmpty()) {
      String names = Told.line(String.join(", ", step.with()));
      what.append(step.action() == Step.Action.DISPERSE && step.phase().isPresent() ? ": " : " ")
          .append(step.action() == Step.Action.ADJUST_PH ? "with " : "")
          .append(names);
    }
    step.into().ifPresent(into -> what.append(" into phase ").append(Told.line(into)));
    step.pH().ifPresent(pH -> what.append(" to pH ").append(Quantity.print(pH, Unit.PH)));
    boolean reaches = step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL;
    step.temperature()
        .ifPresent(at -> what.append(reaches ? " to " : " at ").append(at.toString()));
    step.over().ifPresent(over -> what.append(" over ").append(over));
    step.lasting().ifPresent(time -> what.append(" for ").append(time));
    step.stir().ifPresent(speed -> what.append(", stirring at ").append(speed));
    return what.append('.').toString();
  }

  private static String verb(Step step) {
    return switch (step.action()) {
      case HEAT -> "Heat";
      case COOL -> "Cool";
      case HOLD -> "Hold";
      case DISPERSE -> step.phase().isPresent() ? "Disperse into" : "Disperse";
      case HYDRATE -> "Let";
      case ADD -> "Add";
      case MIX -> "Mix";
      case HOMOGENISE -> "Homogenise";
      case ADJUST_PH -> "Adjust the pH";
      case FILL -> "Fill";
    };
  }

  private static List<String> blanks(Step step) {
    List<String> blanks = new ArrayList<>();
    blanks.add("from");
    blanks.add("to");
    switch (step.action()) {
      case HEAT, COOL, HOLD, HYDRATE, ADD -> blanks.add("°C");
      case ADJUST_PH -> {
        blanks.add("pH");
        blanks.add("°C");
        blanks.add("added, g");
      }
      case DISPERSE, MIX, HOMOGENISE, FILL -> {}
    }
    switch (step.action()) {
      case DISPERSE, HYDRATE, ADD, MIX, HOMOGENISE -> blanks.add("rpm");
      case HEAT, COOL, HOLD, ADJUST_PH, FILL -> {}
    }
    blanks.add("initials");
    return blanks;
  }

  /** A number, or that it is not known: what is physically possible tells nobody anything. */
  private static String known(String before, Shown shown) {
    return shown.missing().isEmpty() ? before + Told.range(shown) : "not known";
  }

  private List<Paper.Block> adjusting(BatchSheet.Adjusting adjusting) {
    List<Paper.Block> blocks = new ArrayList<>();
    String name = Told.line(adjusting.name());
    List<Fact> facts = new ArrayList<>();
    facts.add(
        new Fact(
            "Target",
            "pH " + Told.range(adjusting.target()),
            adjusting.within().map(span -> "the sheet aims at " + Told.span(span)).orElse("")));
    facts.add(new Fact("Before, expected", known("pH ", adjusting.before()), ""));
    facts.add(new Fact(name + " in all, expected", known("", adjusting.needed()), "as bought"));
    if (adjusting.missing().isEmpty()) {
      facts.add(
          new Fact(
              "Moves the pH by 0.1 near the target",
              Told.range(adjusting.perTenth()) + " of a 10 % solution",
              Told.range(adjusting.perTenthAsBought()) + " as bought"));
    }
    blocks.add(new Paper.Facts(facts));
    if (!adjusting.missing().isEmpty()) {
      blocks.add(
          new Note(
              Note.Kind.MISSING,
              List.of(
                  "How much moves the pH by how much: not known without "
                      + Told.line(String.join(", ", adjusting.missing()))
                      + ".")));
      return blocks;
    }
    List<Row> rows = new ArrayList<>();
    for (BatchSheet.Point point : adjusting.titration()) {
      rows.add(
          new Row(
              List.of(
                  Cell.of(Quantity.print(point.pH(), Unit.PH)),
                  Cell.of(Told.range(point.solution())),
                  Cell.of(""),
                  Cell.of("")),
              false));
    }
    blocks.add(
        new Table(
            "10 % solution of " + name + " in water, added in all",
            List.of(
                new Column("pH", Holds.NUMBER),
                new Column("expected", Holds.NUMBER),
                new Column("added", Holds.BLANK),
                new Column("pH read", Holds.BLANK)),
            rows));
    adjusting
        .waterHeldBack()
        .filter(water -> water > 0)
        .ifPresent(
            water ->
                blocks.add(
                    new Words(
                        "For the solution hold back "
                            + Quantity.print(water, Unit.GRAM)
                            + " of the water. Add half of what is expected, stir, measure, and go on"
                            + " in small portions. The ranges come from the raw materials' own pH"
                            + " and from the constants; the meter decides.")));
    return blocks;
  }

  private List<Paper.Block> water() {
    List<Paper.Block> blocks = new ArrayList<>();
    blocks.add(
        new Words(
            sheet.waterLost().isKnown()
                ? "Expect this batch to lose "
                    + Told.range(sheet.waterLost())
                    + " as steam. Weigh the vessel with its contents before heating and after"
                    + " cooling, and give back the water that is missing."
                : "How much leaves as steam is not known"
                    + (sheet.waterLost().missing().isEmpty()
                        ? ""
                        : " without " + Told.line(String.join(", ", sheet.waterLost().missing())))
                    + ". Weigh the vessel with its contents before heating and after cooling, and"
                    + " give back the water that is missing."));
    blocks.add(
        new Paper.Blanks(
            List.of(
                "Vessel, empty, g",
                "With contents before heating, g",
                "After cooling, g",
                "Water given back, g")));
    return blocks;
  }

  private List<Paper.Block> targets() {
    List<Row> rows = new ArrayList<>();
    for (BatchSheet.Target target : sheet.targets()) {
      Optional<String> aimed = target.aimed().map(Told::span);
      String expected = Told.range(target.expected());
      rows.add(
          new Row(
              List.of(
                  Cell.of(Told.brief(target.meaning())),
                  Cell.of(aimed.orElse("–")),
                  new Cell(
                      expected,
                      target.expected().missing().isEmpty()
                          ? ""
                          : "missing: "
                              + Told.line(String.join(", ", target.expected().missing()))),
                  Cell.of("")),
              false));
    }
    rows.add(
        new Row(
            List.of(
                Cell.of("Look, colour, smell"),
                Cell.of("–"),
                Cell.of("as the sample kept"),
                Cell.of("")),
            false));
    return List.of(
        new Table(
            "",
            List.of(
                new Column("What", Holds.TEXT),
                new Column("Aimed at", Holds.TEXT),
                new Column("Expected", Holds.TEXT),
                new Column("Measured", Holds.BLANK)),
            rows),
        new Words(
            "What is expected is a prediction with the range that holds it 9 times in 10; only what"
                + " the sheet aims at is a limit."));
  }

  private List<Paper.Block> changes() {
    List<Paper.Block> blocks = new ArrayList<>();
    if (!sheet.changes().isEmpty()) {
      List<Row> rows = new ArrayList<>();
      for (BatchSheet.Change change : sheet.changes()) {
        rows.add(
            new Row(
                List.of(
                    Cell.of(Told.brief(change.meaning())),
                    Cell.of(Told.range(change.before())),
                    Cell.of(Told.range(change.now()))),
                false));
      }
      blocks.add(
          new Table(
              "",
              List.of(
                  new Column("What", Holds.TEXT),
                  new Column(
                      sheet.writtenFor().map(BatchPaper::grams).orElse("before"), Holds.TEXT),
                  new Column(grams(sheet.grams()), Holds.TEXT)),
              rows));
    }
    List<String> turned = new ArrayList<>();
    for (BatchSheet.Turned each : sheet.turned()) {
      turned.add(
          each.title()
              + ": "
              + each.before().word()
              + " before, "
              + each.now().word()
              + " now. "
              + each.message());
    }
    blocks.addAll(points(turned));
    return blocks;
  }
}
