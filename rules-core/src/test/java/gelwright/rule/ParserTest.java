package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertDoesNotThrow;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.problem.Problem;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ParserTest {
  private static String print(String text) {
    List<Problem> problems = new ArrayList<>();
    return Parser.parse(Workshop.text(text), problems)
        .map(Syntax::print)
        .orElseGet(() -> problems.get(0).toString());
  }

  @ParameterizedTest(name = "{0}  ->  {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      textBlock =
          """
          a                                | a
          oil.share<=9.6%                  | oil.share <= 9.6 %
          x > 12 Pa                        | x > 12 Pa
          x > 12.0Pa                       | x > 12 Pa
          x < 40 °C                        | x < 40 °C
          x < -5 °C                        | x < -5 °C
          x < - 5 K                        | x < -5 K
          f(10 /s)                         | f(10 /s)
          f(10 1/s)                        | f(10 /s)
          f(10/s)                          | f(10 /s)
          x >= 0.2 mol/kg                  | x >= 0.2 mol/kg
          x >= 0.2 % w/w                   | x >= 0.2 %
          x >= 35 min                      | x >= 35 min
          x >= 35 minutes and y            | x >= 35 min and y
          x = 3 m                          | x = 3 m
          x within 5..6                    | x within 5 .. 6
          x within a.b .. c.d              | x within a.b .. c.d
          x within 5 pH..5.8 pH            | x within 5 pH .. 5.8 pH
          x in [a, b-c, \"D E\"]           | x in [a, b-c, "D E"]
          x has face                       | x has face
          x has \"Citric Acid\"            | x has "Citric Acid"
          x is known                       | x is known
          x is unknown                     | x is unknown
          a and b or c and d               | a and b or c and d
          a and (b or c) and d             | a and (b or c) and d
          (a and b) and c                  | (a and b) and c
          not a and b                      | not a and b
          not (a and b)                    | not (a and b)
          not not a                        | not not a
          not x > 5                        | not x > 5
          a + b - c                        | a + b - c
          a - (b - c)                      | a - (b - c)
          (a - b) - c                      | a - b - c
          a + b * c                        | a + b * c
          (a + b) * c                      | (a + b) * c
          a / (b * c)                      | a / (b * c)
          a / b * c                        | a / b * c
          -a * b                           | -a * b
          -(a * b)                         | -(a * b)
          -(-a)                            | --a
          a - -b                           | a - -b
          5 % - 3 %                        | 5 % - 3 %
          5 %-3 %                          | 5 % - 3 %
          (a) - b                          | a - b
          f(a) -b                          | f(a) - b
          min(a, max(b, 3 %)) <= c         | min(a, max(b, 3 %)) <= c
          t[p.q].least-yield <= x          | t[p.q].least-yield <= x
          t[serum].c + t[\"x y\"].d        | t[serum].c + t["x y"].d
          f([a, b]) > 1 %                  | f([a, b]) > 1 %
          12 / h                           | 12 / h
          3 * months-left                  | 3 * months-left
          in-use                           | in-use
          note                             | note
          isolate                          | isolate
          """)
  void parsesAndPrints(String written, String printed) {
    String text = written.replace("\\\"", "\"");
    assertEquals(printed, print(text));
    assertEquals(printed, print(printed), "what is printed reads as the same");
  }

  @ParameterizedTest(name = "{0}  ->  {2} at column {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '\'',
      textBlock =
          """
          a -b             | 7  | minus-spacing  | a - b
          a- b             | 6  | minus-spacing  | a - b
          a.b -3 %         | 9  | minus-spacing  | a - b
          x == 5           | 8  | syntax         |
          x = = 5          | 9  | syntax         | one '='
          x && y           | 7  | syntax         | 'and'
          x ≤ 5 %          | 7  | syntax         | '<='
          x > 0,5 %        | 10 | syntax         | decimal point
          x > 5 pct        | 11 | unknown-unit   |
          x > 5 Pq         | 11 | unknown-unit   | Pa
          x > 5 minz       | 11 | unknown-unit   | min
          5 % < x < 7 %    | 13 | syntax         | within
          x within 5 and 6 | 16 | syntax         |
          x in face        | 10 | syntax         |
          x in []          | 11 | syntax         |
          x is cold        | 10 | syntax         |
          (x               | 5  | syntax         | ')'
          f(x              | 6  | syntax         | ')'
          t[x.c            | 6  | syntax         | ']'
          t[x]             | 9  | syntax         |
          x > \"abc        | 9  | syntax         |
          x = \"\"         | 9  | syntax         |
          x >              | 8  | syntax         |
          and x            | 5  | syntax         |
          x and            | 10 | syntax         |
          x y              | 7  | syntax         |
          x AND y          | 7  | syntax         | 'and'
          x ) y            | 7  | syntax         |
          1234567890123456789 > x | 5 | syntax    |
          """)
  void saysWhereAndWhy(String written, int column, String code, String hint) {
    List<Problem> problems = new ArrayList<>();
    assertTrue(Parser.parse(Workshop.text(written.replace("\\\"", "\"")), problems).isEmpty());
    assertEquals(1, problems.size());
    Problem problem = problems.get(0);
    assertEquals(code, problem.code(), problem::toString);
    assertEquals(column, problem.place().column(), problem::toString);
    assertEquals(10, problem.place().line());
    if (hint != null) {
      assertTrue(problem.hint().contains(hint), problem::toString);
    }
  }

  @Test
  void theSignsOfOtherLanguagesGetAHint() {
    List<Problem> problems = new ArrayList<>();
    Parser.parse(Workshop.text("x || y"), problems);
    assertEquals("Write 'or'.", problems.get(0).hint());
  }

  @Test
  void aTextOfSeveralLinesGoesOnBelow() {
    List<Problem> problems = new ArrayList<>();
    Parser.parse(Workshop.text("a > 5 %\n  and b >\n  5 pct"), problems);
    assertEquals(12, problems.get(0).place().line());
    assertEquals(5, problems.get(0).place().column());
  }

  @Test
  void emptyTextIsAProblem() {
    for (String text : List.of("", "  \n ")) {
      List<Problem> problems = new ArrayList<>();
      assertTrue(Parser.parse(Workshop.text(text), problems).isEmpty());
      assertEquals("syntax", problems.get(0).code());
    }
  }

  private static String code(String text) {
    List<Problem> problems = new ArrayList<>();
    Parser.parse(Workshop.text(text), problems);
    return problems.isEmpty() ? "fine" : problems.get(0).code();
  }

  @Test
  void boundsAreReportedNotHit() {
    assertEquals("fine", code("(".repeat(49) + "a" + ")".repeat(49)));
    assertEquals("too-deep", code("(".repeat(50) + "a" + ")".repeat(50)));
    assertEquals("too-deep", code("(".repeat(1999)));
    assertEquals("too-deep", code("not ".repeat(499)));
    assertEquals("too-deep", code("- ".repeat(990) + "a"));
    assertEquals("too-deep", code("f(".repeat(600)));
    assertEquals("too-deep", code("t[".repeat(600)));
    assertEquals("too-many-parts", code("a" + "+a".repeat(400)));
    assertEquals("too-many-parts", code("a" + "*a".repeat(600)));
    assertEquals("too-long", code("a" + " ".repeat(2000)));
    assertEquals("fine", code("a" + " ".repeat(1999)));
    assertEquals("fine", code("a" + " and a".repeat(300)));
  }

  @Test
  void anyTextIsReadOrReported() {
    long seed = Seeds.seed();
    Random random = new Random(seed);
    String[] pieces = {
      "oil.share",
      "gel.viscosity",
      "product.kind",
      "and",
      "or",
      "not",
      "within",
      "in",
      "has",
      "is",
      "known",
      "unknown",
      "(",
      ")",
      "[",
      "]",
      ",",
      ".",
      "..",
      "\"",
      "<",
      "<=",
      ">",
      ">=",
      "=",
      "!=",
      "+",
      "-",
      "*",
      "/",
      "5",
      "0.2",
      "%",
      "Pa",
      "°C",
      "/s",
      "mol/kg",
      " ",
      " ",
      " ",
      " ",
      "\n",
      "min",
      "max",
      "row",
      "texture-windows",
      "preservative.share",
      "\u0000",
      "\ud83d",
      "é",
      "{",
      "}"
    };
    for (int i = 0; i < 10_000; i++) {
      StringBuilder text = new StringBuilder();
      int length = random.nextInt(25);
      for (int j = 0; j < length; j++) {
        text.append(
            random.nextInt(8) == 0
                ? String.valueOf((char) random.nextInt(0x250))
                : pieces[random.nextInt(pieces.length)]);
      }
      String written = text.toString();
      List<Problem> problems = new ArrayList<>();
      assertDoesNotThrow(
          () -> {
            boolean read = Workshop.check(written, problems).isPresent();
            assertTrue(read == problems.isEmpty(), written);
            Workshop.compile(Workshop.draft().message(written).forEach("preservative"));
          },
          () -> "seed " + seed + ": " + written);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"5 s-1", "5 s^-1", "5 s⁻¹", "5 /s", "5/s", "5 1/s"})
  void shearRatesAreReadInEveryWriting(String written) {
    assertEquals("5 /s", print(written));
  }
}
