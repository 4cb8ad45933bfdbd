package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.problem.Problem;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CheckerTest {
  @ParameterizedTest(name = "right: {0}")
  @ValueSource(
      strings = {
        "oil.share <= gel.oil-capacity",
        "oil.share > 0 % and emulsifier.share = 0 % and gum.share != 400 ppm",
        "oil.share + gum.share * 2 <= 30 %",
        "oil.share / gum.share <= 8",
        "2 * oil.share / gum.share within 1 .. 8",
        "gel.yield-stress >= max(oil.yield-needed, 12 Pa)",
        "gel.viscosity(10 /s) <= 5 Pa·s",
        "gel.viscosity(10 /s) * 10 /s <= 5 Pa",
        "gel.viscosity(2 * 10 /s) <= gel.viscosity-at-rest",
        "share-of(\"Citric Acid\") < 1 %",
        "share-of(product.gum) < 1 %",
        "share-of-all([Glycerin, \"Citric Acid\"]) < 1 %",
        "share-of-all(Glycerin) < 1 %",
        "water-phase.pH within 5 pH .. 5.8 pH",
        "process.peak-temperature <= 40 °C",
        "process.peak-temperature - room.temperature <= 5 K",
        "process.peak-temperature - 5 K <= room.temperature",
        "5 K + room.temperature > process.peak-temperature",
        "process.peak-temperature + 5 K <= 45 °C",
        "process.peak-temperature > -5 °C",
        "min(room.temperature, 40 °C) = 40 °C",
        "process.time-hot <= 1 h",
        "product.kind = gel",
        "gel-cream = product.kind",
        "product.kind != \"gel-cream\"",
        "product.kind in [gel, serum]",
        "product.area has face",
        "product.area has \"eye-area\"",
        "product.gum = \"Sclerotium Gum\"",
        "formula.has-water",
        "not formula.has-water or formula.is-buffered",
        "water-phase.pH is known",
        "texture-windows[product.texture].least-yield is unknown",
        "gel.viscosity(10 /s) is known",
        "(oil.share + gel.oil-capacity) is known",
        "formula.is-buffered is known",
        "gel.yield-stress >= texture-windows[product.texture].least-yield",
        "gel.yield-stress within texture-windows[serum].least-yield .."
            + " texture-windows[serum].most-yield",
        "texture-windows[product.texture].pack = jar",
        "texture-windows[serum].areas has face",
        "product.texture = product.kind",
      })
  void acceptsWhatIsRight(String written) {
    List<Problem> problems = new ArrayList<>();
    Workshop.check(written, problems);
    assertEquals("", Workshop.print(problems));
  }

  @ParameterizedTest(name = "{0}  ->  {2} at column {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      textBlock =
          """
          water-phase.pH <= 5 %                   | 5  | dimension        |
          water-phase.pH <= 5.5                   | 5  | dimension        | 5.5 pH
          oil.share > 0                           | 5  | dimension        | 0 %
          0 < oil.share                           | 5  | dimension        | 0 %
          oil.share + 5 Pa > 1 %                  | 5  | dimension        |
          1 % < oil.share + 5 Pa                  | 11 | dimension        |
          min(oil.share, 5 Pa) > 1 %              | 5  | dimension        |
          oil.share within 5 Pa .. 6 %            | 22 | dimension        |
          oil.share within 6 % .. 5 %             | 22 | within-reversed  | lower limit
          gel.viscosity(10 Pa) > 1 Pa·s           | 19 | dimension        |
          gel.viscosity(10) > 1 Pa·s              | 19 | dimension        | 10 /s
          gel.viscosity(10 /s) * 10 > 1 Pa        | 5  | dimension        |
          process.peak-temperature <= 5 K         | 5  | temperature      | 5 K
          process.peak-temperature + 40 °C > 5 °C | 5  | temperature      | 5 K
          5 K - room.temperature < 5 K            | 5  | temperature      | 5 K
          2 * room.temperature < 5 °C             | 5  | temperature      | 5 K
          -room.temperature < 5 °C                | 5  | temperature      | 5 K
          room.temperature / 2 < 5 °C             | 5  | temperature      | 5 K
          gel.yield-stress = 5 Pa                 | 5  | not-exact        | within
          oil.share = gel.oil-capacity            | 5  | not-exact        | within
          share-of(Aqua) != 1 %                   | 5  | not-exact        | within
          gel.yeild-stress > 5 Pa                 | 5  | unknown-name     | gel.yield-stress
          oil.shar > 5 % and gel.x is known       | 5  | unknown-name     | oil.share
          formula.has-watr                        | 5  | unknown-name     | formula.has-water
          product.knd = gel                       | 5  | unknown-name     | product.kind
          kind = gel                              | 5  | unknown-name     |
          water > 5 %                             | 5  | unknown-name     |
          5 % < water                             | 11 | unknown-name     |
          product.kind = gell                     | 20 | unknown-option   | gel
          product.kind = lamp                     | 20 | unknown-option   | gel-cream
          gell = product.kind                     | 5  | unknown-option   | gel
          product.kind in [gel, mst]              | 27 | unknown-option   | mist
          product.kind in [gel, gel]              | 27 | duplicate-name   |
          product.area has fase                   | 22 | unknown-option   | face
          product.area = face                     | 5  | type             | has
          product.kind has gel                    | 5  | type             | in
          product.area in [face]                  | 5  | type             | has
          product.kind = 5 %                      | 20 | type             |
          product.kind < gel                      | 5  | type             |
          product.kind + 5 % < 7 %                | 5  | type             |
          product.area has 5 %                    | 22 | type             |
          oil.share in [face]                     | 5  | type             |
          oil.share has face                      | 5  | type             |
          product.kind in [gel] < 5 %             | 27 | syntax           |
          oil.share                               | 5  | type             | Compare
          not oil.share                           | 9  | type             | Compare
          product.kind                            | 5  | type             |
          [face, hands]                           | 5  | type             |
          oil.share and product.kind = gel        | 5  | type             |
          formula.has-water = formula.is-buffered | 5  | type             |
          formula.has-water > 5 %                 | 5  | type             |
          5 % is known                            | 5  | type             |
          gel is known                            | 5  | unknown-name     |
          [gel] is known                          | 5  | type             |
          gel.viscocity(10 /s) > 1 Pa·s           | 5  | unknown-function | gel.viscosity
          oil.share(10 /s) > 1 Pa·s               | 5  | unknown-function | without parentheses
          gel.viscosity > 1 Pa·s                  | 5  | unknown-name     |
          share-of > 1 %                          | 5  | unknown-name     | function
          gel.viscosity() > 1 Pa·s                | 5  | arity            |
          gel.viscosity(1 /s, 2 /s) > 1 Pa·s      | 5  | arity            |
          min(oil.share) > 1 %                    | 5  | arity            |
          share-of(5 %) > 1 %                     | 14 | type             |
          share-of([a, b]) > 1 %                  | 14 | type             |
          share-of(product.area) > 1 %            | 14 | type             |
          gel.viscosity(gel) > 1 Pa·s             | 19 | unknown-name     |
          texture-window[serum].pack = jar        | 5  | unknown-table    | texture-windows
          texture-windows[serm].pack = jar        | 21 | unknown-row      | serum
          texture-windows[serum].pak = jar        | 28 | unknown-column   | pack
          texture-windows[oil.share].pack = jar   | 21 | type             |
          texture-windows[product.area].pack = jar | 21 | type            |
          texture-windows[serum].pack = jug       | 35 | unknown-option   | jar
          row.pack = jar                          | 5  | outside-for-each | row of TABLE
          preservative.share > 1 %                | 5  | outside-for-each | for each: preservative
          preservative.name = x                   | 5  | outside-for-each | for each: preservative
          preservative.shar > 1 %                 | 5  | unknown-name     |
          """)
  void saysWhereAndWhy(String written, int column, String code, String hint) {
    List<Problem> problems = new ArrayList<>();
    assertTrue(Workshop.check(written, problems).isEmpty());
    Problem problem = problems.get(0);
    assertEquals(code, problem.code(), problem::toString);
    assertEquals(column, problem.place().column(), problem::toString);
    if (hint != null) {
      assertTrue(problem.hint().contains(hint), problem::toString);
    }
  }

  @Test
  void aDimensionErrorReadsLikeThis() {
    List<Problem> problems = new ArrayList<>();
    Workshop.check("water-phase.pH <= 5 %", problems);
    assertEquals(
        "house.yaml:10:5: 'water-phase.pH' is a pH (pH) and '5 %' is a share (%): they cannot be"
            + " compared. [dimension]",
        Workshop.print(problems));
  }

  @Test
  void allProblemsOfAnExpressionComeAtOnce() {
    List<Problem> problems = new ArrayList<>();
    Workshop.check(
        "oil.shar > 5 %\n and product.kind = gell\n or texture-windows[serm].pak = jar\n"
            + " or gel.viscosity(gum.shar, 1 %) > 5",
        problems);
    assertEquals(
        List.of(
            "10:unknown-name",
            "11:unknown-option",
            "12:unknown-row",
            "12:unknown-column",
            "13:unknown-name",
            "13:arity"),
        problems.stream().map(p -> p.place().line() + ":" + p.code()).toList());
  }

  @Test
  void aKindOfItemIsOnlySeenInItsOwnForEach() {
    List<Problem> problems = new ArrayList<>();
    Checker.Context context = Workshop.items("preservative");
    for (String right :
        List.of(
            "preservative.share > 1 %",
            "preservative.functions has preservative",
            "preservative.is-lawful and oil.share > 1 %",
            "preservative.name = \"Sodium Benzoate\"",
            "share-of(preservative.name) > 1 %",
            "texture-windows[preservative.group].least-yield > 1 Pa",
            // A property of the formula whose first word is a kind of item.
            "particle.yield-needed < 5 Pa")) {
      assertTrue(
          Workshop.check(right, context, problems).isPresent(), () -> Workshop.print(problems));
    }
    Workshop.check("preservative.shares > 1 %", context, problems);
    Workshop.check("step.peak > 40 °C", context, problems);
    assertEquals(
        List.of(
            "unknown-name Did you mean preservative.share or preservative.name?",
            "outside-for-each Add 'for each: step'."),
        problems.stream().map(p -> p.code() + " " + p.hint()).toList());
  }

  @Test
  void aRowIsSeenByItsColumns() {
    List<Problem> problems = new ArrayList<>();
    Checker.Context context = new Checker.Context.Rows(Workshop.WINDOWS);
    for (String right :
        List.of(
            "row.least-yield > 1 Pa",
            "row.areas has face",
            "product.texture = row.key",
            "product.area has face and row.pack = jar")) {
      assertTrue(
          Workshop.check(right, context, problems).isPresent(), () -> Workshop.print(problems));
    }
    Workshop.check("row.least-yeld > 1 Pa", context, problems);
    Workshop.check("row.key = gel", context, problems);
    assertEquals(
        List.of("9 unknown-column", "15 unknown-option"),
        problems.stream().map(p -> p.place().column() + " " + p.code()).toList());
  }
}
