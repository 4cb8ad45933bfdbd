package gelwright.batch;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Span;
import gelwright.formula.Step;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.quantity.Share;
import gelwright.review.Editions;
import gelwright.review.Outcome;
import gelwright.review.Shown;
import gelwright.rule.Severity;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/**
 * How to make one batch. A plan with its sources: no release of the batch and no safety assessment.
 *
 * @param formula name of the formula
 * @param version of the formula; empty when the sheet has none
 * @param editions what it rests on, with the date it was made for
 * @param grams mass of the batch, on the balance's steps
 * @param writtenFor mass of the batch that the formula sheet was written for, g
 * @param balance what it is weighed with
 * @param weighings in the order of the recipe
 * @param sum of the masses to weigh, g; that of the batch unless a remark says why not
 * @param steps of the procedure; none when the sheet has none
 * @param adjustings what is added to reach the pH
 * @param targets what the finished batch should be like
 * @param waterLost water that leaves as steam, for this batch
 * @param filling how high the batch stands in the vessel
 * @param changes numbers that differ from those of the batch on the sheet
 * @param turned rules whose outcome differs from that for the batch on the sheet
 * @param concerns what the review of this batch finds at warning level or above
 * @param weighingCautions cautions while weighing
 * @param cautions cautions that bite at no step in particular
 * @param record what the record of the batch holds
 * @param remarks on the sheet as a whole
 * @param unknown what is not known, each with what is missing
 * @param place of the formula sheet
 */
