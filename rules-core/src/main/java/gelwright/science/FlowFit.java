package gelwright.science;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Flow laws fitted to measured points of shear rate and stress.
 *
 * <p>Three forms are tried – power law, Herschel-Bulkley, Cross – and ranked by the corrected
 * Akaike information criterion, the least first. The scatter is taken as a constant share of the
 * stress, as rheometers show it, so the logarithms are fitted.
 *
 * <p>Range: at least five points for a power law, six for the others (so that the criterion
 * exists), better eight over two decades of shear rate. Parameters outside what the readings show
 * come back with a large or infinite standard error: report those, not the value alone. Standard
 * errors are those of the linearised fit and know nothing of the instrument's bias. Source: Burnham
 * and Anderson 2002, Model Selection and Multimodel Inference, for the criterion;
 * Levenberg-Marquardt.
 */
public final class FlowFit {
  // Every parameter is positive, so its logarithm is the variable of the fit: the search is free of
  // bounds, and the flow index enters through a logistic map onto 0 to its largest value. Residuals
  // are ln(stress model/measured). The Jacobian is taken by central differences, since the model is
  // cheap and smooth. Several starts guard against a poor first guess; the best optimum counts.
  // Standard errors: s² (JᵀJ)⁻¹ in the parameters at the optimum, s² = RSS/(m - k). AICc = m
  // ln(RSS/m) + 2q + 2q(q+1)/(m - q - 1), q = k + 1 counts
  // the scatter too; with m <= q + 1 points the form is not offered.

  private static final double STEP = 1e-6;

  /** Scatter below which a fit counts as exact, so that the criterion stays finite. */
  static final double EXACT = 1e-12;

  /** Largest flow index a fit may return. */
  static final double LARGEST_INDEX = 1.5;

  /** Largest exponent of the Cross equation. */
  static final double LARGEST_EXPONENT = 1;

  /** Largest logarithm of a parameter; the search is held inside. */
  private static final double LARGEST_LOG = 60;

  private FlowFit() {}

  /**
   * One measured point.
   *
   * @param shearRate 1/s, positive
   * @param stress Pa, positive
   */
  public record Point(double shearRate, double stress) {
    public Point {
      Require.positive(shearRate, "shearRate");
      Require.positive(stress, "stress");
    }
  }

  /** The forms tried. */
  public enum Form {
    /** Stress = K rate^n. */
    POWER_LAW("consistency", "flow index"),
    /** Stress = tau_y + K rate^n. */
    HERSCHEL_BULKLEY("consistency", "flow index", "yield stress"),
    /** Viscosity = eta_inf + (eta0 - eta_inf)/(1 + (lambda rate)^m). */
    CROSS("viscosity at rest", "exponent", "time constant");

    private final List<String> parameters;

    Form(String... parameters) {
      this.parameters = List.of(parameters);
    }

    /** Names of the parameters in the order of {@link Fit#parameters()}. */
    public List<String> parameters() {
      return parameters;
    }
  }

  /**
   * One fitted parameter.
   *
   * @param name of the form's list
   * @param value in SI units
   * @param standardError in the same unit; infinite where the readings do not fix it
   */
  public record Parameter(String name, double value, double standardError) {}

  /**
   * One fitted form.
   *
   * @param form which law
   * @param curve the fitted flow curve
   * @param parameters with standard errors
   * @param scatter root mean square of ln(model/measured), about the relative error
   * @param criterion corrected Akaike information criterion; only differences have a meaning
   * @param spread see {@link #shifted}
   */
  public record Fit(
      Form form,
      FlowCurve curve,
      List<Parameter> parameters,
      double scatter,
      double criterion,
      Spread spread) {
    public Fit {
      parameters = List.copyOf(parameters);
    }

    /** Whether the readings fix every parameter, so that {@link #shifted} tells the whole doubt. */
    public boolean isFixed() {
      return spread.isKnown();
    }

    /**
     * The curve with one of its independent doubts shifted. The parameters of a fit are not
     * independent – a thicker consistency goes with a smaller flow index – so there are as many
     * doubts as parameters, each moving several of them.
     *
     * @param doubt 0 to the number of parameters less one
     * @param deviations standard deviations it is shifted by
     */
    public FlowCurve shifted(int doubt, double deviations) {
      return spread.shifted(form, doubt, deviations);
    }

    /**
     * Standard error over value of a parameter, by its name; infinite where the readings do not fix
     * it.
     */
    public double relativeError(String parameter) {
      for (Parameter each : parameters) {
        if (each.name().equals(parameter)) {
          return each.standardError() / each.value();
        }
      }
      throw new IllegalArgumentException("no parameter " + parameter);
    }
  }

