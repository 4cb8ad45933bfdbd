package gelwright.calibration;

import gelwright.problem.Place;
import gelwright.science.FlowCurve;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/** Made-up readings of gels whose law is known. */
final class Lab {
  private Lab() {}

  static Readings readings(String gum, double celsius, List<Readings.Series> series) {
    return new Readings(
        gum,
        Optional.empty(),
        "bench 3",
        Optional.empty(),
        "",
        Optional.of(celsius),
        0,
        Optional.empty(),
        series,
        Place.NOWHERE);
  }

  static Readings.Flow series(double share, FlowCurve gel, int points, double noise, long seed) {
    // Neighbouring seeds of java.util.Random begin alike; these do not.
    SplittableRandom random = new SplittableRandom(seed);
    List<Readings.FlowPoint> read = new ArrayList<>();
    for (int i = 0; i < points; i++) {
      double rate = 0.05 * Math.pow(4000, i / (points - 1.0));
      double stress = gel.stress(rate) * Math.exp(noise * random.nextGaussian());
      read.add(new Readings.FlowPoint(rate, stress, new Place("bench.yaml", 10 + i, 5, "")));
    }
    return new Readings.Flow(share, read, new Place("bench.yaml", 9, 3, ""));
  }
}
