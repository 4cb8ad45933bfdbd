package gelwright.comparison;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.function.ToIntBiFunction;

/** Two lists laid beside each other, each in its order. */
final class Alignment {
  // A longest common subsequence, with weights: of all ways to pair elements without crossing, one
  // with the largest sum of weights, by the usual table of best sums (Needleman and Wunsch, Journal
  // of Molecular Biology 48 (1970) 443-453, without a penalty for gaps). Where all weights are 0 or
  // 1 it is the longest common subsequence itself.
  //
  // Ties: of two lists that hold the same two steps in the other order either may be paired, and
  // going from the end of the table the choice would depend on which list is called the first. The
  // lists are therefore put in an order of their own before, so that laying B beside A mirrors
  // laying A beside B.

  /** A table of more cells is not filled: what is no step by step procedure is not aligned. */
  private static final long MOST_CELLS = 4_000_000;

  /** For an element that has no partner. */
  static final int NONE = -1;

  private Alignment() {}

  /**
   * A place of the aligned lists.
   *
   * @param first index in the first list, or {@link #NONE}
   * @param second index in the second list, or {@link #NONE}
   */
  record Row(int first, int second) {
    private Row mirrored() {
      return new Row(/* first= */ second, /* second= */ first);
    }
  }

  /**
   * Lays two lists beside each other.
   *
   * @param weight how well two elements go together; 0 where they do not, never less; the same
   *     whichever comes first; for equal elements at least as much as for any others
   * @return every element of both lists once, in an order that both lists keep; what has no partner
   *     stands before the next pair, that of the first list first
   */
  static <T> List<Row> of(List<T> first, List<T> second, ToIntBiFunction<T, T> weight) {
    boolean swapped = first.toString().compareTo(second.toString()) > 0;
    List<Row> pairs =
        swapped
            ? pairs(second, first, weight).stream().map(Row::mirrored).toList()
            : pairs(first, second, weight);
    List<Row> rows = new ArrayList<>();
    int i = 0;
    int j = 0;
    for (Row pair : pairs) {
      while (i < pair.first()) {
        rows.add(new Row(i++, NONE));
      }
      while (j < pair.second()) {
        rows.add(new Row(NONE, j++));
      }
      rows.add(new Row(i++, j++));
    }
    while (i < first.size()) {
      rows.add(new Row(i++, NONE));
    }
    while (j < second.size()) {
      rows.add(new Row(NONE, j++));
    }
    return List.copyOf(rows);
  }

  private static <T> List<Row> pairs(List<T> a, List<T> b, ToIntBiFunction<T, T> weight) {
    List<Row> pairs = new ArrayList<>();
    // Equal beginnings and ends belong together in some best pairing.
    int start = 0;
    while (start < a.size() && start < b.size() && a.get(start).equals(b.get(start))) {
      pairs.add(new Row(start, start));
      start++;
    }
    int endA = a.size();
    int endB = b.size();
    List<Row> tail = new ArrayList<>();
    while (endA > start && endB > start && a.get(endA - 1).equals(b.get(endB - 1))) {
      tail.add(new Row(--endA, --endB));
    }
    pairs.addAll(middle(a, start, endA, b, endB, weight));
    Collections.reverse(tail);
    pairs.addAll(tail);
    return pairs;
  }

  private static <T> List<Row> middle(
      List<T> a, int start, int endA, List<T> b, int endB, ToIntBiFunction<T, T> weight) {
    int n = endA - start;
    int m = endB - start;
    List<Row> pairs = new ArrayList<>();
    if ((long) n * m > MOST_CELLS) {
      return pairs;
    }
    // best[i][j]: the largest sum for what follows i and j.
    int[][] best = new int[n + 1][m + 1];
    for (int i = n - 1; i >= 0; i--) {
      for (int j = m - 1; j >= 0; j--) {
        int one = weight.applyAsInt(a.get(start + i), b.get(start + j));
        int paired = one > 0 ? one + best[i + 1][j + 1] : 0;
        best[i][j] = Math.max(paired, Math.max(best[i + 1][j], best[i][j + 1]));
      }
    }
    int i = 0;
    int j = 0;
    while (i < n && j < m) {
      if (best[i][j] == best[i + 1][j]) {
        i++;
      } else if (best[i][j] == best[i][j + 1]) {
        j++;
      } else {
        pairs.add(new Row(start + i++, start + j++));
      }
    }
    return pairs;
  }
}
