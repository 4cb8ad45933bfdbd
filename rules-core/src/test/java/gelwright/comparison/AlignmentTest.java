package gelwright.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToIntBiFunction;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("two lists laid beside each other")
final class AlignmentTest {
  private static final ToIntBiFunction<String, String> EQUAL = (a, b) -> a.equals(b) ? 1 : 0;

  /** Equal words 5, words of one length 2. */
  private static final ToIntBiFunction<String, String> ALIKE =
      (a, b) -> a.equals(b) ? 5 : a.length() == b.length() ? 2 : 0;

  private static List<String> letters(String text) {
    return text.chars().mapToObj(c -> String.valueOf((char) c)).toList();
  }

  // XMJYAUZ and MZJAWXU, with the subsequence MJAU of length 4: T. H. Cormen et al. give ABCBDAB
  // and
  // BDCABA with length 4 (Introduction to Algorithms, 3rd ed. 2009, section 15.4; from memory).
  @ParameterizedTest(name = "{0} and {1} -> {2} in common")
  @CsvSource({
    "ABCBDAB, BDCABA, 4",
    "XMJYAUZ, MZJAWXU, 4",
    "ABC, ABC, 3",
    "ABC, DEF, 0",
    "AAAA, AA, 2",
    "ABCD, BCDA, 3"
  })
  void longest(String a, String b, int length) {
    assertEquals(length, pairs(Alignment.of(letters(a), letters(b), EQUAL)));
  }

  @Test
  @DisplayName("nothing beside something -> all of it, without partners")
  void nothing() {
    assertEquals(List.of(), Alignment.of(List.<String>of(), List.of(), EQUAL));
    assertEquals(
        List.of(new Alignment.Row(Alignment.NONE, 0), new Alignment.Row(Alignment.NONE, 1)),
        Alignment.of(List.of(), List.of("a", "b"), EQUAL));
  }

  @Test
  @DisplayName("an inserted and a changed step -> the others keep their partners")
  void steps() {
    assertEquals(
        List.of(
            new Alignment.Row(0, 0),
            new Alignment.Row(Alignment.NONE, 1),
            new Alignment.Row(1, 2),
            new Alignment.Row(2, 3)),
        Alignment.of(
            List.of("heat", "mixes", "fill"), List.of("heat", "x", "mixed", "fill"), ALIKE));
  }

  private static long pairs(List<Alignment.Row> rows) {
    return rows.stream()
        .filter(row -> row.first() != Alignment.NONE && row.second() != Alignment.NONE)
        .count();
  }

  private static List<String> random(RandomGenerator random) {
    List<String> words = new ArrayList<>();
    for (int i = random.nextInt(8); i > 0; i--) {
      words.add("abcd".substring(0, 1 + random.nextInt(2)) + (char) ('a' + random.nextInt(3)));
    }
    return words;
  }

  @Test
  @DisplayName(
      "random lists -> every element once and in order, as good as trying all ways, mirrored")
  void holds() {
    Seeded.tries(
        400,
        random -> {
          List<String> a = random(random);
          List<String> b = random(random);
          List<Alignment.Row> rows = Alignment.of(a, b, ALIKE);
          int i = 0;
          int j = 0;
          int sum = 0;
          for (Alignment.Row row : rows) {
            if (row.first() != Alignment.NONE) {
              assertEquals(i++, row.first());
            }
            if (row.second() != Alignment.NONE) {
              assertEquals(j++, row.second());
            }
            if (row.first() != Alignment.NONE && row.second() != Alignment.NONE) {
              int one = ALIKE.applyAsInt(a.get(row.first()), b.get(row.second()));
              assertTrue(one > 0, "paired without going together");
              sum += one;
            }
          }
          assertEquals(a.size(), i);
          assertEquals(b.size(), j);
          assertEquals(best(a, b, 0, 0), sum);
          List<List<Integer>> paired = paired(rows, false);
          assertEquals(paired, paired(Alignment.of(b, a, ALIKE), true));
        });
  }

  private static List<List<Integer>> paired(List<Alignment.Row> rows, boolean mirrored) {
    return rows.stream()
        .filter(row -> row.first() != Alignment.NONE && row.second() != Alignment.NONE)
        .map(
            row ->
                mirrored ? List.of(row.second(), row.first()) : List.of(row.first(), row.second()))
        .toList();
  }

  /** All ways tried. */
  private static int best(List<String> a, List<String> b, int i, int j) {
    if (i == a.size() || j == b.size()) {
      return 0;
    }
    int best = Math.max(best(a, b, i + 1, j), best(a, b, i, j + 1));
    int one = ALIKE.applyAsInt(a.get(i), b.get(j));
    return one > 0 ? Math.max(best, one + best(a, b, i + 1, j + 1)) : best;
  }

  @Test
  @DisplayName("lists too long to lay out -> removed and added, within equal ends")
  void tooLong() {
    List<String> a = new ArrayList<>();
    List<String> b = new ArrayList<>();
    for (int i = 0; i < 2_100; i++) {
      a.add("a" + i);
      b.add("b" + i);
    }
    a.add(0, "start");
    b.add(0, "start");
    List<Alignment.Row> rows = Alignment.of(a, b, (x, y) -> 1);
    assertEquals(1, pairs(rows));
    assertEquals(4_201, rows.size());
  }
}
