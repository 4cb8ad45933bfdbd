package gelwright.review;

import gelwright.formula.Edit;
import gelwright.profile.Profile;
import gelwright.quantity.Quantity;
import gelwright.rule.CompiledRule;
import gelwright.rule.Severity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;

/** Looks how far each number of a formula can move. */
final class HeadroomSearch {
  // Each number is moved away from where it stands, in steps that grow by half of the way come,
  // until the outcome of any rule for any subject is another than now; then the way between the
  // last step without a change and this one is halved until they are neighbours on the grid. What
  // changes and changes back within one of the growing steps is not seen, and each side tells how
  // wide the widest was; the first is a fiftieth of the number. To look at the middle of each step
  // too costs as much again and finds nothing: a test tries values in between. Between "holds" and
  // "does not apply" there is no change, and a duty that begins is none.

  /** First step, as a part of the number. */
  private static final int FIRST = 50;

  private final Reviewer reviewer;
  private final Profile profile;
  private final Levers levers;
  private final Map<Concern, Outcome> now;

  HeadroomSearch(Reviewer reviewer, Profile profile) {
    this.reviewer = reviewer;
    this.profile = profile;
    this.levers = new Levers(profile, reviewer.knowledge());
    this.now = outcomes(profile);
  }

  List<Headroom> all() {
    List<Headroom> all = new ArrayList<>();
    for (Levers.Movable movable : levers.movables()) {
      all.add(
          new Headroom(
              movable.what(),
              movable.now(),
              movable.grid(),
              side(movable, movable.down()),
              side(movable, movable.up())));
    }
    return List.copyOf(all);
  }

  private Headroom.Side side(Levers.Movable movable, Optional<Knob> way) {
    if (way.isEmpty() || way.get().most() < 1) {
      return new Headroom.Side(
          movable.now(), Quantity.of(0, movable.now().unit()), Optional.empty());
    }
    Knob knob = way.get();
    SortedSet<Long> looked = new TreeSet<>();
    long most = knob.most();
    long free = 0;
    long first = Math.max(1, (long) (movable.stepsFromNothing() / FIRST));
    long steps = Math.min(first, most);
    while (true) {
      Map<Concern, Outcome> then = outcomes(profile.with(changed(knob, steps)));
      if (!then.equals(now)) {
        return halved(movable, knob, free, steps, then, looked);
      }
      looked.add(steps);
      free = steps;
      if (steps == most) {
        return new Headroom.Side(
            movable.at(knob, most), gap(movable, knob, looked), Optional.empty());
      }
      steps = Math.min(most, steps + Math.max(1, steps / 2));
    }
  }

  private Headroom.Side halved(
      Levers.Movable movable,
      Knob knob,
      long free,
      long changed,
      Map<Concern, Outcome> outcomesThere,
      SortedSet<Long> looked) {
    long low = free;
    long high = changed;
    Map<Concern, Outcome> there = outcomesThere;
    while (high - low > 1) {
      long middle = low + (high - low) / 2;
      Map<Concern, Outcome> then = outcomes(profile.with(changed(knob, middle)));
      if (then.equals(now)) {
        looked.add(middle);
        low = middle;
      } else {
        high = middle;
        there = then;
      }
    }
    Quantity last = low == 0 ? movable.now() : movable.at(knob, low);
    return new Headroom.Side(
        last, gap(movable, knob, looked), Optional.of(change(movable.at(knob, high), there)));
  }

  private static Quantity gap(Levers.Movable movable, Knob knob, SortedSet<Long> looked) {
    double before = movable.now().value();
    double widest = 0;
    for (long steps : looked) {
      double value = movable.at(knob, steps).value();
      widest = Math.max(widest, Math.abs(value - before));
      before = value;
    }
    return Quantity.of(widest, movable.now().unit());
  }

  private Headroom.Change change(Quantity at, Map<Concern, Outcome> then) {
    Set<Concern> all = new HashSet<>(now.keySet());
    all.addAll(then.keySet());
    List<Concern> changed =
        all.stream()
            .filter(each -> outcome(now, each) != outcome(then, each))
            .sorted(
                Comparator.<Concern>comparingInt(each -> Judge.rank(outcome(then, each)))
                    .thenComparing(this::severity, Comparator.reverseOrder())
                    .thenComparing(Concern::rule)
                    .thenComparing(each -> each.subject().name()))
            .toList();
    Concern worst = changed.get(0);
    return new Headroom.Change(
        at, worst, outcome(now, worst), outcome(then, worst), changed.size() - 1);
  }

  private Severity severity(Concern concern) {
    return reviewer
        .knowledge()
        .rules()
        .rule(concern.rule())
        .map(CompiledRule::severity)
        .orElse(Severity.NOTE);
  }

  private static Outcome outcome(Map<Concern, Outcome> outcomes, Concern concern) {
    return outcomes.getOrDefault(concern, Outcome.HOLDS);
  }

  private gelwright.formula.Formula changed(Knob knob, long steps) {
    return Edit.all(knob.edits(steps), profile.formula());
  }

  private Map<Concern, Outcome> outcomes(Profile facts) {
    Patience.check();
    Map<Concern, Outcome> outcomes = new HashMap<>();
    reviewer
        .concerns(facts)
        .forEach(
            (concern, judged) -> {
              if (!RemedySearch.isDuty(judged)) {
                outcomes.put(concern, judged.outcome());
              }
            });
    return outcomes;
  }
}