public record BatchSheet(
    String formula,
    String version,
    Editions editions,
    BigDecimal grams,
    Optional<BigDecimal> writtenFor,
    Balance balance,
    List<Weighing> weighings,
    BigDecimal sum,
    List<WorkStep> steps,
    List<Adjusting> adjustings,
    List<Target> targets,
    Shown waterLost,
    Optional<Filling> filling,
    List<Change> changes,
    List<Turned> turned,
    List<Concern> concerns,
    List<Caution> weighingCautions,
    List<Caution> cautions,
    List<RecordItem> record,
    List<String> remarks,
    List<String> unknown,
    Place place) {
  public BatchSheet {
    requireNonNull(formula, "formula");
    requireNonNull(version, "version");
    requireNonNull(editions, "editions");
    requireNonNull(grams, "grams");
    requireNonNull(balance, "balance");
    requireNonNull(sum, "sum");
    requireNonNull(waterLost, "waterLost");
    requireNonNull(place, "place");
    weighings = List.copyOf(weighings);
    steps = List.copyOf(steps);
    adjustings = List.copyOf(adjustings);
    targets = List.copyOf(targets);
    changes = List.copyOf(changes);
    turned = List.copyOf(turned);
    concerns = List.copyOf(concerns);
    weighingCautions = List.copyOf(weighingCautions);
    cautions = List.copyOf(cautions);
    record = List.copyOf(record);
    remarks = List.copyOf(remarks);
    unknown = List.copyOf(unknown);
  }

  /**
   * What the batch is weighed with.
   *
   * @param step smallest step that the masses are rounded to, g
   * @param stated whether it is the readability on the sheet; else it is a rounding only
   */
  public record Balance(BigDecimal step, boolean stated) {}

  /** How the amount of a line comes about. */
  public enum How {
    STATED,
    REST,
    TO_PH
  }

  /** Whether the balance weighs a mass well enough. */
  public enum Fit {
    WELL,
    POORLY,
    NOT_KNOWN
  }

  /**
   * One weighing.
   *
   * @param phase empty when not stated
   * @param name as on the formula sheet
   * @param how the amount comes about
   * @param share of the batch as planned; of an amount to pH and of the rest from the likely amount
   * @param grams mass to weigh, on the balance's steps; empty when it is not known
   * @param expected range of an amount to pH, g; empty for all other lines
   * @param error what the weighing may be off by, g, 95 %; empty when the balance is not stated
   * @param fit whether that is good enough
   * @param least least mass that the balance weighs well enough, g
   * @param remarks what to do about it
   * @param missing what is missing where something is not known
   */
  public record Weighing(
      String phase,
      String name,
      How how,
      Optional<Share> share,
      Optional<BigDecimal> grams,
      Optional<Shown> expected,
      Optional<Double> error,
      Fit fit,
      Optional<Double> least,
      List<String> remarks,
      List<String> missing) {
    public Weighing {
      requireNonNull(phase, "phase");
      requireNonNull(name, "name");
      requireNonNull(how, "how");
      requireNonNull(fit, "fit");
      remarks = List.copyOf(remarks);
      missing = List.copyOf(missing);
    }
  }

  /**
   * A caution.
   *
   * @param rule full id
   * @param title a few words
   * @param message what to do
   * @param sure false where it may apply
   * @param sources of the rule
   */
  public record Caution(
      String rule, String title, String message, boolean sure, List<Source> sources) {
    public Caution {
      sources = List.copyOf(sources);
    }
  }

  /**
   * A step of the procedure.
   *
   * @param number from 1
   * @param step as on the sheet
   * @param joining what goes into the vessel here: names with their masses
   * @param cautions that bite here for the first time
   * @param again titles of cautions that bite here once more
   * @param missing targets that the step does not give
   */
  public record WorkStep(
      int number,
      Step step,
      List<Joining> joining,
      List<Caution> cautions,
      List<String> again,
      List<String> missing) {
    public WorkStep {
      requireNonNull(step, "step");
      joining = List.copyOf(joining);
      cautions = List.copyOf(cautions);
      again = List.copyOf(again);
      missing = List.copyOf(missing);
    }
  }

  /**
   * Something that goes into the vessel.
   *
   * @param name as on the sheet
   * @param grams its mass, if known
   */
  public record Joining(String name, Optional<BigDecimal> grams) {}

  /**
   * What is added to reach the pH. Masses are of the adjuster as bought, and of a 10 % solution of
   * it in water; both with the range that holds them 9 times in 10.
   *
   * @param name of the line
   * @param target pH to reach
   * @param within range that the sheet aims at
   * @param before pH before anything is added
   * @param needed mass as bought, in all
   * @param perTenth mass of the 10 % solution that moves the pH by 0.1 near the target
   * @param perTenthAsBought the same of the adjuster as bought
   * @param titration mass of the 10 % solution in all, at some pH on the way
   * @param waterHeldBack water of the batch that the likely amount of the solution needs, g
   * @param missing what is missing where something is not known
   */
  public record Adjusting(
      String name,
      Shown target,
      Optional<Span> within,
      Shown before,
      Shown needed,
      Shown perTenth,
      Shown perTenthAsBought,
      List<Point> titration,
      Optional<Double> waterHeldBack,
      List<String> missing) {
    public Adjusting {
      requireNonNull(name, "name");
      titration = List.copyOf(titration);
      missing = List.copyOf(missing);
    }
  }

  /**
   * A point of a titration.
   *
   * @param pH reached
   * @param solution mass of the 10 % solution added in all
   */
  public record Point(double pH, Shown solution) {}

  /**
   * A number to check the batch against.
   *
   * @param property its name
   * @param meaning one sentence
   * @param aimed range that the sheet aims at, where it says one
   * @param expected what is predicted, or measured, for comparison
   */
  public record Target(String property, String meaning, Optional<Span> aimed, Shown expected) {}

  /**
   * How high the batch stands in the vessel.
   *
   * @param diameter of the vessel, mm
   * @param height of the batch at 1 g/mL, mm
   */
  public record Filling(double diameter, double height) {}

  /**
   * A number that differs from that for the batch on the sheet.
   *
   * @param meaning what it is
   * @param before for the batch on the sheet
   * @param now for this batch
   */
  public record Change(String meaning, Shown before, Shown now) {}

  /**
   * A rule whose outcome differs from that for the batch on the sheet.
   *
   * @param rule full id
   * @param title of the rule
   * @param before its outcome for the batch on the sheet
   * @param now its outcome for this batch
   * @param message what it says for this batch; empty where it says nothing
   */
  public record Turned(String rule, String title, Outcome before, Outcome now, String message) {}

  /**
   * A finding that speaks against making the batch as it is.
   *
   * @param rule full id
   * @param title of the rule
   * @param level it is reported at
   * @param outcome of the rule
   * @param message what is wrong
   */
  public record Concern(
      String rule, String title, Severity level, Outcome outcome, String message) {}

  /**
   * An item of the record.
   *
   * @param part before, while-making, packing or after
   * @param item what is written down
   * @param clause of the standard that asks for it; empty when none is named
   * @param sources of the item
   */
  public record RecordItem(String part, String item, String clause, List<Source> sources) {
    public RecordItem {
      sources = List.copyOf(sources);
    }
  }
}
