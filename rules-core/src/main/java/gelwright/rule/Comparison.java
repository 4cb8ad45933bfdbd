package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Estimate;
import java.util.List;
import java.util.Optional;

/**
 * The comparison that decides a requirement.
 *
 * @param observed what is looked at
 * @param relation how it has to stand to the limit
 * @param limit what it is compared with; the lower limit for {@link Relation#WITHIN}
 * @param upperLimit the upper limit for {@link Relation#WITHIN} and {@link Relation#OUTSIDE}
 * @param undecidedBy the doubts that keep it from being decided, the largest first; empty where it
 *     is decided or where an input is missing
 */
public record Comparison(
    Named observed,
    Relation relation,
    Named limit,
    Optional<Named> upperLimit,
    List<Estimate.Contribution> undecidedBy) {
  public Comparison {
    requireNonNull(observed, "observed");
    requireNonNull(relation, "relation");
    requireNonNull(limit, "limit");
    requireNonNull(upperLimit, "upperLimit");
    undecidedBy = List.copyOf(undecidedBy);
  }
}
