package gelwright.formula;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** How the parts of a formula are exchanged. */
final class Changes {
  private Changes() {}

  static String written(Amount amount) {
    if (amount instanceof Amount.Stated stated) {
      return stated.share().toString();
    }
    return amount instanceof Amount.Rest ? "rest" : "to-pH";
  }

  static int lastAdjustment(Formula formula) {
    int last = -1;
    boolean aims = false;
    for (int i = 0; i < formula.method().size(); i++) {
      Step step = formula.method().get(i);
      if (step.action() == Step.Action.ADJUST_PH && (step.pH().isPresent() || !aims)) {
        last = i;
        aims |= step.pH().isPresent();
      }
    }
    return last;
  }

  static double tenth(double pH) {
    return Math.round(pH * 10) / 10.0;
  }

  static List<String> listed(String names) {
    List<String> all = new ArrayList<>();
    int from = 0;
    while (from <= names.length()) {
      int comma = names.indexOf(',', from);
      int end = comma < 0 ? names.length() : comma;
      all.add(names.substring(from, end).strip());
      from = end + 1;
    }
    return all;
  }

  static void has(List<?> all, int index) {
    if (index < 0 || index >= all.size()) {
      throw new IllegalArgumentException("there is no number " + index + " of " + all.size());
    }
  }

  static Step target(Step old, double pH) {
    return new Step(
        old.action(),
        old.phase(),
        old.with(),
        old.into(),
        old.temperature(),
        Optional.of(pH),
        old.over(),
        old.lasting(),
        old.stir());
  }

  static Step with(Step old, List<String> with) {
    return new Step(
        old.action(),
        old.phase(),
        with,
        old.into(),
        old.temperature(),
        old.pH(),
        old.over(),
        old.lasting(),
        old.stir());
  }

  static Formula line(Formula formula, int index, UnaryOperator<Line> change) {
    List<Line> lines = new ArrayList<>(formula.lines());
    has(lines, index);
    lines.set(index, change.apply(lines.get(index)));
    return lines(formula, lines);
  }

  static Formula lines(Formula formula, List<Line> lines) {
    return new Formula(
        formula.name(),
        formula.version(),
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        lines,
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        Map.of());
  }

  static Formula step(Formula formula, int index, UnaryOperator<Step> change) {
    return method(
        formula,
        old -> {
          List<Step> steps = new ArrayList<>(old);
          has(steps, index);
          steps.set(index, change.apply(steps.get(index)));
          return steps;
        });
  }

  static Formula method(Formula formula, UnaryOperator<List<Step>> change) {
    return new Formula(
        formula.name(),
        formula.version(),
        formula.brief(),
        formula.batch(),
        formula.equipment(),
        formula.lines(),
        change.apply(formula.method()),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        Map.of());
  }

  static Formula brief(Formula formula, Brief brief) {
    return new Formula(
        formula.name(),
        formula.version(),
        brief,
        formula.batch(),
        formula.equipment(),
        formula.lines(),
        formula.method(),
        formula.label(),
        formula.measured(),
        formula.accepted(),
        Map.of());
  }
}
