package gelwright.calibration;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;

/**
 * Readings of the flow of one lot of gum in plain or salted water, as written down. Nothing here is
 * checked for sense: {@link Calibrator} tells all that is wrong with it at once.
 *
 * @param gum INCI name or synonym
 * @param grade a grade of the gum's sheet, if the lot is of one
 * @param lot name of the lot, as a recipe's line will write it
 * @param date when it was measured
 * @param instrument with what, in one's own words; may be empty
 * @param celsius temperature of the sample, °C; empty: not written down
 * @param salt free electrolyte in the water, mol/kg; 0 for plain water
 * @param weighing how far a share may be off nine times in ten, in % of itself; empty: not said
 * @param series the readings, by share of the gum
 * @param place of the sheet
 */
public record Readings(
    String gum,
    Optional<String> grade,
    String lot,
    Optional<LocalDate> date,
    String instrument,
    Optional<Double> celsius,
    double salt,
    Optional<Double> weighing,
    List<Series> series,
    Place place) {
  public Readings {
    requireNonNull(gum, "gum");
    requireNonNull(grade, "grade");
    requireNonNull(lot, "lot");
    requireNonNull(date, "date");
    requireNonNull(instrument, "instrument");
    requireNonNull(celsius, "celsius");
    requireNonNull(weighing, "weighing");
    series = List.copyOf(series);
    requireNonNull(place, "place");
  }

  /** Readings taken on a gel with one share of the gum. */
  public sealed interface Series {
    /** Gum in the water phase, % w/w. */
    double share();

    /** How many readings it has. */
    int size();

    /** Where it is written. */
    Place place();
  }

  /**
   * Readings of a rheometer: shear rate and stress.
   *
   * @param share of the gum, % w/w
   * @param points in any order
   * @param place where it is written
   */
  public record Flow(double share, List<FlowPoint> points, Place place) implements Series {
    public Flow {
      points = List.copyOf(points);
      requireNonNull(place, "place");
    }

    @Override
    public int size() {
      return points.size();
    }
  }

  /**
   * One reading of a rheometer.
   *
   * @param shearRate 1/s
   * @param stress Pa
   * @param place where it is written
   */
  public record FlowPoint(double shearRate, double stress, Place place) {
    public FlowPoint {
      requireNonNull(place, "place");
    }
  }

  /**
   * Readings of a disc spindle in a large beaker at several speeds.
   *
   * @param share of the gum, % w/w
   * @param spindle 1 to 7
   * @param torque full-scale torque of the instrument, mN·m
   * @param points in any order
   * @param place where it is written
   */
  public record Spindle(
      double share, int spindle, double torque, List<SpindlePoint> points, Place place)
      implements Series {
    public Spindle {
      points = List.copyOf(points);
      requireNonNull(place, "place");
    }

    @Override
    public int size() {
      return points.size();
    }
  }

  /**
   * One reading of a spindle.
   *
   * @param speed 1/min
   * @param torque % of full scale
   * @param place where it is written
   */
  public record SpindlePoint(double speed, double torque, Place place) {
    public SpindlePoint {
      requireNonNull(place, "place");
    }
  }
}
