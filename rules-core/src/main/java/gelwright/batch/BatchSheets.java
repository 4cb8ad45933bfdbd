package gelwright.batch;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Source;
import gelwright.profile.Profile;
import gelwright.quantity.Bounded;
import gelwright.quantity.Dimension;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.review.Duty;
import gelwright.review.Editions;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.review.Shown;
import gelwright.rule.Severity;
import gelwright.rule.Table;
import gelwright.rule.Vocabulary;
import gelwright.science.Weighing;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/**
 * Makes batch sheets. Immutable and thread-safe; no input or output, no clock.
 *
 * <p>Cost: that of two reviews of the formula, one for the batch on the sheet and one for the batch
 * asked for.
 */
public final class BatchSheets {
  /** Least and greatest batch there is a sheet for, g: a drop, a thousand tonnes. */
  private static final double LEAST_GRAMS = 0.01;

  private static final double MOST_GRAMS = 1e9;

  /** Numbers that differ by less than this part are not told as changes. */
  private static final double TOLD_CHANGE = 0.01;

  /**
   * A vessel filled higher than this many times its width is unusual, and a stirrer of the usual
   * kind does not turn it over. Common practice, no source.
   */
  private static final double HIGHEST_FILLING = 1.5;

  /** Mass of a 10 % solution by mass of what is dissolved in it. */
  private static final double TO_SOLUTION = 10;

  /** Points of a titration nearer to each other than this tell nothing more, pH. */
  private static final double NEAR = 0.2;

  private static final String WEIGH = "weigh";
  private static final String WATER = "Aqua";

  /** Properties that a finished batch is compared with. */
  private static final List<String> TARGETS =
      List.of(
          "water-phase.pH", "gel.viscosity-pouring", "gel.viscosity-rubbing", "gel.yield-stress");

  private final Knowledge knowledge;
  private final Reviewer reviewer;

  private BatchSheets(Knowledge knowledge) {
    this.knowledge = knowledge;
    this.reviewer = Reviewer.using(knowledge);
  }

  /**
   * Makes sheets with this knowledge.
   *
   * @throws IllegalArgumentException when there is no rule
   */
  public static BatchSheets using(Knowledge knowledge) {
    return new BatchSheets(requireNonNull(knowledge, "knowledge"));
  }

  /** Whether there can be a sheet for a batch of this mass: from 0.01 g to a thousand tonnes. */
  public static boolean canMake(Quantity mass) {
    if (!mass.dimension().equals(Dimension.MASS)) {
      return false;
    }
    double grams = mass.in(Unit.GRAM);
    return grams >= LEAST_GRAMS && grams <= MOST_GRAMS;
  }

  /**
   * The sheet for a batch.
   *
   * @param formula as read
   * @param make mass of the batch
   * @param on the day it is made for
   * @throws IllegalArgumentException when {@link #canMake} says no to the mass
   */
  public BatchSheet of(Formula formula, Quantity make, LocalDate on) {
    requireNonNull(formula, "formula");
    requireNonNull(on, "on");
    if (!canMake(requireNonNull(make, "make"))) {
      throw new IllegalArgumentException("make is no mass a batch can have: " + make);
    }
    return new Session(formula, make, on).sheet();
  }

  private static Formula with(Formula formula, Quantity batch) {
    return new Formula(
        formula.name(),
        formula.version(),
        formula.brief(),
        Optional.of(batch),
        formula.equipment(),
        formula.lines(),
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        formula.places());
  }

  private static BigDecimal decimal(double grams) {
    return new BigDecimal(Double.toString(grams)).stripTrailingZeros();
  }

  /** Grams as people write them. */
  static String grams(BigDecimal grams) {
    return grams.stripTrailingZeros().toPlainString() + " g";
  }

  /** One sheet in the making. */
  private final class Session {
    private final Formula formula;
    private final Formula scaled;
    private final LocalDate on;
    private final Profile profile;
    private final Review review;
    private final BigDecimal step;
    private final BigDecimal batch;
    private final List<Profile.OfLine> lines;
    private final List<String> remarks = new ArrayList<>();
    private final Set<String> unknown = new TreeSet<>();
    private final Map<String, BatchSheet.Caution> cautionsByRule = new LinkedHashMap<>();

