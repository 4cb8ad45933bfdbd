package gelwright.science;

import java.util.Map;

/**
 * Molar masses from molecular formulas, for checking conversions independently of any stored molar
 * mass. Understands element symbols, counts, brackets, and parts joined by a point with a
 * multiplier in front ("C22H30Cl2N10.2C6H12O7").
 */
final class MolarMass {

  // Abridged standard atomic weights 2021, IUPAC; each lies in the interval of the CIAAW table,
  // read.
  private static final Map<String, Double> WEIGHTS =
      Map.ofEntries(
          Map.entry("H", 1.0080),
          Map.entry("C", 12.011),
          Map.entry("N", 14.007),
          Map.entry("O", 15.999),
          Map.entry("Na", 22.990),
          Map.entry("Mg", 24.305),
          Map.entry("P", 30.974),
          Map.entry("S", 32.06),
          Map.entry("Cl", 35.45),
          Map.entry("K", 39.098),
          Map.entry("Zn", 65.38));

  private final String formula;
  private int at;

  private MolarMass(String formula) {
    this.formula = formula;
  }

  /** g/mol. */
  static double of(String formula) {
    double sum = 0;
    for (String part : formula.split("[.]")) {
      MolarMass parser = new MolarMass(part);
      double multiplier = parser.count();
      sum += multiplier * parser.group();
      if (parser.at < part.length()) {
        throw new IllegalArgumentException("formula: cannot read " + part + " from " + parser.at);
      }
    }
    return sum;
  }

  private double group() {
    double sum = 0;
    while (at < formula.length() && formula.charAt(at) != ')') {
      double unit;
      if (formula.charAt(at) == '(') {
        at++;
        unit = group();
        at++;
      } else {
        int start = at++;
        while (at < formula.length() && Character.isLowerCase(formula.charAt(at))) {
          at++;
        }
        Double weight = WEIGHTS.get(formula.substring(start, at));
        if (weight == null) {
          throw new IllegalArgumentException("formula: no element in " + formula + " at " + start);
        }
        unit = weight;
      }
      sum += unit * count();
    }
    return sum;
  }

  private double count() {
    int start = at;
    while (at < formula.length() && Character.isDigit(formula.charAt(at))) {
      at++;
    }
    return start == at ? 1 : Integer.parseInt(formula.substring(start, at));
  }
}
