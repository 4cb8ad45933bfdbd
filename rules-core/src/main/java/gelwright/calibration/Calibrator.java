package gelwright.calibration;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Setting;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.profile.GumLaw;
import gelwright.profile.Practice;
import gelwright.quantity.Estimate;
import gelwright.quantity.Numbers;
import gelwright.quantity.Unit;
import gelwright.science.FlowCurve;
import gelwright.science.FlowFit;
import gelwright.science.FlowLaw;
import gelwright.science.LotFit;
import gelwright.science.SpindleReading;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Turns readings taken on one lot of gum into what later reviews use for this lot.
 *
 * <p>Immutable and safe to share between threads. The same readings and catalogue give the same
 * calibration. Cost: some milliseconds for a dozen readings, tens for readings at several shares.
 */
public final class Calibrator {
  // Readings become points of shear rate and stress in plain water of 25 °C. Every form that the
  // number of points allows is fitted (LotFit); of those whose parameters the readings fix the one
  // with the least criterion is taken. What all readings share – instrument, weighing, temperature,
  // salt – does not show in their scatter and is added as a doubt of the whole law's strength.
  //
  // At one share nothing is learnt of how the gel changes with the share: the exponents stay those
  // of the usual law, with a range, and the law is meant for shares near the one that was read.

  /** ± range of an exponent of the share from one lot of a gum to another. From memory. */
  private static final double EXPONENT_RANGE = 0.2;

  /** The same where the usual law is of another form, so that its exponent is only a local one. */
  private static final double LOCAL_EXPONENT_RANGE = 0.3;

  /** How far from the one share read a law reaches, ×/÷. Engine value, from memory. */
  private static final double REACH = 1.5;

  /** Weighing of the gum where nothing is said, ± % of the share. Common practice, no source. */
  private static final double WEIGHING = 2;

  /** ×/÷ range of the table that turns spindle readings into stress: 5 %, from memory. */
  private static final double SPINDLE_TABLE = 1.05;

  /** The same of spindle 7, whose table is suspect: 10 %. */
  private static final double SPINDLE_7_TABLE = 1.1;

  /** Standard error over value up to which a parameter counts as fixed. */
  private static final double SURELY = 0.5;

  /** Scatter of the readings above which they are no flow curve. Engine value. */
  private static final double MOST_SCATTER = 0.5;

  /** Digits to which a lot's figures are written, so that a sheet reads back as the same lot. */
  private static final MathContext DIGITS = new MathContext(5);

  private final Catalogue catalogue;

  private Calibrator(Catalogue catalogue) {
    this.catalogue = catalogue;
  }

  /** A calibrator that takes the usual figures of a gum from a catalogue. */
  public static Calibrator using(Catalogue catalogue) {
    return new Calibrator(requireNonNull(catalogue, "catalogue"));
  }

  /** Fits a flow law to readings, or tells all that speaks against them. */
  public Calibrated calibrate(Readings readings) {
    requireNonNull(readings, "readings");
    List<Problem> problems = new ArrayList<>(SenseCheck.of(readings));
    Optional<Ingredient> gum = gum(readings, problems);
    if (gum.isEmpty() || !problems.isEmpty()) {
      return Calibrated.refused(problems);
    }
    return new Run(readings, gum.get()).calibrate();
  }

  private Optional<Ingredient> gum(Readings readings, List<Problem> problems) {
    Optional<Ingredient> found = catalogue.find(readings.gum());
    if (found.isEmpty()) {
      problems.add(
          new Problem(
              readings.place(),
              "unknown-ingredient",
              "There is no ingredient \"" + readings.gum() + "\".",
              Spelling.hint(readings.gum(), catalogue.closest(readings.gum(), 2))));
      return found;
    }
    Ingredient ingredient = found.get();
    boolean thickens =
        ingredient.functions().fold(words -> words.contains("gum"), false, true)
            && ingredient.gum().fold(law -> true, false, true);
    if (!thickens) {
      problems.add(
          Problem.of(
              readings.place(), "not-a-gum", ingredient.name() + " is not known to be a gum."));
      return Optional.empty();
    }
    readings
        .grade()
        .filter(grade -> !ingredient.grades().containsKey(grade))
        .ifPresent(
            grade ->
                problems.add(
                    new Problem(
                        readings.place(),
                        "unknown-grade",
                        ingredient.name() + " has no grade \"" + grade + "\".",
                        Spelling.hint(grade, List.copyOf(ingredient.grades().keySet())))));
    return found;
  }

