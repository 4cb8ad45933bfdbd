package gelwright.review;

import gelwright.formula.Edit;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A change that puts a finding right, or goes as far as it can.
 *
 * <p>It was made, and the whole changed formula was reviewed again: what it clears and raises is
 * what came out.
 *
 * @param edits to be made one after the other; never empty
 * @param odds that the requirement is met then; the lower end where they are only bounded
 * @param reaches whether these odds reach the aim
 * @param measure what measurement would settle it, where the odds do not reach the aim
 * @param clears what is in trouble now and no longer then
 * @param raises what is in trouble or open then and was not, or breaks then and was borderline
 * @param brings duties that apply or may apply then and do not now
 */
public record Remedy(
    List<Edit> edits,
    double odds,
    boolean reaches,
    Optional<String> measure,
    List<Concern> clears,
    List<Concern> raises,
    List<Concern> brings) {
  /** The odds a remedy has to reach: four in five. Engine value, common practice, no source. */
  public static final double AIM = 0.8;

  public Remedy {
    edits = List.copyOf(edits);
    clears = List.copyOf(clears);
    raises = List.copyOf(raises);
    brings = List.copyOf(brings);
    if (edits.isEmpty()) {
      throw new IllegalArgumentException("edits are empty: a remedy changes something");
    }
  }

  /** What is to be done, a sentence an edit. */
  public String text() {
    return edits.stream().map(Edit::text).collect(Collectors.joining(" "));
  }
}
