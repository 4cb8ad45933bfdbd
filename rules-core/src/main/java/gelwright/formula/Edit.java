package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * One change of a formula, small enough to stand beside a finding. Lines and steps are counted from
 * 0.
 *
 * <p>Edits are applied one after the other; each counts the lines and steps that the one before it
 * left.
 */
public sealed interface Edit {
  /**
   * The changed formula. It stands in no document, so it has no places.
   *
   * @throws IllegalArgumentException when the formula has no such line or step
   */
  Formula in(Formula formula);

  /** What is to be done, a sentence in the imperative. */
  String text();

  /** All of them, one after the other. */
  static Formula all(List<Edit> edits, Formula formula) {
    Formula changed = formula;
    for (Edit edit : edits) {
      changed = edit.in(changed);
    }
    return changed;
  }

  /**
   * Another amount of a line.
   *
   * @param line number of the line
   * @param ingredient as written there
   * @param from the amount now
   * @param to the amount then
   */
  record OfAmount(int line, String ingredient, Amount from, Amount to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.line(
          formula,
          line,
          old ->
              new Line(
                  old.phase(),
                  old.name(),
                  to,
                  old.strength(),
                  old.hydrate(),
                  old.size(),
                  old.grade(),
                  old.lot()));
    }

    @Override
    public String text() {
      if (to instanceof Amount.Rest) {
        return "Let " + ingredient + " take the rest instead of " + Changes.written(from) + ".";
      }
      boolean more =
          from instanceof Amount.Stated now
              && to instanceof Amount.Stated then
              && then.share().compareTo(now.share()) > 0;
      return (more ? "Raise " : "Lower ")
          + ingredient
          + " from "
          + Changes.written(from)
          + " to "
          + Changes.written(to)
          + ".";
    }
  }

  /**
   * Another ingredient on a line. Steps that name the old one name the new one.
   *
   * @param line number of the line
   * @param ingredient as written there
   * @param with INCI name of the new one
   * @param from the amount now
   * @param to the amount then
   */
  record Substitution(int line, String ingredient, String with, Amount from, Amount to)
      implements Edit {
    @Override
    public Formula in(Formula formula) {
      Formula changed =
          Changes.line(formula, line, old -> Line.of(old.phase(), requireNonNull(with), to));
      return Changes.method(
          changed,
          method ->
              method.stream()
                  .map(
                      step ->
                          Changes.with(
                              step,
                              step.with().stream()
                                  .map(name -> name.equals(ingredient) ? with : name)
                                  .toList()))
                  .toList());
    }

    @Override
    public String text() {
      return "Take "
          + with
          + (to instanceof Amount.Stated ? ", " + Changes.written(to) + "," : "")
          + " in place of "
          + ingredient
          + ".";
    }
  }

  /**
   * Another phase for a line.
   *
   * @param line number of the line
   * @param ingredient as written there
   * @param from the phase now
   * @param to the phase then
   */
  record OfPhase(int line, String ingredient, String from, String to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.line(
          formula,
          line,
          old ->
              new Line(
                  to,
                  old.name(),
                  old.amount(),
                  old.strength(),
                  old.hydrate(),
                  old.size(),
                  old.grade(),
                  old.lot()));
    }

    @Override
    public String text() {
      return "Move " + ingredient + " from phase " + from + " to phase " + to + ".";
    }
  }

  /**
   * Another size of grains.
   *
   * @param line number of the line
   * @param ingredient as written there
   * @param from the diameter now, if stated
   * @param to the diameter then
   */
  record OfSize(int line, String ingredient, Optional<Quantity> from, Quantity to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.line(
          formula,
          line,
          old ->
              new Line(
                  old.phase(),
                  old.name(),
                  old.amount(),
                  old.strength(),
                  old.hydrate(),
                  Optional.of(to),
                  old.grade(),
                  old.lot()));
    }

    @Override
    public String text() {
      return "Take grains of "
          + ingredient
          + " of "
          + to
          + from.map(now -> " instead of " + now).orElse("")
          + ".";
    }
  }

  /**
   * A new line.
   *
   * @param line number it will have
   * @param phase it goes into
   * @param ingredient its INCI name
   * @param to its amount
   */
  record Addition(int line, String phase, String ingredient, Amount to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      List<Line> lines = new ArrayList<>(formula.lines());
      if (line < 0 || line > lines.size()) {
        throw new IllegalArgumentException("no place for a line " + line);
      }
      lines.add(line, Line.of(phase, ingredient, to));
      return Changes.lines(formula, lines);
    }

    @Override
    public String text() {
      return "Add "
          + ingredient
          + (to instanceof Amount.Stated ? ", " + Changes.written(to) : "")
          + (phase.isEmpty() ? "" : ", to phase " + phase)
          + (to instanceof Amount.ToPH ? ", as much as the pH takes" : "")
          + ".";
    }
  }

  /**
   * A line left out.
   *
   * @param line number of the line
   * @param ingredient as written there
   * @param from the amount now
   */
  record Removal(int line, String ingredient, Amount from) implements Edit {
    @Override
    public Formula in(Formula formula) {
      List<Line> lines = new ArrayList<>(formula.lines());
      Changes.has(lines, line);
      lines.remove(line);
      return Changes.lines(formula, lines);
    }

    @Override
    public String text() {
      return "Leave out " + ingredient + ".";
    }
  }

  /** A part of a step that an edit changes. */
  enum Part {
    /** The temperature reached or held: {@code to} or {@code at} on a sheet. */
    TEMPERATURE,
    /** How long it lasts: {@code for} on a sheet. */
    LASTING,
    /** How fast it is stirred. */
    STIR
  }

  /**
   * Another number in a step.
   *
   * @param step number of the step
   * @param field as the sheet calls it: to, at, for or stir
   * @param part which number
   * @param from the number now, if stated
   * @param to the number then
   */
  record OfStep(int step, String field, Part part, Optional<Quantity> from, Quantity to)
      implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.step(
          formula,
          step,
          old ->
              new Step(
                  old.action(),
                  old.phase(),
                  old.with(),
                  old.into(),
                  part == Part.TEMPERATURE ? Optional.of(to) : old.temperature(),
                  old.pH(),
                  old.over(),
                  part == Part.LASTING ? Optional.of(to) : old.lasting(),
                  part == Part.STIR ? Optional.of(to) : old.stir()));
    }

    @Override
    public String text() {
      return "Step "
          + (step + 1)
          + ": "
          + to
          + from.map(now -> " instead of " + now).orElse("")
          + ".";
    }
  }

  /**
   * A step done earlier or later.
   *
   * @param step number of the step now
   * @param to its number then
   */
  record Move(int step, int to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.method(
          formula,
          old -> {
            List<Step> steps = new ArrayList<>(old);
            Changes.has(steps, step);
            Changes.has(steps, to);
            steps.add(to, steps.remove(step));
            return steps;
          });
    }

    @Override
    public String text() {
      return "Do step " + (step + 1) + " as step " + (to + 1) + ".";
    }
  }

  /**
   * A new step.
   *
   * @param step number it will have
   * @param done the step
   */
  record Insertion(int step, Step done) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return Changes.method(
          formula,
          old -> {
            List<Step> steps = new ArrayList<>(old);
            if (step < 0 || step > steps.size()) {
              throw new IllegalArgumentException("no place for a step " + step);
            }
            steps.add(step, done);
            return steps;
          });
    }

    @Override
    public String text() {
      return "New step "
          + (step + 1)
          + ": "
          + done.action().word()
          + done.phase().map(phase -> " phase " + phase).orElse("")
          + done.temperature().map(at -> " at " + at).orElse("")
          + done.lasting().map(time -> ", " + time).orElse("")
          + ".";
    }
  }

  /**
   * Another pH to adjust to.
   *
   * <p>It is the target of the last step that adjusts. Where no step does, one is put before the
   * filling; without a procedure the middle of the pH in the brief moves there.
   *
   * @param from the pH now, if there is one
   * @param to the pH then
   */
  record OfPH(Optional<Double> from, double to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      int last = lastAdjustment(formula);
      if (last >= 0) {
        return Changes.step(formula, last, old -> Changes.target(old, to));
      }
      if (!formula.method().isEmpty()) {
        Insertion step = new Insertion(place(formula), step(formula));
        return step.in(formula);
      }
      Span now = formula.brief().pH().orElse(new Span(to, to));
      double half = (now.to() - now.from()) / 2;
      return OfBrief.pH(formula, new Span(Changes.tenth(to - half), Changes.tenth(to + half)));
    }

    /**
     * The last step that adjusts to a pH, or the first that adjusts where none has one; -1 where no
     * step adjusts.
     */
    public static int lastAdjustment(Formula formula) {
      return Changes.lastAdjustment(formula);
    }

    /** Where the step goes that adjusts, in a procedure that has none. */
    public static int place(Formula formula) {
      List<Step> method = formula.method();
      for (int i = 0; i < method.size(); i++) {
        if (method.get(i).action() == Step.Action.FILL) {
          return i;
        }
      }
      return method.size();
    }

    /** The step that adjusts, for a procedure that has none. */
    public Step step(Formula formula) {
      List<String> with =
          formula.lines().stream()
              .filter(line -> line.amount() instanceof Amount.ToPH)
              .map(Line::name)
              .toList();
      return new Step(
          Step.Action.ADJUST_PH,
          Optional.empty(),
          with,
          Optional.empty(),
          Optional.empty(),
          Optional.of(to),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());
    }

    @Override
    public String text() {
      return "Adjust the pH to "
          + Quantity.of(to, Unit.PH)
          + from.map(now -> " instead of " + Quantity.of(now, Unit.PH)).orElse("")
          + ".";
    }
  }

  /** A part of the brief that an edit changes. */
  enum Promise {
    TEXTURE("texture"),
    DISPENSING("dispensing"),
    AREA("area"),
    PH("pH");

    private final String key;

    Promise(String key) {
      this.key = key;
    }

    /** As the sheet calls it. */
    public String key() {
      return key;
    }
  }

  /**
   * Another promise: of the texture, the package, the area, the pH.
   *
   * @param promise which
   * @param from as written now; empty when it is not stated. Several areas are parted by commas
   * @param to as written then
   */
  record OfBrief(Promise promise, String from, String to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      Brief old = formula.brief();
      if (promise == Promise.PH) {
        int parted = to.indexOf(" to ");
        return pH(
            formula,
            new Span(
                Double.parseDouble(to.substring(0, parted)),
                Double.parseDouble(to.substring(parted + " to ".length()))));
      }
      return Changes.brief(
          formula,
          new Brief(
              old.kind(),
              old.use(),
              promise == Promise.AREA ? Changes.listed(to) : old.area(),
              old.users(),
              promise == Promise.TEXTURE ? Optional.of(to) : old.texture(),
              promise == Promise.DISPENSING ? Optional.of(to) : old.dispensing(),
              old.pH(),
              old.markets(),
              old.shelfLife()));
    }

    private static Formula pH(Formula formula, Span span) {
      Brief old = formula.brief();
      return Changes.brief(
          formula,
          new Brief(
              old.kind(),
              old.use(),
              old.area(),
              old.users(),
              old.texture(),
              old.dispensing(),
              Optional.of(span),
              old.markets(),
              old.shelfLife()));
    }

    @Override
    public String text() {
      String instead = from.isEmpty() ? "" : " instead of " + from;
      return switch (promise) {
        case TEXTURE -> "Promise the texture " + to + instead + ".";
        case DISPENSING -> "Choose the package " + to + instead + ".";
        case AREA -> "Name the area " + to + instead + ".";
        case PH -> "Promise a pH of " + to + instead + ".";
      };
    }
  }

  /**
   * Another size of the batch.
   *
   * @param from the mass now, if stated
   * @param to the mass then
   */
  record OfBatch(Optional<Quantity> from, Quantity to) implements Edit {
    @Override
    public Formula in(Formula formula) {
      return new Formula(
          formula.name(),
          formula.version(),
          formula.brief(),
          Optional.of(to),
          formula.equipment(),
          formula.lines(),
          formula.method(),
          formula.label(),
          formula.measured(),
          formula.accepted(),
          Map.of());
    }

    @Override
    public String text() {
      return "Make a batch of " + to + from.map(now -> " instead of " + now).orElse("") + ".";
    }
  }
}
