package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.problem.Place;
import java.util.List;
import java.util.Optional;

/**
 * A rule set as read.
 *
 * @param id kebab-case, stable
 * @param title a few words
 * @param edition such as {@code 2026.1}
 * @param rules its rules, in order
 * @param tables its tables
 * @param changes what a house rule set changes in rules of other sets
 * @param place of the rule set
 */
public record RuleSet(
    String id,
    String title,
    String edition,
    List<Rule> rules,
    List<Table> tables,
    List<Change> changes,
    Place place) {
  public RuleSet {
    requireNonNull(id, "id");
    rules = List.copyOf(rules);
    tables = List.copyOf(tables);
    changes = List.copyOf(changes);
  }

  /**
   * A change a house makes to a rule of another set, with its reason.
   *
   * @param rule full id ({@code set.rule}) and where it is written
   * @param how in which direction
   * @param require the requirement that replaces the rule's own, if it is replaced
   * @param when the condition that replaces the rule's own, if it is replaced
   * @param severity the new severity, if it changes
   * @param because the reason; never blank
   */
  public record Change(
      Text rule,
      How how,
      Optional<Text> require,
      Optional<Text> when,
      Optional<Severity> severity,
      String because) {
    public Change {
      requireNonNull(because, "because");
    }
  }

  /** Direction of a change. */
  public enum How {
    TIGHTEN,
    RELAX,
    SWITCH_OFF
  }
}
