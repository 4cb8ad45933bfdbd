package gelwright.profile;

import static gelwright.profile.Shed.catalogue;
import static gelwright.profile.Shed.formula;
import static gelwright.profile.Shed.ingredient;
import static gelwright.profile.Shed.into;
import static gelwright.profile.Shed.line;
import static gelwright.profile.Shed.number;
import static gelwright.profile.Shed.step;
import static gelwright.profile.Shed.with;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Line;
import gelwright.formula.Step;
import gelwright.ingredient.Catalogue;
import gelwright.quantity.Bounded;
import gelwright.rule.Chosen;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("order of the steps, what they do, and what is counted")
final class OrderOfStepsTest {
  private static final Catalogue CATALOGUE =
      catalogue(
          ingredient("Gum of Reed").functions("gum"),
          ingredient("Sour").functions("acid"),
          ingredient("Keeper").functions("preservative"),
          ingredient("Second Keeper").functions("preservative", "active"),
          ingredient("Riddle").functionsUnknown());

  private static final List<Line> LINES =
      List.of(
          line("A", "Aqua", "rest"),
          line("A", "Gum of Reed", "1"),
          line("B", "Keeper", "0.5"),
          line("B", "Second Keeper", "0.2"),
          line("C", "Sour", "0.3"),
          line("D", "Riddle", "0.1"));

  private static final Step[] METHOD = {
    with(step(Step.Action.DISPERSE, "A"), "Gum of Reed"),
    step(Step.Action.HYDRATE, "A"),
    into(step(Step.Action.ADD, "B"), "A"),
    with(step(Step.Action.ADJUST_PH, "A"), "Sour")
  };

  private static Profile of(Step... method) {
    return Profile.of(formula(LINES, method), CATALOGUE);
  }

  private static Chosen choice(Profile profile, String name) {
    return profile.choice(Profile.vocabulary().property(name).orElseThrow().slot());
  }

  private static double likely(Bounded number) {
    assertTrue(number.isKnown(), () -> "known: " + number);
    return number.atLeast().likely();
  }

  @ParameterizedTest(name = "{0} joins at step {1}")
  @CsvSource({"Aqua, 0", "Gum of Reed, 1", "Keeper, 3", "Sour, 4"})
  @DisplayName("a line joins where it is named, else with its phase")
  void joins(String name, double step) {
    assertEquals(step, likely(number(of(METHOD), name, "joins-at")));
  }

  @Test
  @DisplayName("a phase that no step adds, and a recipe without steps -> not known")
  void neverJoins() {
    assertFalse(number(of(METHOD), "Riddle", "joins-at").isKnown());
    assertFalse(number(of(), "Keeper", "joins-at").isKnown());
  }

  @Test
  @DisplayName("the gum is ready after the last hydration, the pH set at the last adjustment")
  void marks() {
    Profile profile = of(METHOD);
    assertEquals(2, likely(number(profile, "method.gum-ready-at")));
    assertEquals(4, likely(number(profile, "method.pH-set-at")));
  }

  @Test
  @DisplayName("without hydration the gum is ready when it is dispersed; without either not known")
  void marksMissing() {
    assertEquals(1, likely(number(of(METHOD[0]), "method.gum-ready-at")));
    assertFalse(number(of(METHOD[2]), "method.gum-ready-at").isKnown());
    assertFalse(number(of(METHOD[0]), "method.pH-set-at").isKnown());
    assertFalse(number(of(), "method.pH-set-at").isKnown());
  }

  @Test
  @DisplayName("actions of four steps; without steps the procedure is missing")
  void actions() {
    assertEquals(
        Set.of("disperse", "hydrate", "add", "adjust-pH"),
        choice(of(METHOD), "method.actions").names());
    assertEquals(Set.of("the procedure (method)"), choice(of(), "method.actions").missing());
  }

  @Test
  @DisplayName("two preservatives, and perhaps a third whose functions are not known")
  void preservatives() {
    Bounded count = number(of(METHOD), "preservatives.count");
    assertFalse(count.isKnown());
    assertEquals(2, count.atLeast().likely());
    assertEquals(3, count.atMost().likely());
  }

  @Test
  @DisplayName("actives add up to 0.2 %, or 0.3 % with what is not known")
  void actives() {
    Bounded share = number(of(METHOD), "active.share");
    assertEquals(0.2, share.atLeast().likely(), 1e-12);
    assertEquals(0.3, share.atMost().likely(), 1e-12);
  }

  @Test
  @DisplayName("stirrer and cover that the sheet does not say are missing, not guessed")
  void equipment() {
    assertFalse(choice(of(METHOD), "stirrer.type").missing().isEmpty());
    assertFalse(choice(of(METHOD), "vessel.cover").missing().isEmpty());
  }
}
