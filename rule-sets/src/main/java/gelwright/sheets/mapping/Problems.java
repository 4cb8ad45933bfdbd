package gelwright.sheets.mapping;

import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;

/** The problems found so far. */
public final class Problems {
  private final List<Problem> list = new ArrayList<>();
  private final int most;
  private int more;

  /** No problems yet. */
  public Problems(Limits limits) {
    this.most = limits.problems();
  }

  /** The problems of a document's text. */
  public static Problems of(Document document, Limits limits) {
    Problems problems = new Problems(limits);
    problems.addAll(document.problems());
    return problems;
  }

  public void add(Place place, String code, String message) {
    add(place, code, message, "");
  }

  public void add(Place place, String code, String message, String hint) {
    add(new Problem(place, code, asSentence(message), hint));
  }

  /** A message may begin with the name of a part: "a step must be ...". */
  private static String asSentence(String message) {
    return message.substring(0, 1).toUpperCase(Locale.ROOT) + message.substring(1);
  }

  public void addAll(Collection<Problem> problems) {
    problems.forEach(this::add);
  }

  private void add(Problem problem) {
    if (list.size() < most) {
      list.add(problem);
    } else {
      more++;
    }
  }

  /** Whether further problems are only counted, so that hints need not be worked out. */
  boolean isFull() {
    return list.size() >= most;
  }

  public boolean isEmpty() {
    return list.isEmpty();
  }

  public int size() {
    return list.size() + more;
  }

  /** All problems in the order of the document; past the limit the rest is counted. */
  public List<Problem> inOrder() {
    List<Problem> sorted = new ArrayList<>(list.stream().sorted(Problem.IN_ORDER).toList());
    if (more > 0) {
      Place last = sorted.get(sorted.size() - 1).place();
      sorted.add(Problem.of(last, "more-problems", "There are " + more + " more problems."));
    }
    return sorted;
  }

  /** The value, made only if there are no problems. */
  public <T> Read<T> orElse(Supplier<T> value) {
    return isEmpty() ? Read.ok(value.get()) : new Read<>(Optional.empty(), inOrder());
  }
}
