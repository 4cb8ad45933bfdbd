package gelwright.calibration;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.quantity.Numbers;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** What speaks against readings before anything is fitted to them. */
final class SenseCheck {
  /** Torque at which a spindle reads well, % of full scale: common practice, no source. */
  private static final double LEAST_TORQUE = 10;

  private static final double MOST_TORQUE = 100;

  /** Most gum that readings may have, %: above, a powder is wetted and no gel made. */
  private static final double MOST_SHARE = 50;

  /** Least ratio of the fastest to the slowest shear rate: half a decade. Engine value. */
  private static final double LEAST_SPAN = 3;

  /** Most readings that are fitted, so that a fit ends in good time. */
  private static final int MOST_POINTS = 500;

  private static final double FASTEST = 1e6;
  private static final double SLOWEST = 1e-5;
  private static final double MOST_STRESS = 1e5;
  private static final int SPINDLES = 7;

  private final List<Problem> problems = new ArrayList<>();

  private SenseCheck() {}

  static List<Problem> of(Readings readings) {
    SenseCheck check = new SenseCheck();
    check.whole(readings);
    readings.series().forEach(check::series);
    return check.problems;
  }

  private void add(Place place, String code, String message, String hint) {
    problems.add(new Problem(place, code, message, hint));
  }

  private void whole(Readings readings) {
    if (readings.series().isEmpty()) {
      add(
          readings.place(),
          "too-few-points",
          "There are no readings.",
          "Read the stress at five shear rates or more.");
    }
    int count = readings.series().stream().mapToInt(Readings.Series::size).sum();
    if (count > MOST_POINTS) {
      add(
          readings.place(),
          "too-many-points",
          "There are " + count + " readings; at most " + MOST_POINTS + " are fitted.",
          "Some twenty, spread evenly in the logarithm of the shear rate, say as much.");
    }
    if (readings.lot().isBlank()) {
      add(readings.place(), "blank-text", "The lot has no name.", "");
    }
    readings
        .celsius()
        .filter(celsius -> !(celsius >= 5 && celsius <= 60))
        .ifPresent(
            celsius ->
                add(
                    readings.place(),
                    "out-of-range",
                    "The readings are of a gel at "
                        + Numbers.plain(celsius)
                        + " °C; they can be carried to 25 °C from 5 to 60 °C only.",
                    ""));
    if (!(readings.salt() >= 0 && readings.salt() <= 1)) {
      add(
          readings.place(),
          "out-of-range",
          "The salt of the water must lie between 0 and 1 mol/kg.",
          "Plain water needs no salt on the sheet.");
    }
    readings
        .weighing()
        .filter(percent -> !(percent >= 0 && percent <= 50))
        .ifPresent(
            percent ->
                add(
                    readings.place(),
                    "out-of-range",
                    "The weighing is good to " + Numbers.plain(percent) + " % of the share.",
                    "Write a part of the share between 0 and 50 %."));
  }

  private void series(Readings.Series series) {
    if (!(series.share() > 0 && series.share() <= MOST_SHARE)) {
      add(
          series.place(),
          "out-of-range",
          "The share of the gum must be more than 0 % and at most 50 %; it is "
              + Numbers.plain(series.share())
              + " %.",
          "");
    }
    if (series instanceof Readings.Flow flow) {
      flow.points().forEach(this::point);
      doubles(flow.points());
      falling(
          flow.points().stream().mapToDouble(Readings.FlowPoint::shearRate).toArray(),
          flow.points().stream().mapToDouble(Readings.FlowPoint::stress).toArray(),
          series.place());
    } else if (series instanceof Readings.Spindle spindle) {
      spindle(spindle);
    }
  }

  private void point(Readings.FlowPoint point) {
    if (!(point.shearRate() >= SLOWEST && point.shearRate() <= FASTEST)) {
      add(
          point.place(),
          "out-of-range",
          point.shearRate() <= 0
              ? "A shear rate must be more than 0 /s."
              : "A shear rate of " + Numbers.plain(point.shearRate()) + " /s cannot be read.",
          "");
    }
    if (!(point.stress() > 0 && point.stress() <= MOST_STRESS)) {
      add(
          point.place(),
          "out-of-range",
          point.stress() <= 0
              ? "A stress must be more than 0 Pa."
              : "A stress of " + Numbers.plain(point.stress()) + " Pa is that of no gel.",
          point.stress() <= 0
              ? "Leave out what the instrument could not read."
              : "Check the unit.");
    }
  }