  /** The variables of a fit at its optimum, and how they spread together. */
  public static final class Spread {
    private final double[] variables;
    private final double[][] directions;
    private final double solvent;

    private Spread(double[] variables, double[][] directions, double solvent) {
      this.variables = variables;
      this.directions = directions;
      this.solvent = solvent;
    }

    private boolean isKnown() {
      return directions.length > 0;
    }

    private FlowCurve shifted(Form form, int doubt, double deviations) {
      double[] at = variables.clone();
      for (int i = 0; i < at.length && isKnown(); i++) {
        at[i] += deviations * directions[i][doubt];
      }
      return FlowFit.curve(form, at, solvent);
    }
  }

  /**
   * Fits every form the number of points allows.
   *
   * @param points measured, five or more
   * @param solventViscosity Pa·s, part of the Cross form; the other two take it as 0
   * @return best first; empty when there are too few points
   */
  public static List<Fit> all(List<Point> points, double solventViscosity) {
    Require.notNegative(solventViscosity, "solventViscosity");
    List<Fit> fits = new ArrayList<>();
    for (Form form : Form.values()) {
      int counted = form.parameters().size() + 1;
      if (points.size() > counted + 1) {
        fits.add(fit(form, points, solventViscosity));
      }
    }
    fits.sort(Comparator.comparingDouble(Fit::criterion));
    return List.copyOf(fits);
  }

