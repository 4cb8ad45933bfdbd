package gelwright.api.html;

import gelwright.api.html.Paper.Cell;
import gelwright.api.html.Paper.Column;
import gelwright.api.html.Paper.Fact;
import gelwright.api.html.Paper.Holds;
import gelwright.api.html.Paper.Row;
import gelwright.batch.BatchSheet;
import gelwright.batch.BatchSheets;
import gelwright.charts.Chart;
import gelwright.charts.CompositionBars;
import gelwright.charts.HeadroomBars;
import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Source;
import gelwright.prediction.Curve;
import gelwright.prediction.Prediction;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Concern;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Headroom;
import gelwright.review.Outcome;
import gelwright.review.Remedies;
import gelwright.review.Remedy;
import gelwright.review.Review;
import gelwright.rule.Trace;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** The part of a report that tells of one formula. */
final class ReportPart {
  /** Set whose duties say what can hurt. */
  private static final String CAUTION = "caution.";

  /** The curves of a report, in their order. */
  private static final List<String> CURVES = List.of("flow", "preservatives", "temperature");

  private final Reports.Reviewed reviewed;
  private final Formula formula;
  private final Review review;
  private final String id;
  private final Told.Cited cited;
  private final Gaps gaps;
  private final Map<Concern, Remedies> remedies = new HashMap<>();
  private final List<Report.Glance> glance = new ArrayList<>();
  private final IdentityHashMap<Remedy, Integer> remedyNumbers = new IdentityHashMap<>();

  ReportPart(Reports.Reviewed reviewed, String id, Told.Cited cited) {
    this.reviewed = reviewed;
    this.formula = reviewed.formula();
    this.review = reviewed.review();
    this.id = id;
    this.cited = cited;
    this.gaps = Gaps.of(review);
    for (Remedies each : review.remedies().orElse(List.of())) {
      remedies.put(new Concern(each.rule(), each.subject()), each);
      // The same numbers as everywhere else: in the order of the review.
      each.offers().forEach(offer -> remedyNumbers.put(offer, remedyNumbers.size() + 1));
    }
  }

  Report.Part part() {
    List<Report.Topic> topics = topics();
    List<Report.Open> open =
        gaps.all().stream().filter(gap -> !gap.findings().isEmpty()).map(this::open).toList();
    Optional<Gap> unnamed = gaps.strangers().filter(gap -> !gap.findings().isEmpty());
    List<Paper.Picture> pictures = new ArrayList<>();
    List<String> undrawn = new ArrayList<>();
    reviewed.prediction().ifPresent(prediction -> draw(prediction, pictures, undrawn));
    return new Report.Part(
        id,
        Told.line(review.formula()),
        about(),
        Words.verdict(review),
        unnamed.map(gap -> Told.line(gap.title()) + ".").orElse(""),
        unnamed.map(Gap::because).orElse(""),
        counts(),
        glance,
        brief(),
        made(),
        recipe(),
        reviewed.sheet().remarks().stream().map(Told::line).toList(),
        formula.method().stream().map(BatchPaper::what).map(Told::line).toList(),
        topics,
        open,
        Gathered.unlisted(review).stream().map(Told::line).toList(),
        accepted(),
        duties(false),
        gaps.strangers().map(gap -> hanging(gap, false)).filter(each -> !each.sayings().isEmpty()),
        cautions(),
        gaps.strangers().map(gap -> hanging(gap, true)).filter(each -> !each.sayings().isEmpty()),
        gaps.next().stream().map(Told::line).map(Told::capital).toList(),
        review.headroom().map(this::room),
        pictures,
        undrawn,
        review.switchedOff().entrySet().stream()
            .map(off -> Told.line(off.getKey() + ": " + off.getValue()))
            .toList(),
        notAsked(),
        Words.counts(review),
        Words.rests(review.editions()),
        review.editions().formulaSha256());
  }

  private String about() {
    List<String> parts = new ArrayList<>();
    if (!formula.version().isBlank()) {
      parts.add("Version " + Told.line(formula.version()));
    }
    if (!review.place().file().isEmpty()) {
      parts.add(Told.line(review.place().file()));
    }
    parts.add("reviewed for " + review.editions().on());
    return Told.capital(String.join(", ", parts));
  }

