package gelwright.comparison;

import gelwright.prediction.Curve;
import gelwright.quantity.Bounded;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleFunction;

/** Curves of two formulas laid over each other. */
final class Overlay {
  private final String first;
  private final String second;

  /** For formulas of these names, which differ. */
  Overlay(String first, String second) {
    this.first = first;
    this.second = second;
  }

  /** Two curves of one name in one, with the series of both, told apart by the formulas' names. */
  Curve of(Curve a, Curve b) {
    if (!a.x().equals(b.x()) || !a.y().equals(b.y())) {
      return apart(a, b);
    }
    boolean one = hasOneName(a, b);
    List<Curve.Series> series = new ArrayList<>();
    a.series().forEach(each -> series.add(named(each, first, one)));
    b.series().forEach(each -> series.add(named(each, second, one)));
    return new Curve(
        a.name(), a.title(), a.x(), a.y(), series, marks(a.marks(), b.marks()), missing(a, b));
  }

  /** Axes that differ, such as the shares of two polyols, take no common curve. */
  private Curve apart(Curve a, Curve b) {
    Set<String> missing = missing(a, b);
    missing.add(
        "one axis for both: "
            + (a.x().equals(b.x()) ? a.y() : a.x()).quantity()
            + " in "
            + first
            + ", "
            + (a.x().equals(b.x()) ? b.y() : b.x()).quantity()
            + " in "
            + second);
    return new Curve(a.name(), a.title(), a.x(), a.y(), List.of(), List.of(), missing);
  }

  /** Whether a formula's name alone tells its lines: each formula has one line at most. */
  private static boolean hasOneName(Curve a, Curve b) {
    Set<String> names = new HashSet<>();
    for (Curve curve : List.of(a, b)) {
      curve.series().stream()
          .filter(each -> each.kind() != Curve.Kind.MEASURED)
          .forEach(each -> names.add(each.name()));
    }
    return names.size() <= 1;
  }

  private static Curve.Series named(Curve.Series series, String formula, boolean one) {
    String name =
        series.kind() == Curve.Kind.MEASURED
            ? series.name() + " of " + formula
            : one ? formula : series.name() + ", " + formula;
    return new Curve.Series(name, series.kind(), series.points());
  }

  private List<Curve.Mark> marks(List<Curve.Mark> a, List<Curve.Mark> b) {
    Set<Curve.Mark> all = new LinkedHashSet<>();
    for (Curve.Mark mark : a) {
      all.add(b.contains(mark) ? mark : named(mark, first));
    }
    for (Curve.Mark mark : b) {
      all.add(a.contains(mark) ? mark : named(mark, second));
    }
    return List.copyOf(all);
  }

  private static Curve.Mark named(Curve.Mark mark, String formula) {
    return new Curve.Mark(
        mark.label() + " (" + formula + ")", mark.xFrom(), mark.xTo(), mark.yFrom(), mark.yTo());
  }

  private Set<String> missing(Curve a, Curve b) {
    Set<String> all = new TreeSet<>();
    for (String what : a.missing()) {
      all.add(b.missing().contains(what) ? what : what + " (" + first + ")");
    }
    for (String what : b.missing()) {
      all.add(a.missing().contains(what) ? what : what + " (" + second + ")");
    }
    return all;
  }

  /**
   * The second viscosity over the first along the shear rates of both flow curves, each ratio with
   * its own range, in which shared doubts have cancelled.
   */
  Curve flowRatio(Curve a, Curve b, DoubleFunction<Bounded> ratio) {
    Set<String> missing = missing(a, b);
    List<Curve.Point> points = new ArrayList<>();
    for (double rate : sharedRates(a, b)) {
      Bounded at = ratio.apply(rate);
      if (at.isKnown() && at.atLeast().likely() > 0 && Double.isFinite(at.atLeast().high())) {
        points.add(
            new Curve.Point(rate, at.atLeast().low(), at.atLeast().likely(), at.atLeast().high()));
      }
    }
    if (points.isEmpty() && missing.isEmpty()) {
      missing.add("shear rates at which both viscosities are known");
    }
    return new Curve(
        "flow-ratio",
        "Viscosity of the second gel over that of the first, 25 °C",
        a.x(),
        Curve.Axis.logarithmic("ratio of the viscosities", ""),
        points.isEmpty()
            ? List.of()
            : List.of(new Curve.Series("the second over the first", Curve.Kind.LIKELY, points)),
        points.isEmpty() ? List.of() : List.of(Curve.Mark.alongY("no difference", 1, 1)),
        missing);
  }

  private static List<Double> sharedRates(Curve a, Curve b) {
    Set<Double> inSecond = new HashSet<>(rates(b));
    return rates(a).stream().filter(inSecond::contains).toList();
  }

  private static List<Double> rates(Curve curve) {
    return curve.series().stream()
        .filter(each -> each.kind() == Curve.Kind.LIKELY)
        .flatMap(each -> each.points().stream())
        .map(Curve.Point::x)
        .toList();
  }
}
