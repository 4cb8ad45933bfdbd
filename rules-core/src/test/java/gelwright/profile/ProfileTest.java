package gelwright.profile;

import static gelwright.profile.Shed.at;
import static gelwright.profile.Shed.catalogue;
import static gelwright.profile.Shed.formula;
import static gelwright.profile.Shed.ingredient;
import static gelwright.profile.Shed.into;
import static gelwright.profile.Shed.lasting;
import static gelwright.profile.Shed.line;
import static gelwright.profile.Shed.number;
import static gelwright.profile.Shed.step;
import static gelwright.profile.Shed.with;
import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Step;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Trait;
import gelwright.quantity.Bounded;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Nested;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("profile of a formula")
final class ProfileTest {
  private static final Step HEAT = step(Step.Action.HEAT, "A");
  private static final Step HYDRATE = step(Step.Action.HYDRATE, "A");

  private static void assertExactly(double expected, Bounded number) {
    assertTrue(number.isKnown(), () -> "known: " + number);
    assertEquals(expected, number.atLeast().likely(), Math.abs(expected) * 1e-12);
  }

  @Nested
  @DisplayName("composition")
  final class Composition {
    private final Catalogue catalogue =
        catalogue(
            ingredient("Oil of Quince").functions("oil").dissolves("oil"),
            ingredient("Sour").functions("acid"),
            ingredient("Half and Half").madeOf("Oil of Quince", "50").madeOf("Sour", "50"),
            ingredient("Nested").madeOf("Half and Half", "20").madeOf("Aqua", "80"),
            ingredient("Loop").madeOf("Loop", "50").madeOf("Aqua", "50"),
            ingredient("Thirds")
                .madeOf("Aqua", "33.333333")
                .madeOf("Sour", "33.333333")
                .madeOf("Oil of Quince", "33.333334"));

    private Profile of(Line... lines) {
      return Profile.of(formula(List.of(lines)), catalogue);
    }

    @ParameterizedTest(name = "{0} {1} % -> oil {2} %, water {3} %")
    @CsvSource({
      "Half and Half, 10, 5,  90",
      "Nested,        10, 1,  98",
      "Thirds,        0.00000003, 0.00000001, 99.99999998",
    })
    @DisplayName("a blend counts as its parts, and the sum stays exactly 100 %")
    void blends(String name, String share, double oil, double water) {
      Profile profile = of(line("A", "Aqua", "rest"), line("A", name, share));

      assertExactly(oil, number(profile, "oil.share"));
      assertExactly(water, number(profile, "water.share"));
      assertExactly(100, number(profile, "total.share"));
    }

    @Test
    @DisplayName("12.5 % of an 80 % solution -> 10 % of the acid and 2.5 % more water")
    void strength() {
      Profile profile = of(line("A", "Aqua", "rest"), line("A", "Sour", "12.5", "80"));

      assertExactly(10, number(profile, "Sour", "share"));
      assertExactly(90, number(profile, "water.share"));
    }

    @Test
    @DisplayName("a blend that is bought diluted counts with its content")
    void diluteBlend() {
      Profile profile = of(line("A", "Aqua", "rest"), line("A", "Half and Half", "10", "50"));

      assertExactly(2.5, number(profile, "oil.share"));
      assertExactly(95, number(profile, "water.share"));
    }

    @Test
    @DisplayName("a blend that contains itself ends, and loses no mass")
    void loop() {
      Profile profile = of(line("A", "Aqua", "rest"), line("A", "Loop", "10"));
      double loop = number(profile, "Loop", "share").atLeast().likely();
      double water = number(profile, "water.share").atLeast().likely();

      assertEquals(100, loop + water, 1e-9);
    }

    @Test
    @DisplayName("shares of 0.1 % and 0.2 % add up to 0.3 %, not to 0.30000000000000004 %")
    void exactSums() {
      Profile profile = of(line("A", "Sour", "0.1"), line("B", "Sour", "0.2"));

      assertEquals(0.3, number(profile, "total.share").atLeast().likely());
    }