  private List<Report.Count> counts() {
    List<Report.Count> counts = new ArrayList<>();
    counts.add(new Report.Count(Reports.count(review, Outcome.BREAKS), "break"));
    counts.add(new Report.Count(Reports.count(review, Outcome.BORDERLINE), "borderline"));
    counts.add(new Report.Count(Reports.count(review, Outcome.UNKNOWN), "not checked"));
    counts.add(new Report.Count(Reports.count(review, Outcome.HOLDS), "hold"));
    counts.add(new Report.Count(review.accepted(), "accepted"));
    return counts;
  }

  // --- The formula

  private Paper.Facts brief() {
    Brief brief = formula.brief();
    List<Fact> facts = new ArrayList<>();
    facts.add(fact("Kind", brief.kind()));
    facts.add(fact("Use", brief.use()));
    facts.add(fact("Area", brief.area()));
    facts.add(fact("Users", brief.users()));
    facts.add(fact("Texture", brief.texture()));
    facts.add(fact("Dispensing", brief.dispensing()));
    facts.add(fact("pH", brief.pH().map(Told::span)));
    facts.add(fact("Markets", brief.markets()));
    facts.add(fact("Shelf life", brief.shelfLife().map(Quantity::toString)));
    return new Paper.Facts(facts);
  }

  private Paper.Facts made() {
    Equipment equipment = formula.equipment();
    List<Fact> facts = new ArrayList<>();
    facts.add(fact("Batch", formula.batch().map(Quantity::toString)));
    facts.add(fact("Balance", equipment.balance().map(step -> "reads to " + step)));
    facts.add(
        fact(
            "Vessel",
            joined(
                equipment.vesselDiameter().map(width -> width + " wide"),
                equipment.vesselCover())));
    facts.add(
        fact(
            "Stirrer",
            joined(
                equipment.stirrerType(),
                equipment.stirrerDiameter().map(width -> width + " wide"))));
    facts.add(
        fact(
            "Room",
            joined(
                equipment.roomTemperature().map(Quantity::toString),
                equipment.roomHumidity().map(humidity -> humidity + " humidity"))));
    return new Paper.Facts(facts);
  }

  private static Optional<String> joined(Optional<String> first, Optional<String> second) {
    List<String> both = new ArrayList<>();
    first.ifPresent(both::add);
    second.ifPresent(both::add);
    return both.isEmpty() ? Optional.empty() : Optional.of(String.join(", ", both));
  }

  private static Fact fact(String name, List<String> values) {
    return fact(name, values.isEmpty() ? Optional.empty() : Optional.of(String.join(", ", values)));
  }

  private static Fact fact(String name, Optional<String> value) {
    return new Fact(name, value.map(Told::line).orElse("not stated"), "");
  }

