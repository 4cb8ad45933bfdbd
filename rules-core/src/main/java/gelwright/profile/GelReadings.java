package gelwright.profile;

import gelwright.formula.Measurement;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Setting;
import gelwright.quantity.Numbers;
import gelwright.quantity.Quantity;
import gelwright.science.FlowCurve;
import gelwright.science.FlowFit;
import gelwright.science.FlowModifiers;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** The flow of the gel as readings on the product tell it: they beat every prediction. */
final class GelReadings {
  // Every reading becomes a point of shear rate and stress at 25 °C. Points of one flow curve, five
  // or more, are fitted; fewer, or single viscosities, are joined up; one alone moves the predicted
  // curve up or down until it passes through. Outside the rates of the readings the predicted curve
  // goes on, moved so that it joins, with a doubt of its own about its slope. Where nothing is
  // predicted, a stress that does not fall and a viscosity that does not rise with the shear rate
  // are all there is.
  //
  // A yield stress that is read stands for itself and, where nothing else is read, moves the curve.
  //
  // A reading at another temperature is carried to 25 °C as the predicted curve changes between the
  // two, or where there is none as an activation energy about that of water does.

  private static final String FLOW_CURVE = "flow-curve";
  private static final String VISCOSITY = "viscosity";
  private static final String YIELD = "yield-stress";

  /** Names of the independent doubts of a fit. */
  private static final List<String> FIT_DOUBTS =
      List.of(
          "fit of the flow curve of ",
          "fit of the flow curve, second doubt, of ",
          "fit of the flow curve, third doubt, of ");

  /** Least part of a stress that must come from the gums for their law to give the shape. */
  private static final double LEAST_GUM = 1e-3;

  private GelReadings() {}

  /** A point and whether it could be carried to 25 °C. */
  private record Point(double rate, double stress) {}

  /** The flow of the gel at 25 °C. */
  static GelFlow.CurveBound curve(World world) {
    GelFlow.CurveBound predicted = GelFlow.predicted(world);
    List<Measurement> readings =
        world.model().readings().stream()
            .filter(each -> Set.of(FLOW_CURVE, VISCOSITY, YIELD).contains(each.what()))
            .toList();
    if (readings.isEmpty()) {
      return predicted;
    }
    Set<String> missing = new TreeSet<>();
    Optional<Double> atRest = Optional.empty();
    Map<Double, Double> viscosities = new TreeMap<>();
    List<Point> curve = List.of();
    for (Measurement reading : readings) {
      Optional<Double> celsius = temperature(world, reading, missing);
      if (celsius.isEmpty()) {
        continue;
      }
      GelFlow.CurveBound there = GelFlow.predicted(world, celsius.get());
      // The last of several readings of one thing counts.
      switch (reading.what()) {
        case YIELD ->
            atRest = value(reading).map(stress -> atTold(world, there, 0, stress, celsius.get()));
        case VISCOSITY -> {
          Optional<Double> rate = reading.shearRate().map(Quantity::inBase);
          Optional<Double> viscosity = value(reading);
          if (viscosity.isEmpty() || viscosity.get() <= 0) {
            continue;
          }
          if (rate.isEmpty() || rate.get() <= 0) {
            missing.add("shear rate of the viscosity reading");
            continue;
          }
          double stress = viscosity.get() * rate.get();
          viscosities.put(rate.get(), atTold(world, there, rate.get(), stress, celsius.get()));
        }
        default -> curve = points(world, there, reading, celsius.get());
      }
    }
    if (atRest.isEmpty() && viscosities.isEmpty() && curve.isEmpty()) {
      return new GelFlow.CurveBound(
          predicted.thinnest(), predicted.thickest(), Reading.union(predicted.missing(), missing));
    }
    world.measured();
    world.source(Practice.SOURCE);
    if (atRest.isPresent()) {
      atRest = Optional.of(atRest.get() * doubt(world, "yield-stress"));
    }
    return combine(world, predicted, atRest, viscosities, curve, missing);
  }

