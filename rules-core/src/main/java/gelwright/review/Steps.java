package gelwright.review;

import gelwright.formula.Edit;
import gelwright.formula.Formula;
import java.util.ArrayList;
import java.util.List;

/**
 * Which step is which after edits that move or add some.
 *
 * @param order the number now of each step then, counted from 0; -1 for a new one
 */
record Steps(List<Integer> order) {
  private static final String STEP = "step ";

  static Steps of(Formula formula, List<Edit> edits) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < formula.method().size(); i++) {
      order.add(i);
    }
    Formula changed = formula;
    for (Edit edit : edits) {
      if (edit instanceof Edit.Move move) {
        order.add(move.to(), order.remove(move.step()));
      } else if (edit instanceof Edit.Insertion insertion) {
        order.add(insertion.step(), -1);
      } else if (edit instanceof Edit.OfPH) {
        int place = Edit.OfPH.place(changed);
        changed = edit.in(changed);
        if (changed.method().size() > order.size()) {
          order.add(place, -1);
        }
        continue;
      }
      changed = edit.in(changed);
    }
    return new Steps(List.copyOf(order));
  }

  boolean areInOrder() {
    for (int i = 0; i < order.size(); i++) {
      if (order.get(i) != i) {
        return false;
      }
    }
    return true;
  }

  /** What a subject is called then. */
  Subject then(Subject now) {
    if (!isStep(now)) {
      return now;
    }
    return new Subject(now.kind(), STEP + (order.indexOf(number(now)) + 1));
  }

  /** What a subject is called now; a new step keeps its number then and says that it is new. */
  Subject now(Subject then) {
    if (!isStep(then)) {
      return then;
    }
    int now = order.get(number(then));
    return new Subject(then.kind(), now < 0 ? "new " + then.name() : STEP + (now + 1));
  }

  private static boolean isStep(Subject subject) {
    return subject.kind().equals("step") && subject.name().startsWith(STEP);
  }

  private static int number(Subject subject) {
    return Integer.parseInt(subject.name().substring(STEP.length())) - 1;
  }
}