    Session(Formula formula, Quantity make, LocalDate on) {
      this.formula = formula;
      this.on = on;
      BigDecimal asked = decimal(make.in(Unit.GRAM));
      this.step =
          formula
              .equipment()
              .balance()
              .map(readability -> decimal(readability.in(Unit.GRAM)))
              .orElseGet(() -> Masses.usualStep(asked));
      BigDecimal onStep = Masses.round(asked, step);
      this.batch = onStep.signum() > 0 ? onStep : step;
      if (batch.compareTo(asked) != 0) {
        remarks.add(
            "Asked for were "
                + grams(asked)
                + "; on a balance that shows steps of "
                + grams(step)
                + " the batch is "
                + grams(batch)
                + ".");
      }
      this.scaled = with(formula, Quantity.of(batch.doubleValue(), Unit.GRAM));
      this.profile = Profile.of(scaled, knowledge.catalogue(), on);
      this.review = reviewer.review(scaled, on);
      this.lines = profile.lines();
    }

    BatchSheet sheet() {
      for (Duty duty : review.duties()) {
        cautionsByRule.put(
            duty.rule(),
            new BatchSheet.Caution(
                duty.rule(),
                duty.title(),
                duty.message(),
                duty.applies() != Outcome.MAY_APPLY,
                duty.sources()));
      }
      Map<String, Set<String>> biting = biting();
      for (String table : List.of("cautions-at-steps", "batch-record")) {
        if (knowledge.rules().rowsOf(table).isEmpty()) {
          unknown.add("What the table " + table + " tells: the rule sets at hand have none.");
        }
      }
      List<BatchSheet.Adjusting> adjustings = adjustings();
      List<BatchSheet.Weighing> weighings = weighings();
      BigDecimal sum =
          weighings.stream()
              .flatMap(each -> each.grams().stream())
              .reduce(BigDecimal.ZERO, BigDecimal::add);
      Set<String> said = new HashSet<>();
      List<BatchSheet.Caution> weighing = new ArrayList<>();
      biting.forEach(
          (rule, at) -> {
            BatchSheet.Caution caution = cautionsByRule.get(rule);
            if (at.contains(WEIGH) && caution != null) {
              weighing.add(caution);
              said.add(rule);
            }
          });
      List<BatchSheet.WorkStep> steps = steps(weighings, biting, said);
      List<BatchSheet.Caution> general = new ArrayList<>();
      cautionsByRule.forEach(
          (rule, caution) -> {
            if (rule.startsWith("caution.") && !said.contains(rule)) {
              general.add(caution);
            }
          });
      Shown waterLost = number("process.water-lost");
      if (!waterLost.isKnown()) {
        unknown.add(
            "How much water leaves as steam: not known without "
                + String.join(", ", waterLost.missing())
                + ".");
      }
      Optional<BatchSheet.Filling> filling = filling();
      Optional<Review> before =
          formula.batch().filter(this::differs).map(stated -> reviewer.review(formula, on));
      sumRemark(weighings, sum);
      procedureRemark();
      return new BatchSheet(
          formula.name(),
          formula.version(),
          Editions.of(knowledge, formula, on),
          batch,
          formula.batch().map(stated -> decimal(stated.in(Unit.GRAM))),
          new BatchSheet.Balance(step, formula.equipment().balance().isPresent()),
          weighings,
          sum,
          steps,
          adjustings,
          targets(),
          waterLost,
          filling,
          before.isPresent() ? changes() : List.of(),
          before.map(this::turned).orElse(List.of()),
          concerns(),
          weighing,
          general,
          record(),
          remarks,
          List.copyOf(unknown),
          formula.place(""));
    }

    private boolean differs(Quantity stated) {
      return decimal(stated.in(Unit.GRAM)).compareTo(batch) != 0;
    }

    // --- what to weigh ---

