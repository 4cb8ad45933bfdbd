package gelwright.prediction;

import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Measurement;
import gelwright.formula.Span;
import gelwright.ingredient.Acid;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.prediction.Curve.Axis;
import gelwright.prediction.Curve.Kind;
import gelwright.prediction.Curve.Mark;
import gelwright.prediction.Curve.Point;
import gelwright.prediction.Curve.Series;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Estimate;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.review.Knowledge;
import gelwright.review.Shown;
import gelwright.rule.Table;
import gelwright.rule.Vocabulary;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Computes the curves of one formula. */
final class Curves {
  private static final double ANY = Double.POSITIVE_INFINITY;

  /** Shear rates from at rest to rubbing in fast and past a spray nozzle: 10^-3 to 10^6 1/s. */
  private static final int LEAST_POWER = -3;

  private static final int MOST_POWER = 6;

  /** Steps within one power of ten. */
  private static final double[] WITHIN_TEN = {1, 1.5, 2, 3, 5, 7};

  /** Shear rate at which textures are told, 1/s. */
  private static final double POURING = 10;

  /** The shear rates the gel's properties are told at, with what happens there. */
  private static final Map<Double, String> RATES_OF_USE = ratesOfUse();

  private static final double LEAST_PH = 2;
  private static final double MOST_PH = 9;
  private static final double PH_STEP = 0.1;

  /** Most of a polyol that is drawn, %; nobody wears more. */
  private static final int MOST_POLYOL = 60;

  private static final int POLYOL_STEP = 2;

  /** What an ingredient bears is drawn up to so much above the hottest of the procedure, K. */
  private static final double WORTH_SHOWING = 20;

  private static final String WATER = "Aqua";

  private final Knowledge knowledge;
  private final Profile profile;
  private final Formula formula;

  Curves(Knowledge knowledge, Profile profile) {
    this.knowledge = knowledge;
    this.profile = profile;
    this.formula = profile.formula();
  }

  private static Map<Double, String> ratesOfUse() {
    Map<Double, String> rates = new TreeMap<>();
    rates.put(0.01, "nearly at rest");
    rates.put(0.1, "levelling");
    rates.put(POURING, "pouring");
    rates.put(1000.0, "rubbing in");
    rates.put(100_000.0, "spraying");
    return rates;
  }

  List<Curve> all() {
    return List.of(flow(), preservatives(), temperature(), waterActivity());
  }

  // --- Flow

  private Curve flow() {
    List<Double> rates = new ArrayList<>();
    for (int power = LEAST_POWER; power <= MOST_POWER; power++) {
      double ten = Double.parseDouble("1e" + power);
      for (double step : WITHIN_TEN) {
        if (power < MOST_POWER || step == 1) {
          rates.add(step * ten);
        }
      }
    }
    List<Bounded> viscosities = rates.stream().map(profile::viscosity).toList();
    Set<String> missing = new TreeSet<>();
    List<Series> series = lines("the gel", rates, viscosities, Unit.PASCAL_SECOND, missing);
    series.addAll(readings());
    return new Curve(
        "flow",
        "Viscosity of the gel against the shear rate, 25 °C",
        Axis.logarithmic("shear rate", Unit.PER_SECOND.symbol()),
        Axis.logarithmic("apparent viscosity", Unit.PASCAL_SECOND.symbol()),
        series,
        flowMarks(),
        series.isEmpty() ? orElse(missing, "flow laws of the gums") : missing);
  }

