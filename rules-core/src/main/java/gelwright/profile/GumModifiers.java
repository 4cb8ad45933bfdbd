package gelwright.profile;

import gelwright.ingredient.Acid;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Gum;
import gelwright.ingredient.Known;
import gelwright.ingredient.Salt;
import gelwright.ingredient.Trait;
import gelwright.quantity.Numbers;
import gelwright.science.FlowLaw;
import gelwright.science.FlowModifiers;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;

/** What salt, pH, ethanol and polyols beside a gum make of its flow. */
final class GumModifiers {
  /** Ethanol in the water phase that any gum bears, %. Common practice, no source. */
  private static final double ETHANOL_BORNE = 10;

  /** Polyol in the water phase that any gum bears, %. Common practice, no source. */
  private static final double POLYOL_BORNE = 30;

  private static final String READING = "a flow curve, or the viscosity at 10 /s";

  private GumModifiers() {}

  /** What is left of yield stress and consistency, as a factor; 1 where nothing is against it. */
  static Reading factor(World world, Component component, Gum gum, double concentration) {
    Known<Salt> salt = gum.salt();
    if (salt.isUnknown()) {
      // What is known of the gum holds for its grades.
      salt = component.ingredient().gum().fold(Gum::salt, Known.none(), Known.unknown());
    }
    Reading answer =
        salt.fold(
            known -> salted(world, component, known, concentration),
            Reading.of(1),
            silent(world, component, salt, component.name()));
    Set<String> unborne = unborne(world, component);
    return unborne.isEmpty()
        ? answer
        : new Reading(0, answer.high(), Reading.union(answer.missing(), unborne));
  }

  /**
   * The same for two gums that have a flow law of their own together, charged as the first of them.
   */
  static Reading ofPair(World world, Component first, Gum pair, double concentration, String name) {
    return pair.salt()
        .fold(
            known -> salted(world, first, known, concentration),
            Reading.of(1),
            silent(world, first, pair.salt(), name));
  }

  /** A gum in a mixture whose yield stress and consistency are so many times those of its law. */
  static FlowLaw.Part part(FlowLaw law, double concentration, double factor) {
    if (factor == 1 || concentration == 0) {
      return new FlowLaw.Part(law, concentration);
    }
    if (!(factor > 1e-9)) {
      return new FlowLaw.Part(law, 0);
    }
    if (law instanceof FlowLaw.HerschelBulkley gel) {
      return new FlowLaw.Part(
          new FlowLaw.HerschelBulkley(
              gel.yieldPrefactor() * factor,
              gel.yieldExponent(),
              gel.consistencyPrefactor() * factor,
              gel.consistencyExponent(),
              gel.flowIndex(),
              gel.range()),
          concentration);
    }
    if (law instanceof FlowLaw.RandomCoil coil) {
      return new FlowLaw.Part(
          new FlowLaw.RandomCoil(
              coil.intrinsicViscosity(),
              coil.breakAt(),
              coil.below(),
              coil.above(),
              coil.molarMass(),
              coil.exponent(),
              coil.atBreak() * factor,
              coil.range()),
          concentration);
    }
    if (law instanceof FlowLaw.Exponential exponential) {
      return new FlowLaw.Part(
          new FlowLaw.Exponential(
              exponential.prefactor() * factor, exponential.rate(), exponential.range()),
          concentration);
    }
    FlowLaw.Cross cross = (FlowLaw.Cross) law;
    return new FlowLaw.Part(
        new FlowLaw.Cross(
            cross.viscosityPrefactor() * factor,
            cross.viscosityExponent(),
            cross.timePrefactor(),
            cross.timeExponent(),
            cross.exponent(),
            cross.range()),
        concentration);
  }

  // Of a gum that is charged the sheet's silence is a doubt; of one whose charge is not known
  // either
  // it is a bound, since an uncharged gum would not mind the salt at all.
  private static Reading silent(World world, Component component, Known<Salt> salt, String name) {
    Known<String> charge = component.ingredient().charge();
    boolean uncharged =
        charge.fold(word -> word.equals("none") || word.equals("nonionic"), true, false);
    if (!salt.isUnknown() || uncharged) {
      return Reading.of(1);
    }
    Reading strength = world.of(AcidityProperties.IONIC_STRENGTH);
    double unscreened =
        FlowModifiers.unsaltedCoilBound(
            Practice.SALT_FACTOR, Practice.SALTED, Math.min(1e9, strength.high()));
    double range = Practice.SALT_FACTOR + 1 - unscreened;
    world.source(Practice.SOURCE);
    if (charge.isUnknown()) {
      return new Reading(
          1 / range, range, Reading.union(strength.missing(), Set.of(component.missing("charge"))));
    }
    return Reading.of(world.withinFactor(1, range, "what salt does to " + name, READING));
  }

