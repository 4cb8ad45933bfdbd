package gelwright.profile;

import gelwright.ingredient.Acid;
import gelwright.ingredient.Figure;
import gelwright.ingredient.InhibitoryLevel;
import gelwright.ingredient.Known;
import gelwright.ingredient.Trait;
import gelwright.quantity.Unit;
import gelwright.rule.Truth;
import gelwright.science.InhibitoryLevels;
import gelwright.science.Partition;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** How much of each preservative is at work in the water, and against whom it suffices. */
final class PreservationProperties {
  // A preservative of mass m in 100 g of recipe shares itself out so that
  //   m = u (1 + ionised + bound + Σ K V(oil)/V(water)),
  // u being the undissociated part free in the water (Partition). K of an oil is that of octanol
  // times what the oil takes up over octanol, which differs a hundredfold between plant oils and
  // hydrocarbons; an oil whose sheet is silent takes up between nothing and as much as octanol. A
  // surfactant whose binding is not known binds between nothing and everything. A litre of water
  // phase counts as a kilogram.

  static final List<String> GROUPS = List.of("gram-positive", "gram-negative", "yeast", "mould");

  private static final double INFINITE = Double.POSITIVE_INFINITY;

  static final Definition FREE =
      Definition.factor(
          "free",
          Unit.PERCENT,
          "part of a preservative that is in the water and not bound by surfactant",
          (world, item) -> free(world, world.model().component(item)));

  static final Definition ACTIVE =
      Definition.factor(
          "active-in-water",
          Unit.PERCENT,
          "share in the water phase of what is at work of a preservative: not in the oil, not"
              + " bound; of an acid undissociated, counted as the acid",
          (world, item) -> active(world, world.model().component(item)));

  static final List<Definition> OF_INGREDIENTS = ofIngredients();

  static final List<Definition> ALL = all();

  private PreservationProperties() {}

  private static List<Definition> ofIngredients() {
    List<Definition> all = new ArrayList<>(List.of(FREE, ACTIVE));
    for (String group : GROUPS) {
      all.add(
          Definition.factor(
              "inhibited-" + group,
              Unit.NONE,
              "level at work over the level that stops growth of "
                  + words(group)
                  + "; no proof of kill",
              (world, item) -> ratio(world, world.model().component(item), group)));
    }
    return List.copyOf(all);
  }

  private static List<Definition> all() {
    List<Definition> all = new ArrayList<>();
    for (String group : GROUPS) {
      all.add(
          Definition.factor(
              "preservation." + group,
              Unit.NONE,
              "levels at work of all preservatives, each over the level that stops growth of "
                  + words(group)
                  + ", added up; 1 is where growth stops in broth; no proof of kill",
              (world, item) -> sum(world, group)));
    }
    return List.copyOf(all);
  }

  private static String against(String group) {
    return switch (group) {
      case "gram-positive" -> " against gram-positive bacteria";
      case "gram-negative" -> " against gram-negative bacteria";
      case "yeast" -> " against yeasts";
      default -> " against moulds";
    };
  }

  private static String words(String group) {
    return switch (group) {
      case "gram-positive" -> "gram-positive bacteria";
      case "gram-negative" -> "gram-negative bacteria";
      case "yeast" -> "yeasts";
      default -> "moulds";
    };
  }

  private static Reading sum(World world, String group) {
    Definition inhibited = OF_INGREDIENTS.get(2 + GROUPS.indexOf(group));
    Reading sum = Reading.of(0);
    for (Component component : world.model().recipe().possibly("preservative")) {
      Truth preservative = component.has("preservative");
      Reading own = world.of(inhibited, component.index());
      if (preservative.odds().low() < 1) {
        own = new Reading(0, own.high(), Reading.union(own.missing(), preservative.missing()));
      }
      sum = sum.plus(own);
    }
    return sum;
  }

  /**
   * How a preservative shares itself out.
   *
   * @param free part of it that is in the water and not bound, %
   * @param freeInWater the same as a share of the water phase, %
   * @param undissociatedInWater what of that is undissociated, %; an acid counts as the acid
   * @param acid whether it is a weak acid
   */
  private record Sharing(
      Reading free, Reading freeInWater, Reading undissociatedInWater, boolean acid) {}

  /** What a preservative is shared out between, each over the free undissociated part. */
  private record Ratios(Reading inOil, Reading ionised, Reading bound) {
    // Everything but the ionised part takes away from the undissociated one and from the free one;
    // the ionised part takes away from the undissociated one and belongs to the free one.
    double undissociated(boolean low) {
      return part(low, low ? ionised.high() : ionised.low(), false);
    }

