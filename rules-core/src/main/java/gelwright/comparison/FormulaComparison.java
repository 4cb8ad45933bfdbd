package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.prediction.Curve;
import gelwright.review.Subject;
import java.util.List;
import java.util.Optional;

/**
 * Two formulas side by side. A prediction with its sources: it does not say which of the two is the
 * better one, and it is no certificate and no safety assessment.
 *
 * @param first the one that is compared with
 * @param second the one that is compared
 * @param brief what differs in brief, batch, equipment, label, readings and acceptances
 * @param recipe every line of both recipes, in the order of the second; what was removed stands
 *     where it stood in the first
 * @param method every step of both procedures, laid beside each other
 * @param properties every number that both formulas have, in the order of a prediction
 * @param findings of either formula, those of the second in their order, then those lost
 * @param duties of either formula, likewise
 * @param unchecked what could not be checked on at least one side
 * @param curves both formulas in one: those of a prediction in their order, then {@code
 *     flow-ratio}, the viscosity of the second over that of the first
 */
public record FormulaComparison(
    FormulaSide first,
    FormulaSide second,
    List<FieldChange> brief,
    List<LineChange> recipe,
    List<StepChange> method,
    List<PropertyComparison> properties,
    List<FindingChange> findings,
    List<DutyChange> duties,
    List<OpenCheck> unchecked,
    List<Curve> curves) {
  public FormulaComparison {
    requireNonNull(first, "first");
    requireNonNull(second, "second");
    brief = List.copyOf(brief);
    recipe = List.copyOf(recipe);
    method = List.copyOf(method);
    properties = List.copyOf(properties);
    findings = List.copyOf(findings);
    duties = List.copyOf(duties);
    unchecked = List.copyOf(unchecked);
    curves = List.copyOf(curves);
  }

  /** Both names: what a picture is of. */
  public String about() {
    return first.label() + " and " + second.label();
  }

  /** A property of the formulas as a whole by its name. */
  public Optional<PropertyComparison> property(String name) {
    return property(name, Subject.FORMULA.name());
  }

  /** A property of an item by its name, kind included, and the name of the item. */
  public Optional<PropertyComparison> property(String name, String item) {
    return properties.stream()
        .filter(each -> each.name().equals(name) && each.subject().name().equals(item))
        .findFirst();
  }

  /** A curve by its name. */
  public Optional<Curve> curve(String name) {
    return curves.stream().filter(each -> each.name().equals(name)).findFirst();
  }
}
