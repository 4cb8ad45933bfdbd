import org.jspecify.annotations.NullMarked;

/**
 * The Gelwright engine as a plain library: what a formula is, what is known of its ingredients, the
 * science that computes its properties, the rule language, and the reviewer.
 *
 * <p>Nothing in here reads or writes, asks for the time, logs, or keeps anything between two calls.
 * Documents are read and written by {@code gelwright.rulesets}.
 */
@NullMarked
module gelwright.core {
  // Annotations only: callers see them in signatures, nobody needs them at run time.
  requires static transitive org.jspecify;
  // Named after its jar: Hipparchus declares no module name of its own.
  requires hipparchus.core;
  requires hipparchus.optim;

  exports gelwright.problem;
  exports gelwright.quantity;
  exports gelwright.formula;
  exports gelwright.ingredient;
  exports gelwright.science;
  exports gelwright.rule;
  exports gelwright.profile;
  exports gelwright.review;
  exports gelwright.prediction;
  exports gelwright.comparison;
  exports gelwright.calibration;
  exports gelwright.batch;
  exports gelwright.labelling;
  exports gelwright.stability;
}
