package gelwright.science;

/**
 * Water lost from an open vessel: rate = (25 + 19 v) A (xs - x) / 3600 kg/s.
 *
 * <p>Symbols: v speed of the air in m/s; A free surface in m²; xs and x humidity ratio of air
 * saturated at the surface and of the room, x = 0.622 p/(P - p) kg/kg; p by Antoine's equation,
 * log10 p(mmHg) = 8.07131 - 1730.63/(233.426 + T), 1 to 100 °C (constants from memory); P 760 mmHg.
 *
 * <p>The correlation was made for pools near room temperature; it runs away as xs grows, so a
 * surface hotter than 80 °C counts as 80 °C and the result is then a lower bound. At 75 °C it
 * agrees with natural convection plus Stefan flow (9 to 11 kg/(m² h)). Doubt: a factor of 2 either
 * way; report a range, and weigh the vessel before and after. Room air that would condense gives 0,
 * not a gain.
 */
public final class Evaporation {
  /** Hottest surface for which the correlation is used, °C. Proposed: it was made for pools. */
  public static final double HOTTEST = 80;

  /** Factor of doubt either way. Proposed: the correlation against natural convection. */
  public static final double DOUBT = 2;

  /** Evaporation coefficient in still air, kg/(m² h). Correlation for pools, from memory. */
  private static final double STILL_AIR = 25;

  /** Increase of the coefficient with air speed, kg s/(m³ h). Same, from memory. */
  private static final double MOVING_AIR = 19;

  /** Molar mass of water over that of air, a ratio: 18.015/28.96 g/mol, from memory. */
  private static final double HUMIDITY_RATIO = 0.622;

  /** Standard atmosphere, mmHg. Exact by definition. */
  private static final double ATMOSPHERE = 760;

  private static final double SECONDS_PER_HOUR = 3600;

  /** How much of the open-surface loss a cover lets through; common practice, no source. */
  public enum Cover {
    /** Open, filled to the rim: 1; see {@link Evaporation#freeboardFactor} for a deeper vessel. */
    OPEN(1),
    /** Laid-on lid or film: 0.05 to 0.1. */
    LOOSE(0.075),
    /** Sealed: 0. */
    CLOSED(0);

    private final double factor;

    Cover(double factor) {
      this.factor = factor;
    }

    /** Share of the open-surface loss that remains, 0 to 1. */
    public double factor() {
      return factor;
    }
  }

  private Evaporation() {}

  /** Vapour pressure of water in mmHg at a temperature in °C, held within 1 to 100 °C. */
  public static double vapourPressure(double celsius) {
    double held = Math.min(100, Math.max(1, Require.finite(celsius, "celsius")));
    return Math.pow(10, 8.07131 - 1730.63 / (233.426 + held));
  }

  /**
   * Loss per area, kg/(m² s).
   *
   * @param surface temperature of the water, °C
   * @param room temperature of the air, °C
   * @param relativeHumidity of the room, 0 to 1
   * @param airSpeed m/s over the surface
   */
  public static double flux(double surface, double room, double relativeHumidity, double airSpeed) {
    return flux(surface, inRoom(room, relativeHumidity), coefficient(airSpeed));
  }

  private static double flux(double surface, double inRoom, double coefficient) {
    double saturated = humidity(vapourPressure(Math.min(HOTTEST, surface)));
    return Math.max(0, coefficient * (saturated - inRoom) / SECONDS_PER_HOUR);
  }

  private static double inRoom(double room, double relativeHumidity) {
    double air = Math.min(1, Require.notNegative(relativeHumidity, "relativeHumidity"));
    return humidity(air * vapourPressure(Math.min(HOTTEST, room)));
  }

  private static double coefficient(double airSpeed) {
    return STILL_AIR + MOVING_AIR * Require.notNegative(airSpeed, "airSpeed");
  }

  /**
   * Water lost over a temperature path, kg.
   *
   * @param path of the open phase
   * @param area free surface, m²
   * @param coverFactor of {@link Cover} or {@link #freeboardFactor}
   */
  public static double loss(
      TemperaturePath path,
      double area,
      double coverFactor,
      double room,
      double relativeHumidity,
      double airSpeed) {
    Require.notNegative(area, "area");
    Require.notNegative(coverFactor, "coverFactor");
    double inRoom = inRoom(room, relativeHumidity);
    double coefficient = coefficient(airSpeed);
    return area * coverFactor * path.integrate(celsius -> flux(celsius, inRoom, coefficient));
  }

  /**
   * Share of the loss that leaves a vessel with empty height above the liquid: 1/(1 + 1.2 ratio),
   * 0.45 (0.3 to 0.6) at one diameter. Common practice, no source.
   *
   * @param ratio empty height over diameter
   */
  public static double freeboardFactor(double ratio) {
    return 1 / (1 + 1.2 * Require.notNegative(ratio, "ratio"));
  }

  /**
   * By how much the shares of everything that stays rise: m0/(m0 - loss).
   *
   * @param mass kg before
   * @param loss kg of water gone, held below 99 % of the mass
   */
  public static double concentrationFactor(double mass, double loss) {
    Require.positive(mass, "mass");
    return mass / (mass - Math.min(0.99 * mass, Require.notNegative(loss, "loss")));
  }

  private static double humidity(double pressure) {
    return HUMIDITY_RATIO * pressure / (ATMOSPHERE - pressure);
  }
}
