package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Unit;
import gelwright.reports.JsonReport;
import gelwright.review.Finding;
import gelwright.review.Include;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.rule.RuleBook;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** From a sheet to a review with the bundled knowledge. */
@DisplayName("review with the bundled knowledge")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
final class ReviewEndToEndTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);

  private final Library library = Bundled.load();
  private final Knowledge knowledge = BundledRuleSets.compile(library).orThrow();
  private final Reviewer reviewer = Reviewer.using(knowledge);

  private static Formula read(String sheet) {
    return new FormulaReader()
        .read(sheet.getBytes(StandardCharsets.UTF_8), "sheet.yaml", Document.Format.YAML)
        .orThrow();
  }

  private Formula base(String name) {
    return new FormulaReader().read(library.bases().get(name)).orThrow();
  }

  /** A hand gel of the workshop, its gum hydrated as the steps say. */
  private static Formula gel(String name, double gum, String steps) {
    return read(
        """
        formula: %s
        product: { kind: gel, use: leave-on, area: [hands], users: adults, texture: soft-gel, dispensing: pump }
        equipment: { room: { temperature: 22 °C } }
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Sclerotium Gum, share: %s }
        method:
        %s
        """
            .formatted(name, gum, steps));
  }

  private static Bounded yieldStress(Formula formula, Catalogue catalogue) {
    int slot = Profile.vocabulary().property("gel.yield-stress").orElseThrow().slot();
    return Profile.of(formula, catalogue).number(slot);
  }

  @Test
  @DisplayName(
      "a doubt that two formulas share cancels: the same gum warm (38 °C) and cold (22 °C) for 35"
          + " min are each borderline against one limit, and warm is stiffer with odds of 95 % or"
          + " more")
  void sharedDoubt() {
    Formula warm =
        gel(
            "warm",
            1.0,
            """
              - { do: heat, phase: A, to: 38 °C, over: 1 min }
              - { do: hydrate, phase: A, at: 38 °C, for: 35 min }
              - { do: cool, phase: A, to: 22 °C, over: 1 min }
            """);
    Formula cold =
        gel(
            "cold",
            1.0,
            """
              - { do: hydrate, phase: A, at: 22 °C, for: 35 min }
              - { do: hold, phase: A, for: 2 min }
            """);
    Bounded a = yieldStress(warm, library.catalogue());
    Bounded b = yieldStress(cold, library.catalogue());
    Bounded limit = Bounded.exact(Math.sqrt(a.atLeast().likely() * b.atLeast().likely()));

    assertAll(
        () -> assertTrue(a.isKnown() && b.isKnown(), "both are known"),
        () -> assertBorderline(limit.atMost(a).low()),
        () -> assertBorderline(limit.atMost(b).low()),
        () ->
            assertTrue(b.lessThan(a).low() >= 0.95, "odds that warm is stiffer: " + b.lessThan(a)));
  }

  private static void assertBorderline(double odds) {
    assertTrue(odds > 0.05 && odds < 0.95, "odds " + odds);
  }

  // --- The same again
  // ------------------------------------------------------------------------------

  private static byte[] json(Review review) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JsonReport.indented().write(review, out);
    return out.toByteArray();
  }

  @Test
  @DisplayName(
      "the same formula, date and editions -> the same bytes, whatever order knowledge came in")
  void sameBytes() throws IOException {
    for (String name : library.bases().keySet()) {
      byte[] first = json(reviewer.review(base(name), ON, EnumSet.of(Include.TRACE)));
      for (int seed = 1; seed <= 3; seed++) {
        List<Ingredient> shuffled = new ArrayList<>(library.catalogue().ingredients());
        Collections.shuffle(shuffled, new Random(seed));
        Reviewer other =
            Reviewer.using(
                new Knowledge(
                    Catalogue.of(shuffled, library.catalogue().sources()),
                    BundledRuleSets.compile(library).orThrow().rules()));
        assertArrayEquals(
            first, json(other.review(base(name), ON, EnumSet.of(Include.TRACE))), name);
      }
    }
  }

  @Test
  @DisplayName("four threads with one reviewer -> the same bytes as one")
  void fourThreads() throws Exception {
    List<Callable<byte[]>> tasks = new ArrayList<>();
    List<byte[]> alone = new ArrayList<>();
    for (int round = 0; round < 4; round++) {
      for (String name : library.bases().keySet()) {
        tasks.add(() -> json(reviewer.review(base(name), ON)));
        alone.add(json(reviewer.review(base(name), ON)));
      }
    }
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      List<Future<byte[]>> together = threads.invokeAll(tasks);
      for (int i = 0; i < alone.size(); i++) {
        assertArrayEquals(alone.get(i), together.get(i).get());
      }
    } finally {
      threads.shutdown();
    }
  }

  // --- Acceptances
  // ---------------------------------------------------------------------------------

  private Review sticky(String acceptance) {
    return reviewer.review(
        read(
            """
            formula: sticky gel
            product: { kind: gel, use: leave-on, area: [hands], users: adults, texture: soft-gel, dispensing: pump }
            ingredients:
              - { phase: A, name: Aqua, share: rest }
              - { phase: A, name: Glycerin, share: 15 %% }
              - { phase: A, name: Sclerotium Gum, share: 1.2 %% }
            accepted:
              - %s
            """
                .formatted(acceptance)),
        ON);
  }

  @ParameterizedTest(name = "{1}: {0}")
  @CsvSource(
      delimiter = '|',
      value = {
        "{ rule: feel.tacky-humectants, subject: formula, because: wanted, until: 2027-01-01 } |"
            + " covers",
        "{ rule: feel.tacky-humectants, subject: formula, observed: 15 %, because: wanted, until:"
            + " 2026-11-25 } | covers",
        "{ rule: feel.tacky-humectants, subject: formula, observed: 12 %, because: wanted, until:"
            + " 2027-01-01 } | worse",
        "{ rule: feel.tacky-humectants, subject: formula, because: wanted, until: 2026-11-24 } |"
            + " lapsed",
        "{ rule: feel.film-that-pills, subject: formula, because: wanted, until: 2027-01-01 } |"
            + " unused",
        "{ rule: preservation.none, subject: formula, because: wanted, until: 2027-01-01 } |"
            + " not-allowed",
      })
  @DisplayName("acceptance")
  void acceptance(String acceptance, String state) {
    Review review = sticky(acceptance);
    Optional<Finding> tacky =
        review.findings().stream()
            .filter(finding -> finding.rule().equals("feel.tacky-humectants"))
            .findFirst();

    assertAll(
        () -> assertEquals(state.equals("covers"), tacky.orElseThrow().isAccepted()),
        () -> assertEquals(state.equals("covers") ? 1 : 0, review.accepted()),
        () ->
            assertEquals(
                state.equals("covers") ? Outcome.HOLDS : Outcome.BREAKS,
                worst(
                    review,
                    "composition.acceptance-" + (state.equals("covers") ? "unused" : state))));
  }

  private static Outcome worst(Review review, String rule) {
    return review.rules().get(rule);
  }

  // --- House rule sets
  // -----------------------------------------------------------------------------

  private Reviewer house(Path folder, String sheet) throws IOException {
    Path file = folder.resolve("house.yaml");
    Files.writeString(file, sheet);
    Library own = Bundled.withOwn(library, List.of(file), Limits.USUAL).orThrow();
    return Reviewer.using(BundledRuleSets.compile(own).orThrow());
  }

  @Test
  @DisplayName("a house tightens, relaxes, switches off and adds a rule, and the review says why")
  void house(@TempDir Path folder) throws IOException {
    Reviewer own =
        house(
            folder,
            """
            rule-set: garden-house
            title: What the garden workshop asks for
            edition: "1"
            rules:
              little-gum:
                title: Gum to the house taste
                severity: note
                require: gum.share <= 1 %
                message: "{gum.share} of gum; the house stays below 1 %."
                lesson: The visitors like it light.
                sources: [feel-practice]
                aliases: [light-gum]
            changes:
              - { tighten: feel.tacky-humectants, require: "share-of([Glycerin]) <= 3 %", because: visitors dislike tack }
              - { relax: feel.film-that-pills, require: "gum.share <= 9 %", because: only for hands }
              - { switch-off: composition.brief-markets, because: given away in the garden alone }
            """);
    Review before = reviewer.review(base("plain sclerotium gel"), ON);
    Review after = own.review(base("plain sclerotium gel"), ON);

    assertAll(
        () -> assertEquals(Outcome.HOLDS, worst(before, "feel.tacky-humectants")),
        () -> assertEquals(Outcome.BREAKS, worst(after, "feel.tacky-humectants")),
        () -> assertEquals(Outcome.BREAKS, worst(after, "garden-house.little-gum")),
        () -> assertFalse(after.rules().containsKey("composition.brief-markets")),
        () ->
            assertEquals(
                "given away in the garden alone",
                after.switchedOff().get("composition.brief-markets")),
        () -> assertEquals("1", after.editions().ruleSets().get("garden-house")));
  }

  @Test
  @DisplayName("an acceptance may use a former id of the rule")
  void alias(@TempDir Path folder) throws IOException {
    Reviewer own =
        house(
            folder,
            """
            rule-set: garden-house
            title: What the garden workshop asks for
            edition: "1"
            rules:
              little-gum:
                title: Gum to the house taste
                severity: note
                require: gum.share <= 1 %
                message: "{gum.share} of gum; the house stays below 1 %."
                lesson: The visitors like it light.
                sources: [feel-practice]
                aliases: [light-gum]
            """);
    Review review =
        own.review(
            read(
                """
                formula: firm gel
                ingredients:
                  - { phase: A, name: Aqua, share: rest }
                  - { phase: A, name: Sclerotium Gum, share: 1.2 % }
                accepted:
                  - { rule: garden-house.light-gum, subject: formula, because: for gloves, until: 2027-01-01 }
                """),
            ON);

    assertEquals(1, review.accepted());
  }

  @Test
  @DisplayName("knowledge without a rule is refused: it would check nothing")
  void noRules() {
    RuleBook empty =
        RuleBook.compile(List.of(), Profile.vocabulary(), Set.of()).book().orElseThrow();

    assertThrows(
        IllegalArgumentException.class,
        () -> Reviewer.using(new Knowledge(library.catalogue(), empty)));
  }

  @Test
  @DisplayName("a name nobody knows is a finding, and what it could be stays unknown")
  void unknownIngredient() {
    Review review =
        reviewer.review(
            read(
                """
                formula: secret
                product: { kind: gel, use: leave-on, area: [hands], users: adults, texture: soft-gel, dispensing: pump, markets: [EU] }
                ingredients:
                  - { phase: A, name: Aqua, share: rest }
                  - { phase: A, name: Moonlight Extract of the Shed, share: 2 % }
                  - { phase: A, name: Sclerotium Gum, share: 1.2 % }
                """),
            ON);

    assertAll(
        () -> assertEquals(Outcome.BREAKS, worst(review, "composition.unknown-ingredient")),
        () -> assertEquals(Outcome.UNKNOWN, worst(review, "preservation.none")),
        () -> assertEquals(Outcome.UNKNOWN, worst(review, "texture.holds-too-firmly")),
        () ->
            assertTrue(
                review.unchecked().stream()
                    .filter(each -> each.rule().equals("preservation.none"))
                    .anyMatch(
                        each ->
                            each.missing()
                                .contains("functions of Moonlight Extract of the Shed"))));
  }

  // --- What is shown
  // -------------------------------------------------------------------------------

  @Test
  @DisplayName("no share that is likely within 0 to 100 % is shown beyond it")
  void sharesWithinTheWhole() {
    for (String name : library.bases().keySet()) {
      Review review = reviewer.review(base(name), ON);
      List<Shown> shown = new ArrayList<>();
      review.properties().values().forEach(value -> shown.add(value.shown()));
      review.findings().forEach(finding -> finding.observed().ifPresent(shown::add));
      for (Shown each : shown) {
        if (each.unit() == Unit.PERCENT && each.likely() >= 0 && each.likely() <= 100) {
          assertTrue(each.low() >= 0 && each.high() <= 100, name + ": " + each);
        }
      }
    }
  }
}
