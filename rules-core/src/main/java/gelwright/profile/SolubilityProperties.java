package gelwright.profile;

import gelwright.ingredient.Acid;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Estimate;
import gelwright.quantity.Unit;
import gelwright.science.Solubility;
import gelwright.science.Undissociated;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** What stays dissolved in the water, now and in the cold. */
final class SolubilityProperties {
  /**
   * ×/÷ range of what 5 °C leaves of a solubility about {@link Solubility#COLD_FACTOR}, which is
   * recalled for benzoic and sorbic acid and stands in for all others. Engine value, from memory.
   */
  private static final double COLD_RANGE = 1.5;

  /** One gram per litre of water is a tenth of a percent of it. */
  private static final double PERCENT = 0.1;

  /** Ionic strength above which an acid shows the same pKa, mol/kg. */
  private static final double STRONGEST = 10;

  static final List<Definition> OF_INGREDIENTS =
      List.of(
          Definition.number(
              "lowest-pH-before-crystals",
              Unit.PH,
              "lowest pH at which all of an acid stays dissolved in water at 25 °C; the lowest there"
                  + " is where no pH makes crystals",
              (world, item) -> lowestPH(world, world.model().component(item), false)),
          Definition.number(
              "lowest-pH-before-crystals-in-the-cold",
              Unit.PH,
              "the same at 5 °C",
              (world, item) -> lowestPH(world, world.model().component(item), true)),
          Definition.factor(
              "dissolved-limit",
              Unit.PERCENT,
              "most of it, as the acid, that the water of the recipe dissolves at its pH and 25 °C;"
                  + " glycols and ethanol, left out here, dissolve more",
              (world, item) -> limit(world, world.model().component(item), false)),
          Definition.factor(
              "dissolved-limit-in-the-cold",
              Unit.PERCENT,
              "the same at 5 °C",
              (world, item) -> limit(world, world.model().component(item), true)));

  private SolubilityProperties() {}

  private static Reading intrinsic(World world, Component component, boolean cold) {
    Reading solubility = IngredientProperties.trait(world, component, Trait.SOLUBILITY);
    if (!cold) {
      return solubility;
    }
    world.source(Practice.SOURCE);
    double factor =
        world.withinFactor(
            Solubility.COLD_FACTOR,
            COLD_RANGE,
            "what 5 °C leaves of the solubility of " + component.name(),
            "a jar in the refrigerator");
    return solubility.map(value -> value * factor);
  }

  /**
   * The pKa that an acid shows in the water phase. It falls with the ionic strength, and levels off
   * far below {@link #STRONGEST}.
   */
  static Reading apparent(World world, Component component, Acid acid) {
    double pKa = AcidityProperties.pKa(world, component, acid)[0];
    return world
        .of(AcidityProperties.IONIC_STRENGTH)
        .map(strength -> Undissociated.apparentPKa(pKa, Math.min(STRONGEST, strength)));
  }

  private static boolean isNeutralAcid(Acid acid) {
    return acid.charge() == 0 && !acid.pKa().isEmpty() && acid.slope().isEmpty();
  }

  private static Reading lowestPH(World world, Component component, boolean cold) {
    Known<Acid> known = component.ingredient().acid();
    Optional<Acid> acid = known.toOptional();
    if (known.isUnknown() || (acid.isPresent() && !isNeutralAcid(acid.get()))) {
      return Reading.unknown(
          AcidityProperties.LOWEST,
          AcidityProperties.HIGHEST,
          known.isUnknown()
              ? component.missing("acid–base behaviour")
              : component.missing("uncharged acid form"));
    }
    if (acid.isEmpty()) {
      return Reading.unknown(
          AcidityProperties.LOWEST, AcidityProperties.HIGHEST, component.missing("acid form"));
    }
    Reading solubility = intrinsic(world, component, cold);
    Reading share = world.of(AcidityProperties.SHARE_AS_ACID, component.index());
    Reading water = world.of(CompositionProperties.WATER);
    Set<String> missing = new TreeSet<>(solubility.missing());
    missing.addAll(share.missing());
    missing.addAll(water.missing());
    if (water.high() <= 0) {
      missing.add("water in the recipe");
      return new Reading(AcidityProperties.LOWEST, AcidityProperties.HIGHEST, missing);
    }
    Reading pKa = apparent(world, component, acid.get());
    missing.addAll(pKa.missing());
    world.predicted();
    if (isOnTheEdge(component, cold, share, water, pKa)) {
      // Whether any pH makes crystals hangs on the solubility: a step, over which no range of a pH
      // reaches.
      missing.add(component.missing(Trait.SOLUBILITY.key(), cold ? " at 5 °C" : ""));
      return new Reading(
          AcidityProperties.LOWEST,
          water.low() <= 0
              ? AcidityProperties.HIGHEST
              : lowest(share.high() / water.low(), dissolves(component, cold, -1), pKa.high()),
          missing);
    }
    double low = lowest(share.low() / water.high(), solubility.high(), pKa.low());
    double high =
        water.low() <= 0
            ? AcidityProperties.HIGHEST
            : lowest(share.high() / water.low(), solubility.low(), pKa.high());
    return new Reading(Math.min(low, high), high, missing);
  }

