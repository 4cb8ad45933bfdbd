package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.problem.Problem;
import gelwright.profile.Profile;
import gelwright.profile.Profiler;
import gelwright.quantity.Odds;
import gelwright.quantity.Share;
import gelwright.rule.CompiledRule;
import gelwright.rule.Severity;
import gelwright.sheets.Bundled;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Limits;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
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
import org.junit.jupiter.api.io.TempDir;

@DisplayName("remedies")
final class RemedyTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final Reviewer REVIEWER = Reviewer.using(KNOWLEDGE);

  /** Random formulas around the examples. */
  private static final int FORMULAS = 32;

  /** Smaller steps of a knob tried besides the next smaller one. */
  private static final int SMALLER = 4;

  private int offers;
  private int reaching;
  private int solved;
  private int none;
  private int findings;
  private int duties;

  @Test
  @DisplayName(
      "32 random formulas, all findings: each offer does what it says, and no smaller step would do")
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
    assertTrue(findings > 220, "findings: " + findings);
    assertTrue(duties > 8, "duties brought: " + duties);
    assertTrue(offers > 400, "offers: " + offers);
    assertTrue(reaching > 350, "that reach the aim: " + reaching);
    assertTrue(solved > 120, "knobs solved: " + solved);
    assertTrue(none > 0, "findings without remedy: " + none);
  }

  private void check(Formula formula, Random random, List<String> faults) {
    Profile profile = Profiler.using(KNOWLEDGE.catalogue()).profile(formula, ON);
    List<Finding> troubles =
        REVIEWER.review(formula, ON).findings().stream()
            .filter(each -> each.outcome() != Outcome.UNKNOWN)
            .toList();
    RemedySearch search = new RemedySearch(REVIEWER, profile);
    Map<Concern, State> before = states(formula);
    for (Finding finding : troubles) {
      findings++;
      Remedies remedies = search.of(finding);
      none += remedies.none().isPresent() ? 1 : 0;
      for (Remedy remedy : remedies.offers()) {
        offers++;
        reaching += remedy.reaches() ? 1 : 0;
        duties += remedy.brings().size();
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
      TreeSet<String> brings = dutiesOf(changed);
      TreeSet<String> had = dutiesOf(formula);
      substitution.ifPresent(each -> had.addAll(had.stream().map(duty -> of(each, duty)).toList()));
      brings.removeAll(had);
      before.keySet().forEach(concern -> brings.remove(concern.toString()));
      if (!brings.equals(names(remedy.brings()))) {
        faults.add("brings " + brings + ", claims " + names(remedy.brings()));
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

  private static TreeSet<String> dutiesOf(Formula formula) {
    return names(
        REVIEWER.review(formula, ON).duties().stream()
            .map(each -> new Concern(each.rule(), each.subject()))
            .toList());
  }

  /** The same duty of the ingredient that takes the place. */
  private static String of(Edit.Substitution substitution, String duty) {
    return duty.replace(
        "name=" + substitution.ingredient() + "]", "name=" + substitution.with() + "]");
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

  // --- What is brought with it
  // -------------------------------------------------------------------

  private static final String HEAD =
      """
      formula: gel on the bench
      version: "1"
      product: { kind: serum, use: leave-on, area: [face], users: adults, texture: serum, dispensing: pump, pH: 5.5 to 6.5, markets: [EU], shelf-life: 12 months }
      batch: 500 g
      equipment: { balance: 0.01 g, vessel: { diameter: 85 mm, cover: loose }, stirrer: { type: propeller, diameter: 50 mm }, room: { temperature: 22 °C, humidity: 50 % } }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Propanediol, share: 4 % }
        - { phase: A, name: Xanthan Gum, share: 0.6 % }
      """;

  private static Formula gel(String... lines) {
    StringBuilder text = new StringBuilder(HEAD);
    for (String line : lines) {
      text.append("  - { phase: B, ").append(line).append(" }\n");
    }
    return new FormulaReader()
        .read(text.toString().getBytes(StandardCharsets.UTF_8), "gel.yaml")
        .orThrow();
  }

  private static Remedies remediesOf(Reviewer reviewer, Formula formula, String rule, String name) {
    return reviewer.remedies(formula, ON).stream()
        .filter(each -> each.rule().equals(rule) && each.subject().name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> rules(List<Concern> concerns) {
    return concerns.stream().map(Concern::rule).toList();
  }

  private static boolean takes(Remedy remedy, String ingredient) {
    return remedy.edits().stream()
        .anyMatch(
            each -> each instanceof Edit.Substitution other && other.with().equals(ingredient));
  }

  @Test
  @DisplayName(
      "what gives off formaldehyde stands behind what asks for less, and says what it asks")
  void releaser() {
    Formula nettle =
        Variations.examples().stream()
            .filter(each -> each.name().equals("Nettle-calm gel"))
            .findFirst()
            .orElseThrow();
    // It would do: the finding is gone with it.
    int benzoate = 10;
    Line line = nettle.lines().get(benzoate);
    Formula changed =
        new Edit.Substitution(
                benzoate, "Sodium Benzoate", "DMDM Hydantoin", line.amount(), line.amount())
            .in(nettle);
    String rule = "preservation.mostly-dissociated";
    Subject subject = new Subject("preservative", "Sodium Benzoate");
    assertTrue(states(nettle).containsKey(new Concern(rule, subject)));
    assertFalse(
        states(changed)
            .containsKey(new Concern(rule, new Subject("preservative", "DMDM Hydantoin"))));
    for (Remedy each : remediesOf(REVIEWER, nettle, rule, "Sodium Benzoate").offers()) {
      assertFalse(takes(each, "DMDM Hydantoin"), each.text());
      assertEquals(List.of(), each.brings(), each.text());
    }
    // Where it is offered all the same it comes last and tells its duties.
    List<Remedy> offers =
        remediesOf(REVIEWER, nettle, "preservation.outside-its-pH", "Sodium Benzoate").offers();
    Remedy last = offers.get(offers.size() - 1);
    assertTrue(takes(last, "DMDM Hydantoin"), last.text());
    assertEquals(
        List.of("caution.formaldehyde-in-the-workshop", "law-eu.formaldehyde-label"),
        rules(last.brings()));
  }

  private static OwnSheets house(Path folder, String tables) throws IOException {
    Files.writeString(
        folder.resolve("house.yaml"),
        """
        rule-set: bench-house
        title: Of the bench
        edition: "1"
        tables:
        """
            + tables);
    return OwnSheets.read(Bundled.load(), List.of(folder), Limits.USUAL);
  }

  private static Reviewer withHouseTable(Path folder, String table) throws IOException {
    return Reviewer.using(house(folder, table).ready().orThrow().knowledge());
  }

  private static List<String> texts(Remedies remedies) {
    return remedies.offers().stream().map(Remedy::text).toList();
  }

  @Test
  @DisplayName("lye is offered where nothing milder does it, and never beside what does")
  void lye(@TempDir Path folder) throws IOException {
    Formula sour = gel("name: Niacinamide, share: 4 %", "name: Lactic Acid, share: 0.5 %");
    String rule = "acidity.active-outside-its-pH";
    Remedies remedies = remediesOf(REVIEWER, sour, rule, "Niacinamide");
    assertTrue(texts(remedies).get(0).startsWith("Add Arginine, "), texts(remedies).toString());
    assertFalse(remedies.toString().contains("Sodium Hydroxide"), texts(remedies).toString());

    Reviewer house =
        withHouseTable(
            folder,
            """
              bench-pH-adjusters:
                columns: { ingredient: key, used-to: name }
                source: pH-practice
                rows: [{ ingredient: Arginine, used-to: nothing }]
            """);
    Remedy only = remediesOf(house, sour, rule, "Niacinamide").offers().get(0);
    assertTrue(only.text().startsWith("Add Sodium Hydroxide, "), only.text());
    assertTrue(rules(only.brings()).contains("caution.caustic-lye"), only.brings().toString());
  }

  @Test
  @DisplayName("a house says what may be replaced")
  void replaceable(@TempDir Path folder) throws IOException {
    Formula gel = gel("name: Sodium Benzoate, share: 0.4 %");
    String rule = "preservation.outside-its-pH";
    assertTrue(
        remediesOf(REVIEWER, gel, rule, "Sodium Benzoate").toString().contains("Substitution"));
    Reviewer house =
        withHouseTable(
            folder,
            """
              bench-replaceable-functions:
                columns: { function: key, substitute: "name of [allowed, never]" }
                source: trade-practice
                rows: [{ function: preservative, substitute: never }]
            """);
    Remedies remedies = remediesOf(house, gel, rule, "Sodium Benzoate");
    assertFalse(remedies.toString().contains("Substitution"), texts(remedies).toString());
    assertFalse(remedies.offers().isEmpty());
  }

  @Test
  @DisplayName("a row of these tables that names what there is not is told with its place")
  void faultyTables(@TempDir Path folder) throws IOException {
    List<Problem> problems =
        house(
                folder,
                """
                  bench-pH-adjusters:
                    columns: { ingredient: key, used-to: name }
                    source: pH-practice
                    rows:
                      - { ingredient: Citrick Acid, used-to: lower }
                      - { ingredient: Lactic Acid, used-to: lowers }
                  bench-replaceable-functions:
                    columns: { function: key, substitute: name }
                    source: trade-practice
                    rows:
                      - { function: gums, substitute: never }
                      - { function: oil }
                """)
            .problems();
    assertEquals(
        List.of(
            "9 There is no ingredient 'Citrick Acid'. Did you mean Citric Acid or Acetic Acid?",
            "10 'used-to' of row 'Lactic Acid' of a table pH-adjusters must be one of lower,"
                + " nothing, raise. Did you mean lower?",
            "15 No ingredient has the function 'gums'. Did you mean gum?",
            "16 'substitute' of row 'oil' of a table replaceable-functions must be one of allowed,"
                + " never. "),
        problems.stream()
            .map(each -> each.place().line() + " " + each.message() + " " + each.hint())
            .toList());
  }

  @Test
  @DisplayName("without a procedure the promised pH is reached by adding what takes it there")
  void towardsThePromise() {
    Formula alkaline = gel("name: Sodium Benzoate, share: 0.4 %");
    Remedies remedies = remediesOf(REVIEWER, alkaline, "acidity.outside-the-brief", "");
    assertEquals(List.of("Add Citric Acid, to phase C, as much as the pH takes."), texts(remedies));
    Formula changed = Edit.all(remedies.offers().get(0).edits(), alkaline);
    assertEquals(alkaline.brief().pH(), changed.brief().pH());
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