  /** One calibration while it is made. */
  private static final class Run {
    private final Readings readings;
    private final Ingredient ingredient;
    private final Optional<Gum> usual;
    private final Carried carried;
    private final List<Problem> problems = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private final List<LotFit.Point> points = new ArrayList<>();
    private final List<Place> places = new ArrayList<>();
    private final String id;

    Run(Readings readings, Ingredient ingredient) {
      this.readings = readings;
      this.ingredient = ingredient;
      Optional<Gum> whole = ingredient.gum().toOptional();
      Optional<Gum> graded =
          readings
              .grade()
              .map(grade -> ingredient.grades().get(grade))
              .flatMap(grade -> grade.gum().toOptional());
      this.usual = graded.map(gum -> whole.map(gum::over).orElse(gum)).or(() -> whole);
      this.carried = new Carried(ingredient, usual, readings);
      this.id = "lot-" + kebab(ingredient.name() + " " + readings.lot());
    }

    private static String kebab(String name) {
      String plain = name.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
      return plain.replaceAll("^-|-$", "");
    }

    Calibrated calibrate() {
      melted();
      collect();
      if (!problems.isEmpty()) {
        return Calibrated.refused(problems);
      }
      boolean several = severalShares();
      double slowest = points.stream().mapToDouble(LotFit.Point::shearRate).min().orElseThrow();
      double fastest = points.stream().mapToDouble(LotFit.Point::shearRate).max().orElseThrow();
      problems.addAll(SenseCheck.span(readings, slowest, fastest));
      enough(several);
      law(several);
      if (!problems.isEmpty()) {
        return Calibrated.refused(problems);
      }
      List<LotFit.Fit> fits = LotFit.all(points, FlowLaw.WATER_VISCOSITY);
      Optional<LotFit.Fit> settled =
          fits.stream().filter(fit -> unsettled(fit).isEmpty()).findFirst();
      if (settled.isEmpty()) {
        LotFit.Fit best = fits.get(0);
        problem(
            "not-fixed",
            "The readings fix no flow law: that of the "
                + form(best).title()
                + " leaves open "
                + String.join(" and ", unsettled(best))
                + ".",
            several
                ? "Read more points, over more shear rates, at shares that differ more."
                : "Read more points, over more shear rates.");
        return Calibrated.refused(problems);
      }
      LotFit.Fit chosen = settled.get();
      if (chosen.scatter() > MOST_SCATTER) {
        problem(
            "no-flow-curve",
            "The readings lie "
                + Math.round(100 * chosen.scatter())
                + " % about the best law: that is no flow curve.",
            "Look for a slip in the units, or a sample that changed while it was read.");
        return Calibrated.refused(problems);
      }
      return Calibrated.of(made(fits, chosen, several, slowest, fastest));
    }

    private void problem(String code, String message, String hint) {
      problems.add(new Problem(readings.place(), code, message, hint));
    }

    // --- Readings

    private void melted() {
      Optional<Setting> setting = usual.flatMap(Gum::setting);
      double celsius = readings.celsius().orElse(Carried.TOLD_AT);
      if (setting.isPresent()
          && celsius >= setting.get().below().likely() - setting.get().below().spread()) {
        problem(
            "melted",
            "At "
                + Numbers.plain(celsius)
                + " °C a gel of "
                + ingredient.name()
                + " is melted or near it; readings there say nothing of the gel at 25 °C.",
            "");
      }
    }

