package gelwright.prediction;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * Numbers along an axis, with what they are to be held against. Pure data: no colours, no sizes.
 *
 * @param name kebab-case, the same for every formula: {@code flow}
 * @param title what it shows, in words
 * @param x the axis along
 * @param y the axis up
 * @param series lines to draw; empty where nothing is known
 * @param marks what the series are to be held against
 * @param missing what is missing to know it, or to know it better; empty where nothing is
 */
public record Curve(
    String name,
    String title,
    Axis x,
    Axis y,
    List<Series> series,
    List<Mark> marks,
    Set<String> missing) {
  public Curve {
    requireNonNull(name, "name");
    requireNonNull(title, "title");
    requireNonNull(x, "x");
    requireNonNull(y, "y");
    series = List.copyOf(series);
    marks = List.copyOf(marks);
    missing = Collections.unmodifiableSet(new TreeSet<>(missing));
    for (Series each : series) {
      for (Point point : each.points()) {
        if ((x.logarithmic() && point.x() <= 0) || (y.logarithmic() && point.low() <= 0)) {
          throw new IllegalArgumentException(
              "point of " + each.name() + " is not above zero on a logarithmic axis: " + point);
        }
      }
    }
    if (series.isEmpty() && missing.isEmpty()) {
      throw new IllegalArgumentException("a curve without series must say what is missing");
    }
  }

  /** Whether there is anything to draw. */
  public boolean isKnown() {
    return !series.isEmpty();
  }

  /**
   * An axis.
   *
   * @param quantity what it measures, in words
   * @param unit symbol of the unit of its numbers; empty for a plain number
   * @param logarithmic whether equal steps are equal factors
   */
  public record Axis(String quantity, String unit, boolean logarithmic) {
    public Axis {
      requireNonNull(quantity, "quantity");
      requireNonNull(unit, "unit");
    }

    public static Axis linear(String quantity, String unit) {
      return new Axis(quantity, unit, false);
    }

    public static Axis logarithmic(String quantity, String unit) {
      return new Axis(quantity, unit, true);
    }
  }

  /** What the numbers of a series are. */
  public enum Kind {
    /** Predicted values. */
    LIKELY,
    /** Something is missing; the true curve is not below this one. */
    AT_LEAST,
    /** Something is missing; the true curve is not above this one. */
    AT_MOST,
    /** Readings: points, not a line. */
    MEASURED
  }

  /**
   * One line, or the readings of one measurement.
   *
   * @param name what it is of; unique in the curve together with its kind
   * @param kind what its numbers are
   * @param points at least one, in the order they are drawn
   */
  public record Series(String name, Kind kind, List<Point> points) {
    public Series {
      requireNonNull(name, "name");
      requireNonNull(kind, "kind");
      points = List.copyOf(points);
      if (points.isEmpty()) {
        throw new IllegalArgumentException("series " + name + " has no points");
      }
    }
  }

  /**
   * A point with its 90 % range; all numbers are finite.
   *
   * @param x along
   * @param low lower end of the range; the likely value where there is no doubt
   * @param likely likely value, or the bound
   * @param high upper end of the range
   */
  public record Point(double x, double low, double likely, double high) {
    public Point {
      if (!Double.isFinite(x) || !Double.isFinite(likely)) {
        throw new IllegalArgumentException("point is not finite: " + x + ", " + likely);
      }
      if (!(low <= likely && likely <= high) || Double.isInfinite(low + high)) {
        throw new IllegalArgumentException(
            "not a range around " + likely + ": " + low + " to " + high);
      }
    }

    /** A point without doubt. */
    public static Point exact(double x, double y) {
      return new Point(x, y, y, y);
    }
  }

  /**
   * A region to hold the series against: a band, a line, a window. An end that is infinite reaches
   * to the edge; ends that are equal make it a line.
   *
   * @param label what it is
   * @param xFrom left end
   * @param xTo right end
   * @param yFrom lower end
   * @param yTo upper end
   */
  public record Mark(String label, double xFrom, double xTo, double yFrom, double yTo) {
    public Mark {
      requireNonNull(label, "label");
      if (!(xFrom <= xTo && yFrom <= yTo)) {
        throw new IllegalArgumentException("ends of " + label + " are in the wrong order");
      }
    }

    /** From one value to another along x, whatever y is. */
    public static Mark alongX(String label, double from, double to) {
      return new Mark(label, from, to, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);
    }

    /** From one value to another along y, whatever x is. */
    public static Mark alongY(String label, double from, double to) {
      return new Mark(label, Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, from, to);
    }
  }
}