    @Test
    @DisplayName(
        "what an ingredient is used for is not known -> it may be a gum, an oil, a preservative")
    void mayBeAnything() {
      Catalogue more = catalogue(ingredient("Silent").functionsUnknown());
      Profile profile =
          Profile.of(formula(List.of(line("A", "Aqua", "rest"), line("A", "Silent", "2"))), more);

      for (String sum :
          List.of("gum.share", "oil.share", "preservative.share", "particles.share")) {
        Bounded number = number(profile, sum);
        assertAll(
            sum,
            () -> assertEquals(0, number.atLeast().likely()),
            () -> assertEquals(2, number.atMost().likely()),
            () -> assertEquals(Set.of("functions of Silent"), number.missing()));
      }
    }
  }

  @Nested
  @DisplayName("pH from the charge balance")
  final class Acidity {
    private final Catalogue catalogue =
        catalogue(
            ingredient("Acetic Acid").acid(60.05, List.of(4.756), 0, 0),
            ingredient("Sodium Acetate").acid(82.03, List.of(4.756), 0, 1),
            ingredient("Citric Acid").acid(192.12, List.of(3.128, 4.761, 6.396), 0, 0),
            ingredient("Sodium Citrate").acid(258.07, List.of(3.128, 4.761, 6.396), 0, 3),
            ingredient("Nameless").functions("acid"));

    private double pH(Line... lines) {
      List<Line> all = new ArrayList<>(List.of(line("A", "Aqua", "100")));
      all.addAll(List.of(lines));
      return number(Profile.of(formula(all), catalogue), "water-phase.pH").atLeast().likely();
    }

    // 0.6005 % on 100 % of water is 0.1 mol per kg of water.
    @Test
    @DisplayName("0.1 mol/kg acetic acid -> pH 2.88 [textbook: (pKa - log c)/2 = 2.878]")
    void aceticAcid() {
      assertEquals(2.878, pH(line("A", "Acetic Acid", "0.6005")), 0.02);
    }

    @Test
    @DisplayName(
        "0.1 mol/kg acetic acid + 0.1 mol/kg sodium acetate -> pH 4.65 [CRC/NBS buffer tables, from"
            + " memory: 4.65 at 25 °C]")
    void acetateBuffer() {
      assertEquals(
          4.65,
          pH(line("A", "Acetic Acid", "0.6005"), line("A", "Sodium Acetate", "0.8203")),
          0.05);
    }

    @Test
    @DisplayName(
        "equal moles of citric acid and trisodium citrate -> near pKa2 less activity, 4.3 to 4.76")
    void citrate() {
      double pH = pH(line("A", "Citric Acid", "0.96060"), line("A", "Sodium Citrate", "1.29035"));

      assertTrue(pH > 4.2 && pH < 4.761, "pH " + pH);
    }

    @Test
    @DisplayName("a reading beats the prediction, and says so")
    void measured() {
      Measurement reading =
          new Measurement(
              "pH",
              Optional.of(Quantity.of(5.4, Unit.PH)),
              Optional.empty(),
              Optional.empty(),
              List.of());
      Formula formula =
          formula(
              List.of(line("A", "Aqua", "rest"), line("A", "Acetic Acid", "0.6")),
              List.of(reading));
      Profile profile = Profile.of(formula, catalogue);

      assertEquals(5.4, number(profile, "water-phase.pH").atLeast().likely(), 1e-12);
      assertTrue(
          profile.values().stream()
              .anyMatch(
                  value ->
                      value.name().equals("water-phase.pH")
                          && value.origin() == Profile.Origin.MEASURED));
    }

    @Test
    @DisplayName("an ingredient nobody knows -> the pH is unknown and says why")
    void unknown() {
      Formula formula = formula(List.of(line("A", "Aqua", "rest"), line("A", "Mist", "1")));
      Bounded pH = number(Profile.of(formula, catalogue), "water-phase.pH");

      assertFalse(pH.isKnown());
      assertTrue(pH.missing().contains("acid–base behaviour of Mist"), pH.missing()::toString);
    }
  }