    private void collect() {
      for (Readings.Series series : readings.series()) {
        if (series instanceof Readings.Flow flow) {
          for (Readings.FlowPoint point : flow.points()) {
            add(flow.share(), point.shearRate(), point.stress(), point.place());
          }
        } else if (series instanceof Readings.Spindle spindle) {
          List<Readings.SpindlePoint> sorted =
              spindle.points().stream()
                  .sorted(Comparator.comparingDouble(Readings.SpindlePoint::speed))
                  .toList();
          if (sorted.isEmpty()) {
            continue;
          }
          double[][] flow =
              SpindleReading.flowPoints(
                  spindle.spindle(),
                  spindle.torque(),
                  sorted.stream().mapToDouble(Readings.SpindlePoint::speed).toArray(),
                  sorted.stream().mapToDouble(Readings.SpindlePoint::torque).toArray());
          for (int i = 0; i < sorted.size(); i++) {
            add(spindle.share(), flow[0][i], flow[1][i], sorted.get(i).place());
          }
        }
      }
    }

    private void add(double share, double rate, double stress, Place place) {
      if (!carried.feelsGum(rate, stress)) {
        problems.add(
            new Problem(
                place,
                "thinner-than-water",
                "A stress of "
                    + Numbers.plain(stress)
                    + " Pa at "
                    + Numbers.plain(rate)
                    + " /s is no more than that of water.",
                "Check the unit; leave out what the instrument could not read."));
        return;
      }
      points.add(new LotFit.Point(share, rate, carried.stress(share, rate, stress)));
      places.add(place);
    }

    private boolean severalShares() {
      return points.stream().mapToDouble(LotFit.Point::share).distinct().count() > 1;
    }

    private void enough(boolean several) {
      int least = LotFit.least(FlowFit.Form.POWER_LAW, several);
      if (points.size() < least) {
        problem(
            "too-few-points",
            "There "
                + (points.size() == 1 ? "is 1 reading" : "are " + points.size() + " readings")
                + (several ? " at several shares" : "")
                + "; the simplest law needs "
                + least
                + ".",
            "Eight over two decades of shear rate are better.");
      }
    }

    private void law(boolean several) {
      if (several) {
        return;
      }
      double share = points.get(0).share();
      if (usual.isEmpty()) {
        problem(
            "no-flow-law",
            "Nothing is known of how a gel of "
                + ingredient.name()
                + " changes with its share, and one share does not tell.",
            "Read it at two shares or more.");
      } else if (share < usual.get().from() || share > usual.get().to()) {
        problem(
            "share-outside-law",
            "The usual law of "
                + ingredient.name()
                + " is known from "
                + Numbers.plain(usual.get().from())
                + " to "
                + Numbers.plain(usual.get().to())
                + " %; how the gel changes with its share near "
                + Numbers.plain(share)
                + " % is not.",
            "Read it at two shares or more, or at one within.");
      }
    }

    // --- The fit

    private static Calibration.Form form(LotFit.Fit fit) {
      return switch (fit.form()) {
        case POWER_LAW -> Calibration.Form.POWER_LAW;
        case HERSCHEL_BULKLEY -> Calibration.Form.HERSCHEL_BULKLEY;
        case CROSS -> Calibration.Form.CROSS;
      };
    }

    private static List<String> unsettled(LotFit.Fit fit) {
      return fit.estimates().stream()
          .filter(each -> !(each.value() > 0 && each.relativeError() <= SURELY))
          .map(LotFit.Estimate::name)
          .toList();
    }

    private static Calibration.Candidate candidate(LotFit.Fit fit, double least) {
      List<Calibration.Parameter> parameters =
          fit.estimates().stream()
              .map(
                  each ->
                      new Calibration.Parameter(
                          each.name(),
                          each.value(),
                          unit(each.name()),
                          each.standardError(),
                          each.ninetyPercent()))
              .toList();
      return new Calibration.Candidate(
          form(fit),
          fit.reference(),
          parameters,
          fit.scatter(),
          fit.criterion(),
          fit.criterion() - least,
          unsettled(fit));
    }

