package gelwright.review;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * What became of a rule for one subject.
 *
 * @param outcome what became of it
 * @param missing what is missing, in the trade's words, sorted; empty unless it is unknown or a
 *     duty that may apply
 */
public record Verdict(Outcome outcome, List<String> missing) {
  static final Verdict HOLDS = new Verdict(Outcome.HOLDS, List.of());
  static final Verdict NOT_APPLICABLE = new Verdict(Outcome.NOT_APPLICABLE, List.of());
  static final Verdict DOES_NOT_APPLY = new Verdict(Outcome.DOES_NOT_APPLY, List.of());

  public Verdict {
    requireNonNull(outcome, "outcome");
    missing = List.copyOf(missing);
  }
}
