package gelwright;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

final class SeededTest {
  @Test
  @DisplayName("two runs try the same inputs, each try others")
  void repeats() {
    List<Long> once = new ArrayList<>();
    List<Long> again = new ArrayList<>();
    Seeded.tries(20, random -> once.add(random.nextLong()));
    Seeded.tries(20, random -> again.add(random.nextLong()));
    assertEquals(20, once.stream().distinct().count());
    if (!"random".equals(System.getProperty("seed"))) {
      assertEquals(once, again);
    }
  }

  @Test
  @DisplayName("a failing try names the seed that fails again")
  void namesTheSeed() {
    AssertionError failure =
        assertThrows(
            AssertionError.class,
            () -> Seeded.tries(1000, random -> assertTrue(random.nextInt(10) != 0, "drew a zero")));
    assertTrue(
        failure.getMessage().matches("drew a zero.* \\[try again with -Dseed=-?\\d+]"),
        failure.getMessage());
  }
}