  private List<Mark> flowMarks() {
    List<Mark> marks = new ArrayList<>();
    formula
        .brief()
        .texture()
        .ifPresent(
            texture ->
                row("texture-windows", texture)
                    .flatMap(
                        row ->
                            window(
                                texture + ", as promised",
                                POURING,
                                number(row, "least-viscosity"),
                                number(row, "most-viscosity")))
                    .ifPresent(marks::add));
    formula
        .brief()
        .dispensing()
        .ifPresent(
            dispensing ->
                row("dispensing-windows", dispensing)
                    .flatMap(
                        row ->
                            number(row, "shear-rate")
                                .flatMap(
                                    rate ->
                                        window(
                                            "what the " + dispensing + " bears",
                                            rate,
                                            Optional.empty(),
                                            number(row, "most-viscosity"))))
                    .ifPresent(marks::add));
    RATES_OF_USE.forEach((rate, words) -> marks.add(Mark.alongX(words, rate, rate)));
    return marks;
  }

  private static Optional<Mark> window(
      String label, double rate, Optional<Double> least, Optional<Double> most) {
    double from = least.filter(value -> value > 0).orElse(-ANY);
    double to = most.orElse(ANY);
    return Double.isInfinite(from) && Double.isInfinite(to)
        ? Optional.empty()
        : Optional.of(new Mark(label, rate, rate, from, to));
  }

  private Optional<Table.Row> row(String table, String key) {
    return Optional.ofNullable(knowledge.rules().tables().get(table)).stream()
        .flatMap(found -> found.rows().stream())
        .filter(row -> row.key().equals(key))
        .findFirst();
  }

  private static Optional<Double> number(Table.Row row, String column) {
    return row.cell(column)
        .filter(Table.Cell.Number.class::isInstance)
        .map(cell -> ((Table.Cell.Number) cell).value().inBase());
  }

  private List<Series> readings() {
    List<Point> points = new ArrayList<>();
    for (Measurement measurement : formula.measured()) {
      if (measurement.value().isPresent()
          && measurement.shearRate().isPresent()
          && measurement.what().equals("viscosity")) {
        reading(points, measurement.shearRate().get().inBase(), measurement.value().get().inBase());
      }
      for (Measurement.Point point : measurement.points()) {
        reading(points, point.shearRate(), point.stress() / point.shearRate());
      }
    }
    return points.isEmpty() ? List.of() : List.of(new Series("readings", Kind.MEASURED, points));
  }

  private static void reading(List<Point> points, double rate, double viscosity) {
    if (rate > 0 && viscosity > 0 && Double.isFinite(rate) && Double.isFinite(viscosity)) {
      points.add(Point.exact(rate, viscosity));
    }
  }

  // --- Preservatives

  private Curve preservatives() {
    Set<String> missing = new TreeSet<>();
    Set<String> names = new LinkedHashSet<>();
    for (String kind : List.of("preservative", "active")) {
      for (Profile.OfItem item : profile.values(kind, Set.of())) {
        if (item.membership().low() == 1) {
          Known<Acid> acid =
              knowledge.catalogue().find(item.item()).map(Ingredient::acid).orElse(Known.unknown());
          if (acid.isUnknown()) {
            missing.add("acid–base behaviour of " + item.item());
          } else if (acid.toOptional().map(each -> !each.pKa().isEmpty()).orElse(false)) {
            names.add(item.item());
          }
        }
      }
    }
    Bounded pH = number(profile, "water-phase.pH");
    List<Series> series = new ArrayList<>();
    List<Double> grid = acidities(pH);
    for (String name : names) {
      series.addAll(
          lines(
              name,
              grid,
              grid.stream().map(each -> profile.undissociated(name, each)).toList(),
              Unit.PERCENT,
              missing));
    }
    List<Mark> marks = new ArrayList<>();
    Optional<Span> target = formula.brief().pH();
    target.ifPresent(span -> marks.add(Mark.alongX("pH aimed at", span.from(), span.to())));
    if (pH.isKnown()) {
      Shown shown = Shown.of("", pH, Unit.PH);
      marks.add(Mark.alongX("pH of the recipe", shown.low(), shown.high()));
    } else {
      missing.addAll(pH.missing());
    }
    return new Curve(
        "preservatives",
        "Undissociated part of preservatives and actives against the pH, 25 °C",
        Axis.linear("pH", ""),
        Axis.linear("undissociated part", Unit.PERCENT.symbol()),
        series,
        marks,
        series.isEmpty()
            ? orElse(missing, "a preservative or an active that is a weak acid or base")
            : missing);
  }

