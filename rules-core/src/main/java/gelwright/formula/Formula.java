package gelwright.formula;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import gelwright.quantity.Quantity;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A candidate formula: recipe, brief, procedure.
 *
 * @param name as the formulator calls it; never blank
 * @param version free text; empty when the sheet has none
 * @param brief what the product is meant to be
 * @param batch mass of the batch, if stated
 * @param equipment what it is made with
 * @param lines the recipe in the order written
 * @param method the procedure; empty when the sheet has none
 * @param label the label, if the sheet carries it
 * @param measured readings; they beat every prediction
 * @param accepted findings somebody has taken responsibility for
 * @param places where each part stands in its document, by JSON Pointer; may be empty
 */
public record Formula(
    String name,
    String version,
    Brief brief,
    Optional<Quantity> batch,
    Equipment equipment,
    List<Line> lines,
    List<Step> method,
    Optional<Label> label,
    List<Measurement> measured,
    List<Acceptance> accepted,
    Map<String, Place> places) {
  public Formula {
    requireNonNull(name, "name");
    requireNonNull(version, "version");
    requireNonNull(brief, "brief");
    requireNonNull(equipment, "equipment");
    lines = List.copyOf(lines);
    method = List.copyOf(method);
    measured = List.copyOf(measured);
    accepted = List.copyOf(accepted);
    places = Map.copyOf(places);
    if (name.isBlank()) {
      throw new IllegalArgumentException("name is blank");
    }
  }

  /** Where a part of the formula stands; {@link Place#NOWHERE} when that is not known. */
  public Place place(String pointer) {
    return places.getOrDefault(pointer, Place.NOWHERE);
  }
}
