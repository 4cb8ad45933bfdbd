package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import java.util.List;
import java.util.Optional;

/**
 * A rule as written: texts with their places, not yet checked.
 *
 * @param id stable, kebab-case, unique within its rule set
 * @param title a few words
 * @param kind a requirement that can break, or a duty that applies
 * @param severity of a break
 * @param forEach what the rule goes through item by item ("preservative", "row of TABLE"), if it
 *     does
 * @param when when the rule applies; always when absent
 * @param require what must hold; for a duty what is checked where the sheet lets it be checked
 * @param message template with {@code {expression}} places
 * @param lesson two to five sentences that teach why
 * @param levers what a remedy may change, as written
 * @param sources ids of sources
 * @param alwaysKnown claims that the rule can never be unknown; the checker proves it
 * @param mustBeKnown unknown is reported at the rule's severity
 * @param keepWhenBorderline a borderline outcome that probably breaks keeps the full severity
 * @param mayBeAccepted whether somebody may take responsibility for its finding
 * @param aliases earlier ids of the same rule
 * @param place of the rule
 */
public record Rule(
    String id,
    Text title,
    Kind kind,
    Severity severity,
    Optional<Text> forEach,
    Optional<Text> when,
    Optional<Text> require,
    Text message,
    String lesson,
    List<Text> levers,
    List<Text> sources,
    boolean alwaysKnown,
    boolean mustBeKnown,
    boolean keepWhenBorderline,
    boolean mayBeAccepted,
    List<String> aliases,
    Place place) {

  /** What kind of rule it is. */
  public enum Kind {
    /** Something must hold. */
    REQUIREMENT,
    /** Something has to be done: a warning, a declaration, a precaution. */
    DUTY
  }

  public Rule {
    requireNonNull(id, "id");
    levers = List.copyOf(levers);
    sources = List.copyOf(sources);
    aliases = List.copyOf(aliases);
  }
}
