package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Odds;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EvaluationTest {
  private static final Truth HALF = new Truth(new Odds(0.5, 0.5), Set.of());

  private static Truth named(String name) {
    return switch (name) {
      case "true" -> Truth.CERTAIN;
      case "false" -> Truth.IMPOSSIBLE;
      case "half" -> HALF;
      default -> Truth.open(Set.of(name));
    };
  }

  private static String print(Truth truth) {
    String odds = Printing.odds(truth.odds());
    return truth.missing().isEmpty()
        ? odds
        : odds + " without " + new java.util.TreeSet<>(truth.missing());
  }

  private static Truth ask(String condition, Workshop.MapFacts facts) {
    List<gelwright.problem.Problem> problems = new ArrayList<>();
    Term.OfTruth term =
        Workshop.check(condition, problems)
            .orElseThrow(() -> new AssertionError(Workshop.print(problems)));
    Truth compiled = Compiler.truth(term).of(facts, Subject.NONE);
    Text text = Workshop.text(condition);
    assertEquals(compiled, new Walker(facts, Subject.NONE, text).value(term));
    assertEquals(compiled, Compiler.assessment(term, text).of(facts, Subject.NONE).truth());
    return compiled;
  }

  @ParameterizedTest(name = "{0} and {1} -> {2}; or -> {3}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          true  | true  | true                        | true
          true  | false | false                       | true
          true  | half  | odds 0.5                    | true
          true  | b     | unknown without [b]         | true
          false | true  | false                       | true
          false | false | false                       | false
          false | half  | false                       | odds 0.5
          false | b     | false                       | unknown without [b]
          half  | true  | odds 0.5                    | true
          half  | false | false                       | odds 0.5
          half  | half  | odds 0 to 0.5               | odds 0.5 to 1
          half  | b     | odds 0 to 0.5 without [b]   | odds 0.5 to 1 without [b]
          a     | true  | unknown without [a]         | true
          a     | false | false                       | unknown without [a]
          a     | half  | odds 0 to 0.5 without [a]   | odds 0.5 to 1 without [a]
          a     | b     | unknown without [a, b]      | unknown without [a, b]
          """)
  void andOr(String a, String b, String and, String or) {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .truth("formula.has-water", named(a))
            .truth("formula.is-buffered", named(b));
    assertEquals(and, print(ask("formula.has-water and formula.is-buffered", facts)));
    assertEquals(or, print(ask("formula.has-water or formula.is-buffered", facts)));
    String deMorgan = "not (not formula.has-water and not formula.is-buffered)";
    assertEquals(or, print(ask(deMorgan, facts)));
  }

  @ParameterizedTest(name = "not {0} -> {1}")
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          true  | false
          false | true
          half  | odds 0.5
          a     | unknown without [a]
          """)
  void not(String a, String not) {
    Workshop.MapFacts facts = new Workshop.MapFacts().truth("formula.has-water", named(a));
    assertEquals(not, print(ask("not formula.has-water", facts)));
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      textBlock =
          """
          oil.share <= 14 %                                   | true
          oil.share < 14 %                                    | false
          oil.share >= 14 %                                   | true
          oil.share > 14 %                                    | false
          oil.share = 140000 ppm                              | true
          oil.share != 14 %                                   | false
          oil.share = 14.001 %                                | false
          14 % >= oil.share                                   | true
          oil.share within 14 % .. 15 %                       | true
          oil.share within 13 % .. 14 %                       | true
          oil.share within 15 % .. 16 %                       | false
          not oil.share within 15 % .. 16 %                   | true
          oil.share + gum.share * 2 = 16.4 %                  | true
          oil.share - gum.share - gum.share = 11.6 %          | true
          (oil.share + gum.share) * 2 = 30.4 %                | true
          oil.share / gum.share > 11.6                        | true
          oil.share * 3 / 2 = 21 %                            | true
          -oil.share < 0 %                                    | true
          min(oil.share, gum.share) = 1.2 %                   | true
          max(oil.share, gum.share) = 14 %                    | true
          0.1 % + 0.2 % <= 0.3 %                              | true
          gel.yield-stress > 0.012 kPa                        | odds 0.5
          gel.yield-stress within 8 Pa .. 16 Pa               | odds 0.9
          gel.yield-stress > oil.yield-needed                 | true
          gel.yield-stress - gel.yield-stress <= 0 Pa         | true
          process.time-hot <= 1 h                             | true
          process.time-hot <= 30 min                          | false
          process.peak-temperature - room.temperature = 18 K  | ?
          process.peak-temperature - room.temperature <= 18 K | true
          room.temperature + 10 K = 32 °C                     | true
          water-phase.pH <= 5 pH                              | unknown without [water-phase.pH]
          water-phase.pH + 0 pH <= 5 pH or oil.share > 0 %    | true
          gel.oil-capacity <= 10 %                            | unknown without [grade of the gum]
          gel.oil-capacity <= 12 %                            | true
          gel.oil-capacity < 4 %                              | false
          oil.share > gel.oil-capacity                        | true
          2 * gel.oil-capacity > gum.share                    | true
          gel.oil-capacity is known                           | false
          gel.oil-capacity is unknown                         | true
          oil.share is known                                  | true
          (oil.share + water-phase.pH / 1 pH * 1 %) is known  | false
          product.kind is known                               | true
          product.gum is known                                | false
          formula.is-buffered is known                        | false
          not formula.is-buffered                             | unknown without [formula.is-buffered]
          product.kind = gel                                  | true
          product.kind != gel                                 | false
          product.kind in [serum, gel]                        | true
          product.kind in [serum, mist]                       | false
          product.gum = "Sclerotium Gum"                      | unknown without [product.gum]
          product.gum in [a, b]                               | unknown without [product.gum]
          product.area has face                               | true
          product.area has hands                              | unknown without [rest of the areas]
          gel.viscosity(10 /s) < 6 Pa·s                       | true
          gel.viscosity(2 * 5 /s) < 6 Pa·s                    | true
          gel.viscosity(20 /s) < 6 Pa·s                       | unknown without [gel.viscosity[20]]
          share-of("Citric Acid") <= 0.4 %                    | true
          share-of-all([Glycerin, Betaine]) <= 4 %            | true
          texture-windows[soft-gel].least-yield <= 12 Pa      | true
          texture-windows[soft-gel].most-yield <= 12 Pa       | unknown without [most-yield of row soft-gel of table texture-windows]
          texture-windows[product.texture].least-yield > 1 Pa | unknown without [row fluid of table texture-windows]
          texture-windows[product.texture].pack = jar         | unknown without [row fluid of table texture-windows]
          texture-windows[product.gum].pack = jar             | unknown without [product.gum]
          texture-windows[serum].pack = pump                  | true
          texture-windows[serum].areas has eye-area           | false
          oil.share / (gum.share - gum.share) > 5             | unknown without [a divisor other than zero]
          """)
  void conditions(String condition, String expected) {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("oil.share", 14)
            .number("gum.share", 1.2)
            .number("emulsifier.share", 0)
            .number(
                "gel.yield-stress",
                Bounded.of(Workshop.about(12, 4, "consistency of Sclerotium Gum")))
            .number(
                "oil.yield-needed",
                Bounded.of(Workshop.about(10, 4, "consistency of Sclerotium Gum")))
            .number("gel.oil-capacity", Bounded.unknown(4, 12, Set.of("grade of the gum")))
            .number("process.time-hot", 2400)
            .number("process.peak-temperature", 40)
            .number("room.temperature", 22)
            .number("gel.viscosity[10]", 5)
            .number("share-of[[Citric Acid]]", 0.4)
            .number("share-of-all[[Betaine, Glycerin]]", 4)
            .choice("product.kind", "gel")
            .choice("product.texture", "fluid");
    facts.choices.put("product.area", new Chosen(Set.of("face"), Set.of("rest of the areas")));
    if (expected.equals("?")) {
      List<gelwright.problem.Problem> problems = new ArrayList<>();
      Workshop.check(condition, problems);
      assertEquals("not-exact", problems.get(0).code());
      return;
    }
    assertEquals(expected, print(ask(condition, facts)));
  }

  @Test
  void whatIsLeftOffIsNotAsked() {
    CompiledRule rule =
        Workshop.compiled(Workshop.draft().when("oil.share > 20 % and water-phase.pH < 5 pH"));
    Workshop.MapFacts facts = new Workshop.MapFacts().number("oil.share", 14);
    assertEquals(Truth.IMPOSSIBLE, rule.when(facts, Subject.NONE));
    assertEquals(List.of("oil.share"), facts.asked);
  }

  private static Assessment assess(String require, Workshop.MapFacts facts) {
    return Workshop.compiled(Workshop.draft().require(require)).require(facts, Subject.NONE);
  }

  @Test
  void decidedAlthoughSomethingIsMissing() {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("oil.share", 14)
            .number("gel.oil-capacity", Bounded.unknown(4, 12, Set.of("grade of the gum")));
    Assessment decided = assess("oil.share <= gel.oil-capacity", facts);
    assertEquals(Truth.IMPOSSIBLE, decided.truth());
    assertEquals(Set.of("grade of the gum"), decided.decidedWithout());
    Assessment open = assess("oil.share - 4 % <= gel.oil-capacity", facts);
    assertEquals(Truth.open(Set.of("grade of the gum")), open.truth());
    assertEquals(Set.of(), open.decidedWithout());
    Assessment either = assess("water-phase.pH < 5 pH or oil.share > 1 %", facts);
    assertEquals(Truth.CERTAIN, either.truth());
    assertEquals(Set.of("water-phase.pH"), either.decidedWithout());
    Assessment both = assess("oil.share > gel.oil-capacity and water-phase.pH < 5 pH", facts);
    assertEquals(Truth.open(Set.of("water-phase.pH")), both.truth());
    assertEquals(Set.of("grade of the gum"), both.decidedWithout());
  }

  @Test
  void theComparisonThatCounts() {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("oil.share", 14)
            .number("gum.share", 1.2)
            .choice("product.kind", "gel")
            .number(
                "gel.yield-stress",
                Bounded.of(
                    Estimate.withinFactor(12, 1.5, new Doubt("consistency", "a flow curve"))));
    Comparison weakest =
        assess("gum.share > 1 % and gel.yield-stress >= 12 Pa and oil.share < 20 %", facts)
            .comparison()
            .orElseThrow();
    assertEquals("gel.yield-stress", weakest.observed().name());
    assertEquals(Relation.AT_LEAST, weakest.relation());
    assertEquals("12 Pa", weakest.limit().print());
    assertEquals("about 12 Pa (8 to 18 Pa)", weakest.observed().print());
    assertEquals("consistency", weakest.undecidedBy().get(0).doubt().name());
    assertEquals("a flow curve", weakest.undecidedBy().get(0).doubt().settledBy());

    Comparison strongest =
        assess("gum.share > 5 % or gel.yield-stress >= 12 Pa", facts).comparison().orElseThrow();
    assertEquals("gel.yield-stress", strongest.observed().name());

    Comparison mirrored = assess("12 Pa <= gel.yield-stress", facts).comparison().orElseThrow();
    assertEquals("gel.yield-stress", mirrored.observed().name());
    assertEquals(Relation.AT_LEAST, mirrored.relation());

    Comparison negated =
        assess("not (oil.share > 10 % or gum.share > 5 %)", facts).comparison().orElseThrow();
    assertEquals("oil.share", negated.observed().name());
    assertEquals(Relation.AT_MOST, negated.relation());
    assertTrue(negated.undecidedBy().isEmpty());

    Comparison within =
        assess("gel.yield-stress within 9 Pa .. 0.018 kPa", facts).comparison().orElseThrow();
    assertEquals(Relation.WITHIN, within.relation());
    assertEquals("9 Pa", within.limit().print());
    assertEquals("0.018 kPa", within.upperLimit().orElseThrow().print());

    assertTrue(
        assess("product.kind = mist and oil.share > 1 %", facts).comparison().isEmpty(),
        "a name decides, so no number does");
    assertTrue(assess("product.kind = gel", facts).comparison().isEmpty());
  }

  @Test
  void aSharedDoubtIsNoDoubtBetweenTwoNumbers() {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("gel.yield-stress", Bounded.of(Workshop.about(12, 4, "gum")))
            .number("oil.yield-needed", Bounded.of(Workshop.about(11, 3, "gum")));
    Assessment assessment = assess("gel.yield-stress > oil.yield-needed", facts);
    assertTrue(assessment.truth().odds().low() > 0.9);
    assertFalse(assessment.comparison().orElseThrow().undecidedBy().isEmpty());
  }

  @Test
  void itemsAreGoneThroughInOrderPossibleMembersIncluded() {
    CompiledRule rule =
        Workshop.compiled(
            Workshop.draft()
                .forEach("preservative")
                .when("preservative.functions has preservative")
                .require("preservative.undissociated >= 0.1 % and oil.share < 20 %")
                .message("{preservative.name}: {preservative.undissociated} acts"));
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("oil.share", 14)
            .item(
                "preservative",
                "Sodium Benzoate",
                Odds.CERTAIN,
                new Workshop.MapFacts()
                    .number("undissociated", 0.07)
                    .choice("functions", "preservative"))
            .item("preservative", "Nettle Extract", Odds.OPEN, new Workshop.MapFacts());
    List<Subject> subjects = rule.subjects(facts);
    assertEquals(
        List.of("Sodium Benzoate", "Nettle Extract"),
        subjects.stream().map(Subject::name).toList());
    assertEquals(Odds.CERTAIN, subjects.get(0).membership());
    assertEquals(Odds.OPEN, subjects.get(1).membership());
    assertEquals(Set.of("functions of Nettle Extract"), subjects.get(1).membershipMissing());
    assertEquals(Truth.CERTAIN, rule.when(facts, subjects.get(0)));
    assertEquals(Truth.IMPOSSIBLE, rule.require(facts, subjects.get(0)).truth());
    assertEquals("Sodium Benzoate: 0.07 % acts", rule.message(facts, subjects.get(0)));
    assertEquals(Truth.open(Set.of("functions")), rule.when(facts, subjects.get(1)));
    assertEquals(Truth.open(Set.of("undissociated")), rule.require(facts, subjects.get(1)).truth());
    assertEquals("Nettle Extract: an unknown amount acts", rule.message(facts, subjects.get(1)));
    assertEquals(List.of(), rule.subjects(new Workshop.MapFacts()));
  }

  @Test
  void rowsAreGoneThroughWithTheirSources() {
    CompiledRule rule =
        Workshop.compiled(
            Workshop.draft()
                .forEach("row of texture-windows")
                .when("product.texture = row.key")
                .require("gel.yield-stress within row.least-yield .. row.most-yield")
                .message("{row.key} needs {row.least-yield} to {row.most-yield}, {row.areas}"));
    Workshop.MapFacts facts =
        new Workshop.MapFacts().choice("product.texture", "serum").number("gel.yield-stress", 4);
    List<Subject> subjects = rule.subjects(facts);
    assertEquals(List.of("serum", "soft-gel"), subjects.stream().map(Subject::name).toList());
    assertEquals(Truth.CERTAIN, rule.when(facts, subjects.get(0)));
    assertEquals(Truth.IMPOSSIBLE, rule.when(facts, subjects.get(1)));
    assertEquals(Truth.CERTAIN, rule.require(facts, subjects.get(0)).truth());
    assertEquals(Truth.IMPOSSIBLE, rule.require(facts, subjects.get(1)).truth());
    assertEquals(
        Set.of("most-yield of row soft-gel of table texture-windows"),
        rule.require(facts, subjects.get(1)).decidedWithout());
    assertEquals("serum needs 1 Pa to 8 Pa, face, hands", rule.message(facts, subjects.get(0)));
    assertEquals(
        "soft-gel needs 12 Pa to an unknown amount, unknown", rule.message(facts, subjects.get(1)));
    assertEquals(List.of("workshop-practice", "window-practice"), rule.sources(subjects.get(0)));
  }

  @ParameterizedTest(name = "{0} -> {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      textBlock =
          """
          {oil.share} of oil                    | 14 % of oil
          {gel.oil-capacity} carried            | About 9.6 % (7.7 to 11.5 %) carried
          pH {water-phase.pH}                   | pH about 5.2 (5.0 to 5.4)
          {gel.yield-stress}                    | An unknown amount
          {oil.yield-needed} needed             | At most 3.2 Pa needed
          {process.peak-temperature}            | At least 0 °C
          {particle.yield-needed}               | Between 1 and 3 Pa
          {oil.share + gum.share}               | 15.2 %
          {1000 ppm + oil.share}                | 14.1 %
          {1000 ppm}                            | 1000 ppm
          {oil.share / gum.share}               | 11.7
          {process.time-hot}                    | 40 min
          {process.time-hot * 2}                | 80 min
          {oil.yield-needed / 1 Pa * 1 s}       | At most 3.2 s
          {gel.viscosity(10 /s)}                | 5 Pa·s
          {texture-windows[serum].least-yield}  | 1 Pa
          {product.kind} for {product.area}     | gel for face, hands
          {product.gum}                         | unknown
          {{{oil.share}}}                       | '{14 %}'
          100 }} {{                             | '100 } {'
          {process.time-hot * process.time-hot} | 5760000
          """)
  void messages(String template, String expected) {
    Workshop.MapFacts facts =
        new Workshop.MapFacts()
            .number("oil.share", 14)
            .number("gum.share", 1.2)
            .number("gel.oil-capacity", Bounded.of(Workshop.about(9.6, 1.9, "gum")))
            .number("water-phase.pH", Bounded.of(Workshop.about(5.2, 0.2, "raw materials")))
            .number("oil.yield-needed", Bounded.unknown(0, 3.2, Set.of("density")))
            .number("particle.yield-needed", Bounded.unknown(1, 3, Set.of("density")))
            .number(
                "process.peak-temperature",
                Bounded.unknown(0, Double.POSITIVE_INFINITY, Set.of("hob")))
            .number("process.time-hot", 2400)
            .number("gel.viscosity[10]", 5)
            .choice("product.kind", "gel")
            .choice("product.area", "hands", "face");
    CompiledRule rule = Workshop.compiled(Workshop.draft().message(template));
    assertEquals(expected, rule.message(facts, Subject.NONE));
  }

  @Test
  void aTraceShowsEveryPart() {
    CompiledRule rule =
        Workshop.compiled(
            Workshop.draft()
                .when("oil.share > 0 %")
                .require("oil.share <= 2 * gel.oil-capacity or\n  water-phase.pH < 5 pH"));
    Workshop.MapFacts facts =
        new Workshop.MapFacts().number("oil.share", 14).number("gel.oil-capacity", 5);
    Trace trace = rule.trace(facts, Subject.NONE);
    StringBuilder text = new StringBuilder();
    print(trace, "", text);
    assertEquals(
        """
        oil-load.above-capacity @18:5 =
          when @21:5 = true
            oil.share > 0 % @21:5 = true
              oil.share @21:5 = 14 %
              0 % @21:17 = 0 %
          require @22:5 = unknown missing [water-phase.pH]
            oil.share <= 2 * gel.oil-capacity or water-phase.pH < 5 pH @22:5 = unknown missing [water-phase.pH]
              oil.share <= 2 * gel.oil-capacity @22:5 = false
                oil.share @22:5 = 14 %
                2 * gel.oil-capacity @22:18 = 10 %
                  2 @22:18 = 2
                  gel.oil-capacity @22:22 = 5 %
              water-phase.pH < 5 pH @23:3 = unknown missing [water-phase.pH]
                water-phase.pH @23:3 = an unknown amount missing [water-phase.pH]
                5 pH @23:20 = 5.0
        """,
        text.toString());
  }

  private static void print(Trace trace, String indent, StringBuilder into) {
    into.append(indent)
        .append(trace.text())
        .append(" @")
        .append(trace.place().line())
        .append(':')
        .append(trace.place().column())
        .append(" =")
        .append(trace.value().isEmpty() ? "" : " " + trace.value())
        .append(trace.missing().isEmpty() ? "" : " missing " + trace.missing())
        .append('\n');
    trace.parts().forEach(part -> print(part, indent + "  ", into));
  }

  @Test
  void theUnitOfALimitIsTheOneWritten() {
    Workshop.MapFacts facts = new Workshop.MapFacts().number("oil.share", 14);
    Comparison comparison = assess("oil.share <= 400 ppm", facts).comparison().orElseThrow();
    assertEquals(Unit.PERCENT, comparison.observed().unit());
    assertEquals("400 ppm", comparison.limit().print());
  }
}
