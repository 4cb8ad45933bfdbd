package gelwright.profile;

import gelwright.formula.Equipment;
import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.science.FlowCurve;
import gelwright.science.Stirring;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** How much of the gel the stirrer moves. */
final class StirringProperties {
  /**
   * Density of the gel, kg/m³. Water-based gels are within a tenth of it, which is 3 % in width.
   */
  private static final double DENSITY = 1000;

  /**
   * ×/÷ range of the width that moves: the power number is known to a factor of 1.5 ({@link
   * Stirring}), and a ball is one shape among others. Engine value, not measured.
   */
  private static final double RANGE = 1.3;

  /** Where the part that moves reaches the wall, % of the vessel: all of the gel moves. */
  private static final double WIDEST = 100;

  static final List<Definition> ALL =
      List.of(
          Definition.factor(
              "gel.stirred-width",
              Unit.PERCENT,
              "width of the part of the gel that the fastest stirring after its hydration moves, of"
                  + " the width of the vessel; what stands still is beyond it",
              (world, item) -> width(world)));

  private StirringProperties() {}

  private static Reading width(World world) {
    Equipment equipment = world.model().equipment();
    Optional<Stirring.Impeller> impeller =
        equipment.stirrerType().flatMap(StirringProperties::impeller);
    Reading yield = world.of(GelProperties.YIELD);
    var curve = GelProperties.curve(world);
    Set<String> missing = new TreeSet<>(yield.missing());
    missing.addAll(curve.missing());
    if (impeller.isEmpty()) {
      missing.add("stirrer (equipment.stirrer)");
    }
    if (equipment.stirrerDiameter().isEmpty()) {
      missing.add("diameter of the stirrer (equipment.stirrer)");
    }
    if (equipment.vesselDiameter().isEmpty()) {
      missing.add("diameter of the vessel (equipment.vessel)");
    }
    Optional<Double> speed = fastest(world.model().method());
    if (speed.isEmpty()) {
      missing.add("stirring speed after the gum has hydrated (stir)");
    }
    if (!missing.isEmpty() || curve.thickest().isEmpty()) {
      return new Reading(0, WIDEST, missing);
    }
    double stirrer = equipment.stirrerDiameter().orElseThrow().inBase();
    double vessel = equipment.vesselDiameter().orElseThrow().inBase();
    FlowCurve gel = curve.thickest().get().get(0);
    double reynolds =
        Stirring.reynolds(impeller.orElseThrow(), gel, DENSITY, speed.orElseThrow(), stirrer);
    double width =
        Stirring.stirredWidth(
            Stirring.powerNumber(impeller.orElseThrow(), reynolds),
            DENSITY,
            speed.orElseThrow(),
            stirrer,
            yield.low());
    world.source("solomon-1981-recalled");
    world.predicted();
    return Reading.of(
        Math.min(
            WIDEST,
            world.withinFactor(
                Math.min(WIDEST, 100 * width / vessel),
                RANGE,
                "width of the gel that the stirrer moves",
                "a drop of colour stirred into the gel")));
  }

  // Only what is stirred after the gum has hydrated is a gel when it is stirred.
  private static Optional<Double> fastest(List<Step> method) {
    int ready = -1;
    for (int i = 0; i < method.size(); i++) {
      boolean swells = method.get(i).action() == Step.Action.HYDRATE;
      ready = swells || (ready < 0 && method.get(i).action() == Step.Action.DISPERSE) ? i : ready;
    }
    return method.subList(ready + 1, method.size()).stream()
        .flatMap(step -> step.stir().stream())
        .map(Quantity::inBase)
        .filter(each -> each > 0)
        .max(Double::compare);
  }

  private static Optional<Stirring.Impeller> impeller(String type) {
    String name = type.toUpperCase(Locale.ROOT).replace('-', '_');
    return Arrays.stream(Stirring.Impeller.values())
        .filter(each -> each.name().equals(name))
        .findFirst();
  }
}
