package gelwright.rule;

import gelwright.quantity.Dimension;
import java.util.Set;

/** The type of a property or an expression. */
public sealed interface Type {
  /** A number of one dimension. */
  record Number(Dimension dimension) implements Type {}

  /**
   * One name out of several.
   *
   * @param options the names there are; empty when any name is possible (an INCI name, a phase)
   */
  record Choice(Set<String> options) implements Type {
    public Choice {
      options = Set.copyOf(options);
    }
  }

  /**
   * Any number of names out of several.
   *
   * @param options the names there are; empty when any name is possible
   */
  record Choices(Set<String> options) implements Type {
    public Choices {
      options = Set.copyOf(options);
    }
  }

  /** A statement that has odds. */
  record Truth() implements Type {}
}
