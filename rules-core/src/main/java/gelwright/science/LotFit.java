package gelwright.science;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The flow law of one lot of gum fitted to readings of shear rate and stress, at one share of it in
 * the water or at several.
 *
 * <p>The forms are those of {@link FlowFit}, with the viscosity of the water added as {@link
 * FlowLaw} does. At several shares yield stress and consistency, or viscosity and time at rest, go
 * as powers of the share, and their exponents are fitted too; at one share nothing can be said of
 * them. Prefactors hold at {@link #reference}, the geometric mean of the shares, where they are
 * least entangled with the exponents.
 *
 * <p>The scatter is taken as a constant share of the stress. Standard errors are those of the
 * linearised fit; {@link Estimate#ninetyPercent()} widens them by Student's factor for few points.
 * They know nothing of what all readings share: the instrument, the weighing, the temperature.
 *
 * <p>Range: the number of points must exceed the parameters by three, so that the criterion exists.
 * Sources: Burnham and Anderson 2002, Model Selection and Multimodel Inference; Levenberg 1944,
 * Marquardt 1963; Student's factor as in any text on regression.
 */
public final class LotFit {
  // The search runs in logarithms of yield stress, consistency, viscosity and time, a logistic map
  // of the index as in FlowFit, and the exponents themselves. Starts are those of FlowFit on all
  // readings brought to the reference share with a guessed exponent, for several guesses. Errors
  // are taken in the parameters themselves, so that a yield stress near zero has an honest one.

  private static final double STEP = 1e-6;

  /** Exponents of the share from which the search starts; gums lie between. */
  private static final double[] GUESSES = {1.5, 3};

  /** Largest exponent that is searched; the steepest gums known here go with 5. */
  private static final double STEEPEST = 12;

  private LotFit() {}

  /**
   * One reading.
   *
   * @param share of the gum in the water phase, % w/w, positive
   * @param shearRate 1/s, positive
   * @param stress Pa, positive
   */
  public record Point(double share, double shearRate, double stress) {
    public Point {
      Require.positive(share, "share");
      Require.positive(shearRate, "shearRate");
      Require.positive(stress, "stress");
    }
  }

  /**
   * One fitted number.
   *
   * @param name of {@link FlowFit.Form#parameters()}, or of {@link #exponents}
   * @param value in SI units
   * @param standardError in the same unit; infinite where the readings do not fix it
   * @param freedom points less parameters
   */
  public record Estimate(String name, double value, double standardError, int freedom) {
    /** Half the width of the range that holds the true number nine times in ten. */
    public double ninetyPercent() {
      return standardError * student();
    }

    /** Student's factor: standard errors from the middle to either end of a 90 % range. */
    public double student() {
      return new TDistribution(freedom).inverseCumulativeProbability(0.95);
    }

    /** Standard error over value. */
    public double relativeError() {
      return standardError / value;
    }
  }

  /**
   * One fitted form.
   *
   * @param form which law
   * @param reference share at which the prefactors hold, % w/w
   * @param estimates parameters of the form, then the exponents where there are several shares
   * @param residuals ln(measured/fitted) of each point, in the order given
   * @param scatter standard deviation of the residuals, with the freedom that is left
   * @param criterion corrected Akaike information criterion; only differences have a meaning
   * @param doubts independent doubts of the fit, each as what one standard deviation of it adds to
   *     the logarithm of every estimate; empty where the readings do not tell the estimates apart
   */
  public record Fit(
      FlowFit.Form form,
      double reference,
      List<Estimate> estimates,
      List<Double> residuals,
      double scatter,
      double criterion,
      List<List<Double>> doubts) {
    public Fit {
      doubts = doubts.stream().map(List::copyOf).toList();
      estimates = List.copyOf(estimates);
      residuals = List.copyOf(residuals);
    }

    /** A number by its name. */
    public Estimate estimate(String name) {
      return estimates.stream()
          .filter(each -> each.name().equals(name))
          .findFirst()
          .orElseThrow(() -> new IllegalArgumentException("no parameter " + name));
    }
  }

  /** Names of the exponents of the share in a form, in the order fitted. */
  public static List<String> exponents(FlowFit.Form form) {
    return switch (form) {
      case POWER_LAW -> List.of("exponent of the consistency");
      case HERSCHEL_BULKLEY ->
          List.of("exponent of the consistency", "exponent of the yield stress");
      case CROSS -> List.of("exponent of the viscosity", "exponent of the time");
    };
  }

  /** How many points a form needs at least. */
  public static int least(FlowFit.Form form, boolean severalShares) {
    return form.parameters().size() + (severalShares ? exponents(form).size() : 0) + 3;
  }

  /** Geometric mean of the shares, each counted once, % w/w. */
  public static double reference(List<Point> points) {
    return Math.exp(
        points.stream()
            .mapToDouble(Point::share)
            .distinct()
            .map(Math::log)
            .average()
            .orElseThrow());
  }

  /**
   * Fits every form that the number of points allows.
   *
   * @param points measured
   * @param solventViscosity of the water, Pa·s
   * @return the least criterion first; empty where there are too few points
   */
  public static List<Fit> all(List<Point> points, double solventViscosity) {
    Require.notNegative(solventViscosity, "solventViscosity");
    boolean several = points.stream().mapToDouble(Point::share).distinct().count() > 1;
    List<Fit> fits = new ArrayList<>();
    for (FlowFit.Form form : FlowFit.Form.values()) {
      if (points.size() >= least(form, several)) {
        fits.add(fit(form, points, solventViscosity));
      }
    }
    fits.sort(Comparator.comparingDouble(Fit::criterion));
    return List.copyOf(fits);
  }

  /** Fits one form to at least {@link #least} points. */
  public static Fit fit(FlowFit.Form form, List<Point> points, double solventViscosity) {
    boolean several = points.stream().mapToDouble(Point::share).distinct().count() > 1;
    if (points.size() < least(form, several)) {
      throw new IllegalArgumentException(
          "points must be at least " + least(form, several) + ", were " + points.size());
    }
    Shape shape = new Shape(form, several, reference(points), solventViscosity);
    double[] target = points.stream().mapToDouble(point -> Math.log(point.stress())).toArray();
    double[] best = {};
    double least = Double.POSITIVE_INFINITY;
    for (double[] start : starts(shape, points)) {
      double[] end =
          LogLeastSquares.descend(at -> shape.logStress(points, shape.natural(at)), target, start);
      double sum =
          LogLeastSquares.sumOfSquares(shape.logStress(points, shape.natural(end)), target);
      if (sum < least || best.length == 0) {
        best = end;
        least = sum;
      }
    }
    double[] values = shape.natural(best);
    double[] fitted = shape.logStress(points, values);
    List<Double> residuals = new ArrayList<>();
    for (int i = 0; i < target.length; i++) {
      residuals.add(target[i] - fitted[i]);
    }
    int freedom = points.size() - values.length;
    double[][] slopes = shape.slopes(points, values);
    double[] errors = LogLeastSquares.standardErrors(slopes, least / freedom);
    List<String> names = new ArrayList<>(form.parameters());
    names.addAll(several ? exponents(form) : List.of());
    List<Estimate> estimates = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      estimates.add(new Estimate(names.get(i), values[i], errors[i], freedom));
    }
    return new Fit(
        form,
        shape.reference(),
        estimates,
        residuals,
        Math.sqrt(least / freedom),
        LogLeastSquares.criterion(points.size(), values.length, least, FlowFit.EXACT),
        doubts(slopes, values, least / freedom));
  }

  private static List<List<Double>> doubts(double[][] slopes, double[] values, double variance) {
    // In the logarithms of the estimates, which are all above zero where they mean something.
    double[][] logs = new double[slopes.length][values.length];
    for (int i = 0; i < slopes.length; i++) {
      for (int j = 0; j < values.length; j++) {
        logs[i][j] = slopes[i][j] * values[j];
      }
    }
    double[][] lower = LogLeastSquares.directions(logs, variance);
    List<List<Double>> doubts = new ArrayList<>();
    for (int j = 0; j < lower.length; j++) {
      List<Double> doubt = new ArrayList<>();
      for (double[] row : lower) {
        doubt.add(row[j]);
      }
      doubts.add(doubt);
    }
    return doubts;
  }

  private static List<double[]> starts(Shape shape, List<Point> points) {
    List<double[]> starts = new ArrayList<>();
    for (double guess : shape.several() ? GUESSES : new double[] {0}) {
      List<FlowFit.Point> together =
          points.stream()
              .map(
                  point ->
                      new FlowFit.Point(
                          point.shearRate(),
                          point.stress() / Math.pow(point.share() / shape.reference(), guess)))
              .toList();
      for (double[] start : FlowFit.starts(shape.form(), together)) {
        double[] whole = java.util.Arrays.copyOf(start, shape.count());
        for (int i = start.length; i < whole.length; i++) {
          // The time at rest grows more slowly than the viscosity.
          boolean time = shape.form() == FlowFit.Form.CROSS && i == start.length + 1;
          whole[i] = time ? guess - 1 : guess;
        }
        starts.add(whole);
      }
    }
    return starts;
  }

  /** A form with what is fitted of it. */
  private record Shape(
      FlowFit.Form form, boolean several, double reference, double solventViscosity) {
    int parameters() {
      return form.parameters().size();
    }

    int count() {
      return parameters() + (several ? exponents(form).size() : 0);
    }

    double[] natural(double[] variables) {
      double[] values = new double[variables.length];
      for (int i = 0; i < values.length; i++) {
        values[i] =
            i < parameters()
                ? FlowFit.natural(form, i, variables[i])
                : Math.max(-STEEPEST, Math.min(STEEPEST, variables[i]));
      }
      return values;
    }

    FlowCurve curve(double[] values, double share) {
      double ratio = share / reference;
      double first = several ? Math.pow(ratio, values[parameters()]) : 1;
      double second =
          several && values.length > parameters() + 1
              ? Math.pow(ratio, values[parameters() + 1])
              : 1;
      return switch (form) {
        case POWER_LAW -> new FlowCurve.Plastic(0, values[0] * first, values[1], solventViscosity);
        case HERSCHEL_BULKLEY ->
            new FlowCurve.Plastic(
                values[2] * second, values[0] * first, values[1], solventViscosity);
        case CROSS ->
            new FlowCurve.Coil(
                values[0] * first, values[2] * second, Math.min(1, values[1]), solventViscosity);
      };
    }

    double[] logStress(List<Point> points, double[] values) {
      double[] logs = new double[points.size()];
      for (int i = 0; i < logs.length; i++) {
        Point point = points.get(i);
        double stress = curve(values, point.share()).stress(point.shearRate());
        logs[i] = Math.log(Math.max(Double.MIN_NORMAL, stress));
      }
      return logs;
    }

    double[][] slopes(List<Point> points, double[] values) {
      double smallest = points.stream().mapToDouble(Point::stress).min().orElseThrow();
      double[][] slopes = new double[points.size()][values.length];
      double[] at = logStress(points, values);
      for (int j = 0; j < values.length; j++) {
        boolean yield = form == FlowFit.Form.HERSCHEL_BULKLEY && j == 2;
        double step = STEP * (j >= parameters() ? 1 : Math.max(values[j], yield ? smallest : 0));
        double[] up = values.clone();
        up[j] += step;
        double[] above = logStress(points, up);
        for (int i = 0; i < at.length; i++) {
          slopes[i][j] = (above[i] - at[i]) / step;
        }
      }
      return slopes;
    }
  }

  /**
   * The fitted curve at a share.
   *
   * @param share % w/w
   * @param solventViscosity Pa·s
   */
  public static FlowCurve curve(Fit fit, double share, double solventViscosity) {
    double[] values = fit.estimates().stream().mapToDouble(Estimate::value).toArray();
    boolean several = values.length > fit.form().parameters().size();
    return new Shape(fit.form(), several, fit.reference(), solventViscosity).curve(values, share);
  }
}
