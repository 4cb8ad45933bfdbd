package gelwright.quantity;

/**
 * What kind of quantity a number is: only numbers of one dimension may be added or compared.
 *
 * <p>Exponents over the base kg, m, s, K, mol, and three bases the trade needs: <i>turn</i> (so
 * that a stirrer's rpm is never mistaken for a shear rate), <i>share</i> (% w/w is not a plain
 * number) and <i>pH</i>. A temperature on the scale ({@code point}) is kept apart from a
 * temperature difference.
 *
 * @param mass exponent of kg
 * @param length exponent of m
 * @param time exponent of s
 * @param temperature exponent of K
 * @param amount exponent of mol
 * @param turn exponent of a stirrer's turn
 * @param share exponent of % w/w
 * @param pH exponent of pH units
 * @param point whether this is a reading on the Celsius scale rather than a difference
 */
public record Dimension(
    int mass,
    int length,
    int time,
    int temperature,
    int amount,
    int turn,
    int share,
    int pH,
    boolean point) {

  public static final Dimension NUMBER = new Dimension(0, 0, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension SHARE = new Dimension(0, 0, 0, 0, 0, 0, 1, 0, false);
  public static final Dimension MASS = new Dimension(1, 0, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension LENGTH = new Dimension(0, 1, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension VOLUME = new Dimension(0, 3, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension TIME = new Dimension(0, 0, 1, 0, 0, 0, 0, 0, false);
  public static final Dimension TEMPERATURE = new Dimension(0, 0, 0, 1, 0, 0, 0, 0, true);
  public static final Dimension TEMPERATURE_DIFFERENCE =
      new Dimension(0, 0, 0, 1, 0, 0, 0, 0, false);
  public static final Dimension STRESS = new Dimension(1, -1, -2, 0, 0, 0, 0, 0, false);
  public static final Dimension VISCOSITY = new Dimension(1, -1, -1, 0, 0, 0, 0, 0, false);
  public static final Dimension RATE = new Dimension(0, 0, -1, 0, 0, 0, 0, 0, false);
  public static final Dimension STIRRING = new Dimension(0, 0, -1, 0, 0, 1, 0, 0, false);
  public static final Dimension PH = new Dimension(0, 0, 0, 0, 0, 0, 0, 1, false);
  public static final Dimension MOLALITY = new Dimension(-1, 0, 0, 0, 1, 0, 0, 0, false);
  public static final Dimension MOLAR_MASS = new Dimension(1, 0, 0, 0, -1, 0, 0, 0, false);
  public static final Dimension DENSITY = new Dimension(1, -3, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension SPECIFIC_VOLUME = new Dimension(-1, 3, 0, 0, 0, 0, 0, 0, false);
  public static final Dimension SURFACE_TENSION = new Dimension(1, 0, -2, 0, 0, 0, 0, 0, false);
  public static final Dimension MOLAR_ENERGY = new Dimension(1, 2, -2, 0, -1, 0, 0, 0, false);

  /** Whether this is a plain number. */
  public boolean isNumber() {
    return equals(NUMBER);
  }

  /**
   * The dimension of a product. A reading on a scale ({@code point}) counts as a difference here;
   * readings should not be multiplied, and whoever checks a formula refuses that beforehand.
   */
  public Dimension times(Dimension other) {
    return combine(other, 1);
  }

  /**
   * The dimension of a quotient; a reading on a scale counts as a difference, see {@link #times}.
   */
  public Dimension per(Dimension other) {
    return combine(other, -1);
  }

  /** This dimension as a difference: what subtracting two readings of it gives. */
  public Dimension difference() {
    return point
        ? new Dimension(mass, length, time, temperature, amount, turn, share, pH, false)
        : this;
  }

  private Dimension combine(Dimension o, int sign) {
    return new Dimension(
        mass + sign * o.mass,
        length + sign * o.length,
        time + sign * o.time,
        temperature + sign * o.temperature,
        amount + sign * o.amount,
        turn + sign * o.turn,
        share + sign * o.share,
        pH + sign * o.pH,
        false);
  }

  /** The dimension in words a formulator knows, for messages: "a viscosity", "a share". */
  public String inWords() {
    for (Unit unit : Unit.values()) {
      if (unit.dimension().equals(this)) {
        return unit.dimensionInWords() + " (" + unit.symbol() + ")";
      }
    }
    return "a quantity in " + bases();
  }

  private String bases() {
    StringBuilder text = new StringBuilder();
    append(text, "kg", mass);
    append(text, "m", length);
    append(text, "s", time);
    append(text, "K", temperature);
    append(text, "mol", amount);
    append(text, "turn", turn);
    append(text, "%", share);
    append(text, "pH", pH);
    return text.toString();
  }

  private static void append(StringBuilder text, String base, int exponent) {
    if (exponent == 0) {
      return;
    }
    if (!text.isEmpty()) {
      text.append('·');
    }
    text.append(base);
    if (exponent != 1) {
      text.append('^').append(exponent);
    }
  }
}
