package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.problem.Problem;
import gelwright.quantity.Odds;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Random conditions: the two evaluators agree, and knowing more never turns a decided outcome. */
class AgreementTest {
  private static Term.OfTruth check(String condition) {
    List<Problem> problems = new ArrayList<>();
    return Workshop.check(condition, problems)
        .orElseThrow(() -> new AssertionError(condition + "\n" + Workshop.print(problems)));
  }

  @Test
  void compiledRulesAndTheTreeWalkAgree() {
    long seed = Seeds.seed();
    Random random = new Random(seed);
    RandomConditions conditions = new RandomConditions(random, true);
    Map<Odds.Verdict, Integer> verdicts = new EnumMap<>(Odds.Verdict.class);
    int settledInMissing = 0;
    for (int i = 0; i < 20_000; i++) {
      String condition = conditions.condition(3);
      Term.OfTruth term = check(condition);
      Text text = Workshop.text(condition);
      Compiler.TruthCode code = Compiler.truth(term);
      Compiler.AssessmentCode assessment = Compiler.assessment(term, text);
      for (int j = 0; j < 2; j++) {
        Workshop.MapFacts facts = conditions.facts(true);
        Truth compiled = code.of(facts, Subject.NONE);
        String where = "seed " + seed + ": " + condition;
        assertEquals(new Walker(facts, Subject.NONE, text).value(term), compiled, where);
        Assessment assessed = assessment.of(facts, Subject.NONE);
        assertEquals(compiled, assessed.truth(), where);
        assertTrue(
            compiled.missing().stream().noneMatch(assessed.decidedWithout()::contains), where);
        verdicts.merge(compiled.odds().verdict(), 1, Integer::sum);
        settledInMissing += assessed.decidedWithout().isEmpty() ? 0 : 1;
      }
    }
    // A generator that only made one kind of outcome would test nothing.
    assertEquals(3, verdicts.size());
    assertTrue(verdicts.values().stream().allMatch(count -> count > 2000), verdicts::toString);
    assertTrue(settledInMissing > 2000);
  }

  @Test
  void fillingInWhatIsMissingKeepsWhatWasSettled() {
    filledIn(false);
  }

  @Test
  void fillingInWhatIsMissingNeverTurnsADecidedOutcome() {
    filledIn(true);
  }

  private static void filledIn(boolean doubts) {
    long seed = Seeds.seed();
    Random random = new Random(seed);
    RandomConditions conditions = new RandomConditions(random, false);
    int decided = 0;
    for (int i = 0; i < 20_000; i++) {
      String condition = conditions.condition(3);
      Compiler.AssessmentCode code =
          Compiler.assessment(check(condition), Workshop.text(condition));
      Workshop.MapFacts facts = conditions.facts(doubts);
      Assessment before = code.of(facts, Subject.NONE);
      Odds.Verdict verdict = before.truth().odds().verdict();
      if (verdict == Odds.Verdict.BETWEEN) {
        continue;
      }
      decided += before.decidedWithout().isEmpty() ? 0 : 1;
      for (int j = 0; j < 3; j++) {
        Truth after = code.of(conditions.filledIn(facts), Subject.NONE).truth();
        String where = "seed " + seed + ": " + condition + ", " + before + " then " + after;
        if (!doubts) {
          assertEquals(before.truth(), after, where);
        } else {
          assertNotEquals(opposite(verdict), after.odds().verdict(), where);
        }
      }
    }
    assertTrue(decided > 1000, "decided although something was missing: " + decided);
  }

  private static Odds.Verdict opposite(Odds.Verdict verdict) {
    return verdict == Odds.Verdict.HOLDS ? Odds.Verdict.BREAKS : Odds.Verdict.HOLDS;
  }
}