  // Whether within the 90 % range of the solubility there is a pH that makes crystals, and within
  // the same range there is none.
  private static boolean isOnTheEdge(
      Component component, boolean cold, Reading share, Reading water, Reading pKa) {
    if (!share.isKnown() || !water.isKnown() || !pKa.isKnown() || water.low() <= 0) {
      return false;
    }
    double ratio = share.low() / water.low();
    return lowest(ratio, dissolves(component, cold, 1), pKa.low()) == AcidityProperties.LOWEST
        && lowest(ratio, dissolves(component, cold, -1), pKa.low()) > AcidityProperties.LOWEST;
  }

  // An end of the 90 % range of the solubility, the upper (1) or the lower (-1), g/L.
  private static double dissolves(Component component, boolean cold, int end) {
    Optional<Figure> figure = component.ingredient().trait(Trait.SOLUBILITY);
    if (figure.isEmpty()) {
      return end > 0 ? Trait.SOLUBILITY.most() : Trait.SOLUBILITY.least();
    }
    double warm = figure.get().shifted(end * Estimate.NINETY_PERCENT);
    return cold ? warm * Solubility.COLD_FACTOR * Math.pow(COLD_RANGE, end) : warm;
  }

  private static double lowest(double ratio, double intrinsic, double pKa) {
    if (intrinsic <= 0) {
      return AcidityProperties.HIGHEST;
    }
    if (Double.isInfinite(intrinsic)) {
      return AcidityProperties.LOWEST;
    }
    double pH = Solubility.lowestPH(1000 * ratio, intrinsic, pKa).orElse(AcidityProperties.LOWEST);
    return Math.max(AcidityProperties.LOWEST, Math.min(AcidityProperties.HIGHEST, pH));
  }

  private static Reading limit(World world, Component component, boolean cold) {
    Known<Acid> known = component.ingredient().acid();
    Reading water = world.of(CompositionProperties.WATER);
    Reading intrinsic = intrinsic(world, component, cold);
    Optional<Acid> acid = known.toOptional();
    world.predicted();
    Reading litre;
    if (known.isUnknown()) {
      litre =
          new Reading(
              intrinsic.low(),
              Double.POSITIVE_INFINITY,
              Reading.union(intrinsic.missing(), Set.of(component.missing("acid–base behaviour"))));
    } else if (acid.isEmpty()) {
      litre = intrinsic;
    } else if (isNeutralAcid(acid.get())) {
      Reading above =
          world
              .of(AcidityProperties.PH)
              .with(apparent(world, component, acid.get()), (pH, pKa) -> pH - pKa);
      litre = intrinsic.with(above, (s, over) -> total(s, over, 0));
    } else {
      // A base or a salt dissolves at least as well as its uncharged form.
      litre =
          new Reading(
              intrinsic.low(),
              Double.POSITIVE_INFINITY,
              Reading.union(
                  intrinsic.missing(), Set.of(component.missing("solubility of the ions"))));
    }
    Reading share = litre.with(water, (grams, percent) -> times(grams, percent * PERCENT / 100));
    return share.within(0, 100);
  }

  private static double times(double a, double b) {
    return b == 0 ? 0 : a * b;
  }

  private static double total(double intrinsic, double pH, double pKa) {
    if (intrinsic <= 0) {
      return 0;
    }
    return Double.isInfinite(intrinsic) ? intrinsic : Solubility.total(intrinsic, pH, pKa);
  }
}