    double free(boolean low) {
      return part(low, low ? ionised.low() : ionised.high(), true);
    }

    private double part(boolean low, double ions, boolean withIons) {
      double oil = low ? inOil.high() : inOil.low();
      double micelles = low ? bound.high() : bound.low();
      if (Double.isInfinite(oil) || Double.isInfinite(micelles)) {
        return 0;
      }
      // One volume of oil for one of water, with a coefficient that holds all that the oil takes.
      Partition.Shares shares = Partition.share(0.5, 1, oil, ions, micelles);
      return withIons ? shares.freeInWater() : shares.undissociatedInWater();
    }

    boolean isPoint() {
      return inOil.low() == inOil.high()
          && ionised.low() == ionised.high()
          && bound.low() == bound.high();
    }
  }

  private static Sharing shares(Ratios ratios, Reading mass, Reading water, boolean acid) {
    Set<String> missing = Reading.union(mass.missing(), water.missing());
    missing = Reading.union(missing, ratios.inOil().missing());
    missing = Reading.union(missing, ratios.ionised().missing());
    missing = Reading.union(missing, ratios.bound().missing());
    double leastFree = ratios.free(true);
    double mostFree = ratios.isPoint() ? leastFree : ratios.free(false);
    double least = ratios.undissociated(true);
    double most = ratios.isPoint() ? least : ratios.undissociated(false);
    return new Sharing(
        new Reading(
            100 * Math.min(leastFree, mostFree), 100 * Math.max(leastFree, mostFree), missing),
        inWater(leastFree, mostFree, mass, water, missing),
        inWater(least, most, mass, water, missing),
        acid);
  }

  /** From a part of the whole to % of the water phase. */
  private static Reading inWater(
      double low, double high, Reading mass, Reading water, Set<String> missing) {
    double least = water.high() <= 0 ? 0 : 100 * low * mass.low() / water.high();
    double most = water.low() <= 0 ? 100 : 100 * high * mass.high() / water.low();
    // The two ways of computing may differ in the last digit where both ends are the same.
    return new Reading(Math.min(100, Math.min(least, most)), Math.min(100, most), missing);
  }

  private static Reading free(World world, Component component) {
    return sharing(world, component).free();
  }

  private static Reading active(World world, Component component) {
    Sharing sharing = sharing(world, component);
    return sharing.acid() ? sharing.undissociatedInWater() : sharing.freeInWater();
  }

  private static final Shared<Sharing> SHARING =
      new Shared<>((world, item) -> share(world, world.model().component(item)));

  private static Sharing sharing(World world, Component component) {
    return world.of(SHARING, component.index());
  }

  private static Sharing share(World world, Component component) {
    Reading water = world.of(CompositionProperties.WATER_PHASE);
    Known<Acid> known = component.ingredient().acid();
    Optional<Acid> acid = known.toOptional();
    boolean weakAcid = acid.map(each -> each.charge() == 0 && !each.pKa().isEmpty()).orElse(false);
    boolean salt = acid.map(each -> each.counterIons() != 0).orElse(false);
    // A salt counts as its acid; an ester is itself, whatever the law counts it as.
    Reading mass =
        weakAcid && salt
            ? world.of(AcidityProperties.SHARE_AS_ACID, component.index())
            : AcidityProperties.share(world, component.index());
    boolean alwaysIonised = acid.map(each -> each.pKa().isEmpty()).orElse(false);
    world.source("bean-1965");
    world.source("jscc-1972-preservatives");
    world.predicted();
    Reading inOil = alwaysIonised ? Reading.of(0) : inOil(world, component, water);
    Reading ionised =
        known.isUnknown()
            ? Reading.unknown(0, INFINITE, component.missing("acid–base behaviour"))
            : alwaysIonised || acid.isEmpty()
                ? Reading.of(0)
                : ionised(world, component, acid.get(), weakAcid);
    // An infinite ratio is more than any number this can be computed with.
    ionised =
        new Reading(
            Math.min(1e300, ionised.low()), Math.min(1e300, ionised.high()), ionised.missing());
    Ratios ratios = new Ratios(inOil, ionised, bound(world, component, water));
    return shares(ratios, mass, water, weakAcid);
  }

  private static Reading ionised(World world, Component component, Acid acid, boolean weakAcid) {
    Reading pH = world.of(AcidityProperties.PH);
    if (weakAcid && acid.slope().isEmpty()) {
      return pH.with(
          SolubilityProperties.apparent(world, component, acid), Partition::ionisedRatio);
    }
    return world
        .of(AcidityProperties.UNDISSOCIATED, component.index())
        .map(percent -> percent <= 0 ? INFINITE : 100 / percent - 1);
  }

