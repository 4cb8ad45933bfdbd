package gelwright.formula;

import gelwright.quantity.Quantity;
import java.util.Optional;

/**
 * What the batch is made with. What is missing stays missing.
 *
 * @param balance readability of the balance
 * @param vesselDiameter inner diameter of the vessel
 * @param vesselCover open, loose or closed
 * @param stirrerType paddle, propeller, anchor, rotor-stator or whisk
 * @param stirrerDiameter diameter of the stirrer
 * @param roomTemperature temperature of the room
 * @param roomHumidity relative humidity of the room, in %
 */
public record Equipment(
    Optional<Quantity> balance,
    Optional<Quantity> vesselDiameter,
    Optional<String> vesselCover,
    Optional<String> stirrerType,
    Optional<Quantity> stirrerDiameter,
    Optional<Quantity> roomTemperature,
    Optional<Quantity> roomHumidity) {
  /** A sheet that says nothing of equipment. */
  public static final Equipment NONE =
      new Equipment(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Optional.empty());
}
