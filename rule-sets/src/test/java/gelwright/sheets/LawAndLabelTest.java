package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Reviewer;
import gelwright.rule.Chosen;
import gelwright.rule.Facts;
import gelwright.rule.RuleBook;
import gelwright.rule.RuleSet;
import gelwright.rule.Table;
import gelwright.rule.Truth;
import gelwright.rule.Vocabulary;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("law and label")
final class LawAndLabelTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Library LIBRARY = Bundled.load();
  private static final Catalogue CATALOGUE = LIBRARY.catalogue();
  private static final RuleBook BOOK =
      RuleBook.compile(
              LIBRARY.ruleSets(),
              Profile.vocabulary(),
              CATALOGUE.sources().stream().map(Source::id).collect(Collectors.toSet()))
          .book()
          .orElseThrow();

  private static Formula formula(String sheet) {
    return new FormulaReader().read(Samples.utf8("formula: pot\n" + sheet), "pot.yaml").orThrow();
  }

  private static Profile profile(String sheet) {
    return Profile.of(formula(sheet), CATALOGUE, ON);
  }

  private static Bounded call(Profile profile, String function, Set<String> names, double... more) {
    Vocabulary.Function found = Profile.vocabulary().function(function).orElseThrow();
    List<Facts.Argument> arguments = new java.util.ArrayList<>();
    arguments.add(new Facts.Argument.Names(Chosen.of(names), false));
    for (double each : more) {
      arguments.add(new Facts.Argument.Number(Bounded.exact(each)));
    }
    return profile.call(found.slot(), arguments);
  }

  private static double known(Bounded number) {
    assertTrue(number.isKnown(), () -> "missing " + number.missing());
    return number.atLeast().likely();
  }

  @Nested
  @DisplayName("counted as what a mole holds")
  final class CountedAs {
    // Zinc: shares of zinc that the opinion prints for the pure salts. Aluminium and silver: worked
    // out from the formulas with the atomic weights of 2021.
    @ParameterizedTest(name = "{1} % of {0} -> {3} % at {2} g/mol [{5}]")
    @CsvSource({
      "Zinc Chloride, 1, 65.38, 0.4798, , SCCS/1657/23",
      "Zinc Sulfate, 1, 65.38, 0.2274, hydrate: hepta, SCCS/1657/23",
      "Zinc Sulfate, 1, 65.38, 0.4050, hydrate: anhydrous, SCCS/1657/23",
      "Potassium Alum, 1, 26.98, 0.05688, , computed",
      "Aluminum Chloride, 1, 26.98, 0.1118, hydrate: hexa, computed",
      "Sodium Metabisulfite, 1, 128.13, 0.674, , computed"
    })
    void rows(
        String name, double share, double molarMass, double expected, String more, String source) {
      Profile profile =
          profile(
              "ingredients:\n  - { name: Aqua, share: rest }\n  - { name: "
                  + name
                  + ", share: "
                  + share
                  + " %"
                  + (more == null ? "" : ", " + more)
                  + " }\n");
      double found = known(call(profile, "share-counted-as", Set.of(name), molarMass / 1000));
      assertEquals(expected, found, 1e-4 * Math.max(1, expected * 10));
    }

    @Test
    @DisplayName("without a molar mass -> from none to all of it, and the molar mass is missing")
    void withoutMolarMass() {
      Profile profile =
          profile(
              "ingredients:\n  - { name: Aqua, share: rest }\n"
                  + "  - { name: Cocamide DEA, share: 2 % }\n");
      Bounded found = call(profile, "share-counted-as", Set.of("Cocamide DEA"), 0.105);
      assertEquals(0, found.atLeast().likely());
      assertEquals(2, found.atMost().likely());
      assertEquals(Set.of("molar-mass of Cocamide DEA"), found.missing());
    }
  }

  @Nested
  @DisplayName("days since a date")
  final class Days {
    @ParameterizedTest(name = "{0} -> {1} days")
    @CsvSource({"2026-11-25, 0", "2026-11-24, 1", "2027-01-01, -37", "2024-02-29, 1000"})
    void rows(String date, int days) {
      Profile profile = profile("ingredients:\n  - { name: Aqua, share: rest }\n");
      assertEquals(days * 86_400.0, known(call(profile, "days-since", Set.of(date))));
    }

    @Test
    @DisplayName("what is no date, or no day to review for -> not known")
    void unknown() {
      Formula formula = formula("ingredients:\n  - { name: Aqua, share: rest }\n");
      Bounded noDate = call(Profile.of(formula, CATALOGUE, ON), "days-since", Set.of("soon"));
      assertEquals(Set.of("the date soon"), noDate.missing());
      Bounded noDay = call(Profile.of(formula, CATALOGUE), "days-since", Set.of("2027-01-01"));
      assertEquals(Set.of("the day of the review"), noDay.missing());
    }
  }

  @Nested
  @DisplayName("the label")
  final class Labels {
    private static final String RECIPE =
        """
        ingredients:
          - { name: Aqua, share: rest }
          - { name: Glycerin, share: 4 % }
          - { name: Sclerotium Gum, share: 1.2 % }
          - { name: Phenoxyethanol, share: 0.8 % }
          - { name: Lavandula Angustifolia Oil, share: 0.1 % }
          - { name: CI 77491, share: 2 % }
        """;

    private static final Vocabulary.ItemKind ENTRY =
        Profile.vocabulary().kind("label-entry").orElseThrow();

    private Profile with(String label) {
      return profile(RECIPE + "label: { " + label + " }\n");
    }

    private Facts entry(Profile profile, int number) {
      return profile.items(ENTRY.slot()).get(number).facts();
    }

    private boolean outOfPlace(Profile profile, int number) {
      double share = known(entry(profile, number).number(slot("share")));
      double before = known(entry(profile, number).number(slot("least-before")));
      return share >= 1 && share > before;
    }

    private int slot(String property) {
      return ENTRY.properties().get(property).slot();
    }

    // Article 19(1)(g): descending order of weight, below 1 % in any order after those above,
    // colourants in any order after the others.
    @ParameterizedTest(name = "{0} -> entry {1} out of place: {2}")
    @CsvSource(
        delimiter = '|',
        value = {
          "Aqua, Glycerin, CI 77491, Sclerotium Gum | 3 | false",
          "Aqua, Glycerin, Sclerotium Gum, Phenoxyethanol, CI 77491 | 4 | false",
          "Aqua, Glycerin, Sclerotium Gum, CI 77491, Phenoxyethanol | 3 | true",
          "Aqua, Sclerotium Gum, Glycerin | 2 | true",
          "Aqua, Phenoxyethanol, Glycerin | 2 | true",
          "Aqua, Phenoxyethanol, Parfum | 2 | false",
          "Water, Glycerin | 0 | false"
        })
    void order(String list, int number, boolean outOfPlace) {
      assertEquals(outOfPlace, outOfPlace(with("ingredients: [" + list + "]"), number));
    }

    @Test
    @DisplayName("Parfum counts all scents that are not named beside it")
    void perfume() {
      Profile hidden = with("ingredients: [Aqua, Parfum]");
      assertEquals(0.1, known(entry(hidden, 1).number(slot("share"))), 1e-12);
      Profile named = with("ingredients: [Aqua, Lavandula Angustifolia Oil, Parfum]");
      assertEquals(0, known(entry(named, 2).number(slot("share"))), 1e-12);
    }

    @Test
    @DisplayName("a scent the recipe does not have, beside an oil -> may come with the oil")
    void mayComeWithTheOil() {
      Profile profile = with("ingredients: [Aqua, Linalool, Squalane]");
      Truth linalool = entry(profile, 1).truth(slot("is-in-the-recipe"));
      assertEquals(Set.of("whether the perfume brings Linalool"), linalool.missing());
      assertEquals(Truth.IMPOSSIBLE, entry(profile, 2).truth(slot("is-in-the-recipe")), "Squalane");
    }

    @Test
    @DisplayName("a warning counts whatever its case and punctuation, and as part of a sentence")
    void warnings() {
      Profile profile =
          with(
              "warnings: ['CONTAINS Vitamin A.  Consider your daily intake before the use!', 'Keep"
                  + " cool']");
      String asked = "Contains Vitamin A. Consider your daily intake before use";
      assertEquals(1, known(call(profile, "label-warnings-saying", Set.of(asked))));
      assertEquals(0, known(call(profile, "label-warnings-saying", Set.of("Contains glutaral"))));
    }

    @Test
    @DisplayName("no label -> nothing is known of its warnings and entries")
    void none() {
      Profile profile = profile(RECIPE);
      assertEquals(
          Set.of("the label (label.warnings)"),
          call(profile, "label-warnings-saying", Set.of("x")).missing());
      assertEquals(
          Set.of("the ingredient list of the label (label.ingredients)"),
          call(profile, "label-entries-of", Set.of("Aqua")).missing());
    }

    @Test
    @DisplayName("Water names Aqua; a repeated entry is told from the first")
    void repeated() {
      Profile profile = with("ingredients: [Aqua, Water, Aqua]");
      assertEquals(3, known(call(profile, "label-entries-of", Set.of("Aqua"))));
      assertEquals(
          List.of("Aqua", "Water", "Aqua (entry 3)"),
          profile.items(ENTRY.slot()).stream().map(Facts.Item::name).toList());
      assertEquals(Truth.CERTAIN, entry(profile, 1).truth(slot("is-repeated")));
    }
  }

  @Nested
  @DisplayName("products known to be lawful or not")
  final class Cases {
    private static final String GEL =
        "product: { kind: gel, use: leave-on, area: [face], users: adults, dispensing: pump,"
            + " markets: [EU] }\n";

    // Shares as in the opinions and recitals named, on either side of the limit.
    @ParameterizedTest(name = "{0} {1} %, {2} -> {3} {4} [{5}]")
    @CsvSource({
      "Propylparaben, 0.18, 2026-11-25, propyl-and-butylparaben, holds, SCCS/1348/10: 0.19 %",
      "Propylparaben, 0.19, 2026-11-25, propyl-and-butylparaben, breaks, 0.14 % as acid",
      "Sodium Benzoate, 0.589, 2026-11-25, above-limit-leave-on, holds, 0.5 % over 0.8475",
      "Sodium Benzoate, 0.591, 2026-11-25, above-limit-leave-on, breaks, 0.5 % over 0.8475",
      "Potassium Sorbate, 0.80, 2026-11-25, above-limit-leave-on, holds, 0.6 % over 0.7464",
      "Potassium Sorbate, 0.81, 2026-11-25, above-limit-leave-on, breaks, 0.6 % over 0.7464",
      "Retinyl Palmitate, 0.54, 2026-11-25, retinoids, holds, 0.3 % over 0.546",
      "Retinyl Palmitate, 0.56, 2026-11-25, retinoids, breaks, 0.3 % over 0.546",
      "Retinyl Palmitate, 0.56, 2025-10-31, retinoids, not-applicable, Regulation (EU) 2024/996",
      "Zinc Gluconate, 6.9, 2026-11-25, zinc-salts, holds, 1 % over 0.1435",
      "Zinc Gluconate, 7.1, 2026-11-25, zinc-salts, breaks, 1 % over 0.1435",
      "Hydroquinone, 0.1, 2026-11-25, banned, breaks, Annex III entry 14",
      "Polyaminopropyl Biguanide, 0.2, 2026-11-25, above-limit-leave-on-as-such, breaks, Annex V"
    })
    void rows(String name, double share, String on, String rule, String outcome, String source) {
      Formula formula =
          formula(
              GEL
                  + "ingredients:\n  - { name: Aqua, share: rest }\n  - { name: "
                  + name
                  + ", share: "
                  + share
                  + " % }\n");
      Reviewer reviewer = Reviewer.using(new Knowledge(CATALOGUE, BOOK));
      List<Outcome> outcomes =
          List.copyOf(reviewer.outcomes(formula, LocalDate.parse(on), "law-eu." + rule).values());
      assertEquals(outcome, Reviewer.worst(outcomes).map(Outcome::word).orElse("not-applicable"));
    }
  }

  @Test
  @DisplayName("every row of the law's tables says how it was read, and every date is one")
  void rows() {
    RuleSet law =
        LIBRARY.ruleSets().stream()
            .filter(set -> set.id().equals("law-eu"))
            .findFirst()
            .orElseThrow();
    Map<String, String> wrong = new TreeMap<>();
    for (Table table : law.tables()) {
      if (table.name().equals("market-rule-sets")) {
        continue;
      }
      for (Table.Row row : table.rows()) {
        if (row.cell("read").isEmpty()) {
          wrong.put(table.name() + " " + row.key(), "does not say how it was read");
        }
        for (String column : List.of("from", "since")) {
          row.cell(column)
              .ifPresent(
                  cell -> LocalDate.parse(((Table.Cell.Names) cell).names().iterator().next()));
        }
      }
    }
    assertEquals(Map.of(), wrong);
  }

  @Test
  @DisplayName("24 allergens of the first list [Directive 2003/15/EC: 26, less two banned since]")
  void firstAllergens() {
    Table table =
        LIBRARY.ruleSets().stream()
            .flatMap(set -> set.tables().stream())
            .filter(each -> each.name().equals("fragrance-allergens"))
            .findFirst()
            .orElseThrow();
    long first =
        table.rows().stream()
            .filter(
                row ->
                    row.cell("since")
                        .map(cell -> ((Table.Cell.Names) cell).names().contains("2013-07-11"))
                        .orElse(false))
            .count();
    assertEquals(24, first);
  }
}
