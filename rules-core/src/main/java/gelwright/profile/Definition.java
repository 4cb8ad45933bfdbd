package gelwright.profile;

import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import gelwright.rule.Type;
import java.util.Set;

/**
 * A property: its name, what it is, and how it is computed. Definitions are made once, when the
 * class that holds them is loaded, and are compared by identity; all but those that are made {@link
 * #once} for a profile.
 */
final class Definition extends Computable {
  /** Computes a number of the formula or of an item. */
  interface Number {
    Reading of(World world, int item);
  }

  /** Computes names; nothing about them is in doubt, at most missing. */
  interface Names {
    Chosen of(Model model, int item);
  }

  /** Computes a statement; nothing about it is in doubt, at most missing. */
  interface Statement {
    Truth of(Model model, int item);
  }

  private final String name;
  private final Type type;
  private final Unit unit;
  private final Estimate.Scale scale;
  private final boolean alwaysKnown;
  private final String meaning;
  private final Object function;

  private Definition(
      String name,
      Type type,
      Unit unit,
      Estimate.Scale scale,
      boolean alwaysKnown,
      String meaning,
      Object function) {
    this.name = name;
    this.type = type;
    this.unit = unit;
    this.scale = scale;
    this.alwaysKnown = alwaysKnown;
    this.meaning = meaning;
    this.function = function;
  }

  /** A number known to ± something. */
  static Definition number(String name, Unit unit, String meaning, Number function) {
    return new Definition(
        name,
        new Type.Number(unit.dimension()),
        unit,
        Estimate.Scale.LINEAR,
        false,
        meaning,
        function);
  }

  /** A number known to ×/÷ something. */
  static Definition factor(String name, Unit unit, String meaning, Number function) {
    return new Definition(
        name,
        new Type.Number(unit.dimension()),
        unit,
        Estimate.Scale.FACTOR,
        false,
        meaning,
        function);
  }

  /** A number that no missing input can make unknown. */
  static Definition exact(String name, Unit unit, String meaning, Number function) {
    return new Definition(
        name,
        new Type.Number(unit.dimension()),
        unit,
        Estimate.Scale.LINEAR,
        true,
        meaning,
        function);
  }

  /** A number that one profile alone is asked for, at one pH or of one set of ingredients. */
  static Definition once(Estimate.Scale scale, Number function) {
    return new Definition(
        "", new Type.Number(Unit.NONE.dimension()), Unit.NONE, scale, false, "", function);
  }

  static Definition choice(
      String name, Set<String> options, boolean alwaysKnown, String meaning, Names function) {
    return new Definition(
        name,
        new Type.Choice(options),
        Unit.NONE,
        Estimate.Scale.LINEAR,
        alwaysKnown,
        meaning,
        function);
  }

  static Definition choices(
      String name, Set<String> options, boolean alwaysKnown, String meaning, Names function) {
    return new Definition(
        name,
        new Type.Choices(options),
        Unit.NONE,
        Estimate.Scale.LINEAR,
        alwaysKnown,
        meaning,
        function);
  }

  static Definition truth(String name, boolean alwaysKnown, String meaning, Statement function) {
    return new Definition(
        name, new Type.Truth(), Unit.NONE, Estimate.Scale.LINEAR, alwaysKnown, meaning, function);
  }

  /** The number, in a world. */
  @Override
  Reading of(World world, int item) {
    return ((Number) function).of(world, item);
  }

  Chosen chosen(Model model, int item) {
    return ((Names) function).of(model, item);
  }

  Truth truth(Model model, int item) {
    return ((Statement) function).of(model, item);
  }

  String name() {
    return name;
  }

  Type type() {
    return type;
  }

  Unit unit() {
    return unit;
  }

  Estimate.Scale scale() {
    return scale;
  }

  boolean alwaysKnown() {
    return alwaysKnown;
  }

  String meaning() {
    return meaning;
  }

  boolean isNumber() {
    return type instanceof Type.Number;
  }
}