  @Nested
  @DisplayName("procedure")
  final class Course {
    private final Catalogue catalogue =
        catalogue(
            ingredient("Gum").gum(0.2, 1.5),
            ingredient("Oil").functions("oil").dissolves("oil").trait(Trait.DENSITY, 900));
    private final List<Line> lines =
        List.of(line("A", "Aqua", "79"), line("A", "Gum", "1"), line("B", "Oil", "20"));

    private Profile of(Step... method) {
      return Profile.of(formula(lines, method), catalogue);
    }

    @Test
    @DisplayName(
        "80 parts of water at 80 °C and 20 of oil at 20 °C -> the oil peaks at the mean by heat,"
            + " 73.6 °C")
    void combined() {
      // By hand, with 4181 J/(kg K) for what is in water and 2000 for oil (the engine's inputs):
      // (80·4181·80 + 20·2000·20) / (80·4181 + 20·2000) = 73.59 °C.
      Profile profile = of(lasting(at(HEAT, 80), 10), into(step(Step.Action.ADD, "B"), "A"));

      assertEquals(73.59, number(profile, "Oil", "peak-temperature").atLeast().likely(), 0.01);
      assertEquals(80, number(profile, "Gum", "peak-temperature").atLeast().likely(), 1e-9);
      assertEquals(80, number(profile, "process.peak-temperature").atLeast().likely(), 1e-9);
    }

    @Test
    @DisplayName("an ingredient named by 'with' joins at that step and misses the heat before it")
    void joinsLate() {
      Profile profile =
          of(
              lasting(at(HEAT, 80), 10),
              lasting(at(step(Step.Action.COOL, "A"), 30), 10),
              with(step(Step.Action.ADD, "A"), "Oil"));

      assertEquals(30, number(profile, "Oil", "peak-temperature").atLeast().likely(), 1e-9);
    }

    @Test
    @DisplayName(
        "a heating step without a temperature -> the peak is not bounded, and the step is named")
    void temperatureMissing() {
      Profile profile = of(lasting(HEAT, 10), lasting(at(step(Step.Action.COOL, "A"), 25), 10));
      Bounded peak = number(profile, "Gum", "peak-temperature");

      assertTrue(Double.isInfinite(peak.atMost().likely()));
      assertEquals(Set.of("temperature of step 1"), peak.missing());
    }

    @Test
    @DisplayName(
        "a hydration step without a time -> what is hydrated has a lower bound, and the step is"
            + " named")
    void durationMissing() {
      Profile profile = of(at(HYDRATE, 38));
      Bounded hydration = number(profile, "gel.hydration");

      assertEquals(100, hydration.atMost().likely());
      assertEquals(Set.of("duration of step 1"), hydration.missing());
    }

    @Test
    @DisplayName("a phase that no step adds -> what it lives through is unknown")
    void neverAdded() {
      Profile profile = of(lasting(at(HYDRATE, 38), 30));
      Bounded peak = number(profile, "Oil", "peak-temperature");

      assertFalse(peak.isKnown());
      assertEquals(Set.of("the step that adds Oil"), peak.missing());
    }

    @Test
    @DisplayName(
        "35 min at 38 °C hydrate more than 35 min at 22 °C [k·exp(-Ea/R(1/T-1/298.15)), by hand"
            + " 97.4 % and 80.7 %]")
    void warmAndCold() {
      // By hand: k is 0.1044 /min at 38 °C and 0.0471 /min at 22 °C, from 0.055 /min at 25 °C.
      double warm = number(of(lasting(at(HYDRATE, 38), 35)), "gel.hydration").atLeast().likely();
      double cold = number(of(lasting(at(HYDRATE, 22), 35)), "gel.hydration").atLeast().likely();

      assertEquals(97.4, warm, 0.1);
      assertEquals(80.7, cold, 0.1);
    }

