package gelwright.science;

/**
 * Readings of a disc spindle in a large beaker as points of a flow curve.
 *
 * <pre>  stress     tau = k_tau alpha
 *  shear rate gd  = k_gd(n) N,   n = d ln(tau)/d ln(N)</pre>
 *
 * <p>Symbols: alpha torque in % of the full scale of a type A instrument of ISO 2555 (0.7187 mN·m);
 * N in 1/min; tau in Pa; gd in 1/s. Table of Mitschka (1982, Rheologica Acta 21:207-209), from
 * memory; it agrees with the instrument's nominal ranges within 3.3 % for spindles 1 to 6 and
 * within 6.6 % for spindle 7, whose entry at n = 1 is therefore suspect. Between the table's n the
 * logarithms are interpolated; n outside 0.1 to 1 is held at the end (the one kink).
 *
 * <p>Range: spindles 1 to 7, at least two speeds, beaker of 600 mL, slow laminar flow. Doubt: 5 %,
 * more for spindle 7 and near a yield stress.
 */
public final class SpindleReading {
  /** Full-scale torque of a type A instrument, mN·m (ISO 2555). */
  public static final double TYPE_A_TORQUE = 0.7187;

  /** Pa per % of torque for spindles 1 to 7. Mitschka 1982, from memory. */
  private static final double[] STRESS = {0.035, 0.119, 0.279, 0.539, 1.05, 2.35, 8.40};

  /** Full-scale viscosity at 1/min, Pa·s, for spindles 1 to 7 of type A, from memory. */
  private static final double[] FULL_SCALE = {10, 40, 100, 200, 400, 1000, 4000};

  /** (1/s)/(1/min) for n of 0.1 to 1.0 (rows) and spindles 1 to 7. Mitschka 1982, from memory. */
  private static final double[][] RATE = {
    {1.728, 1.431, 1.457, 1.492, 1.544, 1.366, 1.936},
    {0.967, 0.875, 0.882, 0.892, 0.907, 0.851, 1.007},
    {0.705, 0.656, 0.656, 0.658, 0.663, 0.629, 0.681},
    {0.576, 0.535, 0.530, 0.529, 0.528, 0.503, 0.515},
    {0.499, 0.458, 0.449, 0.445, 0.442, 0.421, 0.413},
    {0.449, 0.404, 0.392, 0.387, 0.382, 0.363, 0.342},
    {0.414, 0.365, 0.350, 0.343, 0.338, 0.320, 0.291},
    {0.387, 0.334, 0.317, 0.310, 0.304, 0.286, 0.251},
    {0.367, 0.310, 0.291, 0.283, 0.276, 0.260, 0.221},
    {0.351, 0.291, 0.270, 0.262, 0.254, 0.238, 0.197},
  };

  private static final int SPINDLES = STRESS.length;

  private SpindleReading() {}

  /** Shear stress per % of type A torque, Pa, for a spindle of 1 to 7. */
  public static double stressPerPercent(int spindle) {
    return STRESS[index(spindle)];
  }

  /**
   * Full-scale viscosity at a speed of 1/min, Pa·s: the instrument displays alpha/100 of it over N.
   */
  public static double fullScale(int spindle) {
    return FULL_SCALE[index(spindle)];
  }

  /** Shear rate in 1/s per 1/min of speed, at a local flow index held within 0.1 to 1. */
  public static double rateFactor(int spindle, double flowIndex) {
    // Cubic Hermite pieces in ln(n) against ln(rate), slopes from the neighbours, so that the slope
    // has
    // no jump at the table's points and finite differences through a reading stay true.
    int column = index(spindle);
    double n = Math.min(1, Math.max(0.1, flowIndex));
    int last = RATE.length - 1;
    int row = Math.min(last - 1, Math.max(0, (int) Math.floor(n * 10 - 1 + 1e-12)));
    double low = logIndex(row);
    double width = logIndex(row + 1) - low;
    double t = (Math.log(n) - low) / width;
    double start = Math.log(RATE[row][column]);
    double end = Math.log(RATE[row + 1][column]);
    double atStart = width * slope(column, Math.max(0, row - 1), row + 1);
    double atEnd = width * slope(column, row, Math.min(last, row + 2));
    double t2 = t * t;
    double t3 = t2 * t;
    return Math.exp(
        (2 * t3 - 3 * t2 + 1) * start
            + (t3 - 2 * t2 + t) * atStart
            + (3 * t2 - 2 * t3) * end
            + (t3 - t2) * atEnd);
  }

