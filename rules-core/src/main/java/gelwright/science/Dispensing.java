package gelwright.science;

/**
 * Shear rates of use, and what a yield stress holds up or lets go.
 *
 * <pre>
 *  film       gd = v/h                     tube      gd = 4 Q/(pi R³)
 *  cling      h = tau_y/(rho g)            pour      tau_y &lt; rho g R/2
 *  peak       tau_y &gt; rho g H/2.5          spray     Oh = eta/sqrt(rho sigma D)</pre>
 *
 * <p>Symbols: v speed in m/s, h film and H peak height in m, Q flow in m³/s, R radius and D
 * diameter of an opening in m, eta in Pa·s, sigma surface tension in N/m, rho in kg/m³, tau_y in
 * Pa.
 *
 * <p>Range: laminar flow, Newtonian wall rate (a shear-thinning gel shears faster at the wall by
 * (3n + 1)/(4n)). Oh below 0.1 atomises, 0.1 to 1 gives coarse drops, above 1 a jet (from memory).
 * The peak divisor is 2 to 3 (from memory). Doubt: 20 % for the mechanics. Source: textbook fluid
 * mechanics; Ohnesorge 1936.
 */
public final class Dispensing {
  /** rho g H over the yield stress at which a peak slumps: 2 to 3, from memory. */
  private static final double SLUMP = 2.5;

  private Dispensing() {}

  /** Shear rate of a film of a thickness (m) drawn at a speed (m/s), 1/s. */
  public static double filmShear(double speed, double thickness) {
    return Require.notNegative(speed, "speed") / Require.positive(thickness, "thickness");
  }

  /** Wall shear rate of a flow (m³/s) through a tube of a radius (m), 1/s. */
  public static double tubeShear(double flow, double radius) {
    return 4
        * Require.notNegative(flow, "flow")
        / (Math.PI * Math.pow(Require.positive(radius, "radius"), 3));
  }

  /** Thickest film that stays on an upright surface, m. */
  public static double clingThickness(double yieldStress, double density) {
    return Require.notNegative(yieldStress, "yieldStress")
        / (Require.positive(density, "density") * Thermal.GRAVITY);
  }

  /** Yield stress above which a gel no longer runs out of a neck of a radius (m) by itself, Pa. */
  public static double pourLimit(double radius, double density) {
    return Require.positive(density, "density")
        * Thermal.GRAVITY
        * Require.notNegative(radius, "radius")
        / 2;
  }

  /** Yield stress that holds a peak of a height (m), Pa. */
  public static double peakYield(double height, double density) {
    return Require.positive(density, "density")
        * Thermal.GRAVITY
        * Require.notNegative(height, "height")
        / SLUMP;
  }

  /**
   * Ohnesorge number of a nozzle.
   *
   * @param viscosity at the shear rate of the nozzle, Pa·s
   * @param density kg/m³
   * @param tension surface tension, N/m
   * @param diameter of the nozzle, m
   */
  public static double ohnesorge(
      double viscosity, double density, double tension, double diameter) {
    return Require.notNegative(viscosity, "viscosity")
        / Math.sqrt(
            Require.positive(density, "density")
                * Require.positive(tension, "tension")
                * Require.positive(diameter, "diameter"));
  }
}
