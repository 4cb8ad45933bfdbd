package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** The fit of a flow curve by two routes that share nothing but the readings. */
@DisplayName("fitting a flow curve by two routes")
final class FlowFitTwoRoutesTest {
  private static final int GRID = 40;

  /** Flow index, yield stress over consistency, and what is left of the squares of ln(stress). */
  private record Best(double index, double ratio, double consistency, double squares) {}

  // With stress = K (r + rate^n) the best ln K for given n and r is a mean, so only n and ln r are
  // searched: on a grid that closes in on its best point. No derivative, no start value.
  private static Best search(List<FlowFit.Point> points) {
    double index = 0.6;
    double log = 0;
    double indexSpan = 0.55;
    double logSpan = 8;
    Best best = new Best(index, 1, 1, Double.POSITIVE_INFINITY);
    for (int round = 0; round < 40; round++) {
      for (int i = 0; i <= GRID; i++) {
        for (int j = 0; j <= GRID; j++) {
          double n = index + indexSpan * (2.0 * i / GRID - 1);
          double ratio = Math.exp(log + logSpan * (2.0 * j / GRID - 1));
          Best here = at(points, n, ratio);
          if (here.squares() < best.squares()) {
            best = here;
          }
        }
      }
      index = best.index();
      log = Math.log(best.ratio());
      // Slowly, for the valley runs slantwise: less yield stress asks for a smaller index.
      indexSpan *= 0.6;
      logSpan *= 0.6;
    }
    return best;
  }

  private static Best at(List<FlowFit.Point> points, double n, double ratio) {
    double mean = 0;
    for (FlowFit.Point point : points) {
      mean += Math.log(point.stress()) - Math.log(ratio + Math.pow(point.shearRate(), n));
    }
    mean /= points.size();
    double squares = 0;
    for (FlowFit.Point point : points) {
      double off =
          Math.log(point.stress()) - Math.log(ratio + Math.pow(point.shearRate(), n)) - mean;
      squares += off * off;
    }
    return new Best(n, ratio, Math.exp(mean), squares);
  }

  // The fit stops when a step no longer pays; the search closes in to 0.6^40 = 1e-9 of its span. A
  // tenth of a percent in a parameter is far below its standard error with 3 % of scatter.
  @Test
  @DisplayName("Herschel-Bulkley with 3 % scatter: Levenberg-Marquardt agrees with a grid search")
  void herschelBulkley() {
    Seeded.tries(
        12,
        random -> {
          double consistency = 0.5 * Math.pow(60, random.nextDouble());
          double yield = consistency * random.nextDouble(0.5, 2);
          double index = random.nextDouble(0.25, 0.6);
          List<FlowFit.Point> points = new ArrayList<>();
          for (int i = 0; i < 13; i++) {
            double rate = 0.1 * Math.pow(10, i / 3.0);
            double stress = yield + consistency * Math.pow(rate, index);
            points.add(new FlowFit.Point(rate, stress * (1 + 0.03 * random.nextDouble(-1.7, 1.7))));
          }
          FlowFit.Fit fit = FlowFit.fit(FlowFit.Form.HERSCHEL_BULKLEY, points, 0);
          Best best = search(points);
          double fitted = fit.parameters().get(0).value();
          double left =
              at(points, fit.parameters().get(1).value(), fit.parameters().get(2).value() / fitted)
                  .squares();
          assertTrue(left <= best.squares() * (1 + 1e-6), left + " against " + best.squares());
          assertEquals(best.consistency(), fitted, 1e-3 * fitted);
          assertEquals(best.index(), fit.parameters().get(1).value(), 1e-3);
          double stress = fit.parameters().get(2).value();
          assertEquals(best.ratio() * best.consistency(), stress, 1e-3 * stress);
        });
  }
}
