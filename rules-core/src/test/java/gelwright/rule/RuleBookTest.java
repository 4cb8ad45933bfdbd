package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class RuleBookTest {
  private static List<String> found(Compilation compilation) {
    assertEquals(compilation.problems().isEmpty(), compilation.book().isPresent());
    return compilation.problems().stream()
        .map(p -> p.place().line() + ":" + p.place().column() + " " + p.code())
        .toList();
  }

  private static Compilation compile(RuleSet... sets) {
    return RuleBook.compile(List.of(sets), Workshop.VOCABULARY, Workshop.SOURCES);
  }

  private static RuleSet set(String id, Workshop.Draft... rules) {
    return Workshop.set(id, List.of(), List.of(), rules);
  }

  private static Workshop.Draft draft() {
    return Workshop.draft();
  }

  static Stream<Named<Map.Entry<Workshop.Draft, List<String>>>> mistakes() {
    return Stream.of(
        mistake("no title", draft().title(" "), "18:5 missing-title"),
        mistake("no message", draft().message(""), "18:5 missing-message"),
        mistake("no lesson", draft().lesson(""), "18:5 missing-lesson"),
        mistake("no source", draft().sources(), "18:5 missing-source"),
        mistake("unknown source", draft().sources("workshop-practise"), "25:5 unknown-source"),
        mistake("requires nothing", draft().requireNothing(), "18:5 missing-require"),
        mistake("duty without when", draft().duty().requireNothing(), "18:5 missing-when"),
        mistake("id with capitals", draft().id("AboveCapacity"), "18:5 id"),
        mistake("unknown kind", draft().forEach("presservative"), "20:5 unknown-kind"),
        mistake("unknown table", draft().forEach("row of texture"), "20:12 unknown-table"),
        mistake(
            "unknown kind and a condition not understood",
            draft().forEach("soup").when("oil.share >").require("oil.share > > 5 %"),
            "20:5 unknown-kind",
            "21:16 syntax",
            "22:17 syntax"),
        mistake("condition that is none", draft().when("oil.share"), "21:5 type"),
        mistake("lever that is none", draft().lever("rase oil.share"), "24:5 lever"),
        mistake("lever of nothing", draft().lever("raise"), "24:5 lever"),
        mistake("lever of no property", draft().lever("lower  oil.shar"), "24:12 unknown-name"),
        mistake("brace not closed", draft().message("a {oil.share"), "23:7 template"),
        mistake("brace closes nothing", draft().message("a } b"), "23:7 template"),
        mistake("brace in a brace", draft().message("{a {oil.share}}"), "23:5 template"),
        mistake("empty braces", draft().message("{}"), "23:6 syntax"),
        mistake(
            "condition in a message", draft().message("{oil.share > 5 %}"), "23:6 not-printable"),
        mistake("name in a message", draft().message("{\"Aqua\"}"), "23:6 unknown-name"),
        mistake("misspelt in a message", draft().message("of {oil.shar}"), "23:9 unknown-name"),
        mistake(
            "item in a message", draft().message("{preservative.name}"), "23:6 outside-for-each"),
        mistake(
            "several at once",
            draft().when("oil.shar > 5 %").require("gum.share > 5").message("{x}").sources("y"),
            "21:5 unknown-name",
            "22:5 dimension",
            "23:6 unknown-name",
            "25:5 unknown-source"),
        mistake("can be unknown", draft().alwaysKnown(), "18:5 can-be-unknown"),
        mistake("earlier id is its own", draft().aliases("above-capacity"), "18:5 duplicate-rule"));
  }

  private static Named<Map.Entry<Workshop.Draft, List<String>>> mistake(
      String name, Workshop.Draft draft, String... expected) {
    return Named.of(name, Map.entry(draft, List.of(expected)));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("mistakes")
  void saysWhatIsWrongWithARule(Map.Entry<Workshop.Draft, List<String>> row) {
    assertEquals(row.getValue(), found(Workshop.compile(row.getKey())));
  }

  @ParameterizedTest(name = "lever: {0}")
  @CsvSource({
    "raise gum.share",
    "lower share of Squalane",
    "change step.temperature",
    "change pH",
    "lower preservative.share",
    "replace preservative",
    "reorder steps"
  })
  void acceptsLevers(String lever) {
    assertEquals(List.of(), found(Workshop.compile(draft().lever(lever))));
  }

  @Test
  void whatCanBeUnknownIsNamed() {
    Problem problem = Workshop.compile(draft().alwaysKnown()).problems().get(0);
    assertTrue(problem.message().contains("gel.oil-capacity"), problem::toString);
    assertFalse(problem.message().contains("oil.share"), problem::toString);
  }

  @ParameterizedTest(name = "{0} | {1} -> always known: {2}")
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      quoteCharacter = '\'',
      textBlock =
          """
          -                     | oil.share <= 20 %                                   | true
          -                     | oil.share <= gel.oil-capacity                       | false
          -                     | gel.oil-capacity is known                           | true
          -                     | gel.oil-capacity is known and gel.oil-capacity < 5 % | false
          -                     | formula.has-water and product.kind = gel            | true
          -                     | formula.is-buffered                                 | false
          -                     | share-of(Aqua) < 5 %                                | false
          -                     | oil.share / gum.share < 5                           | false
          -                     | oil.share / 2 < 5 %                                 | true
          -                     | oil.share / 0 < 5 %                                 | false
          -                     | texture-windows[serum].most-yield > 1 Pa            | true
          -                     | texture-windows[soft-gel].most-yield > 1 Pa         | false
          -                     | texture-windows[product.kind].least-yield > 1 Pa    | false
          row of texture-windows | row.least-yield > 1 Pa                             | true
          row of texture-windows | row.pack = jar                                     | true
          row of texture-windows | row.most-yield > 1 Pa                              | false
          row of texture-windows | row.areas has face                                 | false
          step                  | step.peak < 40 °C                                   | true
          preservative          | preservative.share < 1 %                            | false
          preservative          | preservative.name = x                               | false
          """)
  void alwaysKnownIsProved(String forEach, String require, boolean known) {
    Supplier<Workshop.Draft> rule =
        () -> {
          Workshop.Draft draft = draft().require(require);
          return forEach == null ? draft : draft.forEach(forEach);
        };
    assertEquals(known, Workshop.compiled(rule.get()).alwaysKnown());
    assertEquals(
        known ? List.of() : List.of("18:5 can-be-unknown"),
        found(Workshop.compile(rule.get().alwaysKnown())));
  }

  @Test
  void aBookListsItsRulesInOrder() {
    Compilation compilation =
        compile(
            set("oil-load", draft(), draft().id("other").aliases("older")),
            set("feel", draft().id("tack").when("formula.is-buffered")));
    RuleBook book = compilation.book().orElseThrow();
    assertEquals(
        List.of("oil-load.above-capacity", "oil-load.other", "feel.tack"),
        book.rules().stream().map(CompiledRule::id).toList());
    assertEquals(List.of("feel", "oil-load"), List.copyOf(book.editions().keySet()));
    assertEquals("oil-load.other", book.rule("oil-load.older").orElseThrow().id());
    assertTrue(book.rule("oil-load.oldest").isEmpty());
    assertEquals(
        List.of("formula.is-buffered", "gel.oil-capacity", "oil.share"),
        List.copyOf(book.rule("feel.tack").orElseThrow().inputs()));
    assertThrows(UnsupportedOperationException.class, () -> book.rules().clear());
    assertThrows(UnsupportedOperationException.class, () -> book.editions().clear());
  }

  @Test
  void noRulesIsAnEmptyBook() {
    assertEquals(List.of(), compile().book().orElseThrow().rules());
  }

  @Test
  void aDutyMayRequireNothing() {
    CompiledRule duty = Workshop.compiled(draft().duty().when("oil.share > 1 %").requireNothing());
    assertFalse(duty.hasRequirement());
    assertEquals(
        Truth.CERTAIN, duty.when(new Workshop.MapFacts().number("oil.share", 2), Subject.NONE));
    assertThrows(
        IllegalArgumentException.class, () -> duty.require(new Workshop.MapFacts(), Subject.NONE));
    CompiledRule checked =
        Workshop.compiled(draft().duty().when("oil.share > 1 %").require("gum.share > 1 %"));
    assertTrue(checked.hasRequirement());
  }

  @Test
  void duplicatesAreFoundAcrossSets() {
    Table table = Workshop.WINDOWS;
    RuleSet a = Workshop.set("oil-load", List.of(table), List.of(), draft(), draft());
    RuleSet b =
        Workshop.set(
            "oil-load", List.of(table), List.of(), draft().id("new").aliases("above-capacity"));
    assertEquals(
        List.of(
            "1:5 duplicate-rule-set",
            "18:5 duplicate-rule",
            "18:5 duplicate-rule",
            "90:5 duplicate-table"),
        found(compile(a, b)));
  }

  @Test
  void tablesAreChecked() {
    Table table =
        new Table(
            "Windows",
            Map.of(
                "least", new Table.Column("least", Workshop.STRESS),
                "pack", new Table.Column("pack", new Type.Choice(Set.of("jar", "pump"))),
                "sure", new Table.Column("sure", new Type.Truth())),
            List.of(
                Workshop.row("a", Map.of("least", Workshop.number("5 %"))),
                Workshop.row("b", Map.of("least", Workshop.names("jar"))),
                Workshop.row("c", Map.of("pack", Workshop.number("5 Pa"))),
                Workshop.row("d", Map.of("pack", Workshop.names("jarr"))),
                Workshop.row("e", Map.of("pack", Workshop.names("jar", "pump"))),
                Workshop.row("f", Map.of("pak", Workshop.names("jar"))),
                Workshop.row("f", Map.of()),
                Workshop.row(" ", Map.of()),
                new Table.Row(
                    "g", Map.of(), List.of(new Text("nowhere", Workshop.at(95))), Workshop.at(94))),
            Workshop.at(90));
    RuleSet set = Workshop.set("oil-load", List.of(table), List.of(), draft());
    assertEquals(
        List.of(
            "90:5 id",
            "90:5 table-cell",
            "91:5 duplicate-row",
            "91:5 missing-key",
            "91:5 table-cell",
            "91:5 table-cell",
            "91:5 table-cell",
            "91:5 table-cell",
            "91:5 unknown-column",
            "91:5 unknown-option",
            "95:5 unknown-source"),
        found(compile(set)));
  }

  // Changes by a house

  private static RuleSet.Change change(
      String rule, RuleSet.How how, String require, String when, String severity, String because) {
    return new RuleSet.Change(
        new Text(rule, Workshop.at(40)),
        how,
        Optional.ofNullable(require).map(text -> new Text(text, Workshop.at(41))),
        Optional.ofNullable(when).map(text -> new Text(text, Workshop.at(42))),
        Optional.ofNullable(severity).map(word -> Severity.of(word).orElseThrow()),
        because);
  }

  private static Compilation changed(RuleSet.Change... changes) {
    return compile(
        set("oil-load", draft().aliases("older"), draft().id("per-gum").forEach("preservative")),
        Workshop.set("house", List.of(), List.of(changes)));
  }

  @ParameterizedTest(name = "{0} {1} require {2} when {3} severity {4} because {5} -> {6}")
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      textBlock =
          """
          oil-load.above-capacity | TIGHTEN    | oil.share <= 5 %  | -               | -       | tin  | -
          oil-load.older          | TIGHTEN    | oil.share <= 5 %  | -               | -       | tin  | -
          oil-load.above-capacity | TIGHTEN    | -                 | -               | error   | tin  | -
          oil-load.above-capacity | TIGHTEN    | -                 | -               | warning | tin  | -
          oil-load.above-capacity | RELAX      | -                 | oil.share > 2 % | note    | tin  | -
          oil-load.above-capacity | SWITCH_OFF | -                 | -               | -       | tin  | -
          oil-load.per-gum        | RELAX      | preservative.share < 1 % | -        | -       | tin  | -
          oil-load.above-capacity | RELAX      | preservative.share < 1 % | -        | -       | tin  | 41:5 outside-for-each
          oil-load.above-capacity | TIGHTEN    | oil.share <= 5 Pa | oil.shar > 2 %  | -       | tin  | 41:5 dimension, 42:5 unknown-name
          oil-load.above-capacity | TIGHTEN    | -                 | -               | note    | tin  | 40:5 change-direction
          oil-load.above-capacity | RELAX      | -                 | -               | error   | tin  | 40:5 change-direction
          oil-load.above-capacity | RELAX      | -                 | -               | -       | tin  | 40:5 change-direction
          oil-load.above-capacity | SWITCH_OFF | oil.share <= 5 %  | -               | -       | tin  | 40:5 change-direction
          oil-load.above-capacity | RELAX      | oil.share <= 5 %  | -               | -       | ''   | 40:5 change-without-reason
          oil-load.above-capacty  | SWITCH_OFF | -                 | -               | -       | tin  | 40:5 unknown-rule
          """)
  void changesAreChecked(
      String rule,
      RuleSet.How how,
      String require,
      String when,
      String severity,
      String because,
      String expected) {
    Compilation compilation = changed(change(rule, how, require, when, severity, because));
    assertEquals(expected == null ? List.of() : List.of(expected.split(", ")), found(compilation));
  }

  @Test
  void aMisspeltRuleInAChangeGetsAHint() {
    Compilation compilation =
        changed(change("oil-load.above-capacty", RuleSet.How.SWITCH_OFF, null, null, null, "tin"));
    assertEquals("Did you mean oil-load.above-capacity?", compilation.problems().get(0).hint());
  }

  @Test
  void twoChangesOfOneRuleAreRefused() {
    RuleSet.Change off =
        change("oil-load.above-capacity", RuleSet.How.SWITCH_OFF, null, null, null, "tin");
    RuleSet.Change again = change("oil-load.older", RuleSet.How.SWITCH_OFF, null, null, null, "x");
    assertEquals(List.of("40:5 duplicate-change"), found(changed(off, again)));
  }

  @Test
  void aSetDoesNotChangeItsOwnRules() {
    RuleSet.Change own = change("house.mine", RuleSet.How.SWITCH_OFF, null, null, null, "tin");
    RuleSet house = Workshop.set("house", List.of(), List.of(own), draft().id("mine"));
    assertEquals(List.of("40:5 change-of-own-rule"), found(compile(house)));
  }

  @Test
  void aChangeTakesEffect() {
    RuleBook book =
        changed(
                change(
                    "oil-load.above-capacity",
                    RuleSet.How.TIGHTEN,
                    "oil.share <= 5 %",
                    "oil.share > 1 %",
                    "error",
                    "our tubes leak"),
                change("oil-load.per-gum", RuleSet.How.SWITCH_OFF, null, null, null, "not ours"))
            .book()
            .orElseThrow();
    assertEquals(Map.of("oil-load.per-gum", "not ours"), book.switchedOff());
    assertEquals(1, book.rules().size());
    assertTrue(book.rule("oil-load.per-gum").isEmpty());
    CompiledRule rule = book.rules().get(0);
    assertEquals(Severity.ERROR, rule.severity());
    assertEquals("our tubes leak", rule.change().orElseThrow().because());
    assertTrue(rule.alwaysKnown());
    Workshop.MapFacts facts = new Workshop.MapFacts().number("oil.share", 6);
    assertEquals(Truth.CERTAIN, rule.when(facts, Subject.NONE));
    Assessment assessment = rule.require(facts, Subject.NONE);
    assertEquals(Truth.IMPOSSIBLE, assessment.truth());
    assertEquals("5 %", assessment.comparison().orElseThrow().limit().print());
    assertEquals(41, rule.trace(facts, Subject.NONE).parts().get(1).place().line());
  }

  @Test
  void theSoundPartHasTheSoundRulesAndNoOthers() {
    Table table =
        new Table(
            "shelves",
            Map.of("shelf", new Table.Column("shelf", new Type.Choice(Set.of()))),
            List.of(new Table.Row("", Map.of(), List.of(), Workshop.at(91))),
            Workshop.at(90));
    RuleSet.Change lower =
        change("plain.eased", RuleSet.How.TIGHTEN, null, null, "note", "it is tightened");
    RuleSet plain =
        set(
            "plain",
            draft().id("sound"),
            draft().id("eased"),
            draft().id("twice"),
            draft().id("twice"),
            draft().id("misspelt").when("oil.shar > 1 %"),
            draft().id("without-lesson").lesson(" "));
    RuleSet house =
        Workshop.set(
            "house",
            List.of(table),
            List.of(lower),
            draft().id("over-a-bad-table").forEach("row of shelves"),
            draft().id("mine"));
    RuleBook.SoundPart part =
        RuleBook.soundPart(List.of(plain, house), Workshop.VOCABULARY, Workshop.SOURCES);
    assertEquals(
        List.of("plain.sound", "house.mine"),
        part.book().rules().stream().map(CompiledRule::id).toList());
    assertTrue(part.book().rule("plain.twice").isEmpty());
    assertEquals(compile(plain, house).problems(), part.problems());
    assertTrue(compile(plain, house).book().isEmpty());
    assertEquals(
        Set.of(
            "change-direction", "duplicate-rule", "missing-key", "missing-lesson", "unknown-name"),
        part.problems().stream().map(Problem::code).collect(java.util.stream.Collectors.toSet()));
  }
}
