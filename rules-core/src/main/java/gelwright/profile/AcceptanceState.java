package gelwright.profile;

import static java.util.Objects.requireNonNull;

/**
 * What became of an acceptance on the sheet.
 *
 * @param rule full id of the rule it is for
 * @param subject what it is about; empty for the formula as a whole
 * @param state covers, worse, lapsed, unused or not-allowed
 */
public record AcceptanceState(String rule, String subject, String state) {
  public AcceptanceState {
    requireNonNull(rule, "rule");
    requireNonNull(subject, "subject");
    requireNonNull(state, "state");
  }

  String name() {
    return subject.isEmpty() ? rule : rule + " for " + subject;
  }
}