  private static double doubt(World world, String what) {
    return world.withinFactor(
        1,
        Practice.READING_FACTOR,
        what + " reading of " + world.model().name(),
        "a second reading");
  }

  private static Optional<Double> value(Measurement reading) {
    return reading.value().map(Quantity::inBase).filter(each -> each >= 0);
  }

  // --- Temperature
  // ---------------------------------------------------------------------------------------------

  /** Temperature of a reading, °C; empty where the reading says nothing about 25 °C. */
  private static Optional<Double> temperature(
      World world, Measurement reading, Set<String> missing) {
    if (reading.at().isEmpty()) {
      world.source(Practice.SOURCE);
      return Optional.of(
          world.within(
              GelFlow.TOLD_AT,
              Practice.READING_TEMPERATURE_RANGE,
              "temperature of the " + reading.what() + " reading",
              "the temperature of the sample (at)"));
    }
    double celsius = reading.at().get().inBase();
    if (Math.abs(celsius - GelFlow.TOLD_AT) <= Practice.READING_TEMPERATURE_NEAR) {
      return Optional.of(GelFlow.TOLD_AT);
    }
    Set<String> melting = melting(world, celsius);
    if (!melting.isEmpty()) {
      for (String gum : melting) {
        missing.add(
            "a reading at 25 °C: one at " + Numbers.plain(celsius) + " °C is of melted " + gum);
      }
      return Optional.empty();
    }
    return Optional.of(celsius);
  }

  private static Set<String> melting(World world, double celsius) {
    Set<String> melting = new TreeSet<>();
    for (Component component : world.model().recipe().possibly("gum")) {
      for (GelFlow.Portion portion : GelFlow.portions(component)) {
        Optional<Setting> setting = portion.gum().toOptional().flatMap(Gum::setting);
        if (setting.isPresent() && celsius >= least(setting.get().below())) {
          melting.add(component.name());
        }
      }
    }
    return melting;
  }

  private static double least(Figure figure) {
    return figure.likely() - figure.spread();
  }

  /** A stress (Pa) read at a shear rate (1/s; 0 for a yield stress), carried to 25 °C. */
  private static double atTold(
      World world, GelFlow.CurveBound there, double rate, double stress, double celsius) {
    if (celsius == GelFlow.TOLD_AT) {
      return stress;
    }
    Optional<FlowCurve> told = shape(GelFlow.predicted(world), Math.max(rate, 1));
    Optional<FlowCurve> read = shape(there, Math.max(rate, 1));
    if (told.isPresent() && read.isPresent()) {
      double wanted = stress(told.get(), rate);
      double given = stress(read.get(), rate);
      if (wanted > 0 && given > 0) {
        return stress * wanted / given;
      }
    }
    double energy = GelFlow.energy(world, Optional.empty(), world.model().name());
    return stress / FlowModifiers.temperatureFactor(energy, celsius);
  }

  private static double stress(FlowCurve curve, double rate) {
    return rate == 0 ? curve.yieldStress() : curve.stress(rate);
  }

  private static List<Point> points(
      World world, GelFlow.CurveBound there, Measurement reading, double celsius) {
    List<Point> points = new ArrayList<>();
    for (Measurement.Point point : reading.points()) {
      if (point.shearRate() > 0 && point.stress() > 0) {
        double stress = atTold(world, there, point.shearRate(), point.stress(), celsius);
        points.add(new Point(point.shearRate(), stress));
      }
    }
    return points;
  }

  // --- Putting together
  // ---------------------------------------------------------------------------------------------

