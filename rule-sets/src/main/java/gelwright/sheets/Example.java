package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.sheets.tree.Node;
import java.util.Optional;

/**
 * A rule's own example: what is changed in a base formula, and what the rule must then say.
 *
 * @param rule id of the rule within its set
 * @param row key of the table row the example belongs to; empty for an example of the rule itself
 * @param base name of the base formula
 * @param expected holds, breaks, borderline, unknown, applies, may-apply, does-not-apply or
 *     not-applicable
 * @param overlay what is changed, as {@link Overlay} reads it
 */
public record Example(
    String rule, Optional<String> row, String base, String expected, Node.Mapping overlay) {
  public Example {
    requireNonNull(rule, "rule");
    requireNonNull(row, "row");
    requireNonNull(base, "base");
    requireNonNull(expected, "expected");
    requireNonNull(overlay, "overlay");
  }
}
