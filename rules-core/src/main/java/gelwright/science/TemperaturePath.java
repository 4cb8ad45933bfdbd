package gelwright.science;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;

/**
 * The temperature of one mass over time: straight pieces between points (seconds, °C).
 *
 * <p>Built step by step: heat, hold, cool in a room (Newton), jump on combining phases. Times never
 * run backwards; two points at one time are a jump. Immutable; the arrays are copied.
 */
public final class TemperaturePath {
  /** Straight pieces that stand for one curve of Newton cooling. */
  private static final int COOLING_PIECES = 60;

  /** Widest temperature step of one integration panel, K. */
  private static final double PANEL = 0.5;

  /** Most panels for one straight piece, so that a nonsensical span stays cheap. */
  private static final int MOST_PANELS = 2000;

  /** Nodes and weights of three-point Gauss-Legendre integration on -1 to 1. */
  private static final double NODE = Math.sqrt(0.6);

  private static final double OUTER_WEIGHT = 5.0 / 9;
  private static final double MIDDLE_WEIGHT = 8.0 / 9;

  private final double[] seconds;
  private final double[] celsius;

  private TemperaturePath(double[] seconds, double[] celsius) {
    this.seconds = seconds;
    this.celsius = celsius;
  }

  /**
   * A path through points.
   *
   * @param seconds times in s, never decreasing
   * @param celsius temperatures in °C, one for each time
   */
  public static TemperaturePath through(double[] seconds, double[] celsius) {
    if (seconds.length == 0 || seconds.length != celsius.length) {
      throw new IllegalArgumentException("seconds and celsius must pair up");
    }
    for (int i = 0; i < seconds.length; i++) {
      Require.finite(seconds[i], "seconds");
      Require.finite(celsius[i], "celsius");
      if (i > 0 && seconds[i] < seconds[i - 1]) {
        throw new IllegalArgumentException("seconds must not decrease");
      }
    }
    return new TemperaturePath(seconds.clone(), celsius.clone());
  }

  /** A path that starts at time 0 and a temperature in °C. */
  public static TemperaturePath startingAt(double celsius) {
    return through(new double[] {0}, new double[] {celsius});
  }

  /** Goes on in a straight line to a temperature (°C) within a time (s). */
  public TemperaturePath rampTo(double target, double duration) {
    Require.notNegative(duration, "duration");
    Require.finite(target, "target");
    int size = seconds.length;
    double[] times = Arrays.copyOf(seconds, size + 1);
    double[] temperatures = Arrays.copyOf(celsius, size + 1);
    times[size] = seconds[size - 1] + duration;
    temperatures[size] = target;
    return new TemperaturePath(times, temperatures);
  }

  /** The part of this path up to a time (s), for what is done by then. */
  public TemperaturePath until(double time) {
    if (time >= endSeconds()) {
      return this;
    }
    int kept = 0;
    while (kept < seconds.length && seconds[kept] < time) {
      kept++;
    }
    if (kept == 0) {
      return through(new double[] {seconds[0]}, new double[] {celsius[0]});
    }
    double[] times = java.util.Arrays.copyOf(seconds, kept + 1);
    double[] temperatures = java.util.Arrays.copyOf(celsius, kept + 1);
    times[kept] = time;
    temperatures[kept] = at(time);
    return new TemperaturePath(times, temperatures);
  }

  /** Stays at the present temperature for a time in s. */
  public TemperaturePath hold(double duration) {
    return rampTo(endCelsius(), duration);
  }

  /** Changes at once, as when phases are combined (see {@link HeatBalance#combined}). */
  public TemperaturePath jumpTo(double target) {
    return rampTo(target, 0);
  }

  /**
   * Cools (or warms) towards the surroundings by {@link NewtonCooling}, as 60 straight pieces,
   * closer together at the start.
   *
   * @param ambient °C
   * @param timeConstant s
   * @param duration s
   */
  public TemperaturePath coolTowards(double ambient, double timeConstant, double duration) {
    Require.notNegative(duration, "duration");
    double start = endCelsius();
    double began = endSeconds();
    int size = seconds.length;
    double[] times = Arrays.copyOf(seconds, size + COOLING_PIECES);
    double[] temperatures = Arrays.copyOf(celsius, size + COOLING_PIECES);
    for (int i = 1; i <= COOLING_PIECES; i++) {
      double share = (double) i / COOLING_PIECES;
      double elapsed = duration * share * (0.3 + 0.7 * share);
      times[size + i - 1] = began + elapsed;
      temperatures[size + i - 1] = NewtonCooling.temperature(start, ambient, timeConstant, elapsed);
    }
    return new TemperaturePath(times, temperatures);
  }