  private static GelFlow.CurveBound combine(
      World world,
      GelFlow.CurveBound predicted,
      Optional<Double> atRest,
      Map<Double, Double> viscosities,
      List<Point> curve,
      Set<String> missing) {
    if (!curve.isEmpty()) {
      Optional<FlowFit.Fit> fit = fit(curve);
      if (fit.isPresent()) {
        return fitted(world, predicted, fit.get(), curve, atRest, missing);
      }
      curve.forEach(point -> viscosities.putIfAbsent(point.rate(), point.stress()));
    }
    if (viscosities.isEmpty()) {
      double stress = atRest.orElseThrow();
      return byYield(world, predicted, stress, missing);
    }
    double factor = doubt(world, VISCOSITY);
    List<Double> rates = new ArrayList<>(viscosities.keySet());
    List<Double> stresses = new ArrayList<>();
    for (double stress : viscosities.values()) {
      stresses.add(factor * stress);
    }
    for (int i = 1; i < stresses.size(); i++) {
      if (stresses.get(i) < stresses.get(i - 1)) {
        missing.add("viscosity readings that agree: their stress falls with the shear rate");
        stresses.set(i, stresses.get(i - 1));
      }
    }
    double from = rates.get(0);
    double to = rates.get(rates.size() - 1);
    FlowCurve known =
        rates.size() == 1
            ? FlowCurve.Coil.newtonian(0, stresses.get(0) / from)
            : new FlowCurve.Readings(rates, stresses);
    return joined(world, predicted, known, from, to, atRest, missing);
  }

  private static Optional<FlowFit.Fit> fit(List<Point> curve) {
    long rates = curve.stream().mapToDouble(Point::rate).distinct().count();
    if (rates < curve.size() || curve.size() < 5) {
      return Optional.empty();
    }
    List<FlowFit.Point> points =
        curve.stream().map(point -> new FlowFit.Point(point.rate(), point.stress())).toList();
    // The best form whose parameters the readings fix.
    return FlowFit.all(points, gelwright.science.FlowLaw.WATER_VISCOSITY).stream()
        .filter(FlowFit.Fit::isFixed)
        .findFirst();
  }

  private static GelFlow.CurveBound fitted(
      World world,
      GelFlow.CurveBound predicted,
      FlowFit.Fit fit,
      List<Point> curve,
      Optional<Double> atRest,
      Set<String> missing) {
    FlowCurve known = fit.curve();
    for (int i = 0; i < fit.parameters().size(); i++) {
      double deviations =
          world.within(
              0,
              gelwright.quantity.Estimate.NINETY_PERCENT,
              FIT_DOUBTS.get(i) + world.model().name(),
              "more points of the flow curve");
      if (deviations != 0) {
        known = fit.shifted(i, deviations);
      }
    }
    double factor = doubt(world, FLOW_CURVE);
    known = known.scaled(factor, factor).inSolvent(factor * known.solventViscosity());
    double slowest = curve.stream().mapToDouble(Point::rate).min().orElseThrow();
    double fastest = curve.stream().mapToDouble(Point::rate).max().orElseThrow();
    // Down to rest the fit holds where the readings show its plateau: a yield stress that is surely
    // above zero, a viscosity at rest that is fixed to better than a half.
    boolean shown =
        switch (fit.form()) {
          case HERSCHEL_BULKLEY -> fit.relativeError("yield stress") < SURELY;
          case CROSS ->
              fit.relativeError("viscosity at rest") < SURELY
                  && fit.relativeError("time constant") < SURELY;
          case POWER_LAW -> false;
        };
    double from = shown && atRest.isEmpty() ? 0 : slowest;
    return joined(world, predicted, known, from, fastest, atRest, missing);
  }

  /** Relative standard error of a number whose 90 % range stays well above zero. */
  private static final double SURELY = 0.5;

