package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.openscience.cdk.exception.CDKException;
import org.openscience.cdk.interfaces.IIsotope;
import org.openscience.cdk.interfaces.IMolecularFormula;
import org.openscience.cdk.silent.SilentChemObjectBuilder;
import org.openscience.cdk.smiles.SmilesParser;
import org.openscience.cdk.tools.manipulator.MolecularFormulaManipulator;

/**
 * Molar masses of the bundled ingredients against their structures, read by a chemistry library.
 */
@DisplayName("molar masses against structures")
final class MolarMassesTest {
  /** Sheets give two decimals, so half of 0.01 g/mol is rounding. */
  private static final double ROUNDING = 0.005 + 1e-9;

  /** Rounding of the atomic weights themselves, to the last decimal of the abridged table. */
  private static final double ABRIDGED = 1e-5;

  /**
   * Standard atomic weights 2021, abridged, in g/mol: Prohaska T. et al., Pure Appl. Chem. 94
   * (2022) 573, from memory; held against the library's own below.
   */
  private static final Map<String, Double> WEIGHTS =
      Map.ofEntries(
          Map.entry("H", 1.0080),
          Map.entry("Li", 6.94),
          Map.entry("B", 10.81),
          Map.entry("C", 12.011),
          Map.entry("N", 14.007),
          Map.entry("O", 15.999),
          Map.entry("Na", 22.990),
          Map.entry("Mg", 24.305),
          Map.entry("Al", 26.982),
          Map.entry("Si", 28.085),
          Map.entry("P", 30.974),
          Map.entry("S", 32.06),
          Map.entry("Cl", 35.45),
          Map.entry("K", 39.098),
          Map.entry("Ca", 40.078),
          Map.entry("Ti", 47.867),
          Map.entry("Cr", 51.996),
          Map.entry("Fe", 55.845),
          Map.entry("Co", 58.933),
          Map.entry("Zn", 65.38),
          Map.entry("Br", 79.904),
          Map.entry("Ag", 107.87),
          Map.entry("I", 126.90),
          Map.entry("Hg", 200.59));

  private static final Catalogue CATALOGUE = Bundled.load().catalogue();

  private record Structure(String ingredient, String form, double mass) {}

  private static final List<Structure> STRUCTURES = structures();

  private static List<Structure> structures() {
    List<Structure> structures = new ArrayList<>();
    for (String line : text().split("\n", -1)) {
      if (line.isBlank() || line.startsWith("#") || line.startsWith("ingredient;")) {
        continue;
      }
      String[] cells = line.split(";", -1);
      structures.add(
          new Structure(
              cells[0], cells[1], cells[2].isEmpty() ? ofFormula(cells[3]) : ofSmiles(cells[2])));
    }
    return List.copyOf(structures);
  }

  private static String text() {
    try (InputStream in = MolarMassesTest.class.getResourceAsStream("structures.csv")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static double ofFormula(String formula) {
    return mass(
        MolecularFormulaManipulator.getMolecularFormula(
            formula, SilentChemObjectBuilder.getInstance()));
  }

  // The library reads the structure and counts its atoms, the hydrogens it implies included.
  private static double ofSmiles(String smiles) {
    try {
      return mass(
          MolecularFormulaManipulator.getMolecularFormula(
              new SmilesParser(SilentChemObjectBuilder.getInstance()).parseSmiles(smiles)));
    } catch (CDKException e) {
      throw new IllegalArgumentException(smiles, e);
    }
  }

  private static double mass(IMolecularFormula formula) {
    double mass = 0;
    for (IIsotope isotope : formula.isotopes()) {
      mass += formula.getIsotopeCount(isotope) * WEIGHTS.get(isotope.getSymbol());
    }
    return mass;
  }

  static Stream<Arguments> rows() {
    return STRUCTURES.stream().map(row -> Arguments.of(row.ingredient, row.form, row.mass));
  }

  @ParameterizedTest(name = "{0} {1} -> {2} g/mol [structure read by CDK, IUPAC 2021]")
  @MethodSource("rows")
  void agree(String name, String form, double expected) {
    Ingredient ingredient = CATALOGUE.find(name).orElseThrow();
    assertEquals(name, ingredient.name());
    Optional<Figure> figure =
        form.isEmpty()
            ? ingredient.trait(Trait.MOLAR_MASS)
            : Optional.ofNullable(ingredient.hydrates().get(form));
    double mass = Unit.GRAM_PER_MOL.fromBase(figure.orElseThrow().likely());
    assertEquals(expected, mass, ROUNDING + ABRIDGED * expected, () -> name + " " + form);
  }

  static Stream<Arguments> weights() {
    return new TreeMap<>(WEIGHTS)
        .entrySet().stream().map(entry -> Arguments.of(entry.getKey(), entry.getValue()));
  }

  // The library averages isotopes with older abundances: zinc 65.396, sulfur 32.066. A slip of one
  // unit in any weight but these two is far more than this.
  @ParameterizedTest(name = "atomic weight of {0} -> {1} g/mol [CDK, averaged over isotopes]")
  @MethodSource("weights")
  void atomicWeights(String element, double weight) {
    double library =
        MolecularFormulaManipulator.getMass(
            MolecularFormulaManipulator.getMolecularFormula(
                element, SilentChemObjectBuilder.getInstance()),
            MolecularFormulaManipulator.MolWeight);
    assertEquals(library, weight, 3e-4 * library);
  }

  @Test
  @DisplayName("every molar mass taken as exact has a structure, every hydrate too")
  void complete() {
    TreeSet<String> have = new TreeSet<>();
    STRUCTURES.forEach(row -> have.add(row.ingredient + "/" + row.form));
    List<String> without = new ArrayList<>();
    for (Ingredient ingredient : CATALOGUE.ingredients()) {
      Map<String, Figure> masses = new LinkedHashMap<>(ingredient.hydrates());
      ingredient.trait(Trait.MOLAR_MASS).ifPresent(figure -> masses.put("", figure));
      masses.forEach(
          (form, figure) -> {
            if (figure.deviation() == 0 && !have.contains(ingredient.name() + "/" + form)) {
              without.add(ingredient.name() + "/" + form);
            }
          });
    }
    assertEquals(List.of(), without);
    assertTrue(STRUCTURES.size() >= 380, "structures: " + STRUCTURES.size());
  }

  // The digits before the last, counted from the right, each times its place, modulo 10: the check
  // digit as CAS publishes it. Water: 7732-18-5, (8 + 2·1 + 3·2 + 4·3 + 5·7 + 6·7) mod 10 = 5.
  @Test
  @DisplayName("every CAS registry number of the sheets has the check digit it must have")
  void registryNumbers() {
    List<String> wrong = new ArrayList<>();
    int seen = 0;
    for (Ingredient ingredient : CATALOGUE.ingredients()) {
      if (ingredient.cas().isEmpty()) {
        continue;
      }
      seen++;
      String digits = new StringBuilder(ingredient.cas().replace("-", "")).reverse().toString();
      int sum = 0;
      for (int place = 1; place < digits.length(); place++) {
        sum += place * Character.digit(digits.charAt(place), 10);
      }
      if (sum % 10 != Character.digit(digits.charAt(0), 10)) {
        wrong.add(ingredient.name() + " " + ingredient.cas());
      }
    }
    assertEquals(List.of(), wrong);
    assertTrue(seen > 400, "registry numbers: " + seen);
  }
}
