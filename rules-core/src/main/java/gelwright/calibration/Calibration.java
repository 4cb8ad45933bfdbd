package gelwright.calibration;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.prediction.Curve;
import gelwright.problem.Place;
import gelwright.quantity.Unit;
import java.util.List;

/**
 * The flow law of one lot, fitted to readings.
 *
 * @param readings what it was fitted to
 * @param lot what later reviews use: its law, with the doubt of the fit on each parameter and what
 *     all readings share as its strength
 * @param source under which the lot cites the readings; its standing is measured
 * @param candidates the forms that were tried, the least criterion first
 * @param chosen the form that the lot has: one of the candidates
 * @param because why it was chosen, a sentence
 * @param residuals every reading with what the law says of it, in the order of the readings
 * @param slowest slowest shear rate read, 1/s
 * @param fastest fastest shear rate read, 1/s
 * @param shared doubts that all readings share, the largest first
 * @param remarks what a reader should know besides, a sentence each
 * @param curve readings, fitted law and usual law, to be drawn
 */
public record Calibration(
    Readings readings,
    Lot lot,
    Source source,
    List<Candidate> candidates,
    Candidate chosen,
    String because,
    List<Residual> residuals,
    double slowest,
    double fastest,
    List<SharedDoubt> shared,
    List<String> remarks,
    Curve curve) {
  public Calibration {
    requireNonNull(readings, "readings");
    requireNonNull(lot, "lot");
    requireNonNull(source, "source");
    candidates = List.copyOf(candidates);
    requireNonNull(chosen, "chosen");
    requireNonNull(because, "because");
    residuals = List.copyOf(residuals);
    shared = List.copyOf(shared);
    remarks = List.copyOf(remarks);
    requireNonNull(curve, "curve");
  }

  /** A form of the flow law. */
  public enum Form {
    /** Stress = consistency · rate^index. */
    POWER_LAW("power-law", "power law"),
    /** Stress = yield stress + consistency · rate^index. */
    HERSCHEL_BULKLEY("herschel-bulkley", "Herschel–Bulkley"),
    /** Viscosity at rest, falling with the shear rate. */
    CROSS("cross", "Cross");

    private final String word;
    private final String title;

    Form(String word, String title) {
      this.word = word;
      this.title = title;
    }

    /** As in reports that programs read. */
    public String word() {
      return word;
    }

    /** As people write it. */
    public String title() {
      return title;
    }
  }

  /**
   * A form that was tried.
   *
   * @param form which
   * @param at share of the gum at which its parameters hold, % w/w
   * @param parameters fitted numbers
   * @param scatter standard deviation of the readings about it, as a part of the stress
   * @param criterion corrected Akaike information criterion; only differences have a meaning
   * @param behind how far its criterion lies above the least
   * @param unsettled names of parameters that the readings do not fix; with any it is not chosen
   */
  public record Candidate(
      Form form,
      double at,
      List<Parameter> parameters,
      double scatter,
      double criterion,
      double behind,
      List<String> unsettled) {
    public Candidate {
      requireNonNull(form, "form");
      parameters = List.copyOf(parameters);
      unsettled = List.copyOf(unsettled);
    }
  }

  /**
   * A fitted number.
   *
   * @param name in words
   * @param value in the unit
   * @param unit of value and error
   * @param standardError of the fit alone; infinite where the readings do not fix it
   * @param within half the width of the range that holds it nine times in ten, few points allowed
   *     for; infinite where the readings do not fix it
   */
  public record Parameter(
      String name, double value, Unit unit, double standardError, double within) {}

  /**
   * A reading beside the law.
   *
   * @param share of the gum, % w/w
   * @param shearRate 1/s
   * @param stress in water without salt at 25 °C, Pa
   * @param fitted what the law says, Pa
   * @param off stress over fitted, less one
   * @param place of the reading
   */
  public record Residual(
      double share, double shearRate, double stress, double fitted, double off, Place place) {}

  /**
   * What all readings share.
   *
   * @param what in words
   * @param factor ×/÷ range that holds nine times in ten
   * @param standing where the figure comes from: given, or common practice
   */
  public record SharedDoubt(String what, double factor, String standing) {}
}
