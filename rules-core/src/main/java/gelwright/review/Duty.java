package gelwright.review;

import gelwright.ingredient.Source;
import gelwright.rule.Severity;
import java.util.List;

/**
 * Something that has to be done: declare, warn, protect.
 *
 * @param rule full id
 * @param title of the rule
 * @param applies {@link Outcome#APPLIES}, {@link Outcome#MAY_APPLY}, or {@link Outcome#HOLDS} where
 *     the sheet's label shows that it is done
 * @param severity of not doing it
 * @param subject what it is about
 * @param message what to do
 * @param lesson why
 * @param missing what is missing to be sure that it applies
 * @param sources of the rule and the row
 */
public record Duty(
    String rule,
    String title,
    Outcome applies,
    Severity severity,
    Subject subject,
    String message,
    String lesson,
    List<String> missing,
    List<Source> sources) {
  public Duty {
    missing = List.copyOf(missing);
    sources = List.copyOf(sources);
  }
}
