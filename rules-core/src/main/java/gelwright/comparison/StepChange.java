package gelwright.comparison;

import static java.util.Objects.requireNonNull;

import gelwright.formula.Step;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A step of the procedure and what became of it, in the order of both procedures.
 *
 * @param change what became of it
 * @param firstNumber its number in the first procedure, from 1, if it is there
 * @param first as the first procedure has it
 * @param secondNumber its number in the second procedure, from 1, if it is there
 * @param second as the second procedure has it
 * @param fields what differs: phase, with, into, temperature, pH, over, for, stir; empty unless
 *     changed
 */
public record StepChange(
    Change change,
    OptionalInt firstNumber,
    Optional<Step> first,
    OptionalInt secondNumber,
    Optional<Step> second,
    List<FieldChange> fields) {
  public StepChange {
    requireNonNull(change, "change");
    fields = List.copyOf(fields);
    if (first.isPresent() != firstNumber.isPresent()
        || second.isPresent() != secondNumber.isPresent()) {
      throw new IllegalArgumentException("a step has a number exactly where it is there");
    }
    if (change != Change.of(first.isPresent(), second.isPresent(), fields.isEmpty())) {
      throw new IllegalArgumentException("change of a step is not " + change);
    }
  }
}