  // Known between two rates; the prediction goes on outside.
  private static GelFlow.CurveBound joined(
      World world,
      GelFlow.CurveBound predicted,
      FlowCurve known,
      double from,
      double to,
      Optional<Double> atRest,
      Set<String> missing) {
    if (atRest.isPresent() && atRest.get() > known.stress(from)) {
      missing.add("readings that agree: the yield stress is above the stress in flow");
    }
    Optional<FlowCurve> shape = shape(predicted, to);
    if (shape.isPresent()) {
      FlowCurve tilted = tilted(world, shape.get());
      FlowCurve below =
          from == 0 ? tilted : through(tilted, atRest, from, Math.max(0, known.stress(from)));
      FlowCurve curve = new FlowCurve.Joined(known, from, to, below, tilted);
      return new GelFlow.CurveBound(List.of(curve), Optional.of(List.of(curve)), missing);
    }
    // No law: the stress does not fall and the viscosity does not rise with the shear rate.
    double slow = known.stress(from);
    double least = Math.min(slow, atRest.orElse(0.0));
    double most = Math.min(slow, atRest.orElse(slow));
    FlowCurve thinBelow =
        from == 0 ? known : new FlowCurve.Plastic(least, 0, 1, (slow - least) / from);
    FlowCurve thickBelow =
        from == 0
            ? known
            : new FlowCurve.Plastic(
                most,
                (slow - most) / Math.pow(from, FlowCurve.LEAST_INDEX),
                FlowCurve.LEAST_INDEX,
                0);
    FlowCurve flat = new FlowCurve.Plastic(known.stress(to), 0, 1, 0);
    FlowCurve steep = FlowCurve.Coil.newtonian(0, known.stress(to) / to);
    missing.addAll(predicted.missing());
    missing.add("a flow curve at more shear rates");
    return new GelFlow.CurveBound(
        List.of(new FlowCurve.Joined(known, from, to, thinBelow, flat)),
        Optional.of(List.of(new FlowCurve.Joined(known, from, to, thickBelow, steep))),
        missing);
  }

  private static FlowCurve tilted(World world, FlowCurve shape) {
    double tilt =
        world.within(
            0,
            Practice.TILT,
            "slope of the flow curve away from the readings of " + world.model().name(),
            "a flow curve");
    return tilt == 0 ? shape : shape.tilted(tilt);
  }

  /** A curve moved so that it passes through a point, and has a yield stress where one is given. */
  private static FlowCurve through(
      FlowCurve shape, Optional<Double> atRest, double rate, double stress) {
    double solvent = shape.solventViscosity() * rate;
    if (atRest.isPresent()) {
      double least = Math.min(atRest.get(), stress);
      double gum = shape.gumViscosity(rate) * rate;
      double factor = gum > 0 ? Math.max(0, stress - least - solvent) / gum : 0;
      return shape.scaled(1, factor).withYield(least);
    }
    double factor = FlowFit.scaleFactor(shape, new FlowFit.Point(rate, Math.max(1e-12, stress)));
    return shape.scaled(factor, factor);
  }

  private static GelFlow.CurveBound byYield(
      World world, GelFlow.CurveBound predicted, double atRest, Set<String> missing) {
    Optional<FlowCurve> shape = shape(predicted, 1);
    if (shape.isPresent()) {
      FlowCurve tilted = tilted(world, shape.get());
      double own = tilted.yieldStress();
      FlowCurve curve =
          own > 0 ? tilted.scaled(atRest / own, atRest / own) : tilted.withYield(atRest);
      return new GelFlow.CurveBound(List.of(curve), Optional.of(List.of(curve)), missing);
    }
    missing.addAll(predicted.missing());
    missing.add("a viscosity, or a flow curve");
    FlowCurve thin = new FlowCurve.Plastic(atRest, 0, 1, 0);
    return new GelFlow.CurveBound(List.of(thin), Optional.empty(), missing);
  }

  /**
   * The shape of the predicted curve: that of its thick end, which has all gums in it, the thickest
   * of its curves at a shear rate. Empty where a gum's law is missing or no gum is felt.
   */
  private static Optional<FlowCurve> shape(GelFlow.CurveBound predicted, double rate) {
    if (predicted.thickest().isEmpty() || predicted.thickest().get().isEmpty()) {
      return Optional.empty();
    }
    FlowCurve thickest = GelFlow.thickest(predicted.thickest().get(), rate);
    double gum = thickest.stress(rate) - thickest.solventViscosity() * rate;
    return gum > LEAST_GUM * thickest.stress(rate) ? Optional.of(thickest) : Optional.empty();
  }
}