  private static List<Double> acidities(Bounded pH) {
    TreeSet<Double> grid = new TreeSet<>();
    int steps = (int) Math.round((MOST_PH - LEAST_PH) / PH_STEP);
    for (int i = 0; i <= steps; i++) {
      grid.add((LEAST_PH * steps + (MOST_PH - LEAST_PH) * i) / steps);
    }
    double own = pH.atLeast().likely();
    if (pH.isKnown() && own > LEAST_PH && own < MOST_PH) {
      grid.add(own);
    }
    return List.copyOf(grid);
  }

  // --- Temperature

  private Curve temperature() {
    Set<String> missing = new TreeSet<>(profile.missingDurations());
    List<Series> series = new ArrayList<>();
    double hottest = -ANY;
    for (Profile.Course course : profile.courses()) {
      missing.addAll(course.missing());
      List<Point> points = new ArrayList<>();
      for (Profile.Stage stage : course.stages()) {
        point(stage.seconds() / 60, stage.celsius().atLeast(), Unit.CELSIUS)
            .filter(point -> points.isEmpty() || !points.get(points.size() - 1).equals(point))
            .ifPresent(points::add);
      }
      for (Point point : points) {
        hottest = Math.max(hottest, point.likely());
      }
      if (!points.isEmpty()) {
        series.add(new Series("phase " + course.phase(), Kind.LIKELY, points));
      }
    }
    if (formula.method().isEmpty()) {
      missing.add("the procedure (method)");
    }
    return new Curve(
        "temperature",
        "Temperature of the phases over the procedure, its steps one after the other",
        Axis.linear("time", Unit.MINUTE.symbol()),
        Axis.linear("temperature", Unit.CELSIUS.symbol()),
        series,
        series.isEmpty() ? List.of() : bearings(hottest),
        missing);
  }

  // Each ingredient by the lowest it bears, from when it joins; those that bear the same, from the
  // same moment and for the same reason, in one line.
  private List<Mark> bearings(double hottest) {
    Map<String, Profile.Bearing> lowest = new LinkedHashMap<>();
    for (Profile.Bearing bearing : profile.bearings()) {
      lowest.merge(
          bearing.ingredient(),
          bearing,
          (a, b) -> b.celsius().atLeast().likely() < a.celsius().atLeast().likely() ? b : a);
    }
    record Limit(double celsius, double fromMinutes, String kind) {}
    Map<Limit, List<String>> names = new LinkedHashMap<>();
    for (Profile.Bearing bearing : lowest.values()) {
      double celsius = bearing.celsius().atLeast().likely();
      if (celsius <= hottest + WORTH_SHOWING && !bearing.kind().equals("habit")) {
        names
            .computeIfAbsent(
                new Limit(celsius, bearing.fromSeconds() / 60, bearing.kind()),
                key -> new ArrayList<>())
            .add(bearing.ingredient());
      }
    }
    double end = profile.procedureSeconds() / 60;
    List<Mark> marks = new ArrayList<>();
    names.forEach(
        (limit, ingredients) ->
            marks.add(
                new Mark(
                    String.join(", ", ingredients)
                        + " ("
                        + limit.kind()
                        + " above "
                        + Quantity.print(limit.celsius(), Unit.CELSIUS)
                        + ")",
                    limit.fromMinutes(),
                    Math.max(end, limit.fromMinutes()),
                    limit.celsius(),
                    limit.celsius())));
    marks.sort(
        (a, b) -> {
          int byHeight = Double.compare(a.yFrom(), b.yFrom());
          return byHeight != 0 ? byHeight : a.label().compareTo(b.label());
        });
    return marks;
  }

  // --- Water activity