  /** The part of this path from a time (s) on, for what joins the batch then. */
  public TemperaturePath from(double time) {
    if (time <= seconds[0]) {
      return this;
    }
    if (time >= endSeconds()) {
      return through(new double[] {endSeconds()}, new double[] {endCelsius()});
    }
    int first = 0;
    while (seconds[first] <= time) {
      first++;
    }
    double[] times = new double[seconds.length - first + 1];
    double[] temperatures = new double[times.length];
    times[0] = time;
    temperatures[0] = at(time);
    System.arraycopy(seconds, first, times, 1, times.length - 1);
    System.arraycopy(celsius, first, temperatures, 1, times.length - 1);
    return new TemperaturePath(times, temperatures);
  }

  /** Time at the end, s. */
  public double endSeconds() {
    return seconds[seconds.length - 1];
  }

  /** Temperature at the end, °C. */
  public double endCelsius() {
    return celsius[celsius.length - 1];
  }

  /** Highest temperature reached, °C. */
  public double peakCelsius() {
    double peak = celsius[0];
    for (double value : celsius) {
      peak = Math.max(peak, value);
    }
    return peak;
  }

  /** Temperature at a time in s, °C; the ends go on for ever, a jump counts as done. */
  public double at(double time) {
    if (time < seconds[0]) {
      return celsius[0];
    }
    for (int i = seconds.length - 1; i >= 0; i--) {
      if (time >= seconds[i]) {
        if (i == seconds.length - 1) {
          return celsius[i];
        }
        double share = (time - seconds[i]) / (seconds[i + 1] - seconds[i]);
        return celsius[i] + share * (celsius[i + 1] - celsius[i]);
      }
    }
    return celsius[0];
  }

  /**
   * Lowest temperature since the path last was at or above a limit, °C: how far a melt has cooled.
   * Where it never was that hot, the lowest of the whole path.
   *
   * @param limit °C, such as the melting temperature of a gel
   */
  public double coolestSince(double limit) {
    double coolest = Double.POSITIVE_INFINITY;
    for (double value : celsius) {
      coolest = value >= limit ? value : Math.min(coolest, value);
    }
    return coolest;
  }

  /** Time spent above a temperature in °C, s. */
  public double secondsAbove(double limit) {
    double total = 0;
    for (int i = 1; i < seconds.length; i++) {
      double low = Math.min(celsius[i - 1], celsius[i]);
      double high = Math.max(celsius[i - 1], celsius[i]);
      double duration = seconds[i] - seconds[i - 1];
      if (low > limit) {
        total += duration;
      } else if (high > limit) {
        total += duration * (high - limit) / (high - low);
      }
    }
    return total;
  }

  /**
   * Integral over time of a rate that depends on the temperature.
   *
   * @param rate of a temperature in °C, per s
   */
  public double integrate(DoubleUnaryOperator rate) {
    // Each straight piece is cut into panels of at most half a kelvin and each panel is integrated
    // by the three-point Gauss rule. An Arrhenius rate with Ea 330 kJ/mol changes by 25 % over a
    // panel, where the rule is exact to 1e-8.
    double total = 0;
    for (int i = 1; i < seconds.length; i++) {
      double duration = seconds[i] - seconds[i - 1];
      if (duration == 0) {
        continue;
      }
      double rise = celsius[i] - celsius[i - 1];
      int panels = (int) Math.min(MOST_PANELS, Math.max(1, Math.ceil(Math.abs(rise) / PANEL)));
      double width = rise / panels;
      double piece = 0;
      for (int j = 0; j < panels; j++) {
        double middle = celsius[i - 1] + (j + 0.5) * width;
        double offset = NODE * width / 2;
        piece +=
            OUTER_WEIGHT
                    * (rate.applyAsDouble(middle - offset) + rate.applyAsDouble(middle + offset))
                + MIDDLE_WEIGHT * rate.applyAsDouble(middle);
      }
      total += piece / 2 * duration / panels;
    }
    return total;
  }
}
