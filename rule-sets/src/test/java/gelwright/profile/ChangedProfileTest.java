package gelwright.profile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotSame;
import static org.junit.jupiter.api.Assertions.assertSame;

import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.quantity.Bounded;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.review.Variations;
import gelwright.sheets.BundledRuleSets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("the profile of a changed formula")
final class ChangedProfileTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Catalogue CATALOGUE = BundledRuleSets.load().catalogue();

  private static final int CHANGES = 12;

  @Test
  @DisplayName("is, number for number, the one made anew, after any change and after several")
  void sameAsNew() {
    long seed = Long.getLong("seed", 20261129);
    Random random = new Random(seed);
    for (Formula example : Variations.examples()) {
      Profile profile = Profile.of(example, CATALOGUE, ON);
      numbers(profile);
      Formula formula = example;
      Profile carried = profile;
      for (int i = 0; i < CHANGES; i++) {
        List<Edit> edits = Variations.edits(formula, random);
        formula = Edit.all(edits, formula);
        carried = carried.with(formula);
        assertEquals(
            numbers(Profile.of(formula, CATALOGUE, ON)),
            numbers(carried),
            "seed " + seed + ", " + example.name() + ", " + edits);
      }
    }
  }

  @Test
  @DisplayName("keeps what the change does not touch, and computes anew what it does")
  void keepsTheRest() {
    Formula gel = Variations.examples().get(0);
    Profile profile = Profile.of(gel, CATALOGUE, ON);
    Bounded pH = profile.value("water-phase.pH-unadjusted");
    Bounded peak = profile.value("process.peak-temperature");
    Bounded activity = profile.value("water-phase.water-activity");
    Profile warmer =
        profile.with(
            new Edit.OfStep(
                    0, "to", Edit.Part.TEMPERATURE, Optional.empty(), Quantity.of(60, Unit.CELSIUS))
                .in(gel));
    assertSame(pH, warmer.value("water-phase.pH-unadjusted"));
    assertNotSame(peak, warmer.value("process.peak-temperature"));
    Profile larger =
        profile.with(new Edit.OfBatch(Optional.empty(), Quantity.of(2, Unit.KILOGRAM)).in(gel));
    assertSame(pH, larger.value("water-phase.pH-unadjusted"));
    assertSame(activity, larger.value("water-phase.water-activity"));
  }

  // Numbers of the formula and of all its items, to the last digit.
  private static List<String> numbers(Profile profile) {
    List<String> all = new ArrayList<>();
    for (Profile.Value value : profile.values()) {
      all.add(value.name() + " " + written(value));
    }
    for (Properties.Kind kind : Properties.KINDS) {
      for (Profile.OfItem item :
          profile.values(
              kind.name(),
              kind.family().definitions().stream()
                  .map(Definition::name)
                  .collect(Collectors.toSet()))) {
        for (Profile.Value value : item.values()) {
          all.add(kind.name() + " " + item.item() + " " + value.name() + " " + written(value));
        }
      }
    }
    return all;
  }

  private static String written(Profile.Value value) {
    Bounded bounded = value.value();
    return bounded.atLeast().low()
        + " "
        + bounded.atLeast().likely()
        + " "
        + bounded.atMost().likely()
        + " "
        + bounded.atMost().high()
        + " "
        + bounded.missing()
        + " "
        + value.origin()
        + " "
        + value.sources();
  }
}