    private List<BatchSheet.Weighing> weighings() {
      List<Optional<Long>> shares = new ArrayList<>();
      List<Optional<Shown>> expected = new ArrayList<>();
      List<Set<String>> missing = new ArrayList<>();
      boolean open = false;
      for (int i = 0; i < lines.size(); i++) {
        Amount amount = formula.lines().get(i).amount();
        Optional<Shown> range = Optional.empty();
        Set<String> lacks = Set.of();
        if (amount instanceof Amount.Stated) {
          shares.add(Optional.of(lines.get(i).share().units()));
        } else if (amount instanceof Amount.Rest) {
          shares.add(Optional.empty());
        } else {
          Shown mass = toPH(i);
          range = Optional.of(mass);
          lacks = mass.missing();
          open |= !mass.isKnown();
          shares.add(
              mass.isKnown()
                  ? Optional.of(Share.nearest(100 * mass.likely() / batch.doubleValue()).units())
                  : Optional.empty());
        }
        expected.add(range);
        missing.add(lacks);
      }
      OptionalInt rest = takesTheRest();
      List<BigDecimal> masses = Masses.of(shares, batch, step, rest);
      List<Profile.OfItem> minima = profile.values("line", Set.of("minimum-mass"));
      List<BatchSheet.Weighing> weighings = new ArrayList<>();
      for (int i = 0; i < lines.size(); i++) {
        boolean takes = rest.isPresent() && rest.getAsInt() == i;
        Optional<BigDecimal> grams =
            shares.get(i).isPresent() || takes ? Optional.of(masses.get(i)) : Optional.empty();
        if (takes && masses.get(i).signum() < 0) {
          grams = Optional.empty();
          remarks.add(
              "The other lines come to more than the batch: nothing is left for "
                  + lines.get(i).name()
                  + ". Correct the recipe first.");
        }
        weighings.add(
            weighing(i, grams, expected.get(i), missing.get(i), takes && open, minima.get(i)));
      }
      restRemark(rest, open);
      return weighings;
    }

    /** The line that asks for the rest; else the water, if the recipe comes to the whole. */
    private OptionalInt takesTheRest() {
      List<Integer> rests = new ArrayList<>();
      OptionalInt water = OptionalInt.empty();
      long stated = 0;
      for (int i = 0; i < lines.size(); i++) {
        Amount amount = formula.lines().get(i).amount();
        if (amount instanceof Amount.Rest) {
          rests.add(i);
        } else if (amount instanceof Amount.Stated share) {
          stated += share.share().units();
          if (water.isEmpty() && lines.get(i).name().equals(WATER)) {
            water = OptionalInt.of(i);
          }
        }
      }
      if (rests.size() == 1) {
        return OptionalInt.of(rests.get(0));
      }
      return rests.isEmpty() && stated == Share.ALL.units() ? water : OptionalInt.empty();
    }

