package gelwright.profile;

import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.quantity.Unit;
import gelwright.science.FlowLaw;
import java.util.function.DoubleSupplier;
import java.util.function.ToDoubleFunction;

/** The flow law that an ingredient sheet tells of a gum. */
public final class GumLaw {
  private GumLaw() {}

  /** The law with the likely value of every parameter, in water of 25 °C. */
  public static FlowLaw likely(Gum gum) {
    return of(gum, name -> parameter(gum, name).likely(), () -> 1);
  }

  /**
   * The law with one parameter shifted within its doubt.
   *
   * @param parameter its name
   * @param deviations standard deviations
   */
  public static FlowLaw shifted(Gum gum, String parameter, double deviations) {
    return of(
        gum,
        name ->
            name.equals(parameter)
                ? parameter(gum, name).shifted(deviations)
                : parameter(gum, name).likely(),
        () -> 1);
  }

  /**
   * The law with one of the doubts shifted that move several parameters at once.
   *
   * @param doubt its number in {@link Gum#together}
   * @param part of its 90 % range, 1 for the upper end
   */
  public static FlowLaw together(Gum gum, int doubt, double part) {
    double[] parts = new double[gum.together().size()];
    parts[doubt] = part;
    return of(gum, name -> parameter(gum, name).likely() * moved(gum, name, parts), () -> 1);
  }

  /** Factor on a parameter where each doubt that moves several stands at a part of its range. */
  static double moved(Gum gum, String name, double[] parts) {
    double logarithm = 0;
    for (int i = 0; i < parts.length; i++) {
      logarithm += parts[i] * Math.log(gum.together().get(i).getOrDefault(name, 1.0));
    }
    return logarithm == 0 ? 1 : Math.exp(logarithm);
  }

  /** A parameter of a gum's law; a gum without it is a programmer's error. */
  static Figure parameter(Gum gum, String name) {
    Figure figure = gum.parameters().get(name);
    if (figure == null) {
      throw new IllegalArgumentException("flow law " + gum.law() + " lacks " + name);
    }
    return figure;
  }

  /**
   * The law with parameters of one's choice.
   *
   * @param parameter value by name, in the base unit
   * @param relaxation factor on the relaxation time of a coil
   */
  static FlowLaw of(Gum gum, ToDoubleFunction<String> parameter, DoubleSupplier relaxation) {
    FlowLaw.Range range = new FlowLaw.Range(gum.from(), gum.to());
    ToDoubleFunction<String> p = parameter;
    return switch (gum.law()) {
      case "herschel-bulkley" -> {
        // A yield stress that is known to ± its own size may be none at all.
        double yield = Math.max(0, p.applyAsDouble("yield"));
        double yieldPower = p.applyAsDouble("yield-power");
        double consistency = p.applyAsDouble("consistency");
        double consistencyPower = p.applyAsDouble("consistency-power");
        yield new FlowLaw.HerschelBulkley(
            yield * Math.pow(gum.at(), -yieldPower),
            yieldPower,
            consistency * Math.pow(gum.at(), -consistencyPower),
            consistencyPower,
            Math.min(2, p.applyAsDouble("flow-index")),
            range);
      }
      case "cross" -> {
        double rest = p.applyAsDouble("zero-shear-viscosity");
        double restPower = p.applyAsDouble("zero-shear-power");
        double time = p.applyAsDouble("time");
        double timePower = p.applyAsDouble("time-power");
        yield new FlowLaw.Cross(
            rest * Math.pow(gum.at(), -restPower),
            restPower,
            time * Math.pow(gum.at(), -timePower),
            timePower,
            Math.min(1, p.applyAsDouble("cross-exponent")),
            range);
      }
      case "coil" ->
          new FlowLaw.RandomCoil(
              p.applyAsDouble("intrinsic-viscosity") / Unit.DECILITRE_PER_GRAM.toBase(1),
              p.applyAsDouble("break"),
              p.applyAsDouble("power-below"),
              p.applyAsDouble("power-above"),
              p.applyAsDouble("molar-mass") * relaxation.getAsDouble(),
              p.applyAsDouble("cross-exponent"),
              p.applyAsDouble("specific-at-break"),
              range);
      case "newtonian" ->
          new FlowLaw.Exponential(p.applyAsDouble("viscosity"), p.applyAsDouble("growth"), range);
      default -> throw new IllegalArgumentException("no such flow law: " + gum.law());
    };
  }
}
