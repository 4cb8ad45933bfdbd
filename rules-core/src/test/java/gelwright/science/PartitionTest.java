package gelwright.science;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class PartitionTest {

  static Stream<Arguments> published() {
    return Stream.of(
        arguments(
            "phenol 0.4 %, liquid paraffin, K 0.067, oil/water 0.2 -> 0.474 % [J Soc Cosmet Chem"
                + " 16:18, read]",
            0.4, 0.2, 0.067, 0.474),
        arguments(
            "phenol 0.4 %, liquid paraffin, K 0.067, oil/water 1 -> 0.75 % [J Soc Cosmet Chem"
                + " 16:18, read]",
            0.4, 1, 0.067, 0.75),
        arguments(
            "phenol 0.4 %, liquid paraffin, K 0.067, oil/water 2.5 -> 1.199 % [J Soc Cosmet Chem"
                + " 16:18, read]",
            0.4, 2.5, 0.067, 1.199),
        arguments(
            "phenol 0.4 %, liquid paraffin, K 0.067, oil/water 5 -> 1.799 % [J Soc Cosmet Chem"
                + " 16:18, read]",
            0.4, 5, 0.067, 1.799),
        arguments(
            "phenol 0.4 %, liquid paraffin, K 0.067, oil/water 10 -> 2.636 % [J Soc Cosmet Chem"
                + " 16:18, read]",
            0.4, 10, 0.067, 2.636),
        arguments(
            "any preservative 1 %, K 1, oil/water 0.2 -> 1 % [J Soc Cosmet Chem 16:18, read]",
            1, 0.2, 1, 1),
        arguments(
            "any preservative 1 %, K 1, oil/water 1 -> 1 % [J Soc Cosmet Chem 16:18, read]",
            1, 1, 1, 1),
        arguments(
            "any preservative 1 %, K 1, oil/water 2.5 -> 1 % [J Soc Cosmet Chem 16:18, read]",
            1, 2.5, 1, 1),
        arguments(
            "any preservative 1 %, K 1, oil/water 5 -> 1 % [J Soc Cosmet Chem 16:18, read]",
            1, 5, 1, 1),
        arguments(
            "any preservative 1 %, K 1, oil/water 10 -> 1 % [J Soc Cosmet Chem 16:18, read]",
            1, 10, 1, 1));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("published")
  @DisplayName("published concentrations in the water, neither ionised nor bound")
  void published(String name, double total, double oilToWater, double k, double water) {
    Partition.Shares shares = Partition.share(total, oilToWater, k, 0, 0);
    // The table is rounded to 0.001 %, its K to 0.001: both roundings are allowed for.
    double tolerance = 0.0005 + water * 0.0005 * oilToWater / (k * oilToWater + 1);
    assertEquals(water, shares.undissociatedInWater(), tolerance, name);
    assertEquals(shares.undissociatedInWater(), shares.totalInWater());
  }

  @Test
  @DisplayName("5 % polysorbate 80 leaves 22 % of methylparaben, 4.5 % of propylparaben [memory]")
  void binding() {
    // Patel and Kostenbauder 1958, from memory; binding constants 0.7 and 4.2 per %, no oil.
    double methyl = Partition.share(1, 0, 0, 0, Partition.boundRatio(0.7, 5)).freeInWater();
    double propyl = Partition.share(1, 0, 0, 0, Partition.boundRatio(4.2, 5)).freeInWater();
    assertEquals(0.22, methyl, 0.005);
    assertEquals(0.045, propyl, 0.001);
  }

  @Test
  @DisplayName("worked example: benzoic 0.42 %, oil/water 0.25, K 5, pH 5 -> 0.0618 % [by hand]")
  void workedExample() {
    // 10^(5 − 4.204) = 6.252, R = 7.252; 0.42·1.25/(5·0.25 + 7.252) = 0.525/8.502 = 0.06175
    Partition.Shares s = Partition.share(0.42, 0.25, 5, Partition.ionisedRatio(5, 4.204), 0);
    assertEquals(0.06175, s.undissociatedInWater(), 0.00002);
    assertEquals(5 * 0.06175, s.inOil(), 0.0001);
  }

  @Test
  @DisplayName("nothing gets lost: oil and water together hold the total, 2000 random cases")
  void massBalance() {
    Random random = new Random(5);
    for (int i = 0; i < 2000; i++) {
      double total = random.nextDouble() * 10;
      double phi = Math.pow(10, -3 + 5 * random.nextDouble());
      double k = Math.pow(10, -3 + 7 * random.nextDouble());
      double ionised = Partition.ionisedRatio(14 * random.nextDouble(), 4.2);
      double bound = random.nextDouble() * 50;
      Partition.Shares s = Partition.share(total, phi, k, ionised, bound);
      double back = (s.inOil() * phi + s.totalInWater()) / (1 + phi);
      assertEquals(total, back, 1e-12 * total);
      assertTrue(s.undissociatedInWater() >= 0 && s.ionisedInWater() >= 0);
    }
  }

  @Test
  @DisplayName("more oil, more binding, higher pH: each leaves less that is active")
  void monotone() {
    double plain = Partition.share(1, 0.2, 20, 1, 1).undissociatedInWater();
    assertTrue(Partition.share(1, 0.4, 20, 1, 1).undissociatedInWater() < plain);
    assertTrue(Partition.share(1, 0.2, 20, 2, 1).undissociatedInWater() < plain);
    assertTrue(Partition.share(1, 0.2, 20, 1, 2).undissociatedInWater() < plain);
    assertEquals(1, Partition.share(1, 0, 20, 0, 0).totalInWater());
    assertTrue(Double.isFinite(Partition.ionisedRatio(1e6, 4)));
    assertThrows(IllegalArgumentException.class, () -> Partition.share(-1, 0, 0, 0, 0));
  }
}
