package gelwright.profile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.comparison.Comparer;
import gelwright.comparison.FormulaComparison;
import gelwright.comparison.PropertyComparison;
import gelwright.formula.Formula;
import gelwright.ingredient.Catalogue;
import gelwright.review.Knowledge;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The odds of a difference by another route: both formulas computed anew in many draws of all that
 * is not known, each shared doubt drawn once for both, and counted in how many the second is
 * greater (Monte Carlo, JCGM 101:2008).
 */
@DisplayName("odds of a difference against draws of all doubts")
final class DifferenceDrawsTest {
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final Catalogue CATALOGUE = KNOWLEDGE.catalogue();
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final int DRAWS = 1_000;

  /** Of 1000 draws a part of 0.5 is known to 0.016; three such errors. */
  private static final double ERROR = 0.048;

  private static final String GEL =
      """
      formula: %s
      product: { kind: gel, use: leave-on, texture: gel, dispensing: tube }
      ingredients:
        - { phase: A, name: Aqua, share: rest }
        - { phase: A, name: Glycerin, share: %s %% }
        - { phase: A, name: Sclerotium Gum, share: %s %% }
      method:
        - { do: hydrate, phase: A, at: %s °C, for: %s min, stir: 400 rpm }
      """;

  private static Formula gel(
      String name, String glycerin, String gum, String celsius, String minutes) {
    String sheet = String.format(java.util.Locale.ROOT, GEL, name, glycerin, gum, celsius, minutes);
    return new FormulaReader().read(sheet.getBytes(StandardCharsets.UTF_8), "s.yaml").orThrow();
  }

  /** Two gels, a number, and by how much first order may be off, with the reason. */
  static Stream<Arguments> pairs() {
    Formula warm = gel("warm", "4", "1.2", "38", "90");
    return Stream.of(
        // Nothing but the concentration differs, which is not in doubt: sure on both routes.
        Arguments.of(
            "more gum", warm, gel("more", "4", "1.3", "38", "90"), "gel.yield-stress", 0.0),
        Arguments.of(
            "more glycerin",
            warm,
            gel("dearer", "9", "1.2", "38", "90"),
            "gel.viscosity-rubbing",
            0.1),
        // A little less gum against a little better hydration.
        Arguments.of(
            "more gum, colder",
            gel("first", "4", "1.2", "30", "30"),
            gel("second", "4", "1.3", "22", "30"),
            "gel.yield-stress",
            0.1),
        // Warmth never hydrates less, so in every draw the warm gel is the firmer one. Saturation
        // bends the hydrated part; a straight line does not, and errs to the side of doubt.
        Arguments.of(
            "warm and cold",
            gel("first", "4", "1.2", "38", "40"),
            gel("second", "4", "1.2", "22", "40"),
            "gel.yield-stress",
            0.1));
  }

  @ParameterizedTest(name = "{0}: {3}")
  @MethodSource("pairs")
  void agree(String what, Formula first, Formula second, String property, double bends) {
    FormulaComparison comparison = Comparer.using(KNOWLEDGE).compare(first, second, ON);
    PropertyComparison compared = comparison.property(property).orElseThrow();
    assertEquals(compared.higher().low(), compared.higher().high(), "both are known");
    Definition definition =
        Properties.FORMULA.stream()
            .filter(each -> each.name().equals(property))
            .findFirst()
            .orElseThrow();
    World one = new World(new Model(first, CATALOGUE, List.of(), Optional.empty()));
    World other = new World(new Model(second, CATALOGUE, List.of(), Optional.empty()));
    Set<String> doubts = new TreeSet<>();
    for (World world : List.of(one, other)) {
      world.node(definition, 0).basis().doubts.forEach(each -> doubts.add(each.doubt().name()));
    }
    assertTrue(doubts.contains("yield of Sclerotium Gum") || property.contains("viscosity"));
    Random random = new Random(20261125);
    int higher = 0;
    List<Double> ratios = new ArrayList<>();
    for (int i = 0; i < DRAWS; i++) {
      Map<String, Double> at = new TreeMap<>();
      doubts.forEach(doubt -> at.put(doubt, random.nextGaussian()));
      double a = middle(one.draw(at).of(definition));
      double b = middle(other.draw(at).of(definition));
      higher += b > a ? 1 : 0;
      ratios.add(b / a);
    }
    double drawn = (double) higher / DRAWS;
    assertEquals(drawn, compared.higher().low(), ERROR + bends, what);
    ratios.sort(Double::compare);
    double spreadDrawn = Math.log(ratios.get(DRAWS - DRAWS / 20) / ratios.get(DRAWS / 20));
    double spread = Math.log(compared.difference().high() / compared.difference().low());
    // The two ends together: a width to 4 % by the draws, the rest for what bends.
    assertTrue(
        spread < 1e-6 ? spreadDrawn < 1e-6 : Math.abs(Math.log(spreadDrawn / spread)) < 0.5,
        () -> what + ": drawn " + spreadDrawn + ", propagated " + spread);
    // Were shared doubts not to cancel, the gum's own factor would drown the difference.
    double alone = Math.log(compared.first().high() / compared.first().low());
    assertTrue(spread < 0.6 * alone, () -> what + ": " + spread + " of " + alone);
  }

  private static double middle(Reading reading) {
    return (reading.low() + reading.high()) / 2;
  }
}
