package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.profile.Profile;
import gelwright.rule.CompiledRule;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("rows of tables that are asked by their kind")
final class RowsTest {
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);

  private static Formula formula(Random random, List<String> names) {
    StringBuilder sheet = new StringBuilder("formula: Any\nproduct: { kind: ");
    sheet.append(one(random, "serum", "mist", "deodorant", "wash", "gel"));
    if (random.nextInt(4) > 0) {
      sheet.append(", use: ").append(one(random, "leave-on", "rinse-off"));
    }
    if (random.nextInt(4) > 0) {
      sheet.append(", area: [").append(one(random, "face", "lips", "underarm", "hair")).append("]");
    }
    if (random.nextInt(4) > 0) {
      sheet.append(", dispensing: ").append(one(random, "jar", "pump-spray", "aerosol"));
    }
    if (random.nextInt(4) > 0) {
      sheet.append(", markets: [").append(one(random, "EU", "US", "EEA")).append("]");
    }
    sheet.append(" }\ningredients:\n  - { phase: A, name: Aqua, share: rest }\n");
    for (int i = random.nextInt(12); i >= 0; i--) {
      String name =
          random.nextInt(60) == 0 ? "Unheard-of Extract" : names.get(random.nextInt(names.size()));
      sheet.append("  - { phase: A, name: \"").append(name).append("\", share: ");
      sheet.append(random.nextInt(40) / 10.0).append(" % }\n");
    }
    return new FormulaReader()
        .read(sheet.toString().getBytes(StandardCharsets.UTF_8), "any.yaml")
        .orThrow();
  }

  private static String one(Random random, String... words) {
    return words[random.nextInt(words.length)];
  }

  /** What the tables name, so that their rows are met, and the rest of the catalogue. */
  private static List<String> names() {
    List<String> names = new ArrayList<>();
    KNOWLEDGE.catalogue().ingredients().forEach(each -> names.add(each.name()));
    for (CompiledRule rule : KNOWLEDGE.rules().rules()) {
      rule.alike()
          .ifPresent(
              rows -> {
                for (int row = 0; row < rows.rows(); row++) {
                  rows.named(row).stream().sorted().limit(2).forEach(names::add);
                }
              });
    }
    return names.stream().sorted().toList();
  }

  @Test
  @DisplayName("come to what each comes to by itself, whatever the recipe holds")
  void asAsked() {
    List<String> names = names();
    Reviewer reviewer = Reviewer.using(KNOWLEDGE);
    Set<Outcome> met = new java.util.TreeSet<>();
    for (int seed = 0; seed < 150; seed++) {
      Formula formula = formula(new Random(seed), names);
      Profile profile = Profile.of(formula, KNOWLEDGE.catalogue(), ON);
      Rows.Asking asking = new Rows(KNOWLEDGE.rules().rules(), KNOWLEDGE.catalogue()).of(profile);
      for (CompiledRule rule : KNOWLEDGE.rules().rules()) {
        Rows.OfRule each = asking.of(rule, profile);
        int number = 0;
        for (gelwright.rule.Subject subject : rule.subjects(profile)) {
          Judge.Judged itself = Reviewer.judged(rule, profile, subject);
          Judge.Judged among = each.judged(number++, subject);
          assertEquals(
              itself.verdict(), among.verdict(), rule + " " + subject.name() + ", seed " + seed);
          if (rule.alike().isPresent()) {
            met.add(itself.outcome());
          }
        }
      }
      assertEquals(
          reviewer.review(formula, ON).counts().values().stream().mapToInt(each -> each).sum(),
          KNOWLEDGE.rules().rules().stream().mapToInt(rule -> rule.subjects(profile).size()).sum());
    }
    assertTrue(
        met.containsAll(
            Set.of(Outcome.BREAKS, Outcome.HOLDS, Outcome.UNKNOWN, Outcome.NOT_APPLICABLE)),
        met::toString);
  }
}
