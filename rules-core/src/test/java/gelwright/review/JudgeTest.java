package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import gelwright.quantity.Odds;
import gelwright.rule.Severity;
import gelwright.rule.Truth;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The whole table of what becomes of a rule, as the design of the outcomes states it. */
@DisplayName("what becomes of a rule")
final class JudgeTest {
  private static Truth truth(String word, String missing) {
    return switch (word) {
      case "certain" -> Truth.CERTAIN;
      case "impossible" -> Truth.IMPOSSIBLE;
      case "nearly-certain" -> new Truth(Odds.of(0.95), Set.of());
      case "nearly-impossible" -> new Truth(Odds.of(0.05), Set.of());
      case "borderline" -> new Truth(Odds.of(0.6), Set.of());
      case "unknown" -> Truth.open(Set.of(missing));
      case "unknown-but-met" -> new Truth(new Odds(0.96, 1), Set.of(missing));
      case "unknown-but-broken" -> new Truth(new Odds(0, 0.04), Set.of(missing));
      default -> throw new IllegalArgumentException(word);
    };
  }

  @ParameterizedTest(name = "applies {0}, met {1} -> {2}")
  @CsvSource({
    "certain,            certain,             HOLDS,          ''",
    "certain,            nearly-certain,      HOLDS,          ''",
    "certain,            unknown-but-met,     HOLDS,          ''",
    "certain,            borderline,          BORDERLINE,     ''",
    "certain,            unknown,             UNKNOWN,        met",
    "certain,            nearly-impossible,   BREAKS,         ''",
    "certain,            unknown-but-broken,  BREAKS,         ''",
    "certain,            impossible,          BREAKS,         ''",
    "nearly-certain,     certain,             HOLDS,          ''",
    "nearly-certain,     borderline,          BORDERLINE,     ''",
    "nearly-certain,     unknown,             UNKNOWN,        met",
    "nearly-certain,     impossible,          BREAKS,         ''",
    "borderline,         certain,             HOLDS,          ''",
    "borderline,         nearly-certain,      HOLDS,          ''",
    "borderline,         unknown-but-met,     HOLDS,          ''",
    "borderline,         borderline,          BORDERLINE,     ''",
    "borderline,         unknown,             UNKNOWN,        met",
    "borderline,         unknown-but-broken,  BORDERLINE,     ''",
    "borderline,         nearly-impossible,   BORDERLINE,     ''",
    "borderline,         impossible,          BORDERLINE,     ''",
    "unknown,            certain,             UNKNOWN,        applies",
    "unknown,            nearly-certain,      UNKNOWN,        applies",
    "unknown,            borderline,          UNKNOWN,        applies",
    "unknown,            unknown,             UNKNOWN,        applies+met",
    "unknown,            impossible,          UNKNOWN,        applies",
    "nearly-impossible,  certain,             NOT_APPLICABLE, ''",
    "nearly-impossible,  unknown,             NOT_APPLICABLE, ''",
    "nearly-impossible,  impossible,          NOT_APPLICABLE, ''",
    "impossible,         certain,             NOT_APPLICABLE, ''",
    "impossible,         borderline,          NOT_APPLICABLE, ''",
    "impossible,         unknown,             NOT_APPLICABLE, ''",
    "impossible,         impossible,          NOT_APPLICABLE, ''",
  })
  @DisplayName("requirement")
  void requirement(String applies, String met, Outcome outcome, String missing) {
    Judge.Judged judged = Judge.requirement(truth(applies, "applies"), truth(met, "met"));

    assertAll(
        () -> assertEquals(outcome, judged.outcome()),
        () -> assertEquals(missing, String.join("+", judged.verdict().missing())));
  }

  @ParameterizedTest(name = "applies {0} -> {1}")
  @CsvSource({
    "certain,            APPLIES,        ''",
    "nearly-certain,     APPLIES,        ''",
    "unknown-but-met,    APPLIES,        applies",
    "borderline,         MAY_APPLY,      ''",
    "unknown,            MAY_APPLY,      applies",
    "nearly-impossible,  DOES_NOT_APPLY, ''",
    "impossible,         DOES_NOT_APPLY, ''",
  })
  @DisplayName("duty without anything to check")
  void duty(String applies, Outcome outcome, String missing) {
    Judge.Judged judged = Judge.duty(truth(applies, "applies"));

    assertEquals(outcome, judged.outcome());
    assertEquals(
        outcome == Outcome.MAY_APPLY ? missing : "", String.join("+", judged.verdict().missing()));
  }

  @ParameterizedTest(name = "{0} at odds {1} of a(n) {2}, must-be-known {3}, keep {4} -> {5}")
  @CsvSource({
    "BREAKS,     0.01, ERROR,   false, false, ERROR",
    "BREAKS,     0.01, NOTE,    false, false, NOTE",
    "BORDERLINE, 0.49, ERROR,   false, false, WARNING",
    "BORDERLINE, 0.49, WARNING, false, false, NOTE",
    "BORDERLINE, 0.49, NOTE,    false, false, NOTE",
    "BORDERLINE, 0.49, ERROR,   false, true,  ERROR",
    "BORDERLINE, 0.49, WARNING, false, true,  WARNING",
    "BORDERLINE, 0.5,  ERROR,   false, false, NOTE",
    "BORDERLINE, 0.94, ERROR,   false, true,  NOTE",
    "UNKNOWN,    0.5,  ERROR,   false, false, NOTE",
    "UNKNOWN,    0.5,  ERROR,   true,  false, ERROR",
    "UNKNOWN,    0.5,  WARNING, true,  true,  WARNING",
    "HOLDS,      1,    ERROR,   true,  true,  NOTE",
  })
  @DisplayName("level")
  void level(
      Outcome outcome,
      double odds,
      Severity severity,
      boolean known,
      boolean keep,
      Severity level) {
    assertEquals(level, Judge.level(outcome, Odds.of(odds), severity, known, keep));
  }

  @Test
  @DisplayName("outcomes from the worst to the mildest: a rule is as bad as its worst subject")
  void order() {
    List<Outcome> sorted =
        Arrays.stream(Outcome.values()).sorted(Comparator.comparingInt(Judge::rank)).toList();

    assertEquals(
        List.of(
            Outcome.BREAKS,
            Outcome.BORDERLINE,
            Outcome.UNKNOWN,
            Outcome.APPLIES,
            Outcome.MAY_APPLY,
            Outcome.HOLDS,
            Outcome.DOES_NOT_APPLY,
            Outcome.NOT_APPLICABLE),
        sorted);
  }

  @Test
  @DisplayName("a condition that is 60 % likely and a requirement that breaks -> odds from 40 %")
  void oddsOfTheTwo() {
    Judge.Judged judged = Judge.requirement(truth("borderline", ""), Truth.IMPOSSIBLE);

    assertEquals(0.4, judged.odds().low(), 1e-12);
    assertEquals(0.4, judged.odds().high(), 1e-12);
  }
}