    // The consistency is given in Pa, as on ingredient sheets: the stress it adds at 1 /s.
    private static Unit unit(String name) {
      return switch (name) {
        case "consistency", "yield stress" -> Unit.PASCAL;
        case "viscosity at rest" -> Unit.PASCAL_SECOND;
        case "time constant" -> Unit.SECOND;
        default -> Unit.NONE;
      };
    }

    private Calibration made(
        List<LotFit.Fit> fits, LotFit.Fit chosen, boolean several, double slowest, double fastest) {
      List<Calibration.SharedDoubt> shared = shared(chosen, several);
      double strength = 0;
      for (Calibration.SharedDoubt doubt : shared) {
        strength += Math.pow(Math.log(doubt.factor()), 2);
      }
      double least = fits.get(0).criterion();
      List<Calibration.Candidate> candidates =
          fits.stream().map(fit -> candidate(fit, least)).toList();
      Calibration.Candidate taken = candidates.get(fits.indexOf(chosen));
      Gum gum = lotGum(fits, chosen, several, Math.exp(Math.sqrt(strength)), slowest, fastest);
      Lot lot = new Lot(ingredient.name(), readings.lot(), Known.given(gum), Known.unknown(), "");
      return new Calibration(
          readings,
          lot,
          new Source(id, citation(slowest, fastest), Source.Standing.MEASURED),
          candidates,
          taken,
          because(candidates, taken),
          residuals(chosen),
          slowest,
          fastest,
          shared,
          remarks,
          LotCurve.of(points, gum, usual, ingredient.name(), readings.lot()));
    }

    private static String because(
        List<Calibration.Candidate> candidates, Calibration.Candidate chosen) {
      List<String> parts = new ArrayList<>();
      for (Calibration.Candidate each : candidates) {
        double behind = each.criterion() - chosen.criterion();
        if (each.equals(chosen)) {
          continue;
        }
        String name =
            (each.form() == Calibration.Form.POWER_LAW ? "the " : "") + each.form().title();
        parts.add(
            each.unsettled().isEmpty() || behind >= 0
                ? name + " lies " + Numbers.plain(behind) + " behind"
                : name
                    + " would be "
                    + Numbers.plain(-behind)
                    + " better, but leaves open "
                    + String.join(" and ", each.unsettled()));
      }
      String first =
          (chosen.form() == Calibration.Form.POWER_LAW ? "The " : "")
              + chosen.form().title()
              + (chosen.behind() == 0
                  ? " has the least corrected Akaike criterion"
                  : " has the least corrected Akaike criterion of the laws that the readings fix");
      return first + (parts.isEmpty() ? "." : ": " + String.join("; ", parts) + ".");
    }

    private List<Calibration.Residual> residuals(LotFit.Fit chosen) {
      List<Calibration.Residual> residuals = new ArrayList<>();
      for (int i = 0; i < points.size(); i++) {
        LotFit.Point point = points.get(i);
        double off = Math.expm1(chosen.residuals().get(i));
        residuals.add(
            new Calibration.Residual(
                point.share(),
                point.shearRate(),
                point.stress(),
                point.stress() / (1 + off),
                off,
                places.get(i)));
      }
      return residuals;
    }

    private String citation(double slowest, double fastest) {
      Set<String> shares = new LinkedHashSet<>();
      points.forEach(point -> shares.add(Numbers.plain(point.share()) + " %"));
      return "Own readings"
          + readings.date().map(day -> " of " + day).orElse("")
          + " on "
          + ingredient.name()
          + ", lot "
          + readings.lot()
          + ": "
          + points.size()
          + " points from "
          + Numbers.plain(slowest)
          + " to "
          + Numbers.plain(fastest)
          + " /s at "
          + String.join(", ", shares)
          + readings.celsius().map(celsius -> ", " + Numbers.plain(celsius) + " °C").orElse("")
          + (readings.salt() > 0
              ? ", in " + Numbers.plain(1000 * readings.salt()) + " mmol/kg of salt"
              : "")
          + (readings.instrument().isBlank() ? "" : "; " + readings.instrument().strip());
    }

    // --- Doubts that all readings share

