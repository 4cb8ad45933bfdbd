package gelwright.problem;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.Seeded;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

final class SpellingTest {
  private static final List<String> INGREDIENTS =
      List.of("Glycerin", "Glyceryl Caprylate", "Xanthan Gum", "Gellan Gum", "Sclerotium Gum");

  // kitten, Saturday: R. A. Wagner, M. J. Fischer, J. ACM 21 (1974) 168, as commonly retold (from
  // memory). ca/abc tells optimal string alignment (3) from unrestricted transpositions (2).
  @ParameterizedTest(name = "\"{0}\" to \"{1}\": {2} edits")
  @CsvSource({
    "'', '', 0",
    "'', abc, 3",
    "abc, '', 3",
    "abc, abc, 0",
    "kitten, sitting, 3",
    "saturday, sunday, 3",
    "flaw, lawn, 2",
    "ab, ba, 1",
    "abcd, acbd, 1",
    "ca, abc, 3",
    "a, b, 1",
    "xanthan, xantahn, 1",
    "glycerin, glycerine, 1",
  })
  void distance(String a, String b, int distance) {
    assertEquals(distance, Spelling.distance(a, b));
    assertEquals(distance, Spelling.distance(b, a));
  }

  @Test
  @DisplayName("three rows give the same distance as the definition, worked out in full")
  void againstTheDefinition() {
    Seeded.tries(
        3000,
        random -> {
          String a = word(random);
          String b = word(random);
          assertEquals(byDefinition(a, b), Spelling.distance(a, b), a + " to " + b);
        });
  }

  private static String word(RandomGenerator random) {
    StringBuilder text = new StringBuilder();
    for (int i = random.nextInt(7); i > 0; i--) {
      text.append((char) ('a' + random.nextInt(3)));
    }
    return text.toString();
  }

  private static int byDefinition(String a, String b) {
    int m = a.length();
    int n = b.length();
    if (m == 0 || n == 0) {
      return m + n;
    }
    String shorterA = a.substring(0, m - 1);
    String shorterB = b.substring(0, n - 1);
    int same = a.charAt(m - 1) == b.charAt(n - 1) ? 0 : 1;
    int best =
        Math.min(
            byDefinition(shorterA, shorterB) + same,
            1 + Math.min(byDefinition(shorterA, b), byDefinition(a, shorterB)));
    if (m > 1
        && n > 1
        && a.charAt(m - 1) == b.charAt(n - 2)
        && a.charAt(m - 2) == b.charAt(n - 1)) {
      best = Math.min(best, 1 + byDefinition(a.substring(0, m - 2), b.substring(0, n - 2)));
    }
    return best;
  }

  @ParameterizedTest(name = "\"{0}\": \"{1}\"")
  @CsvSource({
    "Glycerine, Did you mean Glycerin?",
    "glycerin, Did you mean Glycerin?",
    "XANTHAN GUMM, Did you mean Xanthan Gum?",
    "Xantahn Gum, Did you mean Xanthan Gum?",
    "Gelan Gum, Did you mean Gellan Gum?",
    "Zeolite, ''",
    "'', ''",
  })
  void hints(String word, String hint) {
    assertEquals(hint, Spelling.hint(word, INGREDIENTS));
  }

  @Test
  @DisplayName("ties in alphabetical order, whatever the order of the words; each word once")
  void ties() {
    assertEquals(
        List.of("cool", "coal", "cowl"),
        Spelling.closest("cool", List.of("cowl", "cool", "coal", "cool"), 5));
    assertEquals(
        List.of("coal", "cowl"), Spelling.closest("cofl", Set.of("cowl", "coal", "heat"), 2));
    assertEquals("Did you mean coal or cowl?", Spelling.hint("cofl", Set.of("cowl", "coal")));
    assertEquals(List.of(), Spelling.closest("cofl", Set.of("cowl"), 0));
  }

  @Test
  @DisplayName("a word of a million characters is near to nothing and costs nothing")
  void longWords() {
    String word = "gum".repeat(300_000);
    assertEquals(List.of(), Spelling.closest(word, List.of(word, "gum"), 3));
    assertEquals("", Spelling.hint("g", List.of(word)));
    assertTrue(Spelling.hint("a".repeat(80), List.of("a".repeat(79) + "b")).startsWith("Did"));
  }
}