    private BatchSheet.Weighing weighing(
        int index,
        Optional<BigDecimal> grams,
        Optional<Shown> expected,
        Set<String> missing,
        boolean upperBound,
        Profile.OfItem minimum) {
      Line line = formula.lines().get(index);
      BatchSheet.How how =
          line.amount() instanceof Amount.Stated
              ? BatchSheet.How.STATED
              : line.amount() instanceof Amount.Rest ? BatchSheet.How.REST : BatchSheet.How.TO_PH;
      List<String> advice = new ArrayList<>();
      Set<String> lacks = new TreeSet<>(missing);
      if (how == BatchSheet.How.REST && grams.isEmpty()) {
        lacks.add("which line takes the rest");
      }
      if (upperBound) {
        advice.add("at most: less whatever is added to reach the pH");
      }
      if (how == BatchSheet.How.TO_PH) {
        advice.add("in portions, to the pH; write down what was used");
      }
      Optional<Double> error = Optional.empty();
      Optional<Double> least = Optional.empty();
      BatchSheet.Fit fit = BatchSheet.Fit.NOT_KNOWN;
      boolean stated = formula.equipment().balance().isPresent();
      boolean nothing = how == BatchSheet.How.STATED && lines.get(index).share().equals(Share.ZERO);
      if (stated && grams.isPresent() && grams.get().signum() > 0) {
        double mass = grams.get().doubleValue();
        error = Optional.of(mass * Weighing.relativeError(mass, 0, step.doubleValue()));
        Shown bound = Shown.of("minimum-mass", minimum.values().get(0).value(), Unit.GRAM);
        fit =
            mass >= bound.high()
                ? BatchSheet.Fit.WELL
                : mass < bound.low() ? BatchSheet.Fit.POORLY : BatchSheet.Fit.NOT_KNOWN;
        if (fit != BatchSheet.Fit.WELL) {
          least = Optional.of(fit == BatchSheet.Fit.POORLY ? bound.low() : bound.high());
          lacks.addAll(bound.missing());
          advice.add(
              how == BatchSheet.How.REST
                  ? "too little for this balance: make a bigger batch, or use a finer balance"
                  : dilution(lines.get(index).name(), least.get(), fit));
        }
      } else if (nothing) {
        fit = BatchSheet.Fit.WELL;
      } else if (stated && grams.isPresent()) {
        fit = BatchSheet.Fit.POORLY;
        advice.add(
            "less than one step of the balance: weigh a dilution, make a bigger batch, or use a"
                + " finer balance");
      }
      Optional<Share> share =
          how == BatchSheet.How.STATED
              ? Optional.of(lines.get(index).share())
              : grams.map(mass -> Share.nearest(100 * mass.doubleValue() / batch.doubleValue()));
      return new BatchSheet.Weighing(
          line.phase(),
          line.name(),
          how,
          share,
          grams,
          expected,
          error,
          fit,
          least,
          advice,
          List.copyOf(lacks));
    }

    private String dilution(String name, double least, BatchSheet.Fit fit) {
      String where =
          knowledge
              .catalogue()
              .find(name)
              .flatMap(found -> found.dissolves().toOptional())
              .map(
                  dissolves ->
                      switch (dissolves) {
                        case "water", "both" -> " of it in water of this batch";
                        case "oil" -> " of it in an oil of this batch";
                        default -> " of it in a part of this batch that takes it up";
                      })
              .orElse(" of it in a part of this batch that takes it up");
      return (fit == BatchSheet.Fit.POORLY ? "below " : "perhaps below ")
          + Quantity.print(least, Unit.GRAM)
          + ", the least this balance weighs well: weigh a 10 % or 1 % dilution"
          + where;
    }

    private void restRemark(OptionalInt rest, boolean open) {
      long rests =
          formula.lines().stream().filter(line -> line.amount() instanceof Amount.Rest).count();
      if (rests > 1) {
        unknown.add(
            "How much of the lines that ask for the rest: " + rests + " lines do, and one may.");
      } else if (rest.isPresent()) {
        remarks.add(
            "Masses stand on steps of "
                + grams(step)
                + ". What rounding leaves over, and the room for what is added to reach the pH,"
                + " is in the mass of "
                + formula.lines().get(rest.getAsInt()).name()
                + (open ? "; that amount is not known, so this mass is an upper bound." : "."));
      } else {
        remarks.add(
            "Masses stand on steps of "
                + grams(step)
                + ". No line takes the rest: the steps that rounding leaves over are given to the"
                + " lines that lost most by it.");
      }
      if (formula.equipment().balance().isEmpty()) {
        unknown.add(
            "What the balance can weigh: not known without its readability (equipment.balance)."
                + " The steps above are a rounding only.");
      }
    }

    private void sumRemark(List<BatchSheet.Weighing> weighings, BigDecimal sum) {
      boolean all = weighings.stream().allMatch(each -> each.grams().isPresent());
      if (all && sum.compareTo(batch) != 0) {
        remarks.add(
            "The masses come to "
                + grams(sum)
                + ", not to the "
                + grams(batch)
                + " of the batch: the recipe does not add up to 100 %. Correct the recipe first.");
      }
    }

    // --- the pH ---

