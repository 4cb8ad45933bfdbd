package gelwright.sheets;

import static gelwright.sheets.Bench.assertMissing;
import static gelwright.sheets.Bench.likely;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.quantity.Bounded;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@DisplayName("what heat takes")
final class HeatPropertiesTest {
  private static Bench held(String name, double celsius, double minutes, String rest) {
    return Bench.of(
        "ingredients:\n"
            + "  - { phase: A, name: Aqua, share: rest }\n"
            + "  - { phase: A, name: "
            + name
            + ", share: 1 % }\n"
            + "method: [{ do: hold, phase: A, at: "
            + celsius
            + " °C, for: "
            + minutes
            + " min }]\n"
            + rest);
  }

  @ParameterizedTest(name = "{0} {2} min at {1} °C -> {3} % left [{5}]")
  @CsvSource(
      delimiter = '|',
      value = {
        "Urea | 75 | 30 | 99.57 | 0.05 | k at 40 °C carried to 75 °C, Panyachariwat 2014",
        "Urea | 40 | 60 | 99.9957 | 0.0005 | 4.29e-5 /h at 40 °C, Panyachariwat 2014",
        "Bromelain | 60 | 10 | 35 | 2 | half-life 6.6 min, Sriwatanapongse 2000",
        "Bromelain | 50 | 60 | 84 | 2 | 83 and 85 %, Jutamongkon 2010, Sriwatanapongse 2000",
        "Papain | 60 | 139 | 50 | 2 | half-life from enthalpy and entropy, Park 1979",
        "Papain | 80 | 20 | 50 | 2 | half-life from enthalpy and entropy, Park 1979"
      })
  void retention(
      String name, double celsius, double minutes, double expected, double within, String source) {
    Bounded left = held(name, celsius, minutes, "").number("ingredient", name, "heat-retention");
    assertEquals(expected, likely(left), within);
  }

  // 2.9 % is lost at pH 3 and 10.6 % at pH 6.
  @Test
  @DisplayName("anthocyanins 20 min at 75 °C: both 97.1 % and 89.4 % are in the range")
  void anthocyanins() {
    Bounded left =
        held("Anthocyanins", 75, 20, "").number("ingredient", "Anthocyanins", "heat-retention");
    assertTrue(left.atLeast().low() < 89.4 && left.atLeast().high() > 97.1, left.toString());
  }

  @Test
  @DisplayName("bromelain an hour at 30 °C: below what was measured only a bound, and a tight one")
  void below() {
    Bounded left =
        held("Bromelain", 30, 60, "").number("ingredient", "Bromelain", "heat-retention");
    assertMissing("kinetics of Bromelain below 40 °C", left);
    assertEquals(100, left.atMost().likely());
    assertTrue(left.atLeast().likely() > 99, left.toString());
  }

  @Test
  @DisplayName("bromelain at 90 °C: above what was measured at least as much is lost as there")
  void above() {
    Bounded left = held("Bromelain", 90, 1, "").number("ingredient", "Bromelain", "heat-retention");
    assertMissing("kinetics of Bromelain above 67 °C", left);
    assertEquals(0, left.atLeast().likely());
    // Half-life 0.6 min at 67 °C.
    assertTrue(left.atMost().likely() < 40, left.toString());
  }

  @Test
  @DisplayName("what has no kinetics on its sheet is not said to keep")
  void unknown() {
    assertMissing(
        "kinetics of heat loss of Panthenol",
        held("Panthenol", 40, 10, "").number("ingredient", "Panthenol", "heat-retention"));
  }

  @ParameterizedTest(name = "{1} min at {0} °C: {2} min above 40 °C")
  @CsvSource({"60, 25, 25", "38, 25, 0"})
  void timeHot(double celsius, double minutes, double expected) {
    assertEquals(
        60 * expected,
        likely(held("Glycerin", celsius, minutes, "").number("ingredient", "Glycerin", "time-hot")),
        1e-6);
  }

  // 70 g of water, 5 g of glycerin and 15 g of oil at 75 °C, then 10 g of water at 22 °C.
  @Test
  @DisplayName("90 g of hot phase and 10 g of cold water -> 69.1 °C [heat balance by hand]")
  void combined() {
    Bench bench =
        Bench.of(
            """
            equipment: { room: { temperature: 22 °C } }
            ingredients:
              - { phase: A, name: Aqua, share: 70 % }
              - { phase: A, name: Glycerin, share: 5 % }
              - { phase: A, name: Olea Europaea Fruit Oil, share: 15 % }
              - { phase: B, name: Aqua, share: 10 % }
            method:
              - { do: heat, phase: A, to: 75 °C, over: 10 min }
              - { do: add, phase: B, into: A, at: 30 °C }
            """);
    assertEquals(69.1, likely(bench.number("process.combined-temperature")), 0.3);
  }

  @Test
  @DisplayName("nothing combined, no temperature of combining")
  void notCombined() {
    assertMissing(
        "a step that adds one phase to another",
        held("Glycerin", 60, 5, "").number("process.combined-temperature"));
  }

  private static Bench boiled(String vessel, double celsius) {
    return held(
        "Glycerin",
        celsius,
        20,
        "batch: 500 g\nequipment: { "
            + vessel
            + "room: { temperature: 22 °C, humidity: 50 % } }\n");
  }

  @ParameterizedTest(
      name = "85 mm, {0}, 20 min at 75 °C -> {1} g [9.3 kg/(m² h) by the correlation]")
  @CsvSource({"open, 17.6", "loose, 1.32", "closed, 0"})
  void waterLost(String cover, double expected) {
    Bounded lost =
        boiled("vessel: { diameter: 85 mm, cover: " + cover + " }, ", 75)
            .number("process.water-lost");
    assertEquals(expected / 1000, likely(lost), 0.0003);
  }

  @Test
  @DisplayName("an open vessel is known to a factor of two")
  void waterLostDoubt() {
    Bounded lost =
        boiled("vessel: { diameter: 85 mm, cover: open }, ", 75).number("process.water-lost");
    assertEquals(2, lost.atLeast().high() / lost.atLeast().likely(), 0.05);
  }

  @ParameterizedTest(name = "{0} at {1} °C: missing {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "'' | 75 | diameter of the vessel (equipment.vessel)",
        "'vessel: { diameter: 85 mm }, ' | 75 | cover of the vessel (equipment.vessel)",
        "'vessel: { diameter: 85 mm, cover: open }, ' | 90 | evaporation above 80 °C"
      })
  void waterLostMissing(String vessel, double celsius, String missing) {
    assertMissing(missing, boiled(vessel, celsius).number("process.water-lost"));
  }
}
