package gelwright.rule;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gelwright.quantity.Bounded;
import gelwright.quantity.Doubt;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("a number in a message")
final class PrintingTest {
  private static final Doubt DOUBT = new Doubt("rate", "");

  @ParameterizedTest(name = "{0} ± {1} % -> {2}")
  @CsvSource({
    "97.5, 4.5, about 97.5 % (93 to 100 %)",
    "1,    3,   about 1 % (0 to 4 %)",
    "50,   10,  about 50 % (40 to 60 %)",
  })
  @DisplayName("no share reads beyond 0 to 100 %")
  void share(double likely, double range, String text) {
    Bounded number = Bounded.of(Estimate.within(likely, range, DOUBT));

    assertEquals(text, Printing.number(number, Unit.PERCENT));
  }

  @Test
  @DisplayName("a lower bound in doubt: 60 ± 10 % to 100 % -> at least 50 %")
  void lowerBound() {
    Bounded number =
        new Bounded(
            Estimate.within(60, 10, DOUBT), Estimate.exact(100), Set.of("duration of step 1"));

    assertEquals("at least 50 %", Printing.number(number, Unit.PERCENT));
  }
}