    private List<Calibration.SharedDoubt> shared(LotFit.Fit chosen, boolean several) {
      List<Calibration.SharedDoubt> shared = new ArrayList<>();
      shared.add(
          new Calibration.SharedDoubt("instrument and sample", Practice.READING_FACTOR, PRACTICE));
      double table = 1;
      for (Readings.Series series : readings.series()) {
        if (series instanceof Readings.Spindle spindle) {
          table = Math.max(table, spindle.spindle() == 7 ? SPINDLE_7_TABLE : SPINDLE_TABLE);
        }
      }
      if (table > 1) {
        shared.add(new Calibration.SharedDoubt("table of the spindle", table, PRACTICE));
      }
      double steepness =
          several ? chosen.estimates().get(chosen.form().parameters().size()).value() : steepness();
      double weighing = readings.weighing().orElse(WEIGHING);
      add(
          shared,
          "weighing of the gum",
          steepness * Math.log1p(weighing / 100),
          readings.weighing().isPresent() ? GIVEN : PRACTICE);
      add(shared, "temperature of the sample", carried.temperatureDoubt(), PRACTICE);
      add(shared, "way from that temperature to 25 °C", carried.warmthDoubt(), "the gum's sheet");
      double salt =
          points.stream().mapToDouble(point -> carried.saltDoubt(point.share())).max().orElse(0);
      add(
          shared,
          readings.salt() > 0
              ? "what the salt does to the gum"
              : "what lack of salt does to the gum",
          salt,
          "the gum's sheet");
      shared.sort(Comparator.comparingDouble(Calibration.SharedDoubt::factor).reversed());
      if (readings.celsius().isEmpty()) {
        remarks.add("No temperature is written down: the readings count as taken at 25 ± 3 °C.");
      }
      return shared;
    }

    private static final String GIVEN = "given";
    private static final String PRACTICE = "common practice";

    /** A doubt too small to be told is left out. */
    private static void add(
        List<Calibration.SharedDoubt> shared, String what, double logarithm, String standing) {
      if (logarithm > 5e-4) {
        shared.add(new Calibration.SharedDoubt(what, Math.exp(logarithm), standing));
      }
    }

    /** Exponent of the stress in the share by the usual law, at the middle of the readings. */
    private double steepness() {
      double share = points.get(0).share();
      double rate =
          Math.exp(
              points.stream()
                  .mapToDouble(point -> Math.log(point.shearRate()))
                  .average()
                  .orElseThrow());
      FlowLaw law = GumLaw.likely(usual.orElseThrow());
      return slope(share, at -> gumStress(law.at(at), rate));
    }

    private static double gumStress(FlowCurve curve, double rate) {
      return curve.yieldStress() + rate * curve.gumViscosity(rate);
    }

    private static double slope(double share, java.util.function.DoubleUnaryOperator number) {
      double step = 1e-3;
      double up = number.applyAsDouble(share * Math.exp(step));
      double down = number.applyAsDouble(share * Math.exp(-step));
      return up > 0 && down > 0 ? Math.log(up / down) / (2 * step) : 0;
    }

    // --- The lot