    @Test
    @DisplayName(
        "below the law's range the yield stress is at most that at its end; above it at least")
    void outsideTheLaw() {
      Step enough = lasting(at(HYDRATE, 60), 600);
      Bounded below = yieldStress("0.1", enough);
      Bounded above = yieldStress("3", enough);

      assertAll(
          () -> assertEquals(0, below.atLeast().likely()),
          () -> assertEquals(8 * 0.2 * 0.2, below.atMost().likely(), 1e-6),
          () -> assertEquals(8 * 1.5 * 1.5, above.atLeast().likely(), 1e-6),
          () -> assertTrue(Double.isInfinite(above.atMost().likely())),
          () -> assertEquals(Set.of("flow of Gum outside 0.2 to 1.5 %"), below.missing()));
    }

    private Bounded yieldStress(String gum, Step... method) {
      Formula formula = formula(List.of(line("A", "Aqua", "rest"), line("A", "Gum", gum)), method);
      return number(Profile.of(formula, catalogue), "gel.yield-stress");
    }

    @Test
    @DisplayName(
        "two formulas with one gum share its doubt: each is known to a factor of two, their ratio"
            + " is not in doubt")
    void sharedDoubt() {
      Step enough = lasting(at(HYDRATE, 60), 600);
      Bounded thin = yieldStress("0.9", enough);
      Bounded thick = yieldStress("1", enough);

      assertTrue(thin.atLeast().high() > thick.atLeast().low(), "the ranges overlap");
      assertEquals(1, thin.lessThan(thick).low(), 1e-9);
    }
  }

  @Test
  @DisplayName("the order of the lines and the names of the phases change no number")
  void orderAndNames() {
    Catalogue catalogue =
        catalogue(
            ingredient("Gum").gum(0.2, 1.5),
            ingredient("Other Gum").gum(0.1, 2),
            ingredient("Oil").functions("oil").dissolves("oil").trait(Trait.DENSITY, 900),
            ingredient("Acetic Acid").acid(60.05, List.of(4.756), 0, 0),
            ingredient("Sodium Acetate").acid(82.03, List.of(4.756), 0, 1));
    Seeded.tries(
        50,
        random -> {
          List<Line> lines =
              new ArrayList<>(
                  List.of(
                      line("A", "Aqua", "rest"),
                      line("A", "Gum", "0." + random.nextInt(3, 9)),
                      line("A", "Other Gum", "0." + random.nextInt(2, 9)),
                      line("B", "Oil", "" + random.nextInt(1, 20)),
                      line("C", "Acetic Acid", "0." + random.nextInt(1, 9)),
                      line("C", "Sodium Acetate", "0." + random.nextInt(1, 9))));
          Profile straight = Profile.of(formula(lines, course("A", "B", "C")), catalogue);
          Collections.shuffle(lines, new Random(random.nextLong()));
          List<Line> renamed =
              lines.stream()
                  .map(each -> Line.of(rename(each.phase()), each.name(), each.amount()))
                  .toList();
          Profile shuffled = Profile.of(formula(renamed, course("Z", "M", "K")), catalogue);
          for (int i = 0; i < straight.values().size(); i++) {
            Profile.Value one = straight.values().get(i);
            Profile.Value other = shuffled.values().get(i);
            assertEquals(one.name(), other.name());
            assertNear(one.name(), one.value().atLeast().low(), other.value().atLeast().low());
            assertNear(one.name(), one.value().atMost().high(), other.value().atMost().high());
            assertEquals(one.value().missing(), other.value().missing(), one.name());
            assertEquals(one.sources(), other.sources(), one.name());
          }
        });
  }

  private static void assertNear(String name, double expected, double actual) {
    if (expected != actual) {
      assertEquals(expected, actual, 1e-9 * Math.max(1, Math.abs(expected)), name);
    }
  }

  private static String rename(String phase) {
    return phase.equals("A") ? "Z" : phase.equals("B") ? "M" : "K";
  }

  private static Step[] course(String water, String oil, String acid) {
    return new Step[] {
      lasting(at(step(Step.Action.HEAT, water), 60), 10),
      lasting(at(step(Step.Action.HYDRATE, water), 60), 35),
      lasting(into(step(Step.Action.ADD, oil), water), 5),
      lasting(into(step(Step.Action.ADD, acid), water), 5)
    };
  }
}