    private Shown toPH(int index) {
      Profile.OfLine line = lines.get(index);
      if (line.brings().isEmpty() || line.strength().isEmpty()) {
        return new Shown(
            line.name(),
            0,
            Double.NaN,
            batch.doubleValue(),
            Unit.GRAM,
            Set.of("which part of " + line.name() + " is to move the pH"));
      }
      return adjuster(line.brings().get())
          .map(item -> mass(line.name(), item, "share-needed", asBought(line)))
          .orElseGet(
              () ->
                  new Shown(
                      line.name(),
                      0,
                      Double.NaN,
                      batch.doubleValue(),
                      Unit.GRAM,
                      Set.of("what " + line.name() + " does to the pH")));
    }

    /** Mass as bought by mass of what the raw material brings. */
    private double asBought(Profile.OfLine line) {
      double strength = line.strength().orElse(Share.ALL).percent();
      return strength > 0 ? 100 / strength : 1;
    }

    private Optional<Profile.OfItem> adjuster(String name) {
      return profile.values("adjuster", Set.of("target", "pH-before", "share-needed")).stream()
          .filter(item -> item.item().equals(name))
          .findFirst();
    }

    private Profile.Value value(Profile.OfItem item, String name) {
      return item.values().stream()
          .filter(each -> each.name().equals(name))
          .findFirst()
          .orElseThrow();
    }

    private Shown mass(String name, Profile.OfItem item, String property, double factor) {
      return mass(name, value(item, property).value(), factor);
    }

    /** A share of the batch as a mass, never below nothing. */
    private Shown mass(String name, Bounded share, double factor) {
      Shown shown = Shown.of(name, share, Unit.PERCENT);
      double grams = factor * batch.doubleValue() / 100;
      return new Shown(
          name,
          Math.max(0, shown.low() * grams),
          shown.likely() * grams,
          shown.high() * grams,
          Unit.GRAM,
          shown.missing());
    }

    private List<BatchSheet.Adjusting> adjustings() {
      List<BatchSheet.Adjusting> all = new ArrayList<>();
      for (Profile.OfItem item :
          profile.values("adjuster", Set.of("target", "pH-before", "share-needed"))) {
        if (item.item().equals(WATER)) {
          continue;
        }
        Optional<Integer> index = lineOf(item.item());
        double factor = index.map(i -> asBought(lines.get(i))).orElse(1.0);
        String name = index.map(i -> formula.lines().get(i).name()).orElse(item.item());
        all.add(adjusting(item, name, factor));
      }
      return all;
    }

    /** The line that is adjusted with, of those that bring an ingredient. */
    private Optional<Integer> lineOf(String ingredient) {
      Optional<Integer> found = Optional.empty();
      for (int i = 0; i < lines.size(); i++) {
        if (lines.get(i).brings().equals(Optional.of(ingredient))) {
          if (formula.lines().get(i).amount() instanceof Amount.ToPH) {
            return Optional.of(i);
          }
          if (found.isEmpty()) {
            found = Optional.of(i);
          }
        }
      }
      return found;
    }

    private BatchSheet.Adjusting adjusting(Profile.OfItem item, String name, double factor) {
      Shown target = Shown.of("target", value(item, "target").value(), Unit.PH);
      Shown before = Shown.of("pH-before", value(item, "pH-before").value(), Unit.PH);
      Shown needed = mass("needed", item, "share-needed", factor);
      Set<String> missing = new TreeSet<>(target.missing());
      missing.addAll(before.missing());
      missing.addAll(needed.missing());
      Shown perTenth =
          new Shown("per-tenth", 0, Double.NaN, batch.doubleValue(), Unit.GRAM, missing);
      Shown asBought = perTenth;
      List<BatchSheet.Point> points = new ArrayList<>();
      Optional<Double> heldBack = Optional.empty();
      if (target.isKnown() && before.isKnown() && needed.isKnown()) {
        Bounded slope = profile.sharePerTenth(item.item(), target.likely());
        perTenth = mass("per-tenth", slope, TO_SOLUTION);
        asBought = mass("per-tenth-as-bought", slope, factor);
        for (double pH : onTheWay(before.likely(), target.likely())) {
          points.add(
              new BatchSheet.Point(
                  pH, mass("solution", profile.shareToReach(item.item(), pH), TO_SOLUTION)));
        }
        heldBack =
            Optional.of(Math.max(0, needed.likely() / factor * TO_SOLUTION - needed.likely()));
      }
      if (!missing.isEmpty()) {
        unknown.add(
            "How much "
                + name
                + " reaches the pH: not known without "
                + String.join(", ", missing)
                + ".");
      }
      return new BatchSheet.Adjusting(
          name,
          target,
          formula.brief().pH(),
          before,
          needed,
          perTenth,
          asBought,
          points,
          heldBack,
          List.copyOf(missing));
    }

