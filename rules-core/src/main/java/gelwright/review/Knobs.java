package gelwright.review;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/** What can be turned in a formula. */
final class Knobs {
  // Limits of what is tried. Common practice, no source: a change beyond them is another product.
  /** A share is raised at most to so many times itself. */
  private static final int MOST_TIMES = 5;

  /** Usual end of a new ingredient's share where its sheet gives none, %. */
  private static final double MOST_NEW = 5;

  /** pH of what is meant for the skin. */
  private static final double LOWEST_PH = 3;

  private static final double HIGHEST_PH = 9;

  /** Temperatures of a water phase in an open vessel, °C. */
  private static final double COLDEST = 15;

  private static final double HOTTEST = 95;

  /** Longest step, min: a day and a night. */
  private static final long LONGEST = 24 * 60;

  /** Fastest stirring, rpm: of a rotor and stator, and of everything else. */
  private static final long FASTEST_ROTOR = 15_000;

  private static final long FASTEST = 3_000;

  /** Step of a stirring speed, rpm, of a diameter of grains, µm, and of a batch, g. */
  private static final long COARSE = 10;

  /** A batch grows at most to so many times itself. */
  private static final int MOST_BATCH = 20;

  private Knobs() {}

  /** The next step while bracketing a number that has become so many steps large. */
  private static long eighth(long steps, long size) {
    return steps + Math.max(1, size / 8);
  }