  private Curve waterActivity() {
    Set<String> missing = new TreeSet<>();
    Optional<Integer> polyol = mainPolyol(missing);
    List<Series> series = new ArrayList<>();
    List<Mark> marks = new ArrayList<>();
    String name = polyol.map(line -> formula.lines().get(line).name()).orElse("polyol");
    if (polyol.isPresent()) {
      double own = stated(formula.lines().get(polyol.get()));
      TreeSet<Double> shares = new TreeSet<>(Set.of(own));
      for (int share = 0; share <= MOST_POLYOL; share += POLYOL_STEP) {
        shares.add((double) share);
      }
      List<Double> xs = new ArrayList<>();
      List<Bounded> ys = new ArrayList<>();
      for (double share : shares) {
        Optional<Formula> changed = withPolyol(polyol.get(), share);
        if (changed.isPresent()) {
          xs.add(share);
          ys.add(
              number(
                  Profile.of(changed.get(), knowledge.catalogue()), "water-phase.water-activity"));
        }
      }
      if (xs.isEmpty()) {
        missing.add("a line of water that makes room");
      }
      series.addAll(lines("with " + name, xs, ys, Unit.NONE, missing));
      marks.add(Mark.alongX("this recipe", own, own));
      for (Measurement measurement : formula.measured()) {
        if (measurement.what().equals("water-activity") && measurement.value().isPresent()) {
          series.add(
              new Series(
                  "readings",
                  Kind.MEASURED,
                  List.of(Point.exact(own, measurement.value().get().inBase()))));
        }
      }
    }
    return new Curve(
        "water-activity",
        "Water activity against the share of " + name + ", in the place of water, 25 °C",
        Axis.linear("share of " + name, Unit.PERCENT.symbol()),
        Axis.linear("water activity", ""),
        series,
        marks,
        missing);
  }

  private static double stated(Line line) {
    return line.amount() instanceof Amount.Stated amount ? amount.share().percent() : 0;
  }

  /** The line with most of what is a polyol. */
  private Optional<Integer> mainPolyol(Set<String> missing) {
    Optional<Integer> main = Optional.empty();
    for (int i = 0; i < formula.lines().size(); i++) {
      Line line = formula.lines().get(i);
      boolean polyol =
          knowledge
              .catalogue()
              .find(line.name())
              .flatMap(found -> found.functions().toOptional())
              .map(functions -> functions.contains("polyol"))
              .orElse(false);
      if (polyol
          && line.amount() instanceof Amount.Stated
          && (main.isEmpty() || stated(line) > stated(formula.lines().get(main.get())))) {
        main = Optional.of(i);
      }
    }
    if (main.isEmpty()) {
      missing.add("a polyol in the recipe, with its share");
    }
    return main;
  }

  /** The recipe with another share of a line, water making room; empty where there is no room. */
  private Optional<Formula> withPolyol(int polyol, double percent) {
    List<Line> lines = new ArrayList<>(formula.lines());
    Line line = lines.get(polyol);
    Share share = Share.nearest(percent);
    long more = share.units() - ((Amount.Stated) line.amount()).share().units();
    lines.set(polyol, with(line, new Amount.Stated(share)));
    boolean rest = lines.stream().anyMatch(each -> each.amount() instanceof Amount.Rest);
    if (rest) {
      long stated = 0;
      for (Line each : lines) {
        stated += each.amount() instanceof Amount.Stated amount ? amount.share().units() : 0;
      }
      if (stated > Share.ALL.units()) {
        return Optional.empty();
      }
    } else if (more != 0) {
      int water = -1;
      for (int i = 0; i < lines.size(); i++) {
        if (isWater(lines.get(i))
            && (water < 0 || stated(lines.get(i)) > stated(lines.get(water)))) {
          water = i;
        }
      }
      if (water < 0) {
        return Optional.empty();
      }
      long left = ((Amount.Stated) lines.get(water).amount()).share().units() - more;
      if (left < 0) {
        return Optional.empty();
      }
      lines.set(water, with(lines.get(water), new Amount.Stated(new Share(left))));
    }
    List<Measurement> measured =
        formula.measured().stream().filter(each -> !each.what().equals("water-activity")).toList();
    return Optional.of(
        new Formula(
            formula.name(),
            formula.version(),
            formula.brief(),
            formula.batch(),
            formula.equipment(),
            lines,
            formula.method(),
            formula.label(),
            measured,
            formula.accepted(),
            formula.places()));
  }