    // --- the procedure ---

    /** By the id of a rule, where it bites. */
    private Map<String, Set<String>> biting() {
      Map<String, Set<String>> biting = new LinkedHashMap<>();
      for (Table.Row row : knowledge.rules().rowsOf("cautions-at-steps")) {
        biting.computeIfAbsent(row.key(), key -> new TreeSet<>()).addAll(row.names("at"));
      }
      return biting;
    }

    private List<BatchSheet.WorkStep> steps(
        List<BatchSheet.Weighing> weighings, Map<String, Set<String>> biting, Set<String> said) {
      List<List<Integer>> joining = joining();
      Set<Integer> joined = new HashSet<>();
      List<BatchSheet.WorkStep> steps = new ArrayList<>();
      for (int i = 0; i < formula.method().size(); i++) {
        Step step = formula.method().get(i);
        List<BatchSheet.Joining> names = new ArrayList<>();
        for (int line : joining.get(i)) {
          joined.add(line);
          names.add(
              new BatchSheet.Joining(weighings.get(line).name(), weighings.get(line).grams()));
        }
        List<BatchSheet.Caution> cautions = new ArrayList<>();
        List<String> again = new ArrayList<>();
        biting.forEach(
            (rule, at) -> {
              BatchSheet.Caution caution = cautionsByRule.get(rule);
              if (caution == null || !at.contains(step.action().word())) {
                return;
              }
              if (said.add(rule)) {
                cautions.add(caution);
              } else if (caution.sure()) {
                again.add(caution.title());
              }
            });
        steps.add(
            new BatchSheet.WorkStep(i + 1, step, names, cautions, again, missingTargets(step)));
      }
      if (!formula.method().isEmpty()) {
        for (int line = 0; line < lines.size(); line++) {
          if (!joined.contains(line)) {
            unknown.add(
                "When " + weighings.get(line).name() + " goes in: no step of the procedure says.");
          }
        }
      }
      return steps;
    }

    /** What goes into the vessel at each step: what it names, and phases when first mentioned. */
    private List<List<Integer>> joining() {
      List<List<Integer>> joining = new ArrayList<>();
      Map<Integer, Integer> named = new HashMap<>();
      for (int i = 0; i < formula.method().size(); i++) {
        joining.add(new ArrayList<>());
        for (String name : formula.method().get(i).with()) {
          for (int line = 0; line < lines.size(); line++) {
            boolean meant =
                name.equals(formula.lines().get(line).name())
                    || name.equals(lines.get(line).name())
                    || lines.get(line).name().equals(inci(name));
            if (meant && named.putIfAbsent(line, i) == null) {
              joining.get(i).add(line);
            }
          }
        }
      }
      Set<String> begun = new HashSet<>();
      for (int i = 0; i < formula.method().size(); i++) {
        Step step = formula.method().get(i);
        List<String> phases = new ArrayList<>();
        step.into().ifPresent(phases::add);
        step.phase().ifPresent(phases::add);
        for (String phase : phases) {
          if (!begun.add(phase)) {
            continue;
          }
          for (int line = 0; line < lines.size(); line++) {
            if (formula.lines().get(line).phase().equals(phase) && !named.containsKey(line)) {
              joining.get(i).add(line);
            }
          }
        }
      }
      joining.forEach(each -> each.sort(null));
      return joining;
    }

    private String inci(String name) {
      return knowledge.catalogue().find(name).map(Ingredient::name).orElse(name);
    }

