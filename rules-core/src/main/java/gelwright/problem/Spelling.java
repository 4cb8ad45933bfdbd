package gelwright.problem;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;

/** Finds the known words nearest to a misspelt one, for "did you mean" hints. */
public final class Spelling {
  /** Words longer than this are not compared: a sheet cannot make this work hard. */
  private static final int LONGEST = 80;

  private Spelling() {}

  /**
   * The known words within about a third of the word's length in edits, at least one and at most
   * four (optimal string alignment distance, case ignored), nearest first, ties in alphabetical
   * order.
   *
   * @param word what was written; nothing is near to one longer than 80 characters
   * @param known the words it may have meant
   * @param most how many to give at most, at least 0
   */
  public static List<String> closest(String word, Collection<String> known, int most) {
    if (word.length() > LONGEST) {
      return List.of();
    }
    String lower = word.toLowerCase(Locale.ROOT);
    int allowed = Math.max(1, Math.min(4, word.length() / 3));
    record Candidate(String word, int distance) {}
    List<Candidate> candidates = new ArrayList<>();
    for (String candidate : known) {
      if (Math.abs(candidate.length() - word.length()) <= allowed) {
        int distance = distance(lower, candidate.toLowerCase(Locale.ROOT), allowed);
        if (distance <= allowed) {
          candidates.add(new Candidate(candidate, distance));
        }
      }
    }
    candidates.sort(
        (a, b) ->
            a.distance != b.distance
                ? Integer.compare(a.distance, b.distance)
                : a.word.compareTo(b.word));
    return candidates.stream().map(Candidate::word).distinct().limit(most).toList();
  }

  /** A hint naming the nearest known word, or empty when none is near. */
  public static String hint(String word, Collection<String> known) {
    List<String> closest = closest(word, known, 2);
    if (closest.isEmpty()) {
      return "";
    }
    return "Did you mean " + String.join(" or ", closest) + "?";
  }

  /**
   * Optimal string alignment distance: the fewest insertions, deletions, replacements and swaps of
   * neighbours that turn one text into the other, no part being edited twice. Three rows of the
   * table are kept.
   */
  static int distance(String a, String b) {
    return distance(a, b, Integer.MAX_VALUE - 1);
  }

  /** The same where it is at most so much; any number above that elsewhere. */
  private static int distance(String a, String b, int most) {
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    int leastOfLast = 0;
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      int least = i;
      for (int j = 1; j <= b.length(); j++) {
        int same = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1] + 1, last[j] + 1), last[j - 1] + same);
        boolean swapped =
            i > 1
                && j > 1
                && a.charAt(i - 1) == b.charAt(j - 2)
                && a.charAt(i - 2) == b.charAt(j - 1);
        if (swapped) {
          row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
        }
        least = Math.min(least, row[j]);
      }
      // Every way to the end leads through this row, or over it by a swap from the one before.
      if (least > most && leastOfLast >= most) {
        return most + 1;
      }
      leastOfLast = least;
      int[] free = beforeLast;
      beforeLast = last;
      last = row;
      row = free;
    }
    return last[b.length()];
  }
}