  private void doubles(List<Readings.FlowPoint> points) {
    Map<String, Place> seen = new HashMap<>();
    for (Readings.FlowPoint point : points) {
      Place first = seen.putIfAbsent(point.shearRate() + " " + point.stress(), point.place());
      if (first != null) {
        add(
            point.place(),
            "duplicate-point",
            "This reading is here twice, at "
                + Numbers.plain(point.shearRate())
                + " /s and "
                + Numbers.plain(point.stress())
                + " Pa.",
            "A second reading at the same shear rate is welcome, a copy of the first is none.");
      }
    }
  }

  // The slope of a straight line through the logarithms: below zero the stress falls on the whole.
  private void falling(double[] rates, double[] stresses, Place place) {
    if (rates.length < 3) {
      return;
    }
    double meanX = 0;
    double meanY = 0;
    for (int i = 0; i < rates.length; i++) {
      if (!(rates[i] > 0 && stresses[i] > 0)) {
        return;
      }
      meanX += Math.log(rates[i]) / rates.length;
      meanY += Math.log(stresses[i]) / rates.length;
    }
    double slope = 0;
    for (int i = 0; i < rates.length; i++) {
      slope += (Math.log(rates[i]) - meanX) * (Math.log(stresses[i]) - meanY);
    }
    if (slope < 0) {
      add(
          place,
          "falling-stress",
          "The stress falls with the shear rate over the whole range. No gel that rests uniform"
              + " between the plates does that.",
          "Viscosities in the place of stresses do, so does a sample that slips, breaks or is"
              + " thrown out of the gap.");
    }
  }

  private void spindle(Readings.Spindle spindle) {
    if (spindle.spindle() < 1 || spindle.spindle() > SPINDLES) {
      add(
          spindle.place(),
          "out-of-range",
          "There is no spindle " + spindle.spindle() + ": the disc spindles are 1 to 7.",
          "");
    }
    if (!(spindle.torque() >= 1e-3 && spindle.torque() <= 1e3)) {
      add(
          spindle.place(),
          "out-of-range",
          "The full-scale torque must lie between 0.001 and 1000 mN·m.",
          "");
    }
    if (spindle.size() == 1) {
      add(
          spindle.place(),
          "too-few-points",
          "A spindle needs two speeds at least: how the torque grows with the speed tells the shear"
              + " rate.",
          "");
    }
    Map<Double, Place> speeds = new HashMap<>();
    for (Readings.SpindlePoint point : spindle.points()) {
      if (!(point.speed() > 0 && point.speed() <= 1000)) {
        add(
            point.place(),
            "out-of-range",
            "A speed must be more than 0 rpm and at most 1000 rpm; it is "
                + Numbers.plain(point.speed())
                + " rpm.",
            "");
      }
      if (!(point.torque() >= LEAST_TORQUE && point.torque() <= MOST_TORQUE)) {
        add(
            point.place(),
            "torque-outside-scale",
            "A torque of "
                + Numbers.plain(point.torque())
                + " % cannot be trusted: a spindle reads well from 10 to 100 % of its scale.",
            point.torque() > MOST_TORQUE
                ? "Take a smaller spindle or a lower speed."
                : "Take a larger spindle or a higher speed.");
      }
      if (speeds.putIfAbsent(point.speed(), point.place()) != null) {
        add(
            point.place(),
            "duplicate-point",
            "There is another reading at " + Numbers.plain(point.speed()) + " rpm.",
            "Write their mean, or a series of its own.");
      }
    }
    falling(
        spindle.points().stream().mapToDouble(Readings.SpindlePoint::speed).toArray(),
        spindle.points().stream().mapToDouble(Readings.SpindlePoint::torque).toArray(),
        spindle.place());
  }

  /** What the shear rates of all series together lack. */
  static List<Problem> span(Readings readings, double slowest, double fastest) {
    if (fastest >= LEAST_SPAN * slowest) {
      return List.of();
    }
    return List.of(
        new Problem(
            readings.place(),
            "one-shear-rate",
            slowest == fastest
                ? "All readings are of one shear rate, "
                    + Numbers.plain(slowest)
                    + " /s: they say how thick the gel is there, not how it thins."
                : "The readings reach from "
                    + Numbers.plain(slowest)
                    + " to "
                    + Numbers.plain(fastest)
                    + " /s only, too little to tell how the gel thins.",
            "Read over two decades of shear rate. A single viscosity goes on the formula sheet,"
                + " under measured."));
  }
}
