package gelwright.rule;

import gelwright.quantity.Bounded;
import gelwright.quantity.Odds;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Where a compiled rule reads its inputs: the properties of one formula, or of one item of it, by
 * the slot that the {@link Vocabulary} gave them. Slots of the wrong type are a programmer's error.
 * Implementations compute each property at most once and may be used by one thread.
 */
public interface Facts {
  /** A number in the coherent base unit of its dimension. */
  Bounded number(int slot);

  /** A choice or a set of choices. */
  Chosen choice(int slot);

  /** A statement. */
  Truth truth(int slot);

  /**
   * A function's value.
   *
   * @param slot the function's slot in the vocabulary
   * @param arguments as the vocabulary declares them
   */
  Bounded call(int slot, List<Argument> arguments);

  /** The items of a kind, in recipe order; possible members included. */
  List<? extends Item> items(int kind);

  /** The same as what rules are asked of; every rule that goes through the kind asks for them. */
  default List<Subject> subjects(int kind) {
    List<Subject> subjects = new ArrayList<>();
    for (Item item : items(kind)) {
      subjects.add(Subject.of(item));
    }
    return List.copyOf(subjects);
  }

  /** An argument of a function. */
  sealed interface Argument {
    record Number(Bounded value) implements Argument {}

    /**
     * Names.
     *
     * @param value the names
     * @param lasting whether this very value comes with every call: it stands in the rule itself or
     *     in a table, so that what it means may be kept
     */
    record Names(Chosen value, boolean lasting) implements Argument {}
  }

  /** One item: a preservative, a gum, a step, with the facts known of it. */
  interface Item {
    /**
     * What it is called in a finding, such as the INCI name or "step 3"; unique within its kind.
     */
    String name();

    /** Odds that it is of the kind at all: open where an ingredient's functions are not known. */
    Odds membership();

    /** What is missing to be sure of the membership. */
    Set<String> membershipMissing();

    /**
     * The item's own properties; {@link Facts#items} and {@link Facts#call} are not asked of it.
     */
    Facts facts();
  }
}
