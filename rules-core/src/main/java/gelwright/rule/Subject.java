package gelwright.rule;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Odds;
import java.util.Optional;
import java.util.Set;

/**
 * What one outcome of a rule is about: an item, a row of a table, or the formula as a whole.
 *
 * @param name the item's name, the row's key, or empty for the formula as a whole
 * @param item the item, where the rule goes through items
 * @param row the row, where the rule goes through a table
 * @param membership odds that the item is of the kind the rule goes through
 * @param membershipMissing what is missing to be sure of that
 */
public record Subject(
    String name,
    Optional<Facts.Item> item,
    Optional<Table.Row> row,
    Odds membership,
    Set<String> membershipMissing) {

  /** The formula as a whole. */
  public static final Subject NONE =
      new Subject("", Optional.empty(), Optional.empty(), Odds.CERTAIN, Set.of());

  public Subject {
    requireNonNull(name, "name");
    requireNonNull(item, "item");
    requireNonNull(row, "row");
    requireNonNull(membership, "membership");
    membershipMissing = Sets.copy(membershipMissing);
  }

  /** An item of a kind. */
  public static Subject of(Facts.Item item) {
    return new Subject(
        item.name(),
        Optional.of(item),
        Optional.empty(),
        item.membership(),
        item.membershipMissing());
  }

  /** A row of a table. */
  public static Subject of(Table.Row row) {
    return new Subject(row.key(), Optional.empty(), Optional.of(row), Odds.CERTAIN, Set.of());
  }

  Facts itemFacts() {
    return item.orElseThrow(() -> new IllegalArgumentException("subject is no item: " + name))
        .facts();
  }
}