    private Gum lotGum(
        List<LotFit.Fit> fits,
        LotFit.Fit chosen,
        boolean several,
        double strength,
        double slowest,
        double fastest) {
      Map<String, Figure> parameters = new LinkedHashMap<>();
      boolean plateau = true;
      if (chosen.form() == FlowFit.Form.CROSS) {
        List<Figure> powers =
            several
                ? List.of(
                    fitted(chosen.estimate("exponent of the viscosity"), Unit.NONE),
                    fitted(chosen.estimate("exponent of the time"), Unit.NONE))
                : restPowers();
        parameters.put(
            "zero-shear-viscosity",
            fitted(chosen.estimate("viscosity at rest"), Unit.PASCAL_SECOND));
        parameters.put("zero-shear-power", powers.get(0));
        parameters.put("time", fitted(chosen.estimate("time constant"), Unit.SECOND));
        parameters.put("time-power", powers.get(1));
        parameters.put("cross-exponent", fitted(chosen.estimate("exponent"), Unit.NONE));
        if (usualYield()) {
          remarks.add(
              "The readings show a gel that flows under any stress; the usual law has a yield"
                  + " stress.");
        }
      } else {
        boolean yields = chosen.form() == FlowFit.Form.HERSCHEL_BULKLEY;
        List<Figure> powers =
            several
                ? List.of(
                    fitted(chosen.estimate("exponent of the consistency"), Unit.NONE),
                    fitted(
                        chosen.estimate(
                            yields
                                ? "exponent of the yield stress"
                                : "exponent of the consistency"),
                        Unit.NONE))
                : flowPowers();
        parameters.put(
            "yield", yields ? fitted(chosen.estimate("yield stress"), Unit.PASCAL) : noYield(fits));
        parameters.put("yield-power", powers.get(1));
        parameters.put("consistency", fitted(chosen.estimate("consistency"), Unit.PASCAL));
        parameters.put("consistency-power", powers.get(0));
        parameters.put("flow-index", fitted(chosen.estimate("flow index"), Unit.NONE));
        plateau = yields;
      }
      double[] range = range(several);
      return new Gum(
          chosen.form() == FlowFit.Form.CROSS ? "cross" : "herschel-bulkley",
          parameters,
          range[0],
          range[1],
          Known.unknown(),
          Optional.empty(),
          Optional.empty(),
          Map.of(),
          rounded(chosen.reference()),
          Optional.of(
              new Figure(1, Unit.NONE, roundedUp(strength), Estimate.Scale.FACTOR, sources())),
          Optional.of(new Gum.Rates(plateau ? 0 : rounded(slowest), rounded(fastest))),
          together(chosen, several));
    }

    // The errors of a fit go together – a higher yield stress with a smaller consistency – so each
    // independent doubt of the fit moves several parameters.
    private static List<Map<String, Double>> together(LotFit.Fit chosen, boolean several) {
      List<String> names = new ArrayList<>();
      for (LotFit.Estimate estimate : chosen.estimates()) {
        names.add(key(estimate.name()));
      }
      double student = chosen.estimates().get(0).student();
      List<Map<String, Double>> together = new ArrayList<>();
      for (List<Double> doubt : chosen.doubts()) {
        Map<String, Double> moves = new LinkedHashMap<>();
        for (int i = 0; i < names.size(); i++) {
          double factor = rounded(Math.exp(student * doubt.get(i)));
          if (factor != 1) {
            moves.put(names.get(i), factor);
            // A gum without a yield stress has that exponent twice on its sheet.
            if (several
                && chosen.form() == FlowFit.Form.POWER_LAW
                && names.get(i).equals("consistency-power")) {
              moves.put("yield-power", factor);
            }
          }
        }
        if (!moves.isEmpty()) {
          together.add(moves);
        }
      }
      return together;
    }

    /** The name of a fitted number on an ingredient sheet. */
    private static String key(String estimate) {
      return switch (estimate) {
        case "consistency" -> "consistency";
        case "flow index" -> "flow-index";
        case "yield stress" -> "yield";
        case "viscosity at rest" -> "zero-shear-viscosity";
        case "exponent" -> "cross-exponent";
        case "time constant" -> "time";
        case "exponent of the consistency" -> "consistency-power";
        case "exponent of the yield stress" -> "yield-power";
        case "exponent of the viscosity" -> "zero-shear-power";
        case "exponent of the time" -> "time-power";
        default -> throw new IllegalArgumentException("no such estimate: " + estimate);
      };
    }

    private double[] range(boolean several) {
      double least = points.stream().mapToDouble(LotFit.Point::share).min().orElseThrow();
      double most = points.stream().mapToDouble(LotFit.Point::share).max().orElseThrow();
      if (several) {
        return new double[] {rounded(least), rounded(most)};
      }
      Gum law = usual.orElseThrow();
      double from = rounded(Math.max(law.from(), least / REACH));
      double to = rounded(Math.min(law.to(), most * REACH));
      remarks.add(
          "One share was read, so the exponents of the share are those of the usual law, with a"
              + " range of their own, and the lot is known from "
              + Numbers.plain(from)
              + " to "
              + Numbers.plain(to)
              + " % only.");
      return new double[] {from, to};
    }

