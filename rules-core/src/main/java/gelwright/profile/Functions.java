package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Type;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.ChronoUnit;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Functions of rules: sums over named ingredients, the viscosity at any shear rate, days since a
 * date, what the label says.
 */
final class Functions {
  /** What the names mean that a function is given. */
  enum Names {
    /** Ingredients: the body gets the numbers of those in the recipe, a {@link BitSet}. */
    INGREDIENTS,
    /** Words: the body gets them as written, a set. */
    WORDS
  }

  /** Computes a function of numbers, and of what {@link Names} says where names are given. */
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
   * @param names what names mean to it
   * @param body how it is computed
   */
  record Function(
      String name,
      List<Type> parameters,
      Type.Number result,
      Unit unit,
      gelwright.quantity.Estimate.Scale scale,
      String meaning,
      Names names,
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
              Names.WORDS,
              (world, arguments) ->
                  GelProperties.viscosityAt(world, Math.max(1e-6, (Double) arguments.get(0)))),
          shareAs(
              "share-of", "sum of the shares of the ingredients named", IngredientProperties.SHARE),
          shareAs(
              "share-as-acid-of",
              "sum of the shares of the ingredients named, each counted as its free acid or base",
              AcidityProperties.SHARE_AS_ACID),
          new Function(
              "share-counted-as",
              List.of(NAMES, new Type.Number(Unit.GRAM_PER_MOL.dimension())),
              new Type.Number(Unit.PERCENT.dimension()),
              Unit.PERCENT,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "sum of the shares of the ingredients named, counted as what one mole of each holds: "
                  + "salts with one aluminium as aluminium with 26.98 g/mol",
              Names.INGREDIENTS,
              (world, arguments) ->
                  countedAs(world, (BitSet) arguments.get(0), (Double) arguments.get(1))),
          new Function(
              "days-since",
              List.of(NAMES),
              new Type.Number(Unit.DAY.dimension()),
              Unit.DAY,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "days from a date, written as 2027-01-01, to the day of the review; negative before",
              Names.WORDS,
              (world, arguments) -> daysSince(world, (Set<?>) arguments.get(0))),
          new Function(
              "label-warnings-saying",
              List.of(NAMES),
              new Type.Number(Unit.NONE.dimension()),
              Unit.NONE,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "how many warnings of the label say one of the texts named, whatever the punctuation",
              Names.WORDS,
              (world, arguments) ->
                  LabelProperties.warningsSaying(world.model(), (Set<?>) arguments.get(0))),
          new Function(
              "label-entries-of",
              List.of(NAMES),
              new Type.Number(Unit.NONE.dimension()),
              Unit.NONE,
              gelwright.quantity.Estimate.Scale.LINEAR,
              "how many entries of the label's ingredient list are one of the ingredients named",
              Names.WORDS,
              (world, arguments) ->
                  LabelProperties.entriesOf(world.model(), (Set<?>) arguments.get(0))),
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
        Names.INGREDIENTS,
        (world, arguments) -> sum(world, arguments.get(0), share));
  }

  private static Reading sum(World world, Object named, Definition share) {
    BitSet numbers = (BitSet) named;
    Reading sum = Reading.of(0);
    for (int i = numbers.nextSetBit(0); i >= 0; i = numbers.nextSetBit(i + 1)) {
      sum = sum.plus(world.of(share, i));
    }
    return sum.plus(mayBeAny(world, numbers));
  }

  // The same of all strangers that are not asked for by name.
  private static Reading mayBeAny(World world, BitSet numbers) {
    Reading sum = Reading.of(0);
    for (Component component : world.model().recipe().strangers()) {
      if (!numbers.get(component.index())) {
        sum = sum.plus(mayBeAny(world, component));
      }
    }
    return sum;
  }

  // The same, each share times what a mole of it is counted as over its molar mass as bought, with
  // its crystal water. No part of an ingredient weighs more than the ingredient.
  private static Reading countedAs(World world, BitSet numbers, double countedAs) {
    Reading sum = Reading.of(0);
    for (int i = numbers.nextSetBit(0); i >= 0; i = numbers.nextSetBit(i + 1)) {
      Component component = world.model().component(i);
      Reading share = world.of(IngredientProperties.SHARE, i);
      Optional<Figure> molarMass = AcidityProperties.molarMass(component);
      if (molarMass.isEmpty()) {
        Set<String> missing = new TreeSet<>(share.missing());
        missing.add(component.missing(Trait.MOLAR_MASS.key()));
        sum = sum.plus(new Reading(0, share.high(), missing));
      } else {
        String what = component.missing(Trait.MOLAR_MASS.key());
        double factor = countedAs / world.value(molarMass.get(), what, what);
        sum = sum.plus(share.map(value -> value * factor));
      }
    }
    return sum.plus(mayBeAny(world, numbers));
  }

  private static Reading daysSince(World world, Set<?> dates) {
    Optional<LocalDate> on = world.model().on();
    if (on.isEmpty() || dates.size() != 1) {
      return Reading.unknown(
          Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, "the day of the review");
    }
    String written = String.valueOf(dates.iterator().next());
    try {
      long days = ChronoUnit.DAYS.between(LocalDate.parse(written), on.get());
      return Reading.of(Unit.DAY.toBase((double) days));
    } catch (DateTimeParseException unreadable) {
      return Reading.unknown(
          Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, "the date " + written);
    }
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
