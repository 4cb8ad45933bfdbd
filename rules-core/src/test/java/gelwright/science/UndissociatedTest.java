package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class UndissociatedTest {

  // Tolerance: the rounding of the table, or more where its figures and its pKa do not quite agree:
  // the data book states 4.19 for benzoic acid, its figures follow from 4.16.
  static Stream<Arguments> published() {
    return Stream.of(
        arguments(
            "dehydroacetic acid, pKa 5.27 at pH 3 -> 100 % undissociated [Steinberg 2005, read]",
            3, 5.27, 100, 1),
        arguments(
            "dehydroacetic acid, pKa 5.27 at pH 4 -> 95 % undissociated [Steinberg 2005, read]",
            4, 5.27, 95, 0.5),
        arguments(
            "dehydroacetic acid, pKa 5.27 at pH 5 -> 65 % undissociated [Steinberg 2005, read]",
            5, 5.27, 65, 0.5),
        arguments(
            "dehydroacetic acid, pKa 5.27 at pH 6 -> 16 % undissociated [Steinberg 2005, read]",
            6, 5.27, 16, 0.5),
        arguments(
            "dehydroacetic acid, pKa 5.27 at pH 7 -> 2 % undissociated [Steinberg 2005, read]",
            7, 5.27, 2, 0.5),
        arguments(
            "benzoic acid, pKa 4.18 at pH 3 -> 94 % undissociated [Steinberg 2005, read]",
            3, 4.18, 94, 0.5),
        arguments(
            "benzoic acid, pKa 4.18 at pH 4 -> 61 % undissociated [Steinberg 2005, read]",
            4, 4.18, 61, 1),
        arguments(
            "benzoic acid, pKa 4.18 at pH 5 -> 13 % undissociated [Steinberg 2005, read]",
            5, 4.18, 13, 0.5),
        arguments(
            "benzoic acid, pKa 4.18 at pH 6 -> 1.5 % undissociated [Steinberg 2005, read]",
            6, 4.18, 1.5, 0.1),
        arguments(
            "benzoic acid, pKa 4.18 at pH 7 -> 0 % undissociated [Steinberg 2005, read]",
            7, 4.18, 0, 0.5),
        arguments(
            "sorbic acid, pKa 4.76 at pH 3 -> 98 % undissociated [Steinberg 2005, read]",
            3, 4.76, 98, 0.5),
        arguments(
            "sorbic acid, pKa 4.76 at pH 4 -> 85 % undissociated [Steinberg 2005, read]",
            4, 4.76, 85, 0.5),
        arguments(
            "sorbic acid, pKa 4.76 at pH 5 -> 37 % undissociated [Steinberg 2005, read]",
            5, 4.76, 37, 1),
        arguments(
            "sorbic acid, pKa 4.76 at pH 6 -> 5.5 % undissociated [Steinberg 2005, read]",
            6, 4.76, 5.5, 0.1),
        arguments(
            "sorbic acid, pKa 4.76 at pH 7 -> 0 % undissociated [Steinberg 2005, read]",
            7, 4.76, 0, 0.6),
        arguments(
            "benzoic acid, pKa 4.19 at pH 3 -> 93.5 % undissociated [food additives data book,"
                + " read]",
            3, 4.19, 93.5, 0.5),
        arguments(
            "benzoic acid, pKa 4.19 at pH 5 -> 12.8 % undissociated [food additives data book,"
                + " read]",
            5, 4.19, 12.8, 0.7),
        arguments(
            "benzoic acid, pKa 4.19 at pH 6 -> 1.44 % undissociated [food additives data book,"
                + " read]",
            6, 4.19, 1.44, 0.1),
        arguments(
            "benzoic acid, pKa 4.19 at pH 7 -> 0.144 % undissociated [food additives data book,"
                + " read]",
            7, 4.19, 0.144, 0.011));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("published")
  @DisplayName("published tables of undissociated acid")
  void published(String name, double pH, double pKa, double percent, double tolerance) {
    assertEquals(percent, 100 * Undissociated.fraction(pH, pKa), tolerance, name);
  }

  @Test
  @DisplayName("worked example: benzoic acid, pKa 4.204, at pH 5 -> 13.8 % [by hand]")
  void workedExample() {
    // 10^(5 − 4.204) = 6.252; 1/(1 + 6.252) = 0.1379
    assertEquals(0.1379, Undissociated.fraction(5, 4.204), 0.00005);
    // At I = 0.1 mol/kg: pKa′ = 4.204 − 0.107 = 4.097; 1/(1 + 10^0.903) = 0.1111
    assertEquals(0.1111, Undissociated.fraction(5, 4.204, 0.1), 0.0002);
  }

  @Test
  @DisplayName("the same share as the charge balance gives at that pH and ionic strength")
  void agreesWithChargeBalance() {
    AcidBase.Mixture mixture =
        AcidBase.Mixture.of(
            new AcidBase.StrongIon(0.06, 1),
            AcidBase.Weak.acid(0.035, 4.204),
            AcidBase.Weak.acid(0.05, 4.756));
    AcidBase.Equilibrium e = AcidBase.solve(mixture, AcidBase.Options.STANDARD);
    assertEquals(
        AcidBase.states(mixture, AcidBase.Options.STANDARD, e).get(1).fractions().get(0),
        Undissociated.fraction(e.pH(), 4.204, e.ionicStrength()),
        1e-12);
  }

  @Test
  @DisplayName("falls with pH, stays within 0 and 1, is one half at the pKa")
  void shape() {
    double last = 2;
    for (double pH = -2; pH <= 16; pH += 0.25) {
      double f = Undissociated.fraction(pH, 4.76);
      assertTrue(f < last && f >= 0 && f <= 1);
      last = f;
    }
    assertEquals(0.5, Undissociated.fraction(4.76, 4.76));
    assertEquals(0, Undissociated.fraction(5000, 4.76));
    assertThrows(IllegalArgumentException.class, () -> Undissociated.fraction(Double.NaN, 4));
    assertThrows(IllegalArgumentException.class, () -> Undissociated.fraction(4, 4, -1));
  }
}