  private boolean isWater(Line line) {
    return line.amount() instanceof Amount.Stated
        && knowledge
            .catalogue()
            .find(line.name())
            .map(found -> found.name().equals(WATER))
            .orElse(false);
  }

  private static Line with(Line line, Amount amount) {
    return new Line(
        line.phase(),
        line.name(),
        amount,
        line.strength(),
        line.hydrate(),
        line.size(),
        line.grade(),
        line.lot());
  }

  // --- Numbers

  private static Bounded number(Profile profile, String property) {
    return profile.number(
        Profile.vocabulary()
            .property(property)
            .map(Vocabulary.Property::slot)
            .orElseThrow(() -> new IllegalArgumentException("no such property: " + property)));
  }

  private static Set<String> orElse(Set<String> missing, String otherwise) {
    return missing.isEmpty() ? Set.of(otherwise) : missing;
  }

  /**
   * One line where the numbers are known; else what they are at least and at most, as far as either
   * says more than what is true of every such number.
   */
  private static List<Series> lines(
      String name, List<Double> xs, List<Bounded> ys, Unit unit, Set<String> missing) {
    List<Point> likely = new ArrayList<>();
    List<Point> least = new ArrayList<>();
    List<Point> most = new ArrayList<>();
    boolean known = true;
    for (Bounded each : ys) {
      known &= each.isKnown();
      missing.addAll(each.missing());
    }
    for (int i = 0; i < xs.size(); i++) {
      double x = xs.get(i);
      Bounded y = ys.get(i);
      if (known) {
        point(x, y.atLeast(), unit).ifPresent(likely::add);
      } else {
        if (says(y.atLeast(), unit)) {
          point(x, y.atLeast(), unit).ifPresent(least::add);
        }
        if (says(y.atMost(), unit)) {
          point(x, y.atMost(), unit).ifPresent(most::add);
        }
      }
    }
    List<Series> series = new ArrayList<>();
    add(series, name, Kind.LIKELY, likely);
    add(series, name, Kind.AT_LEAST, least);
    add(series, name, Kind.AT_MOST, most);
    return series;
  }

  private static void add(List<Series> series, String name, Kind kind, List<Point> points) {
    if (!points.isEmpty()) {
      series.add(new Series(name, kind, points));
    }
  }

  // That a share is at most all and at least nothing is no news, nor is a water activity of 0.
  private static boolean says(Estimate bound, Unit unit) {
    double whole = unit == Unit.PERCENT ? 100 : 1;
    boolean part = unit == Unit.PERCENT || unit == Unit.NONE;
    return !(bound.isExact() && part && (bound.likely() == 0 || bound.likely() == whole));
  }

  private static Optional<Point> point(double x, Estimate estimate, Unit unit) {
    if (!Double.isFinite(estimate.likely())) {
      return Optional.empty();
    }
    Shown shown = Shown.of("", Bounded.of(estimate), unit);
    double low = unit == Unit.NONE ? Math.max(0, shown.low()) : shown.low();
    double high = unit == Unit.NONE ? Math.min(1, shown.high()) : shown.high();
    if (!Double.isFinite(low) || !Double.isFinite(high)) {
      return Optional.of(Point.exact(x, shown.likely()));
    }
    return Optional.of(
        new Point(
            x, Math.min(low, shown.likely()), shown.likely(), Math.max(high, shown.likely())));
  }
}