  /**
   * Fits one form.
   *
   * @param points measured, more than the form has parameters
   * @param solventViscosity Pa·s, used by the Cross form
   */
  public static Fit fit(Form form, List<Point> points, double solventViscosity) {
    int count = form.parameters().size();
    int size = points.size();
    if (size <= count) {
      throw new IllegalArgumentException(
          "points must be more than the " + count + " parameters, were " + size);
    }
    List<double[]> starts = starts(form, points);
    double[] best = starts.get(0);
    double least = Double.POSITIVE_INFINITY;
    for (double[] start : starts) {
      double[] end = descend(form, points, solventViscosity, start);
      double sum = sumOfSquares(form, points, solventViscosity, end);
      if (sum < least) {
        best = end;
        least = sum;
      }
    }
    double scatter = Math.sqrt(least / size);
    double[] errors = standardErrors(form, points, solventViscosity, best, least);
    List<Parameter> parameters = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      parameters.add(new Parameter(form.parameters().get(i), natural(form, i, best[i]), errors[i]));
    }
    double criterion = LogLeastSquares.criterion(size, count, least, EXACT);
    return new Fit(
        form,
        curve(form, best, solventViscosity),
        parameters,
        scatter,
        criterion,
        new Spread(
            best, directions(form, points, solventViscosity, best, least), solventViscosity));
  }

  /**
   * Factor by which one reading rescales a default curve, for {@link FlowCurve#scaled}; the
   * solvent's part is left out. At least 0: a reading below the solvent means no gum is felt.
   *
   * @param expected the default curve
   * @param reading one measured point
   */
  public static double scaleFactor(FlowCurve expected, Point reading) {
    double solvent = expected.solventViscosity() * reading.shearRate();
    double gum = expected.stress(reading.shearRate()) - solvent;
    return gum > 0 ? Math.max(0, (reading.stress() - solvent) / gum) : 1;
  }

  private static double[] descend(Form form, List<Point> points, double solvent, double[] start) {
    return LogLeastSquares.descend(
        at -> logStress(form, points, solvent, at), target(points), start);
  }

  private static double[] target(List<Point> points) {
    double[] target = new double[points.size()];
    for (int i = 0; i < target.length; i++) {
      target[i] = Math.log(points.get(i).stress());
    }
    return target;
  }

  /** First guesses in the variables of the search, several for forms with a hidden plateau. */
  static List<double[]> starts(Form form, List<Point> points) {
    Point first = points.get(0);
    Point last = first;
    for (Point point : points) {
      first = point.shearRate() < first.shearRate() ? point : first;
      last = point.shearRate() > last.shearRate() ? point : last;
    }
    double span = Math.log(last.shearRate() / first.shearRate());
    double slope = span > 0 ? Math.log(last.stress() / first.stress()) / span : 0.5;
    double n = Math.min(0.95, Math.max(0.1, slope));
    double logConsistency = Math.log(last.stress()) - n * Math.log(last.shearRate());
    List<double[]> starts = new ArrayList<>();
    switch (form) {
      case POWER_LAW -> starts.add(new double[] {logConsistency, inverse(n / LARGEST_INDEX)});
      case HERSCHEL_BULKLEY -> {
        for (double share : new double[] {0.9, 0.5, 0.05}) {
          double index = Math.min(0.9, n + 0.3 * share);
          double consistency =
              Math.max(0.1 * last.stress(), last.stress() - share * first.stress());
          starts.add(
              new double[] {
                Math.log(consistency) - index * Math.log(last.shearRate()),
                inverse(index / LARGEST_INDEX),
                Math.log(share * first.stress())
              });
        }
      }
      case CROSS -> {
        double rest = Math.log(first.stress() / first.shearRate());
        for (double place : new double[] {0, 0.3, 0.7, 1}) {
          double exponent = Math.min(0.9, Math.max(0.3, 1 - n));
          starts.add(
              new double[] {
                rest + (place == 0 ? 1 : 0.1),
                inverse(exponent / LARGEST_EXPONENT),
                -Math.log(first.shearRate()) - place * span
              });
        }
      }
    }
    return starts;
  }

  static double inverse(double share) {
    return Math.log(share / (1 - share));
  }

  /** Parameter from its variable: exponential, or logistic for the index. */
  static double natural(Form form, int index, double variable) {
    if (index == 1) {
      double largest = form == Form.CROSS ? LARGEST_EXPONENT : LARGEST_INDEX;
      return largest / (1 + Math.exp(-Math.max(-30, Math.min(30, variable))));
    }
    return Math.exp(Math.max(-LARGEST_LOG, Math.min(LARGEST_LOG, variable)));
  }

  private static FlowCurve curve(Form form, double[] variables, double solvent) {
    double[] values = new double[variables.length];
    for (int i = 0; i < values.length; i++) {
      values[i] = natural(form, i, variables[i]);
    }
    return curveOf(form, values, solvent);
  }

  private static FlowCurve curveOf(Form form, double[] values, double solvent) {
    return switch (form) {
      case POWER_LAW -> new FlowCurve.Plastic(0, values[0], values[1], 0);
      case HERSCHEL_BULKLEY -> new FlowCurve.Plastic(values[2], values[0], values[1], 0);
      case CROSS -> new FlowCurve.Coil(values[0], values[2], Math.min(1, values[1]), solvent);
    };
  }

  private static double[] logStress(
      Form form, List<Point> points, double solvent, double[] variables) {
    FlowCurve curve = curve(form, variables, solvent);
    double[] values = new double[points.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.log(Math.max(Double.MIN_NORMAL, curve.stress(points.get(i).shearRate())));
    }
    return values;
  }

  private static double[][] jacobian(
      Form form, List<Point> points, double solvent, double[] variables) {
    return LogLeastSquares.jacobian(at -> logStress(form, points, solvent, at), variables);
  }

  private static double sumOfSquares(
      Form form, List<Point> points, double solvent, double[] variables) {
    return LogLeastSquares.sumOfSquares(
        logStress(form, points, solvent, variables), target(points));
  }

  /**
   * Lower triangle L with L Lᵀ = s² (JᵀJ)⁻¹ in the variables of the search: column j is how far one
   * standard deviation of the j-th independent doubt moves each variable. Empty where the readings
   * do not tell the parameters apart.
   */
  private static double[][] directions(
      Form form, List<Point> points, double solvent, double[] variables, double sum) {
    double[][] lower =
        LogLeastSquares.directions(
            jacobian(form, points, solvent, variables), sum / (points.size() - variables.length));
    for (double[] row : lower) {
      for (double each : row) {
        if (!(Math.abs(each) < LARGEST_LOG)) {
          return new double[0][];
        }
      }
    }
    return lower;
  }

  private static double[] standardErrors(
      Form form, List<Point> points, double solvent, double[] variables, double sum) {
    int count = variables.length;
    double smallest = Double.POSITIVE_INFINITY;
    for (Point point : points) {
      smallest = Math.min(smallest, point.stress());
    }
    double[] values = new double[count];
    for (int i = 0; i < count; i++) {
      values[i] = natural(form, i, variables[i]);
    }
    // In the parameters themselves, not their logarithms: a yield stress of zero then has an honest
    // error.
    double[][] slopes = new double[points.size()][count];
    for (int j = 0; j < count; j++) {
      boolean yield = form == Form.HERSCHEL_BULKLEY && j == 2;
      double step = STEP * Math.max(values[j], yield ? smallest : 0);
      double[] up = values.clone();
      up[j] += step;
      FlowCurve above = curveOf(form, up, solvent);
      FlowCurve at = curveOf(form, values, solvent);
      for (int i = 0; i < points.size(); i++) {
        double rate = points.get(i).shearRate();
        slopes[i][j] = Math.log(above.stress(rate) / at.stress(rate)) / step;
      }
    }
    return LogLeastSquares.standardErrors(slopes, sum / (points.size() - count));
  }
}
