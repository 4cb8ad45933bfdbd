package gelwright.review;

import static java.util.Objects.requireNonNull;

/**
 * A rule and what it is asked of.
 *
 * @param rule full id
 * @param subject what it is about
 */
public record Concern(String rule, Subject subject) {
  public Concern {
    requireNonNull(rule, "rule");
    requireNonNull(subject, "subject");
  }
}