    private List<String> missingTargets(Step step) {
      List<String> missing = new ArrayList<>();
      boolean changes = step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL;
      boolean lasts =
          switch (step.action()) {
            case HEAT, COOL, HOLD, HYDRATE, MIX, HOMOGENISE, ADD -> true;
            case DISPERSE, ADJUST_PH, FILL -> false;
          };
      boolean stirs =
          switch (step.action()) {
            case DISPERSE, HYDRATE, MIX, HOMOGENISE, ADD -> true;
            case HEAT, COOL, HOLD, ADJUST_PH, FILL -> false;
          };
      if (changes && step.temperature().isEmpty()) {
        missing.add("temperature");
      }
      if (lasts && step.over().isEmpty() && step.lasting().isEmpty()) {
        missing.add("time");
      }
      if (stirs && step.stir().isEmpty()) {
        missing.add("stirring speed");
      }
      if (step.action() == Step.Action.ADJUST_PH
          && step.pH().isEmpty()
          && formula.brief().pH().isEmpty()) {
        missing.add("pH");
      }
      return missing;
    }

    private void procedureRemark() {
      if (formula.method().isEmpty()) {
        unknown.add("How it is made: the sheet has no procedure (method).");
        return;
      }
      Optional<Double> stated = formula.batch().map(quantity -> quantity.in(Unit.GRAM));
      if (stated.isEmpty()) {
        unknown.add(
            "For what batch the times of the procedure were written: the sheet does not say"
                + " (batch).");
      } else if (stated.get() > 0 && batch.doubleValue() / stated.get() > 1.5) {
        remarks.add(
            "The times and speeds were written for "
                + grams(decimal(stated.get()))
                + ". A larger batch heats and cools more slowly and is harder to stir: what is said"
                + " of heat rests on the times as written, so write down the actual ones.");
      } else if (stated.get() > 0 && batch.doubleValue() / stated.get() < 0.67) {
        remarks.add(
            "The times and speeds were written for "
                + grams(decimal(stated.get()))
                + ". A smaller batch heats and cools faster and loses a larger part of its water:"
                + " write down the actual times.");
      }
    }

    private Optional<BatchSheet.Filling> filling() {
      Optional<Double> diameter =
          formula.equipment().vesselDiameter().map(width -> width.in(Unit.MILLIMETRE));
      if (diameter.isEmpty()) {
        unknown.add(
            "Whether the vessel holds the batch: not known without its diameter"
                + " (equipment.vessel).");
        return Optional.empty();
      }
      // At 1 g/mL a gram is 1000 mm³; what foams or swells needs room on top.
      double height = batch.doubleValue() * 1000 / (Math.PI * diameter.get() * diameter.get() / 4);
      String stands =
          "In a vessel "
              + Quantity.print(diameter.get(), Unit.MILLIMETRE)
              + " wide this batch stands about "
              + Quantity.print(height, Unit.MILLIMETRE)
              + " high (taken at 1 g/mL)";
      if (height > HIGHEST_FILLING * diameter.get()) {
        remarks.add(
            stands
                + ", more than one and a half times the width: take a wider vessel (common"
                + " practice). What is said here of stirring and of steam was computed for the"
                + " vessel on the sheet.");
      } else {
        unknown.add(
            stands
                + "; whether the vessel is that tall, with a third of room on top, the sheet"
                + " does not say.");
      }
      return Optional.of(new BatchSheet.Filling(diameter.get(), height));
    }

    // --- numbers to check against ---

    private Shown number(String property) {
      return profile.values().stream()
          .filter(each -> each.name().equals(property))
          .findFirst()
          .map(each -> Shown.of(each.name(), each.value(), each.unit()))
          .orElseThrow();
    }

    private String meaning(String property) {
      return Profile.vocabulary()
          .property(property)
          .map(Vocabulary.Property::meaning)
          .orElse(property);
    }

    private List<BatchSheet.Target> targets() {
      List<BatchSheet.Target> all = new ArrayList<>();
      for (String property : TARGETS) {
        Optional<Span> aimed =
            property.equals("water-phase.pH") ? formula.brief().pH() : Optional.empty();
        all.add(new BatchSheet.Target(property, meaning(property), aimed, number(property)));
      }
      return all;
    }

