package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class WeighingTest {

  static Stream<Arguments> minima() {
    return Stream.of(
        arguments("s 0.00015 g at 0.10 % -> 0.30000 g [USP 41, read]", 0.00015, 0.0001, 0.001, 0.3),
        arguments("d 1 at 0.10 % -> 820 d [USP 41, read]", 0, 1, 0.001, 820),
        arguments("d 0.01 g at 0.1 % -> 8.2 g [computed]", 0, 0.01, 0.001, 8.2),
        arguments("d 0.01 g at 1 % -> 0.82 g [computed]", 0, 0.01, 0.01, 0.82),
        arguments("d 0.01 g at 5 % -> 0.164 g [computed]", 0, 0.01, 0.05, 0.164),
        arguments("d 0.1 g at 1 % -> 8.2 g [computed]", 0, 0.1, 0.01, 8.2),
        arguments("d 0.1 g at 5 % -> 1.64 g [computed]", 0, 0.1, 0.05, 1.64),
        arguments("d 1 g at 1 % -> 82 g [computed]", 0, 1, 0.01, 82),
        arguments("d 1 g at 5 % -> 16.4 g [computed]", 0, 1, 0.05, 16.4));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("minima")
  @DisplayName("minimum weight")
  void minimum(String name, double s, double d, double tolerance, double expected) {
    assertEquals(expected, Weighing.minimumWeight(s, d, tolerance), 1e-9 * expected, name);
  }

  @Test
  @DisplayName("worked example: 0.05 g on a 0.01 g balance is off by 16 %; batch 1640 g [by hand]")
  void workedExample() {
    // 2·0.0041/0.05 = 0.164
    assertEquals(0.164, Weighing.relativeError(0.05, 0, 0.01), 1e-12);
    // 0.05 % wanted to 1 %: 0.82/0.0005 = 1640 g
    double minimum = Weighing.minimumWeight(0, 0.01, 0.01);
    assertEquals(1640, Weighing.smallestBatch(minimum, 0.0005), 1e-9);
  }

  @Test
  @DisplayName("the larger of repeatability and rounding counts; nothing weighed stays finite")
  void ends() {
    assertEquals(Weighing.minimumWeight(0.41, 1, 0.01), Weighing.minimumWeight(0, 1, 0.01), 1e-9);
    assertTrue(Weighing.minimumWeight(0.5, 1, 0.01) > Weighing.minimumWeight(0, 1, 0.01));
    assertEquals(Double.MAX_VALUE, Weighing.relativeError(0, 0, 0.01));
    assertThrows(IllegalArgumentException.class, () -> Weighing.minimumWeight(-1, 1, 0.01));
    assertThrows(IllegalArgumentException.class, () -> Weighing.minimumWeight(0, 1, 0));
    assertThrows(IllegalArgumentException.class, () -> Weighing.smallestBatch(1, 2));
  }
}
