package gelwright.profile;

import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.Weighing;
import java.util.Optional;
import java.util.Set;

/** What the balance at hand can weigh. */
final class WeighingProperties {
  /** Tolerance of what has a limit or a least level: 1 %. Common practice, no source. */
  private static final double FINE = 0.01;

  /** Tolerance of everything else: 5 %. Common practice, no source. */
  private static final double COARSE = 0.05;

  static final Definition MINIMUM_MASS =
      Definition.number(
          "minimum-mass",
          Unit.GRAM,
          "least mass of the line that the balance weighs: to 1 % a preservative or an active, to"
              + " 5 % all else",
          (world, item) -> minimum(world, CompositionProperties.line(world.model(), item)));

  private WeighingProperties() {}

  private static Reading minimum(World world, Recipe.ResolvedLine line) {
    Optional<Quantity> balance = world.model().equipment().balance();
    if (balance.isEmpty()) {
      return Reading.unknown(0, Double.POSITIVE_INFINITY, "balance (equipment.balance)");
    }
    double readability = balance.get().inBase();
    world.source("usp-41");
    Truth fine = fine(line);
    double low = Weighing.minimumWeight(0, readability, fine.odds().low() == 1 ? FINE : COARSE);
    double high = Weighing.minimumWeight(0, readability, fine.odds().high() > 0 ? FINE : COARSE);
    return low == high ? Reading.of(low) : new Reading(low, high, fine.missing());
  }

  private static Truth fine(Recipe.ResolvedLine line) {
    Set<String> missing = Set.of("functions of " + line.name());
    return line.ingredient()
        .map(
            ingredient ->
                ingredient
                    .functions()
                    .fold(
                        set -> Truth.of(set.contains("preservative") || set.contains("active")),
                        Truth.IMPOSSIBLE,
                        Truth.open(missing)))
        .orElseGet(() -> Truth.open(missing));
  }
}
