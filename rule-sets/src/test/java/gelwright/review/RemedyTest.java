package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.profile.Profile;
import gelwright.profile.Profiler;
import gelwright.quantity.Odds;
import gelwright.quantity.Share;
import gelwright.rule.CompiledRule;
import gelwright.rule.Severity;
import gelwright.sheets.BundledRuleSets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeSet;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("remedies")
final class RemedyTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final Reviewer REVIEWER = Reviewer.using(KNOWLEDGE);

  /** Random formulas around the examples. */
  private static final int FORMULAS = 300;

  /** Findings looked at in each, taken at random. */
  private static final int FINDINGS = 1;

  /** Smaller steps of a knob tried besides the next smaller one. */
  private static final int SMALLER = 4;

  private int offers;
  private int reaching;
  private int solved;
  private int none;

  @Test
  @DisplayName("300 random formulas: each offer does what it says, and no smaller step would do")
  void offersKeepTheirWord() {
    long seed = Long.getLong("seed", 20261129);
    Random random = new Random(seed);
    List<Formula> examples = Variations.examples();
    List<String> faults = new ArrayList<>();
    for (int i = 0; i < FORMULAS; i++) {
      Formula formula = Variations.around(examples.get(i % examples.size()), random);
      try {
        check(formula, random, faults);
      } catch (RuntimeException e) {
        throw new AssertionError("seed " + seed + ", formula " + i, e);
      }
    }
    assertEquals(List.of(), faults, "seed " + seed);
    // What was looked at; a test of nothing passes too.
    assertTrue(offers > 400, "offers: " + offers);
    assertTrue(reaching > 350, "that reach the aim: " + reaching);
    assertTrue(solved > 80, "knobs solved: " + solved);
    assertTrue(none > 0, "findings without remedy: " + none);
  }

  private void check(Formula formula, Random random, List<String> faults) {
    Profile profile = Profiler.using(KNOWLEDGE.catalogue()).profile(formula, ON);
    List<Finding> troubles =
        new ArrayList<>(
            REVIEWER.review(formula, ON).findings().stream()
                .filter(each -> each.outcome() != Outcome.UNKNOWN)
                .toList());
    RemedySearch search = new RemedySearch(REVIEWER, profile);
    Map<Concern, State> before = states(formula);
    for (int i = 0; i < FINDINGS && !troubles.isEmpty(); i++) {
      Finding finding = troubles.remove(random.nextInt(troubles.size()));
      Remedies remedies = search.of(finding);
      none += remedies.none().isPresent() ? 1 : 0;
      for (Remedy remedy : remedies.offers()) {
        offers++;
        reaching += remedy.reaches() ? 1 : 0;
        String about = formula.name() + ", " + finding.rule() + ": " + remedy.text() + " ";
        faults.addAll(
            wordKept(formula, finding, remedy, before).stream().map(each -> about + each).toList());
        smallest(formula, profile, finding, remedy, random)
            .ifPresent(each -> faults.add(about + each));
      }
    }
  }

  // --- What an offer says, from reviews alone
  // ------------------------------------------------------

  /** What became of a rule, as a review tells. */
  private record State(Outcome outcome, Odds odds) {
    boolean trouble() {
      return outcome == Outcome.BREAKS || (outcome == Outcome.BORDERLINE && odds.low() < 0.8);
    }
  }

  private static Map<Concern, State> states(Formula formula) {
    Map<Concern, State> states = new HashMap<>();
    for (Finding each : REVIEWER.review(formula, ON).findings()) {
      if (!each.rule().startsWith("composition.acceptance")) {
        states.put(
            new Concern(each.rule(), each.subject()), new State(each.outcome(), each.odds()));
      }
    }
    return states;
  }

  private static List<String> wordKept(
      Formula formula, Finding finding, Remedy remedy, Map<Concern, State> before) {
    List<String> faults = new ArrayList<>();
    Formula changed = Edit.all(remedy.edits(), formula);
    boolean moved =
        remedy.edits().stream()
            .anyMatch(
                each ->
                    each instanceof Edit.Move
                        || each instanceof Edit.Insertion
                        || (each instanceof Edit.OfPH
                            && changed.method().size() != formula.method().size()));
    Map<Concern, State> after = states(changed);
    Optional<Edit.Substitution> substitution =
        remedy.edits().stream()
            .filter(Edit.Substitution.class::isInstance)
            .map(Edit.Substitution.class::cast)
            .findFirst();
    Subject subject =
        substitution
            .filter(each -> each.ingredient().equals(finding.subject().name()))
            .map(each -> new Subject(finding.subject().kind(), each.with()))
            .orElse(finding.subject());
    if (!moved) {
      State then = after.get(new Concern(finding.rule(), subject));
      double odds = then == null ? 1 : then.outcome() == Outcome.UNKNOWN ? 0 : then.odds().low();
      if (odds != remedy.odds()) {
        faults.add("has odds of " + odds + ", claims " + remedy.odds());
      }
      if (remedy.reaches() != odds >= 0.8) {
        faults.add("reaches the aim: " + (odds >= 0.8) + ", claims " + remedy.reaches());
      }
      TreeSet<String> clears = new TreeSet<>();
      TreeSet<String> raises = new TreeSet<>();
      before.forEach(
          (concern, was) -> {
            State is = after.get(concern);
            boolean open = is != null && is.outcome() == Outcome.UNKNOWN;
            if (!open && (is == null || !is.trouble())) {
              if (was.trouble() || was.outcome() == Outcome.UNKNOWN) {
                clears.add(concern.toString());
              }
            }
          });
      after.forEach(
          (concern, is) -> {
            State was = before.get(concern);
            boolean wasFine = was == null || (!was.trouble() && was.outcome() != Outcome.UNKNOWN);
            boolean isOpen = is.outcome() == Outcome.UNKNOWN;
            boolean breaksNow =
                is.outcome() == Outcome.BREAKS && was != null && was.outcome() != Outcome.BREAKS;
            boolean wasOpen = was != null && was.outcome() == Outcome.UNKNOWN;
            if ((wasFine && (isOpen || is.trouble())) || breaksNow || (wasOpen && is.trouble())) {
              raises.add(concern.toString());
            }
          });
      if (!clears.equals(names(remedy.clears()))) {
        faults.add("clears " + clears + ", claims " + names(remedy.clears()));
      }
      if (!raises.equals(names(remedy.raises()))) {
        faults.add("raises " + raises + ", claims " + names(remedy.raises()));
      }
    } else if (remedy.reaches() && remedy.clears().isEmpty()) {
      faults.add("reaches the aim and clears nothing");
    }
    boolean aboutTheSum = finding.rule().startsWith("composition.");
    if (!aboutTheSum && total(changed) != total(formula)) {
      faults.add("adds up to " + new Share(total(changed)) + ", not " + new Share(total(formula)));
    }
    if (aboutTheSum
        && remedy.reaches()
        && total(changed) != Share.ALL.units()
        && finding.rule().equals("composition.sums-to-100")) {
      faults.add("adds up to " + new Share(total(changed)));
    }
    return faults;
  }

  private static TreeSet<String> names(List<Concern> concerns) {
    TreeSet<String> names = new TreeSet<>();
    concerns.forEach(each -> names.add(each.toString()));
    return names;
  }

  /** What the recipe adds up to, in units of a share: exactly, with the rest as it is asked for. */
  private static long total(Formula formula) {
    long stated = 0;
    boolean rest = false;
    for (Line line : formula.lines()) {
      if (line.amount() instanceof Amount.Stated amount) {
        stated += amount.share().units();
      }
      rest |= line.amount() instanceof Amount.Rest;
    }
    return rest ? Math.max(stated, Share.ALL.units()) : stated;
  }

  // --- The smallest step
  // ---------------------------------------------------------------------------

  private Optional<String> smallest(
      Formula formula, Profile profile, Finding finding, Remedy remedy, Random random) {
    CompiledRule rule = KNOWLEDGE.rules().rule(finding.rule()).orElseThrow();
    if (!remedy.reaches()) {
      return Optional.empty();
    }
    for (Knob knob : new Levers(profile, KNOWLEDGE).of(rule, finding.subject()).knobs()) {
      long steps = stepsOf(knob, remedy);
      if (steps == 0 || !knob.isMonotone()) {
        continue;
      }
      solved++;
      TreeSet<Long> smaller = new TreeSet<>();
      smaller.add(steps - 1);
      for (int i = 0; i < SMALLER; i++) {
        smaller.add((long) (random.nextDouble() * steps));
      }
      smaller.remove(0L);
      for (long each : smaller) {
        double odds = odds(Edit.all(knob.edits(each), formula), finding);
        if (odds >= 0.8) {
          return Optional.of("has odds of " + odds + " after " + each + " of " + steps + " steps");
        }
      }
    }
    return Optional.empty();
  }

  private static double odds(Formula formula, Finding finding) {
    return REVIEWER.review(formula, ON).findings().stream()
        .filter(
            each -> each.rule().equals(finding.rule()) && each.subject().equals(finding.subject()))
        .findFirst()
        .map(each -> each.outcome() == Outcome.UNKNOWN ? 0 : each.odds().low())
        .orElse(1.0);
  }

  private static long stepsOf(Knob knob, Remedy remedy) {
    for (long steps = 1; steps <= Math.min(knob.most(), 20_000); steps++) {
      if (knob.edits(steps).equals(remedy.edits())) {
        return steps;
      }
    }
    return 0;
  }

  // --- The examples
  // --------------------------------------------------------------------------------

  @Test
  @DisplayName("what is wrong with the examples is put right by the first or the second offer")
  void plantedMistakes() {
    List<String> faults = new ArrayList<>();
    int mistakes = 0;
    for (Formula formula : Variations.examples()) {
      Review review = REVIEWER.review(formula, ON, java.util.Set.of(Include.REMEDIES));
      for (Finding finding : review.findings()) {
        if (finding.outcome() != Outcome.BREAKS || finding.level() == Severity.NOTE) {
          continue;
        }
        mistakes++;
        Remedies remedies =
            review.remedies().orElseThrow().stream()
                .filter(
                    each ->
                        each.rule().equals(finding.rule())
                            && each.subject().equals(finding.subject()))
                .findFirst()
                .orElseThrow();
        Concern concern = new Concern(finding.rule(), finding.subject());
        boolean repaired =
            remedies.offers().stream()
                .limit(2)
                .anyMatch(each -> each.reaches() && each.clears().contains(concern));
        if (!repaired) {
          faults.add(formula.name() + ": " + concern + " " + remedies.none().orElse(""));
        }
      }
    }
    assertEquals(List.of(), faults);
    assertTrue(mistakes >= 20, "mistakes: " + mistakes);
  }

  @Test
  @DisplayName("a review tells of remedies and headroom only when asked")
  void onlyWhenAsked() {
    Formula formula = Variations.examples().get(0);
    assertTrue(REVIEWER.review(formula, ON).remedies().isEmpty());
    assertTrue(REVIEWER.review(formula, ON).headroom().isEmpty());
    assertFalse(REVIEWER.remedies(formula, ON).isEmpty());
  }
}
