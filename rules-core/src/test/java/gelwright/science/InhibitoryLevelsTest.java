package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import gelwright.science.InhibitoryLevels.Share;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class InhibitoryLevelsTest {

  // Total and undissociated levels of benzoic acid against A. niger were published side by side, so
  // the conversion can be checked. pKa 4.2; 10 % is the scatter of the published pairs.
  static Stream<Arguments> published() {
    return Stream.of(
        arguments(
            "benzoic acid, A. niger: 550 total at pH 4.2 -> 270 [J Soc Cosmet Chem 18:207, read]",
            550,
            4.2,
            270),
        arguments(
            "benzoic acid, A. niger: 1900 total at pH 5.2 -> 190 [J Soc Cosmet Chem 18:207, read]",
            1900,
            5.2,
            190));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("published")
  @DisplayName("published pairs of total and undissociated level")
  void published(String name, double total, double pH, double undissociated) {
    double actual = InhibitoryLevels.toUndissociated(total, pH, 4.2);
    assertEquals(undissociated, actual, 0.1 * undissociated, name);
  }

  @Test
  @DisplayName(
      "worked example: two at half their level add up to 1; pH 5.2 takes 11 times [by hand]")
  void workedExample() {
    double sum =
        InhibitoryLevels.fractionalSum(List.of(new Share(1000, 2000), new Share(2700, 5400)));
    assertEquals(1, sum);
    // f(5.2) = 1/(1 + 10^1) = 1/11 at pKa 4.2
    assertEquals(2200, InhibitoryLevels.toTotal(200, 5.2, 4.2), 1e-9);
  }

  @Test
  @DisplayName("there and back again; none adds up to 0; an absurd pH stays finite")
  void ends() {
    double u = InhibitoryLevels.toUndissociated(800, 5.7, 4.76);
    assertEquals(800, InhibitoryLevels.toTotal(u, 5.7, 4.76), 1e-9);
    assertEquals(0, InhibitoryLevels.fractionalSum(List.of()));
    assertTrue(Double.isFinite(InhibitoryLevels.toTotal(1e200, 1e4, 4)));
    assertThrows(IllegalArgumentException.class, () -> new Share(1, 0));
    assertThrows(IllegalArgumentException.class, () -> new Share(-1, 1));
  }
}
