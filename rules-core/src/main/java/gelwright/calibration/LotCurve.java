package gelwright.calibration;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.prediction.Curve;
import gelwright.profile.GumLaw;
import gelwright.quantity.Estimate;
import gelwright.quantity.Numbers;
import gelwright.science.FlowLaw;
import gelwright.science.LotFit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** The readings, the lot's law with its range, and the usual law, as numbers to be drawn. */
final class LotCurve {
  private static final int POINTS = 41;

  /**
   * Shares up to which the usual law is drawn beside each; with more it would hide the readings.
   */
  private static final int MOST_USUAL = 2;

  private LotCurve() {}

  static Curve of(
      List<LotFit.Point> points, Gum lot, Optional<Gum> usual, String name, String lotName) {
    double slowest = points.stream().mapToDouble(LotFit.Point::shearRate).min().orElseThrow();
    double fastest = points.stream().mapToDouble(LotFit.Point::shearRate).max().orElseThrow();
    double[] shares =
        points.stream().mapToDouble(LotFit.Point::share).distinct().sorted().toArray();
    List<Curve.Series> series = new ArrayList<>();
    for (double share : shares) {
      List<Curve.Point> law = new ArrayList<>();
      for (int i = 0; i < POINTS; i++) {
        double rate = slowest * Math.pow(fastest / slowest, i / (POINTS - 1.0));
        law.add(likely(lot, share, rate));
      }
      String at = " at " + Numbers.plain(share) + " %";
      series.add(new Curve.Series("lot " + lotName + at, Curve.Kind.LIKELY, law));
    }
    if (shares.length <= MOST_USUAL && usual.isPresent()) {
      FlowLaw law = GumLaw.likely(usual.get());
      for (double share : shares) {
        List<Curve.Point> curve = new ArrayList<>();
        for (int i = 0; i < POINTS; i++) {
          double rate = slowest * Math.pow(fastest / slowest, i / (POINTS - 1.0));
          curve.add(Curve.Point.exact(rate, law.at(share).stress(rate)));
        }
        String at = " at " + Numbers.plain(share) + " %";
        series.add(new Curve.Series("usual " + name + at, Curve.Kind.LIKELY, curve));
      }
    }
    for (double share : shares) {
      List<Curve.Point> read =
          points.stream()
              .filter(point -> point.share() == share)
              .map(point -> Curve.Point.exact(point.shearRate(), point.stress()))
              .toList();
      series.add(
          new Curve.Series(
              "readings at " + Numbers.plain(share) + " %", Curve.Kind.MEASURED, read));
    }
    return new Curve(
        "calibration",
        "Readings and the law fitted to them",
        Curve.Axis.logarithmic("shear rate", "/s"),
        Curve.Axis.logarithmic("shear stress", "Pa"),
        series,
        List.of(),
        Set.of());
  }

  // Every figure's doubt moves the stress by itself; squares add up, as in a review.
  private static Curve.Point likely(Gum lot, double share, double rate) {
    double likely = GumLaw.likely(lot).at(share).stress(rate);
    double variance = Math.pow(lot.strength().map(Figure::deviation).orElse(0.0), 2);
    for (Map.Entry<String, Figure> parameter : new TreeMap<>(lot.parameters()).entrySet()) {
      if (parameter.getValue().deviation() > 0) {
        double shifted = GumLaw.shifted(lot, parameter.getKey(), 1).at(share).stress(rate);
        variance += Math.pow(Math.log(shifted / likely), 2);
      }
    }
    for (int i = 0; i < lot.together().size(); i++) {
      double up = GumLaw.together(lot, i, 0.5).at(share).stress(rate);
      double down = GumLaw.together(lot, i, -0.5).at(share).stress(rate);
      variance += Math.pow(Math.log(up / down) / Estimate.NINETY_PERCENT, 2);
    }
    double factor = Math.exp(Estimate.NINETY_PERCENT * Math.sqrt(variance));
    return new Curve.Point(rate, likely / factor, likely, likely * factor);
  }
}