  private static Reading inOil(World world, Component preservative, Reading water) {
    Reading sum = Reading.of(0);
    for (Component oil : world.model().recipe().possibly("oil")) {
      Truth isOil = oil.has("oil");
      if (oil.index() == preservative.index()) {
        continue;
      }
      Reading density = world.of(IngredientProperties.DENSITY, oil.index());
      Reading volume = density.map(value -> oil.percent() / (value / 1000));
      Reading own = coefficient(world, preservative, oil).with(volume, (k, v) -> k * v);
      if (isOil.odds().low() < 1) {
        own = new Reading(0, own.high(), Reading.union(own.missing(), isOil.missing()));
      }
      sum = sum.plus(own);
    }
    if (sum.high() == 0) {
      return sum;
    }
    return new Reading(
        water.high() <= 0 ? 0 : sum.low() / water.high(),
        water.low() <= 0 ? INFINITE : sum.high() / water.low(),
        sum.missing());
  }

  private static Reading coefficient(World world, Component preservative, Component oil) {
    Optional<Figure> logarithm = preservative.ingredient().trait(Trait.LOG_KOW);
    if (logarithm.isEmpty()) {
      return Reading.unknown(0, INFINITE, preservative.missing(Trait.LOG_KOW.key()));
    }
    double octanol =
        Math.pow(10, world.value(logarithm.get(), preservative.missing("log-Kow"), ""));
    Optional<Figure> ratio = oil.ingredient().trait(Trait.OIL_OVER_OCTANOL);
    if (ratio.isEmpty()) {
      return Reading.unknown(0, octanol, oil.uptake() + " (oil-over-octanol)");
    }
    return Reading.of(
        octanol
            * world.value(
                ratio.get(), oil.uptake(), "an assay of the preservative in the water phase"));
  }

  private static Reading bound(World world, Component preservative, Reading water) {
    Reading sum = Reading.of(0);
    for (Component component : world.model().recipe().binders()) {
      if (component.index() == preservative.index()) {
        continue;
      }
      Truth surfactant = component.binds();
      Figure constant = preservative.ingredient().binding().get(component.name());
      if (constant == null) {
        Set<String> missing = new TreeSet<>(surfactant.missing());
        missing.add("how " + component.name() + " binds " + preservative.name() + " (binding)");
        sum = sum.plus(new Reading(0, INFINITE, missing));
        continue;
      }
      double each =
          world.value(
              constant,
              "binding of " + preservative.name() + " by " + component.name(),
              "an assay of the free preservative");
      Reading own =
          water.high() <= 0
              ? new Reading(0, INFINITE, water.missing())
              : new Reading(
                  Partition.boundRatio(each, 100 * component.percent() / water.high()),
                  Partition.boundRatio(
                      each, 100 * component.percent() / Math.max(water.low(), 1e-9)),
                  water.missing());
      if (surfactant.odds().low() < 1) {
        own = new Reading(0, own.high(), Reading.union(own.missing(), surfactant.missing()));
      }
      sum = sum.plus(own);
    }
    return sum;
  }

  private static Reading ratio(World world, Component component, String group) {
    String missing = component.missing("inhibitory level", against(group));
    Known<List<InhibitoryLevel>> known = component.ingredient().inhibitory();
    if (known.fold(list -> false, true, false)) {
      return Reading.of(0);
    }
    Reading least = null;
    for (InhibitoryLevel level : known.toOptional().orElse(List.of())) {
      if (level.group().equals(group)) {
        Reading own = ratio(world, component, level);
        least = least == null ? own : least.min(own);
      }
    }
    return least == null ? Reading.unknown(0, INFINITE, missing) : least;
  }

  private static Reading ratio(World world, Component component, InhibitoryLevel level) {
    double value =
        world.value(
            level.level(),
            component.missing("inhibitory level", against(level.group())),
            "a challenge test");
    Sharing sharing = sharing(world, component);
    Optional<Acid> acid = component.ingredient().acid().toOptional();
    boolean counted = level.basis() == InhibitoryLevel.Basis.UNDISSOCIATED;
    if (!counted && sharing.acid() && level.atPH().isPresent() && acid.isPresent()) {
      double pKa = AcidityProperties.pKa(world, component, acid.get())[0];
      value = InhibitoryLevels.toUndissociated(value, level.atPH().get(), pKa);
      counted = true;
    }
    Reading present =
        counted && sharing.acid() ? sharing.undissociatedInWater() : sharing.freeInWater();
    double inhibitory = value;
    return present.map(amount -> InhibitoryLevels.fraction(amount, inhibitory));
  }
}