  private static double logIndex(int row) {
    return Math.log((row + 1) / 10.0);
  }

  private static double slope(int column, int from, int to) {
    return Math.log(RATE[to][column] / RATE[from][column]) / (logIndex(to) - logIndex(from));
  }

  /**
   * Average over spindles 2 to 7: 0.263 (1/n)^0.771 per 1/min. Briggs and Steffe (1997, J. Texture
   * Studies 28:517-522), constants from memory; within 6 % of the table's average.
   */
  public static double averageRateFactor(double flowIndex) {
    return 0.263 * Math.pow(1 / Math.min(1, Math.max(0.1, flowIndex)), 0.771);
  }

  /**
   * Flow curve from readings at rising speeds.
   *
   * @param spindle 1 to 7
   * @param fullTorque full-scale torque of the instrument, mN·m ({@link #TYPE_A_TORQUE})
   * @param speeds 1/min, rising, at least two
   * @param torques % of full scale, positive, one for each speed
   * @return shear rates (1/s) in the first row, stresses (Pa) in the second
   */
  public static double[][] flowPoints(
      int spindle, double fullTorque, double[] speeds, double[] torques) {
    int size = speeds.length;
    if (size < 2 || torques.length != size) {
      throw new IllegalArgumentException("speeds and torques must pair up, two at least");
    }
    double scale =
        stressPerPercent(spindle) * Require.positive(fullTorque, "fullTorque") / TYPE_A_TORQUE;
    for (int i = 0; i < size; i++) {
      Require.positive(torques[i], "torques");
      if (Require.positive(speeds[i], "speeds") <= (i == 0 ? 0 : speeds[i - 1])) {
        throw new IllegalArgumentException("speeds must rise");
      }
    }
    double[][] points = new double[2][size];
    for (int i = 0; i < size; i++) {
      int before = Math.max(0, i - 1);
      int after = Math.min(size - 1, i + 1);
      double slope =
          Math.log(torques[after] / torques[before]) / Math.log(speeds[after] / speeds[before]);
      points[0][i] = rateFactor(spindle, slope) * speeds[i];
      points[1][i] = scale * torques[i];
    }
    return points;
  }

  /**
   * What a type A instrument would show for a gel, Pa·s; may exceed {@link #fullScale}/N, then the
   * spindle is too large for the gel.
   *
   * @param speed 1/min
   */
  public static double displayed(FlowCurve gel, int spindle, double speed) {
    // The slope of the curve sets the shear rate and the shear rate the slope. The map is a mild
    // contraction, since the factor changes slowly with n, and is repeated until it stands still.
    double rate = rateFactor(spindle, 0.5) * Require.positive(speed, "speed");
    for (int i = 0; i < 60; i++) {
      double next = rateFactor(spindle, gel.localFlowIndex(rate)) * speed;
      if (Math.abs(next - rate) < 1e-12 * rate) {
        break;
      }
      rate = Math.sqrt(next * rate);
    }
    double percent = gel.stress(rate) / stressPerPercent(spindle);
    return percent / 100 * fullScale(spindle) / speed;
  }

  private static int index(int spindle) {
    if (spindle < 1 || spindle > SPINDLES) {
      throw new IllegalArgumentException("spindle must be 1 to 7, was " + spindle);
    }
    return spindle - 1;
  }
}