    // --- what another size of batch changes ---

    private List<BatchSheet.Change> changes() {
      Map<String, Profile.Value> before = new HashMap<>();
      for (Profile.Value value : Profile.of(formula, knowledge.catalogue(), on).values()) {
        before.put(value.name(), value);
      }
      List<BatchSheet.Change> all = new ArrayList<>();
      for (Profile.Value value : profile.values()) {
        Profile.Value earlier = before.get(value.name());
        if (earlier == null || value.name().equals("batch.mass")) {
          continue;
        }
        Shown was = Shown.of(value.name(), earlier.value(), value.unit());
        Shown is = Shown.of(value.name(), value.value(), value.unit());
        if (differ(was, is)) {
          all.add(new BatchSheet.Change(meaning(value.name()), was, is));
        }
      }
      return all;
    }

    private static boolean differ(Shown was, Shown is) {
      if (was.isKnown() != is.isKnown()) {
        return true;
      }
      double a = was.isKnown() ? was.likely() : was.high();
      double b = is.isKnown() ? is.likely() : is.high();
      return Double.isFinite(a)
          && Double.isFinite(b)
          && Math.abs(a - b) > TOLD_CHANGE * Math.max(Math.abs(a), Math.abs(b));
    }

    private List<BatchSheet.Turned> turned(Review before) {
      Map<String, String> messages = new HashMap<>();
      for (Finding finding : review.findings()) {
        messages.putIfAbsent(finding.rule(), finding.message());
      }
      List<BatchSheet.Turned> all = new ArrayList<>();
      review
          .rules()
          .forEach(
              (rule, now) -> {
                Outcome was = before.rules().getOrDefault(rule, now);
                if (was != now) {
                  String title =
                      knowledge
                          .rules()
                          .rule(rule)
                          .map(compiled -> compiled.rule().title().text())
                          .orElse(rule);
                  all.add(
                      new BatchSheet.Turned(
                          rule, title, was, now, messages.getOrDefault(rule, "")));
                }
              });
      return all;
    }

    private List<BatchSheet.Concern> concerns() {
      List<BatchSheet.Concern> all = new ArrayList<>();
      for (Finding finding : review.findings()) {
        boolean counts = finding.outcome() != Outcome.UNKNOWN || finding.mustBeKnown();
        // What the balance cannot weigh is said at each mass.
        boolean said = finding.rule().startsWith("weighing.");
        if (!finding.isAccepted() && counts && !said && finding.level() != Severity.NOTE) {
          all.add(
              new BatchSheet.Concern(
                  finding.rule(),
                  finding.title(),
                  finding.level(),
                  finding.outcome(),
                  finding.message()));
        }
      }
      return all;
    }

    private List<BatchSheet.RecordItem> record() {
      List<BatchSheet.RecordItem> all = new ArrayList<>();
      for (Table.Row row : knowledge.rules().rowsOf("batch-record")) {
        List<Source> sources = new ArrayList<>();
        row.sources()
            .forEach(id -> knowledge.catalogue().source(id.text()).ifPresent(sources::add));
        all.add(
            new BatchSheet.RecordItem(
                row.name("part").orElse("before"),
                row.key(),
                row.name("clause").orElse(""),
                sources));
      }
      return all;
    }
  }

  /**
   * Values of pH between a start and a target, then the target: whole numbers, and halves within
   * one of the target; none nearer to either than a fifth.
   */
  static List<Double> onTheWay(double from, double to) {
    List<Double> all = new ArrayList<>();
    double least = Math.min(from, to) + NEAR;
    double most = Math.max(from, to) - NEAR;
    for (long halves = (long) Math.ceil(2 * least); halves <= 2 * most; halves++) {
      double pH = halves / 2.0;
      if (halves % 2 == 0 || Math.abs(pH - to) <= 1) {
        all.add(pH);
      }
    }
    if (to < from) {
      Collections.reverse(all);
    }
    all.add(to);
    return List.copyOf(all);
  }
}
