package gelwright.formula;

import gelwright.quantity.Share;

/** How much of a raw material a line asks for. */
public sealed interface Amount {
  /** A stated share. */
  record Stated(Share share) implements Amount {}

  /** Whatever is left to 100 %: q.s. ad 100. */
  record Rest() implements Amount {}

  /** As much as takes the pH to its target; the water makes room. */
  record ToPH() implements Amount {}
}
