package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class AcidEquivalentTest {

  static Stream<Arguments> factors() {
    return Stream.of(
        arguments(
            "sodium benzoate as acid -> 0.8475 [computed from molar masses]",
            "C7H6O2",
            "C7H5NaO2",
            0.8475,
            0.0001),
        arguments(
            "potassium benzoate as acid -> 0.7622 [computed from molar masses]",
            "C7H6O2",
            "C7H5KO2",
            0.7622,
            0.0001),
        arguments(
            "potassium sorbate as acid -> 0.7464 [computed from molar masses]",
            "C6H8O2",
            "C6H7KO2",
            0.7464,
            0.0001),
        arguments(
            "sodium dehydroacetate as acid -> 0.8844 [computed from molar masses]",
            "C8H8O4",
            "C8H7NaO4",
            0.8844,
            0.0001),
        arguments(
            "sodium dehydroacetate monohydrate as acid -> 0.8078 [computed from molar masses]",
            "C8H8O4",
            "C8H7NaO4.H2O",
            0.8078,
            0.0001),
        arguments(
            "sodium salicylate as acid -> 0.8627 [computed from molar masses]",
            "C7H6O3",
            "C7H5NaO3",
            0.8627,
            0.0001),
        arguments(
            "TEA-salicylate as acid -> 0.481 [computed from molar masses]",
            "C7H6O3",
            "C7H6O3.C6H15NO3",
            0.481,
            0.0006),
        arguments(
            "sodium propionate as acid -> 0.771 [computed from molar masses]",
            "C3H6O2",
            "C3H5NaO2",
            0.771,
            0.0006),
        arguments(
            "sodium formate as acid -> 0.677 [computed from molar masses]",
            "CH2O2",
            "CHNaO2",
            0.677,
            0.0006),
        arguments(
            "sodium undecylenate as acid -> 0.893 [computed from molar masses]",
            "C11H20O2",
            "C11H19NaO2",
            0.893,
            0.0006),
        arguments(
            "methylparaben as 4-hydroxybenzoic acid -> 0.9078 [computed from molar masses]",
            "C7H6O3",
            "C8H8O3",
            0.9078,
            0.0001),
        arguments(
            "ethylparaben as acid -> 0.8312 [computed from molar masses]",
            "C7H6O3",
            "C9H10O3",
            0.8312,
            0.0001),
        arguments(
            "propylparaben as acid -> 0.7665 [computed from molar masses]",
            "C7H6O3",
            "C10H12O3",
            0.7665,
            0.0001),
        arguments(
            "butylparaben as acid -> 0.7111 [computed from molar masses]",
            "C7H6O3",
            "C11H14O3",
            0.7111,
            0.0001),
        arguments(
            "sodium methylparaben as acid -> 0.793 [computed from molar masses]",
            "C7H6O3",
            "C8H7NaO3",
            0.793,
            0.0006),
        arguments(
            "chlorhexidine digluconate as chlorhexidine -> 0.563 [computed from molar masses]",
            "C22H30Cl2N10",
            "C22H30Cl2N10.2C6H12O7",
            0.563,
            0.0006),
        arguments(
            "zinc PCA as zinc -> 0.203 [computed from molar masses]",
            "Zn",
            "(C5H6NO3)2Zn",
            0.203,
            0.0006),
        arguments(
            "zinc gluconate as zinc -> 0.1435 [computed from molar masses]",
            "Zn",
            "(C6H11O7)2Zn",
            0.1435,
            0.0001),
        arguments(
            "zinc sulfate heptahydrate as zinc -> 0.227 [computed from molar masses]",
            "Zn",
            "ZnSO4.7H2O",
            0.227,
            0.0006),
        arguments(
            "zinc acetate dihydrate as zinc -> 0.298 [computed from molar masses]",
            "Zn",
            "(C2H3O2)2Zn.2H2O",
            0.298,
            0.0006),
        arguments(
            "zinc chloride as zinc -> 0.48 [computed from molar masses]",
            "Zn",
            "ZnCl2",
            0.48,
            0.0006),
        arguments(
            "retinyl palmitate as retinol -> 0.546 [computed from molar masses]",
            "C20H30O",
            "C36H60O2",
            0.546,
            0.0006),
        arguments(
            "retinyl acetate as retinol -> 0.872 [computed from molar masses]",
            "C20H30O",
            "C22H32O2",
            0.872,
            0.0006),
        arguments(
            "citric acid monohydrate as anhydrous -> 0.9143 [computed from molar masses]",
            "C6H8O7",
            "C6H8O7.H2O",
            0.9143,
            0.0001),
        arguments(
            "disodium EDTA dihydrate as anhydrous -> 0.9033 [computed from molar masses]",
            "C10H14N2Na2O8",
            "C10H14N2Na2O8.2H2O",
            0.9033,
            0.0001));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("factors")
  @DisplayName("conversion factors against molar masses built up from the elements")
  void factor(String name, String wanted, String given, double expected, double tolerance) {
    double factor = AcidEquivalent.factor(MolarMass.of(wanted), MolarMass.of(given), 1);
    assertEquals(expected, factor, tolerance, name);
  }

  static Stream<Arguments> molarMasses() {
    return Stream.of(
        arguments("benzoic acid -> 122.12 g/mol [open chemistry library, read]", "C7H6O2", 122.12),
        arguments("sorbic acid -> 112.13 g/mol [open chemistry library, read]", "C6H8O2", 112.13),
        arguments(
            "dehydroacetic acid -> 168.15 g/mol [open chemistry library, read]", "C8H8O4", 168.15),
        arguments(
            "salicylic acid -> 138.12 g/mol [open chemistry library, read]", "C7H6O3", 138.12),
        arguments("citric acid -> 192.12 g/mol [open chemistry library, read]", "C6H8O7", 192.12),
        arguments(
            "citric acid monohydrate -> 210.14 g/mol [open chemistry library, read]",
            "C6H8O7.H2O",
            210.14),
        arguments("lactic acid -> 90.08 g/mol [open chemistry library, read]", "C3H6O3", 90.08),
        arguments(
            "disodium EDTA dihydrate -> 372.24 g/mol [open chemistry library, read]",
            "C10H14N2Na2O8.2H2O",
            372.24),
        arguments(
            "triethanolamine -> 149.19 g/mol [open chemistry library, read]", "C6H15NO3", 149.19),
        arguments("niacinamide -> 122.12 g/mol [open chemistry library, read]", "C6H6N2O", 122.12),
        arguments(
            "phytic acid -> 660.04 g/mol [open chemistry library, read]", "C6H18O24P6", 660.04),
        arguments(
            "chlorhexidine -> 505.45 g/mol [open chemistry library, read]", "C22H30Cl2N10", 505.45),
        arguments(
            "sodium lauryl sulfate -> 288.38 g/mol [open chemistry library, read]",
            "C12H25NaO4S",
            288.38));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("molarMasses")
  @DisplayName("molar masses built up from the elements against published ones")
  void molarMass(String name, String formula, double expected) {
    assertEquals(expected, MolarMass.of(formula), 0.02, name);
  }

  @Test
  @DisplayName("worked example: 0.59 % sodium benzoate is 0.50 % as acid [by hand]")
  void workedExample() {
    // 122.12/144.11 = 0.8474; 0.59 · 0.8474 = 0.500
    assertEquals(0.500, 0.59 * AcidEquivalent.factor(122.12, 144.11, 1), 0.0005);
  }

  @Test
  @DisplayName("butyl- and propylparaben: 0.14 % as acid is about 0.19 % as ester [SCCS, read]")
  void parabens() {
    assertEquals(0.19, 0.14 / AcidEquivalent.factor(138.12, 194.23, 1), 0.0075);
    assertEquals(0.19, 0.14 / AcidEquivalent.factor(138.12, 180.20, 1), 0.0075);
  }

  @Test
  @DisplayName("hydrates by counting waters agree with hydrates by formula; two acids count twice")
  void hydrates() {
    double edta = MolarMass.of("C10H14N2Na2O8.2H2O");
    assertEquals(
        AcidEquivalent.factor(MolarMass.of("C10H14N2Na2O8"), edta, 1),
        AcidEquivalent.anhydrousShare(edta, 2),
        1e-9);
    double magnesium = MolarMass.of("(C6H7O6)2Mg");
    double ascorbic = MolarMass.of("C6H8O6");
    assertEquals(2 * ascorbic / magnesium, AcidEquivalent.factor(ascorbic, magnesium, 2), 1e-12);
    assertEquals(0.1, AcidEquivalent.molality(1.2212, 122.12, 100), 1e-12);
    assertThrows(IllegalArgumentException.class, () -> AcidEquivalent.factor(0, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> AcidEquivalent.anhydrousShare(18, 2));
  }
}
