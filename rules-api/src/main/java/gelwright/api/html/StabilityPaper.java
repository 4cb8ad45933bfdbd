package gelwright.api.html;

import gelwright.api.html.Paper.Cell;
import gelwright.api.html.Paper.Column;
import gelwright.api.html.Paper.Fact;
import gelwright.api.html.Paper.Holds;
import gelwright.api.html.Paper.Row;
import gelwright.api.html.Paper.Section;
import gelwright.api.html.Paper.Table;
import gelwright.api.html.Paper.Words;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.stability.StabilityPlan;
import java.util.ArrayList;
import java.util.List;

/** The paper of a stability plan. */
final class StabilityPaper {
  private static final List<String> NOT =
      List.of(
          "A suggestion made from the formula sheet. A qualified safety assessor (Article 10 of"
              + " Regulation (EC) No 1223/2009) decides which tests are made, for how long, and"
              + " whether the product has passed; laboratories carry out the challenge test and the"
              + " germ count.",
          "It certifies nothing. A test that is not in this plan has not been passed, and a plan"
              + " that was not carried out shows nothing.");

  private final StabilityPlan plan;
  private final Told.Cited cited = new Told.Cited();

  StabilityPaper(StabilityPlan plan) {
    this.plan = plan;
  }

  Paper paper() {
    List<Section> sections = new ArrayList<>();
    sections.add(
        new Section(
            "",
            List.of(
                new Paper.Facts(
                    List.of(
                        new Fact(
                            "Shelf life promised",
                            plan.shelfLifeMonths()
                                .map(months -> Quantity.print(months, Unit.MONTH))
                                .orElse("not known"),
                            ""),
                        new Fact("Pack", plan.pack().map(Told::line).orElse("not known"), ""),
                        new Fact("Tests", Integer.toString(plan.tests().size()), ""))),
                new Paper.Blanks(
                    List.of(
                        "Batch number tested",
                        "Filled on",
                        "Safety assessor",
                        "Plan agreed on")))));
    sections.add(new Section("Tests", tests()));
    sections.add(
        new Section(
            "When to look",
            List.of(
                calendar(),
                new Words(
                    "Fill a pack for each time and each place it is kept in, and two more; a pack"
                        + " that was opened for one look is not used for the next."))));
    if (!plan.switchedOff().isEmpty()) {
      sections.add(
          new Section(
              "Left out by house rules",
              List.of(
                  new Paper.Points(false, plan.switchedOff().stream().map(Told::line).toList()))));
    }
    if (!plan.unknown().isEmpty()) {
      sections.add(new Section("", Papers.unknown(plan.unknown())));
    }
    sections.add(Papers.sources(cited, Told.rests(plan.editions())));
    return new Paper(
        new Page(
            "Stability plan",
            Told.line(plan.formula()),
            List.of(
                Papers.about(
                    plan.version(),
                    "tests suggested by what the formula contains; to be decided by a qualified"
                        + " safety assessor")),
            NOT),
        sections);
  }

  private List<Paper.Block> tests() {
    List<Paper.Block> blocks = new ArrayList<>();
    int number = 0;
    for (StabilityPlan.Test test : plan.tests()) {
      number++;
      List<String> details = new ArrayList<>();
      details.add("Look at: " + Told.line(test.looksAt()) + ".");
      details.add("Keep: " + Told.line(test.stored()) + ".");
      details.add("When: " + when(test) + ".");
      details.add("Passes: " + Told.line(test.accept()) + ".");
      details.add("Why: " + Told.line(test.why()));
      String from =
          (test.rule().isEmpty() ? "Of every product" : "From " + test.rule())
              + (test.about().isEmpty()
                  ? ""
                  : ", for " + Told.line(String.join(", ", test.about())))
              + ". "
              + Told.capital(cited.of(test.sources()))
              + ".";
      details.add(from);
      if (!test.sure()) {
        details.add(
            "It may not be needed; not known: "
                + Told.line(String.join(", ", test.missing()))
                + ".");
      }
      blocks.add(
          new Paper.Step(
              number,
              (test.sure() ? "" : "Perhaps: ") + Told.line(test.name()),
              details,
              List.of(),
              List.of()));
    }
    return blocks;
  }

  private static String when(StabilityPlan.Test test) {
    List<String> later = new ArrayList<>();
    boolean first = false;
    for (double time : test.at()) {
      if (time == 0) {
        first = true;
      } else {
        later.add(Quantity.print(time, Unit.NONE));
      }
    }
    List<String> parts = new ArrayList<>();
    if (first) {
      parts.add("on the day of filling");
    }
    if (!later.isEmpty()) {
      String last = later.get(later.size() - 1);
      boolean one = later.size() == 1 && last.equals("1");
      parts.add(
          "after "
              + (later.size() == 1
                  ? last
                  : String.join(", ", later.subList(0, later.size() - 1)) + " and " + last)
              + " "
              + (one ? test.counts().substring(0, test.counts().length() - 1) : test.counts()));
    }
    if (test.toTheEnd()) {
      parts.add("on the last day of the shelf life, which is not stated");
    }
    return String.join(", ", parts);
  }

  private Paper.Block calendar() {
    List<Row> rows = new ArrayList<>();
    for (StabilityPlan.Due due : plan.calendar()) {
      rows.add(
          new Row(
              List.of(
                  Cell.of(due.when()),
                  Cell.of(Told.line(String.join("; ", due.tests()))),
                  Cell.of(""),
                  Cell.of("")),
              false));
    }
    return new Table(
        "",
        List.of(
            new Column("When", Holds.TEXT),
            new Column("Tests", Holds.TEXT),
            new Column("Date", Holds.BLANK),
            new Column("Seen by", Holds.BLANK)),
        rows);
  }
}