  /** The share of one line, more or less of it. */
  record ShareOfLine(
      Line line, int index, Share from, boolean up, Share grid, Water water, boolean mayLeaveOut)
      implements Knob {
    private long base() {
      // The last multiple of the grid that is not beyond the share.
      long whole = Math.floorDiv(from.units(), grid.units());
      return up || whole * grid.units() == from.units() ? whole : whole + 1;
    }

    private Share to(long steps) {
      return new Share((up ? base() + steps : base() - steps) * grid.units());
    }

    @Override
    public long most() {
      if (!up) {
        return mayLeaveOut ? base() : base() - 1;
      }
      long room = from.units() + water.share().units() - grid.units();
      return Math.min(MOST_TIMES * from.units(), room) / grid.units() - base();
    }

    @Override
    public List<Edit> edits(long steps) {
      Share to = to(steps);
      Edit edit =
          to.units() == 0
              ? new Edit.Removal(index, line.name(), line.amount())
              : new Edit.OfAmount(index, line.name(), line.amount(), new Amount.Stated(to));
      return water.balance(List.of(edit), to.minus(from));
    }

    @Override
    public double effort(long steps) {
      return to(steps).units() == 0
          ? Effort.INGREDIENT
          : Effort.factor(from.percent(), to(steps).percent());
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, to(steps).units() / grid.units());
    }
  }

  /** The shares of several lines together, each by the same part, in steps of one percent of it. */
  record ShareOfLines(Formula formula, List<Integer> indices, boolean up, Share grid, Water water)
      implements Knob {
    private double factor(long steps) {
      return up ? 1 + steps / 100.0 : 1 - steps / 100.0;
    }

    private Share share(int index) {
      return ((Amount.Stated) formula.lines().get(index).amount()).share();
    }

    private long total() {
      return indices.stream().mapToLong(index -> share(index).units()).sum();
    }

    @Override
    public long most() {
      if (!up) {
        return 99;
      }
      double room = 100.0 * water.share().units() / Math.max(1, total());
      return (long) Math.min(100.0 * (MOST_TIMES - 1), room - 1);
    }

    @Override
    public List<Edit> edits(long steps) {
      List<Edit> edits = new ArrayList<>();
      long more = 0;
      for (int index : indices) {
        Share from = share(index);
        long multiple = Math.round(from.units() * factor(steps) / grid.units());
        Share to = new Share(Math.max(1, multiple) * grid.units());
        if (!to.equals(from)) {
          Line line = formula.lines().get(index);
          edits.add(new Edit.OfAmount(index, line.name(), line.amount(), new Amount.Stated(to)));
          more += to.units() - from.units();
        }
      }
      return water.balance(edits, new Share(more));
    }

    @Override
    public double effort(long steps) {
      return Effort.factor(1, factor(steps)) * indices.size();
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, 100);
    }
  }

  /** A new ingredient, from the least that does anything on. */
  record NewIngredient(
      String name,
      String phase,
      int index,
      Share least,
      Optional<Share> usual,
      Share grid,
      Water water)
      implements Knob {
    private Share to(long steps) {
      long first = Math.max(1, -Math.floorDiv(-least.units(), grid.units()));
      return new Share((first + steps - 1) * grid.units());
    }

    @Override
    public long most() {
      long end =
          Math.min(
              usual.orElse(Share.nearest(MOST_NEW)).units(), water.share().units() - grid.units());
      return (end - to(1).units()) / grid.units() + 1;
    }

    @Override
    public List<Edit> edits(long steps) {
      Share to = to(steps);
      return water.balance(
          List.of(new Edit.Addition(index, phase, name, new Amount.Stated(to))), to);
    }

    @Override
    public double effort(long steps) {
      return Effort.INGREDIENT + to(steps).percent() / 100;
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, to(steps).units() / grid.units());
    }
  }

  /**
   * The pH, up or down.
   *
   * @param start where it is, in steps of the grid
   * @param adjuster what is added where the recipe has nothing to adjust with
   * @param keepPromise whether the pH of the brief stays as it is
   */
  record PH(
      Formula formula,
      Optional<Double> now,
      long start,
      boolean up,
      Optional<Edit.Addition> adjuster,
      boolean keepPromise)
      implements Knob {
    private double to(long steps) {
      return (up ? start + steps : start - steps) / 10.0;
    }

    @Override
    public long most() {
      return up ? Math.round(HIGHEST_PH * 10) - start : start - Math.round(LOWEST_PH * 10);
    }

    @Override
    public List<Edit> edits(long steps) {
      double to = to(steps);
      List<Edit> edits = new ArrayList<>();
      adjuster.ifPresent(edits::add);
      edits.add(new Edit.OfPH(now, to));
      // Without a procedure the edit moves the promise itself.
      Optional<Span> span = formula.method().isEmpty() ? Optional.empty() : formula.brief().pH();
      if (!keepPromise && span.isPresent() && !isWellWithin(to, span.get())) {
        double half = (span.get().to() - span.get().from()) / 2;
        edits.add(
            new Edit.OfBrief(
                Edit.Promise.PH, written(span.get()), written(new Span(to - half, to + half))));
      }
      return edits;
    }

    // A pH at the very edge of what is promised is as good as beyond it, since none is met exactly.
    private static boolean isWellWithin(double to, Span span) {
      double margin = Math.min(2 * Grid.PH, (span.to() - span.from()) / 2) - 1e-9;
      return to >= span.from() + margin && to <= span.to() - margin;
    }

    private static String written(Span span) {
      return tenths(span.from()) + " to " + tenths(span.to());
    }

    private static String tenths(double pH) {
      return java.math.BigDecimal.valueOf(Math.round(pH * 100), 2)
          .stripTrailingZeros()
          .toPlainString();
    }

    @Override
    public double effort(long steps) {
      return Math.abs(to(steps) - now.orElse(start / 10.0)) / Effort.PH
          + (adjuster.isPresent() ? Effort.INGREDIENT : 0);
    }

    @Override
    public boolean isMonotone() {
      return false;
    }

    @Override
    public long after(long steps) {
      return steps + 1;
    }
  }

  /** The temperature of a heating and of all that is done at it. */
  record Temperature(List<Step> method, List<Integer> steps, boolean up) implements Knob {
    private double now() {
      return method.get(steps.get(0)).temperature().orElseThrow().in(Unit.CELSIUS);
    }

    private Quantity to(long kelvins) {
      double whole = up ? Math.floor(now()) : Math.ceil(now());
      return Quantity.of(up ? whole + kelvins : whole - kelvins, Unit.CELSIUS);
    }

    @Override
    public long most() {
      return (long) (up ? HOTTEST - Math.floor(now()) : Math.ceil(now()) - COLDEST);
    }

    @Override
    public List<Edit> edits(long kelvins) {
      List<Edit> edits = new ArrayList<>();
      for (int step : steps) {
        edits.add(
            new Edit.OfStep(
                step,
                field(method.get(step).action()),
                Edit.Part.TEMPERATURE,
                method.get(step).temperature(),
                to(kelvins)));
      }
      return edits;
    }

    private static String field(Step.Action action) {
      return action == Step.Action.HEAT || action == Step.Action.COOL ? "to" : "at";
    }

    @Override
    public double effort(long kelvins) {
      return kelvins / Effort.KELVINS;
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long kelvins) {
      return eighth(kelvins, kelvins);
    }
  }

  /** How long a step lasts, in minutes. */
  record Lasting(List<Step> method, int step, boolean up) implements Knob {
    private double now() {
      return method.get(step).lasting().map(time -> time.in(Unit.MINUTE)).orElse(0.0);
    }

    private long to(long minutes) {
      return (long) (up ? Math.floor(now()) + minutes : Math.ceil(now()) - minutes);
    }

    @Override
    public long most() {
      return (long) (up ? LONGEST - Math.floor(now()) : Math.ceil(now()) - 1);
    }

    @Override
    public List<Edit> edits(long minutes) {
      return List.of(
          new Edit.OfStep(
              step,
              "for",
              Edit.Part.LASTING,
              method.get(step).lasting(),
              Quantity.of((double) to(minutes), Unit.MINUTE)));
    }

    @Override
    public double effort(long minutes) {
      return Effort.factor(Math.max(1, now()), (double) to(minutes));
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long minutes) {
      return eighth(minutes, to(minutes));
    }
  }

  /** How fast a step stirs. */
  record Stirring(Formula formula, int step, boolean up) implements Knob {
    private double now() {
      return formula.method().get(step).stir().orElseThrow().in(Unit.RPM);
    }

    private long to(long steps) {
      return (long)
          (up
              ? (Math.floor(now() / COARSE) + steps) * COARSE
              : (Math.ceil(now() / COARSE) - steps) * COARSE);
    }

    @Override
    public long most() {
      boolean rotor = formula.equipment().stirrerType().filter("rotor-stator"::equals).isPresent();
      return (long)
          (up
              ? (double) (rotor ? FASTEST_ROTOR : FASTEST) / COARSE - Math.floor(now() / COARSE)
              : Math.ceil(now() / COARSE) - 1);
    }

    @Override
    public List<Edit> edits(long steps) {
      return List.of(
          new Edit.OfStep(
              step,
              "stir",
              Edit.Part.STIR,
              formula.method().get(step).stir(),
              Quantity.of((double) to(steps), Unit.RPM)));
    }

    @Override
    public double effort(long steps) {
      return Effort.factor(now(), (double) to(steps));
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, to(steps) / COARSE);
    }
  }

  /** The diameter of grains. */
  record Size(Line line, int index, Quantity now, Optional<Quantity> stated) implements Knob {
    private long to(long steps) {
      return ((long) Math.ceil(now.in(Unit.MICROMETRE) / COARSE) - steps) * COARSE;
    }

    @Override
    public long most() {
      return (long) Math.ceil(now.in(Unit.MICROMETRE) / COARSE) - 1;
    }

    @Override
    public List<Edit> edits(long steps) {
      return List.of(
          new Edit.OfSize(
              index, line.name(), stated, Quantity.of((double) to(steps), Unit.MICROMETRE)));
    }

    @Override
    public double effort(long steps) {
      return Effort.factor(now.in(Unit.MICROMETRE), (double) to(steps));
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, to(steps) / COARSE);
    }
  }

  /** The size of the batch, in steps of ten grams. */
  record Batch(Quantity now) implements Knob {
    private long to(long steps) {
      return ((long) Math.floor(now.in(Unit.GRAM) / COARSE) + steps) * COARSE;
    }

    @Override
    public long most() {
      return (long) (now.in(Unit.GRAM) / COARSE * (MOST_BATCH - 1));
    }

    @Override
    public List<Edit> edits(long steps) {
      return List.of(
          new Edit.OfBatch(Optional.of(now), Quantity.of((double) to(steps), Unit.GRAM)));
    }

    @Override
    public double effort(long steps) {
      return Effort.factor(now.in(Unit.GRAM), (double) to(steps));
    }

    @Override
    public boolean isMonotone() {
      return true;
    }

    @Override
    public long after(long steps) {
      return eighth(steps, to(steps) / COARSE);
    }
  }

  /** The phases of a recipe, in alphabetical order. */
  static List<String> phases(Formula formula) {
    TreeSet<String> phases = new TreeSet<>();
    formula.lines().forEach(line -> phases.add(line.phase()));
    phases.remove("");
    return List.copyOf(phases);
  }

  /** A phase that the recipe does not have yet: the letter after the last; empty without phases. */
  static String newPhase(Formula formula) {
    List<String> phases = phases(formula);
    if (phases.isEmpty()) {
      return "";
    }
    String last = phases.get(phases.size() - 1);
    char letter = last.charAt(0);
    return last.length() == 1 && letter >= 'A' && letter < 'Z'
        ? String.valueOf((char) (letter + 1))
        : last + "2";
  }

  /** Where a phase's lines end. */
  static int endOf(Formula formula, String phase) {
    int end = formula.lines().size();
    for (int i = 0; i < formula.lines().size(); i++) {
      if (formula.lines().get(i).phase().equals(phase)) {
        end = i + 1;
      }
    }
    return end;
  }

  /** Choices of a promise that is one word. */
  static List<String> words(Edit.Promise promise) {
    return promise == Edit.Promise.TEXTURE ? Brief.TEXTURES : Brief.DISPENSING;
  }
}