  private static Reading salted(World world, Component component, Salt salt, double concentration) {
    Reading strength = world.of(AcidityProperties.IONIC_STRENGTH);
    Figures figures = new Figures(world, component, salt);
    return switch (salt.effect()) {
      case COLLAPSES -> {
        double half = figures.of("half-at");
        Reading left =
            fold(strength, value -> FlowModifiers.collapseFactor(half, concentration, value), 0);
        yield left.with(opened(world, component, figures.of("opens-at")), (a, b) -> a * b);
      }
      case THINS -> {
        double left = figures.of("left");
        double upTo = figures.of("up-to");
        double noneFrom = Math.max(figures.of("none-from"), upTo * 1.001);
        double from = figures.of("salted-from");
        yield fold(
            strength,
            value -> FlowModifiers.thinGelFactor(left, upTo, noneFrom, from, concentration, value),
            FlowModifiers.thinGelFactor(left, upTo, noneFrom, from, concentration, from));
      }
      case SCREENS -> {
        double most = Math.max(1, figures.of("unsalted-up-to"));
        double from = figures.of("salted-from");
        Reading bound =
            fold(strength, value -> FlowModifiers.unsaltedCoilBound(most, from, value), 1);
        // Between the salted coil and the bound lies what little salt makes of it.
        yield bound.map(
            value ->
                world.withinFactor(
                    Math.sqrt(value),
                    Math.sqrt(value),
                    "how far " + component.name() + " swells in little salt",
                    READING));
      }
    };
  }

  private static Reading fold(Reading strength, DoubleUnaryOperator function, double inBrine) {
    double few = function.applyAsDouble(strength.low());
    double many =
        Double.isInfinite(strength.high()) ? inBrine : function.applyAsDouble(strength.high());
    return new Reading(Math.min(few, many), Math.max(few, many), strength.missing());
  }

  private static Reading opened(World world, Component component, double opening) {
    Known<Acid> known = component.ingredient().acid();
    if (known.isUnknown()) {
      return Reading.unknown(0, 1, component.missing("acid–base behaviour"));
    }
    Optional<Acid> acid = known.toOptional();
    if (acid.isEmpty() || acid.get().slope().isEmpty()) {
      return Reading.of(1);
    }
    return AcidityProperties.undissociated(world, component)
        .map(percent -> FlowModifiers.openingFactor(opening, 1 - percent / 100));
  }

  private record Figures(World world, Component component, Salt salt) {
    double of(String name) {
      return world.value(salt.figure(name), name + " of " + component.name() + " in salt", READING);
    }
  }

  private static Set<String> unborne(World world, Component component) {
    Reading phase = world.of(CompositionProperties.WATER_PHASE);
    Reading ethanol = CompositionProperties.sumOf(world, "ethanol");
    Reading polyol = CompositionProperties.sumOf(world, "polyol");
    if (phase.low() <= 0) {
      return Set.of();
    }
    Optional<Figure> ethanolLimit = component.ingredient().trait(Trait.ETHANOL_MOST);
    Optional<Figure> polyolLimit = component.ingredient().trait(Trait.POLYOL_MOST);
    double mostEthanol = ethanolLimit.map(Figure::likely).orElse(ETHANOL_BORNE);
    double mostPolyol = polyolLimit.map(Figure::likely).orElse(POLYOL_BORNE);
    FlowModifiers.Solvent solvent =
        FlowModifiers.solvent(
            100 * ethanol.high() / phase.low(),
            mostEthanol,
            100 * polyol.high() / phase.low(),
            mostPolyol);
    ethanolLimit.ifPresent(figure -> figure.sources().forEach(world::source));
    polyolLimit.ifPresent(figure -> figure.sources().forEach(world::source));
    Set<String> missing = new TreeSet<>();
    if (solvent == FlowModifiers.Solvent.ETHANOL_TOO_HIGH
        || solvent == FlowModifiers.Solvent.BOTH_TOO_HIGH) {
      missing.add(beyond(component, mostEthanol, "ethanol"));
      missing.addAll(ethanol.missing());
    }
    if (solvent == FlowModifiers.Solvent.POLYOL_TOO_HIGH
        || solvent == FlowModifiers.Solvent.BOTH_TOO_HIGH) {
      missing.add(beyond(component, mostPolyol, "polyols"));
      missing.addAll(polyol.missing());
    }
    return missing;
  }

  private static String beyond(Component component, double limit, String what) {
    return "flow of "
        + component.name()
        + " in more than "
        + Numbers.plain(limit)
        + " % of "
        + what;
  }
}
