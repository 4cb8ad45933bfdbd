package gelwright.calibration;

import gelwright.problem.Problem;
import java.util.List;
import java.util.Optional;

/**
 * What calibrating came to.
 *
 * @param value the calibration; there is one exactly when there are no problems
 * @param problems all that speaks against the readings, in the order of the sheet
 */
public record Calibrated(Optional<Calibration> value, List<Problem> problems) {
  public Calibrated {
    problems = List.copyOf(problems);
    if (value.isPresent() != problems.isEmpty()) {
      throw new IllegalArgumentException("either a value or problems");
    }
  }

  static Calibrated of(Calibration calibration) {
    return new Calibrated(Optional.of(calibration), List.of());
  }

  static Calibrated refused(List<Problem> problems) {
    return new Calibrated(
        Optional.empty(), problems.stream().distinct().sorted(Problem.IN_ORDER).toList());
  }
}