  private Paper.Table recipe() {
    BatchSheet sheet = reviewed.sheet();
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < sheet.weighings().size(); i++) {
      BatchSheet.Weighing line = sheet.weighings().get(i);
      rows.add(
          new Row(
              List.of(
                  Cell.of(Told.line(line.phase())),
                  new Cell(Told.line(line.name()), asBought(formula.lines().get(i))),
                  share(line),
                  new Cell(
                      line.grams().map(this::grams).orElse("not known"),
                      line.expected().map(Told::range).orElse(""))),
              false));
    }
    rows.add(
        new Row(
            List.of(Cell.of(""), Cell.of("Sum"), Cell.of(""), Cell.of(grams(sheet.sum()))), true));
    String batch = sheet.grams().stripTrailingZeros().toPlainString() + " g";
    return new Paper.Table(
        formula.batch().filter(BatchSheets::canMake).isPresent()
            ? "Masses for the batch of " + batch
            : "Masses for "
                + batch
                + (formula.batch().isPresent()
                    ? "; a batch as stated cannot be weighed"
                    : "; the sheet states no batch"),
        List.of(
            new Column("Phase", Holds.TEXT),
            new Column("Ingredient", Holds.TEXT),
            new Column("Share", Holds.NUMBER),
            new Column("Mass, g", Holds.NUMBER)),
        rows);
  }

  private static String asBought(Line line) {
    List<String> parts = new ArrayList<>();
    line.strength().ifPresent(strength -> parts.add(strength + " strong"));
    line.hydrate().ifPresent(parts::add);
    line.size().ifPresent(size -> parts.add(size.toString()));
    line.grade().ifPresent(grade -> parts.add("grade " + grade));
    line.lot().ifPresent(lot -> parts.add("lot " + lot));
    return Told.line(String.join(", ", parts));
  }

  private static Cell share(BatchSheet.Weighing line) {
    String share =
        line.share().map(each -> Quantity.print(each.percent(), Unit.PERCENT)).orElse("not known");
    return switch (line.how()) {
      case STATED -> Cell.of(share);
      case REST -> new Cell(share, "the rest");
      case TO_PH -> new Cell(share, "likely, to pH");
    };
  }

  /** On the balance's steps, with all their digits. */
  private String grams(BigDecimal grams) {
    int digits = Math.max(0, reviewed.sheet().balance().step().stripTrailingZeros().scale());
    return grams.setScale(digits, RoundingMode.HALF_EVEN).toPlainString();
  }

  // --- Findings

  private List<Report.Topic> topics() {
    Map<String, List<Report.Card>> byTopic = new LinkedHashMap<>();
    Topics.OF_THE_PROGRAM.names().forEach(name -> byTopic.put(name, new ArrayList<>()));
    int number = 0;
    for (Outcome outcome : List.of(Outcome.BREAKS, Outcome.BORDERLINE)) {
      for (List<Finding> findings :
          Gathered.byRule(review, finding -> finding.outcome() == outcome)) {
        number++;
        Report.Card card = card(findings, id + "-" + number);
        byTopic.computeIfAbsent(topic(card), key -> new ArrayList<>()).add(card);
      }
    }
    List<Report.Topic> topics = new ArrayList<>();
    byTopic.forEach(
        (name, cards) -> {
          if (!cards.isEmpty()) {
            topics.add(new Report.Topic(name, cards));
          }
        });
    return topics;
  }

  private static String topic(Report.Card card) {
    return Topics.OF_THE_PROGRAM.of(card.rule());
  }

  /** Findings of one rule. */
  private Report.Card card(List<Finding> findings, String cardId) {
    Finding first = findings.get(0);
    boolean one = findings.size() == 1;
    String subject = Words.subject(first.subject());
    boolean told = Words.isRow(first.subject()) && first.message().contains(first.subject().name());
    String title =
        Told.line(first.title() + (one && !told && !subject.isEmpty() ? " – " + subject : ""));
    String shared = one ? "" : Gathered.sharedEnd(findings.stream().map(Finding::message).toList());
    List<Scale.Compared> beside =
        findings.stream().flatMap(finding -> compared(finding).stream()).toList();
    List<Report.Item> items = new ArrayList<>();
    for (Finding finding : findings) {
      String message = finding.message();
      items.add(
          new Report.Item(
              // A message that names what it is about needs no name before it.
              one || message.contains(Words.name(finding.subject()))
                  ? ""
                  : Told.line(Words.subject(finding.subject())),
              Told.line(message.substring(0, message.length() - shared.length())),
              finding.outcome() == Outcome.BORDERLINE ? Words.odds(finding.odds()) : "",
              compared(finding).flatMap(two -> Scale.of(two, beside))));
    }
    Set<String> settling = new LinkedHashSet<>();
    findings.forEach(finding -> finding.settledBy().stream().limit(1).forEach(settling::add));
    String outcome = first.outcome().word();
    glance.add(
        new Report.Glance(
            first.level().word(),
            outcome,
            title + (one ? "" : " (" + findings.size() + " times)"),
            cardId));
    return new Report.Card(
        cardId,
        first.level().word(),
        outcome,
        title,
        items,
        Told.line(shared),
        settling.isEmpty() ? "" : Told.line(String.join("; ", settling)) + ".",
        remedied(findings),
        Told.line(first.lesson()),
        cites(sources(findings), cited),
        first.rule(),
        Told.line(Words.place(first)),
        traces(findings));
  }

  private static Optional<Scale.Compared> compared(Finding finding) {
    return finding
        .observed()
        .flatMap(
            seen ->
                finding
                    .limit()
                    .map(limit -> new Scale.Compared(seen, limit, Scale.wrongSide(finding))));
  }

  private static Collection<Source> sources(List<Finding> findings) {
    Set<Source> sources = new LinkedHashSet<>();
    findings.forEach(finding -> sources.addAll(finding.sources()));
    return sources;
  }

  private static List<Trace> traces(List<Finding> findings) {
    return findings.stream().flatMap(finding -> finding.trace().stream()).toList();
  }

  private List<Report.Remedied> remedied(List<Finding> findings) {
    List<Report.Remedied> all = new ArrayList<>();
    for (Finding finding : findings) {
      Remedies found = remedies.get(new Concern(finding.rule(), finding.subject()));
      if (found == null) {
        continue;
      }
      String about = findings.size() == 1 ? "" : " – " + Words.subject(finding.subject());
      for (Remedy remedy : found.offers()) {
        all.add(
            new Report.Remedied(
                Told.line("Remedy " + remedyNumbers.get(remedy) + about),
                Told.line(Words.remedy(remedy))));
      }
      found
          .none()
          .ifPresent(
              none -> all.add(new Report.Remedied(Told.line("Remedy" + about), Told.line(none))));
    }
    return all;
  }

  // --- What could not be checked

  private Report.Open open(Gap gap) {
    List<Finding> findings = gap.findings();
    Finding worst =
        findings.stream().max(Comparator.comparing(Finding::level)).orElse(findings.get(0));
    boolean one = gap.isOne();
    String subject = Words.subject(worst.subject());
    List<String> missing = gaps.missing(gap);
    return new Report.Open(
        worst.level().word(),
        one ? "not checked" : findings.size() + " not checked",
        Told.line(
            one ? worst.title() + "?" + (subject.isEmpty() ? "" : " – " + subject) : gap.title()),
        one ? "" : gap.because(),
        gap.advice(),
        gap.asked().stream().map(Told::line).toList(),
        gap.isStrange()
            ? ""
            : missing.isEmpty() ? "not stated" : Told.line(String.join("; ", missing)),
        one ? "" : Told.line(String.join("; ", gaps.more(gap))),
        gap.known(),
        one ? List.of() : checks(gap),
        gap.byRule().size() > Gap.FEW,
        one ? Told.line(worst.lesson()) : "",
        one ? cites(sources(findings), cited) : List.of(),
        one ? worst.rule() : "",
        one ? Told.line(Words.place(worst)) : "",
        traces(findings));
  }

  /** Open rules by what they are about. */
  private List<Report.Checks> checks(Gap gap) {
    Map<String, List<List<Finding>>> byTopic = new LinkedHashMap<>();
    Topics.OF_THE_PROGRAM.names().forEach(name -> byTopic.put(name, new ArrayList<>()));
    gap.byRule()
        .forEach(
            (rule, findings) ->
                byTopic
                    .computeIfAbsent(Topics.OF_THE_PROGRAM.of(rule), key -> new ArrayList<>())
                    .add(findings));
    List<Report.Checks> checks = new ArrayList<>();
    byTopic.forEach(
        (topic, rules) -> {
          if (!rules.isEmpty()) {
            int times = rules.stream().mapToInt(List::size).sum();
            checks.add(
                new Report.Checks(
                    topic,
                    Told.count(rules.size(), "rule")
                        + (times == rules.size() ? "" : ", " + Told.count(times, "check")),
                    rules.stream().map(each -> check(gap, each)).toList()));
          }
        });
    return checks;
  }

  /** An open rule, and of what. */
  private static Report.Saying check(Gap gap, List<Finding> findings) {
    Finding first = findings.get(0);
    Set<String> subjects = gap.subjects(findings);
    return new Report.Saying(
        Told.line(
            first.title()
                + "?"
                + (subjects.isEmpty() ? "" : " – " + String.join("; ", subjects))
                + (first.mustBeKnown() ? " (has to be known)" : "")),
        List.of(),
        first.rule());
  }

  // --- What is accepted, to be done, to be careful of

  private List<Report.Saying> accepted() {
    List<Report.Saying> all = new ArrayList<>();
    for (Finding finding : review.findings()) {
      finding
          .acceptance()
          .ifPresent(
              acceptance ->
                  all.add(
                      new Report.Saying(
                          Told.line(Words.accepted(finding, acceptance)),
                          cites(finding.sources(), cited),
                          finding.rule())));
    }
    return all;
  }

  private List<Report.Saying> duties(boolean cautions) {
    Map<String, Report.Saying> all = new LinkedHashMap<>();
    for (Duty duty : gaps.duties()) {
      if (duty.rule().startsWith(CAUTION) == cautions && Words.isTold(duty)) {
        String words = Told.line(Words.duty(duty));
        all.putIfAbsent(words, new Report.Saying(words, cites(duty.sources(), cited), duty.rule()));
      }
    }
    return List.copyOf(all.values());
  }

  /**
   * What may apply, depending on names that nobody knows. A caution is told in full, of another
   * duty the title and what it is about.
   */
  private Report.Hanging hanging(Gap gap, boolean cautions) {
    Map<String, List<Duty>> byRule = new LinkedHashMap<>();
    for (Duty duty : gap.duties()) {
      if (duty.rule().startsWith(CAUTION) == cautions) {
        byRule
            .computeIfAbsent(cautions ? duty.message() : duty.rule(), key -> new ArrayList<>())
            .add(duty);
      }
    }
    List<Report.Saying> sayings = new ArrayList<>();
    for (List<Duty> duties : byRule.values()) {
      Duty first = duties.get(0);
      sayings.add(
          new Report.Saying(
              Told.line(cautions ? first.message() : gaps.hanging(gap, duties)),
              cautions ? cites(first.sources(), cited) : List.of(),
              first.rule()));
    }
    return new Report.Hanging(Told.line(gap.hanging()), sayings);
  }

  private List<Report.Saying> cautions() {
    List<Report.Saying> all = new ArrayList<>(duties(true));
    Words.otherCautions(review)
        .forEach(caution -> all.add(new Report.Saying(Told.line(caution), List.of(), "")));
    return all;
  }

  /** Sources by their standing. */
  static List<Report.Cite> cites(Collection<Source> sources, Told.Cited cited) {
    Map<Source.Standing, List<Integer>> byStanding = new TreeMap<>();
    for (Source source : sources) {
      byStanding
          .computeIfAbsent(source.standing(), key -> new ArrayList<>())
          .add(cited.number(source));
    }
    List<Report.Cite> cites = new ArrayList<>();
    byStanding.forEach(
        (standing, numbers) -> cites.add(new Report.Cite(Told.besideNumber(standing), numbers)));
    return cites;
  }

  // --- Pictures and headroom

  private void draw(Prediction prediction, List<Paper.Picture> pictures, List<String> undrawn) {
    for (String name : CURVES) {
      Optional<Curve> curve = prediction.curve(name);
      if (curve.isEmpty()) {
        continue;
      }
      if (curve.get().isKnown()) {
        pictures.add(new Paper.Picture(Chart.of(curve.get(), "").svg(id + "-" + name), ""));
      }
      if (!curve.get().missing().isEmpty()) {
        undrawn.add(
            Told.line(
                curve.get().title()
                    + (curve.get().isKnown() ? ": to know it better" : ": not known")
                    + ". Missing: "
                    + String.join("; ", Words.missing(curve.get().missing()))
                    + "."));
      }
    }
    CompositionBars.of(prediction)
        .ifPresent(
            bars ->
                pictures.add(
                    new Paper.Picture(
                        Chart.of(bars, "").svg(id + "-" + CompositionBars.NAME), "")));
  }

  private Report.Room room(List<Headroom> headroom) {
    List<Paper.Block> blocks = new ArrayList<>();
    HeadroomBars.of(headroom)
        .ifPresent(
            bars -> blocks.add(new Paper.Picture(Chart.of(bars, "").svg(id + "-headroom"), "")));
    if (!headroom.isEmpty()) {
      List<Row> rows = new ArrayList<>();
      for (Headroom each : headroom) {
        rows.add(
            new Row(
                List.of(
                    Cell.of(Told.line(each.what().text())),
                    Cell.of(Words.written(each.now())),
                    new Cell(Words.end(each.down()), Told.line(Words.side(each.down()))),
                    new Cell(Words.end(each.up()), Told.line(Words.side(each.up())))),
                false));
      }
      blocks.add(
          new Paper.Table(
              "",
              List.of(
                  new Column("Number", Holds.TEXT),
                  new Column("Now", Holds.NUMBER),
                  new Column("Down to", Holds.TEXT),
                  new Column("Up to", Holds.TEXT)),
              rows));
    }
    return new Report.Room(Words.headroom(headroom), blocks);
  }

  private String notAsked() {
    List<String> parts = new ArrayList<>();
    if (review.remedies().isEmpty()) {
      parts.add("remedies");
    }
    if (review.headroom().isEmpty()) {
      parts.add("headroom");
    }
    return parts.isEmpty()
        ? ""
        : "Not asked for: "
            + String.join(" and ", parts)
            + ", which take many reviews each. To have them: --include "
            + String.join(",", parts)
            + " on the command line, include="
            + String.join(",", parts)
            + " over HTTP.";
  }
}
