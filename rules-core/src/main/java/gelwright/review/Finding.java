package gelwright.review;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Acceptance;
import gelwright.ingredient.Source;
import gelwright.problem.Place;
import gelwright.quantity.Odds;
import gelwright.rule.Severity;
import gelwright.rule.Trace;
import java.util.List;
import java.util.Optional;

/**
 * Something a rule has to say: it breaks, is borderline, or could not be checked.
 *
 * @param rule full id
 * @param title of the rule
 * @param severity of the rule
 * @param outcome breaks, borderline or unknown
 * @param odds that the requirement is met
 * @param level what it is reported at
 * @param subject what it is about
 * @param observed the number that counts, where the requirement compares numbers
 * @param limit what it is compared with; for a range the end it is nearer to
 * @param message what is wrong, by how much
 * @param lesson why it matters
 * @param sources of the rule, the table row and the numbers
 * @param missing what is missing, in the trade's words, sorted; empty unless unknown
 * @param settledBy what measurement would settle a borderline outcome, most useful first
 * @param where in the sheet
 * @param mustBeKnown whether unknown counts as a break for this rule
 * @param acceptance the acceptance that covers it, if one does
 * @param trace every sub-expression's value, when asked for
 */
public record Finding(
    String rule,
    String title,
    Severity severity,
    Outcome outcome,
    Odds odds,
    Severity level,
    Subject subject,
    Optional<Shown> observed,
    Optional<Shown> limit,
    String message,
    String lesson,
    List<Source> sources,
    List<String> missing,
    List<String> settledBy,
    Place where,
    boolean mustBeKnown,
    Optional<Acceptance> acceptance,
    Optional<Trace> trace) {
  public Finding {
    requireNonNull(rule, "rule");
    sources = List.copyOf(sources);
    missing = List.copyOf(missing);
    settledBy = List.copyOf(settledBy);
  }

  public boolean isAccepted() {
    return acceptance.isPresent();
  }
}
