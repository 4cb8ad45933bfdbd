package gelwright.stability;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gelwright.problem.Place;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Table;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("times of stability tests")
final class TimesTest {
  private static Table.Row row(Set<String> at, double every, double later) {
    return new Table.Row(
        "schedule",
        Map.of(
            "at",
            new Table.Cell.Names(at),
            "every",
            new Table.Cell.Number(Quantity.of(every, Unit.NONE)),
            "every-later",
            new Table.Cell.Number(Quantity.of(later, Unit.NONE))),
        List.of(),
        Place.NOWHERE);
  }

  private static String told(List<Double> times) {
    return times.stream()
        .map(time -> time == Math.rint(time) ? "" + Math.round(time) : "" + time)
        .collect(Collectors.joining(" "));
  }

  @ParameterizedTest(name = "over a shelf life of {0} months: {1}")
  @CsvSource({
    "3, 0 3",
    "5, 0 3 5",
    "12, 0 3 6 9 12",
    "18, 0 3 6 9 12 18",
    "30, 0 3 6 9 12 18 24 30",
    "100000, 0 3 6 9 12 18 24 30 36 42 48 54 60 66 72 78 84 90 96 102 108 114 120"
  })
  void shelfLife(double months, String times) {
    assertEquals(
        times,
        told(StabilityPlans.at(row(Set.of("0"), 3, 6), "months", true, Optional.of(months))));
  }

  @ParameterizedTest(name = "in the warm, with a shelf life of {0} months: weeks {1}")
  @CsvSource({"12, 0 1 4 8 12", "2, 0 1 4 8", "1, 0 1 4", "0.5, 0 1 2"})
  void warm(double months, String weeks) {
    assertEquals(
        weeks,
        told(
            StabilityPlans.at(
                row(Set.of("0", "1", "4", "8", "12"), 0, 0), "weeks", false, Optional.of(months))));
  }

  @ParameterizedTest(name = "the word {0} is no time and is left out")
  @CsvSource({"soon", "-1", "'4 weeks'"})
  void noTime(String word) {
    assertEquals(
        "0 1",
        told(
            StabilityPlans.at(
                row(Set.of("0", "1", word), 0, 0), "weeks", false, Optional.empty())));
  }
}
