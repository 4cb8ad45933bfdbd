package gelwright.rule;

import java.util.Locale;
import java.util.Optional;

/** How much a broken rule matters. The words are SARIF's (OASIS SARIF 2.1.0, property "level"). */
public enum Severity {
  NOTE,
  WARNING,
  ERROR;

  /** One step milder; a note stays a note. */
  public Severity milder() {
    return this == ERROR ? WARNING : NOTE;
  }

  /** As written in a rule set and in a report. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  public static Optional<Severity> of(String word) {
    for (Severity severity : values()) {
      if (severity.word().equals(word)) {
        return Optional.of(severity);
      }
    }
    return Optional.empty();
  }
}
