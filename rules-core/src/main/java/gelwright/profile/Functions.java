package gelwright.profile;

import gelwright.quantity.Unit;
import gelwright.rule.Type;
import java.util.BitSet;
import java.util.List;
import java.util.Set;

/** Functions of rules: sums over named ingredients, the viscosity at any shear rate. */
final class Functions {
  /** Computes a function of numbers, and of numbers of components where names are given. */
  interface Body {
    Reading of(World world, List<Object> arguments);
  }

  /**
   * A function.
   *
   * @param name as rules write it
   * @param parameters types of its arguments
   * @param result its type
   * @param unit how its value is printed
   * @param scale how its value is in doubt
   * @param meaning one sentence for the reference
   * @param body how it is computed
   */
  record Function(
      String name,
      List<Type> parameters,
      Type.Number result,
      Unit unit,
      gelwright.quantity.Estimate.Scale scale,
      String meaning,
      Body body) {}

  private static final Type NAMES = new Type.Choices(Set.of());

  static final List<Function> ALL =
      List.of(
          new Function(
              "gel.viscosity",
              List.of(new Type.Number(Unit.PER_SECOND.dimension())),
              new Type.Number(Unit.PASCAL_SECOND.dimension()),
              Unit.PASCAL_SECOND,
              gelwright.quantity.Estimate.Scale.FACTOR,
              "apparent viscosity of the gel at a shear rate",
              (world, arguments) ->
                  GelProperties.viscosityAt(world, Math.max(1e-6, (Double) arguments.get(0)))),
          new Function(
              "share-of",
              List.of(NAMES),
              new Type.Number(Unit.PERCENT.dimension()),
              Unit.PERCENT,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "sum of the shares of the ingredients named",
              (world, arguments) -> sum(world, arguments.get(0), IngredientProperties.SHARE)),
          new Function(
              "share-as-acid-of",
              List.of(NAMES),
              new Type.Number(Unit.PERCENT.dimension()),
              Unit.PERCENT,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "sum of the shares of the ingredients named, each counted as its free acid or base",
              (world, arguments) -> sum(world, arguments.get(0), AcidityProperties.SHARE_AS_ACID)),
          shareAs(
              "share-as-zinc-of",
              "sum of the shares of the ingredients named, counted as zinc",
              AcidityProperties.SHARE_AS_ZINC),
          shareAs(
              "share-as-retinol-of",
              "sum of the shares of the ingredients named, counted as retinol",
              AcidityProperties.SHARE_AS_RETINOL),
          shareAs(
              "share-as-sulfur-dioxide-of",
              "sum of the shares of the ingredients named, counted as sulfur dioxide",
              AcidityProperties.SHARE_AS_SULFUR_DIOXIDE));

  private Functions() {}

  private static Function shareAs(String name, String meaning, Definition share) {
    return new Function(
        name,
        List.of(NAMES),
        new Type.Number(Unit.PERCENT.dimension()),
        Unit.PERCENT,
        gelwright.quantity.Estimate.Scale.LINEAR,
        meaning,
        (world, arguments) -> sum(world, arguments.get(0), share));
  }

  private static Reading sum(World world, Object named, Definition share) {
    BitSet numbers = (BitSet) named;
    Reading sum = Reading.of(0);
    for (int i = numbers.nextSetBit(0); i >= 0; i = numbers.nextSetBit(i + 1)) {
      sum = sum.plus(world.of(share, i));
    }
    for (Component component : world.model().recipe().strangers()) {
      if (!numbers.get(component.index())) {
        sum = sum.plus(mayBeAny(world, component));
      }
    }
    return sum;
  }

  // What stands under a name nobody knows may be any of the ingredients asked for.
  private static Reading mayBeAny(World world, Component component) {
    Reading share = world.of(IngredientProperties.SHARE, component.index());
    return share.high() > 0
        ? new Reading(
            0,
            share.high(),
            Reading.union(share.missing(), Set.of("what " + component.name() + " is")))
        : Reading.of(0);
  }
}