    private boolean usualYield() {
      return usual.map(GumLaw::likely).filter(law -> law.at(1).yieldStress() > 0).isPresent();
    }

    // Where the readings show no yield stress there is none, up to what they would have shown.
    private Figure noYield(List<LotFit.Fit> fits) {
      double bound = 0;
      if (usual.isEmpty() || usualYield()) {
        double lowest = points.stream().mapToDouble(LotFit.Point::stress).min().orElseThrow();
        bound =
            fits.stream()
                .filter(fit -> fit.form() == FlowFit.Form.HERSCHEL_BULKLEY)
                .map(fit -> fit.estimate("yield stress"))
                .mapToDouble(each -> each.value() + each.ninetyPercent())
                .filter(Double::isFinite)
                .findFirst()
                .orElse(lowest);
        bound = roundedUp(Math.min(bound, lowest));
        remarks.add(
            "The readings show no yield stress; at most it is about "
                + Numbers.plain(bound)
                + " Pa. Slower shear rates would tell.");
      }
      return new Figure(0, Unit.PASCAL, bound, Estimate.Scale.LINEAR, sources());
    }

    /** Exponents of consistency and yield stress in the usual law. */
    private List<Figure> flowPowers() {
      Gum law = usual.orElseThrow();
      if (law.law().equals("herschel-bulkley")) {
        return List.of(
            kept(law, "consistency-power"),
            kept(law, usualYield() ? "yield-power" : "consistency-power"));
      }
      Figure local = local(law, steepness());
      return List.of(local, local);
    }

    /** Exponents of viscosity and time at rest in the usual law. */
    private List<Figure> restPowers() {
      Gum law = usual.orElseThrow();
      if (law.law().equals("cross")) {
        return List.of(kept(law, "zero-shear-power"), kept(law, "time-power"));
      }
      FlowLaw usualLaw = GumLaw.likely(law);
      double share = points.get(0).share();
      if (usualLaw.at(share) instanceof FlowCurve.Coil) {
        return List.of(
            local(law, slope(share, at -> coil(usualLaw, at).restViscosity())),
            local(law, slope(share, at -> coil(usualLaw, at).timeConstant())));
      }
      return List.of(local(law, steepness()), local(law, 0));
    }

    private static FlowCurve.Coil coil(FlowLaw law, double share) {
      return (FlowCurve.Coil) law.at(share);
    }

    /** An exponent of the usual law, with the range from lot to lot where it has none. */
    private Figure kept(Gum law, String name) {
      Figure figure = requireNonNull(law.parameters().get(name), name);
      return figure.deviation() > 0
          ? figure
          : new Figure(
              figure.likely(),
              figure.unit(),
              EXPONENT_RANGE,
              Estimate.Scale.LINEAR,
              with(figure.sources()));
    }

    private Figure local(Gum law, double exponent) {
      Set<String> from = new TreeSet<>();
      law.parameters().values().forEach(figure -> from.addAll(figure.sources()));
      return new Figure(
          rounded(exponent),
          Unit.NONE,
          exponent > LOCAL_EXPONENT_RANGE ? LOCAL_EXPONENT_RANGE : 0,
          Estimate.Scale.LINEAR,
          with(List.copyOf(from)));
    }

    private static List<String> with(List<String> sources) {
      Set<String> all = new LinkedHashSet<>(sources);
      all.add(Practice.SOURCE);
      return List.copyOf(all);
    }

    private List<String> sources() {
      return List.of(id);
    }

    private Figure fitted(LotFit.Estimate estimate, Unit unit) {
      return new Figure(rounded(estimate.value()), unit, 0, Estimate.Scale.LINEAR, sources());
    }

    private static double rounded(double value) {
      return new BigDecimal(value).round(DIGITS).doubleValue();
    }

    private static double roundedUp(double value) {
      return new BigDecimal(value)
          .round(new MathContext(DIGITS.getPrecision(), java.math.RoundingMode.CEILING))
          .doubleValue();
    }
  }
}
