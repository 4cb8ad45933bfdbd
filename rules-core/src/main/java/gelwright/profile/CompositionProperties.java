package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.ingredient.Ingredient;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import gelwright.rule.Truth;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Sums over the recipe, its lines, and the acceptances on the sheet. Exact where it can be. */
final class CompositionProperties {
  static final Definition WATER =
      Definition.number(
          "water.share",
          Unit.PERCENT,
          "water in the recipe, with what solutions bring",
          (world, item) -> water(world));

  static final Definition WATER_PHASE =
      Definition.number(
          "water-phase.share",
          Unit.PERCENT,
          "water and all that dissolves in it",
          (world, item) -> {
            Model model = world.model();
            long sure = 0;
            long possible = 0;
            Set<String> missing = new java.util.TreeSet<>();
            for (Component component : model.recipe().components()) {
              Truth inWater = component.inWater();
              if (inWater.odds().low() == 1) {
                sure += component.units();
                possible += component.units();
              } else if (inWater.odds().high() > 0 && component.units() > 0) {
                possible += component.units();
                missing.addAll(inWater.missing());
              }
            }
            return new Reading(Model.percent(sure), Model.percent(possible), missing);
          });

  static final List<Definition> ALL = all();

  static final List<Definition> OF_LINES =
      List.of(
          Definition.exact(
              "share",
              Unit.PERCENT,
              "share of the raw material; of a rest what is left to 100 %; of an amount to be "
                  + "solved for a pH none",
              (world, item) -> Reading.of(Model.percent(line(world.model(), item).units()))),
          Definition.truth(
              "known",
              true,
              "whether the catalogue has an ingredient of this name",
              (model, item) -> Truth.of(line(model, item).ingredient().isPresent())),
          Definition.truth(
              "is-repeated",
              true,
              "whether the ingredient stands on more than one line",
              (model, item) ->
                  Truth.of(model.recipe().doubles().contains(line(model, item).name()))),
          Definition.truth(
              "is-rest",
              true,
              "whether the line asks for the rest to 100 %",
              (model, item) -> Truth.of(line(model, item).line().amount() instanceof Amount.Rest)),
          Definition.truth(
              "is-to-pH",
              true,
              "whether the line asks for as much as takes the pH to its target",
              (model, item) -> Truth.of(line(model, item).line().amount() instanceof Amount.ToPH)),
          Definition.choice(
              "name",
              Set.of(),
              true,
              "name as written",
              (model, item) -> Chosen.of(line(model, item).line().name())),
          Definition.choice(
              "closest",
              Set.of(),
              true,
              "known names nearest to the one written",
              (model, item) -> {
                List<String> closest =
                    model.catalogue().closest(line(model, item).line().name(), 2);
                return Chosen.of(
                    closest.isEmpty() ? "no known name" : String.join(" or ", closest));
              }),
          Definition.choice(
              "phase",
              Set.of(),
              false,
              "phase the line stands in",
              (model, item) -> {
                String phase = line(model, item).line().phase();
                return phase.isEmpty()
                    ? Chosen.unknown(Set.of("phase of " + line(model, item).line().name()))
                    : Chosen.of(phase);
              }),
          Definition.number(
              "mass",
              Unit.GRAM,
              "mass to weigh for the batch",
              (world, item) -> {
                double percent = Model.percent(line(world.model(), item).units());
                // None of a batch of any size is none.
                return percent == 0
                    ? Reading.of(0)
                    : world.of(BriefProperties.BATCH_MASS).map(mass -> mass * percent / 100);
              }),
          WeighingProperties.MINIMUM_MASS);

  static final List<Definition> OF_ACCEPTANCES =
      List.of(
          Definition.choice(
              "state",
              Set.of("covers", "worse", "lapsed", "unused", "not-allowed"),
              true,
              "what became of the acceptance",
              (model, item) -> Chosen.of(model.acceptances().get(item).state())),
          Definition.choice(
              "rule",
              Set.of(),
              true,
              "the rule it is for",
              (model, item) -> Chosen.of(model.acceptances().get(item).rule())),
          Definition.choice(
              "subject",
              Set.of(),
              true,
              "what it is about",
              (model, item) -> {
                String subject = model.acceptances().get(item).subject();
                return Chosen.of(subject.isEmpty() ? "the formula" : subject);
              }));

  private CompositionProperties() {}

  private static List<Definition> all() {
    List<Definition> all = new ArrayList<>();
    all.add(
        Definition.exact(
            "total.share",
            Unit.PERCENT,
            "what the recipe adds up to",
            (world, item) -> Reading.of(Model.percent(world.model().recipe().totalUnits()))));
    all.add(
        Definition.exact(
            "stated.share",
            Unit.PERCENT,
            "what the recipe adds up to without the rest",
            (world, item) -> Reading.of(Model.percent(world.model().recipe().statedUnits()))));
    all.add(
        Definition.exact(
            "rest.lines",
            Unit.NONE,
            "how many lines ask for the rest to 100 %",
            (world, item) -> Reading.of(world.model().recipe().rests())));
    all.add(
        Definition.exact(
            "recipe.lines",
            Unit.NONE,
            "how many lines the recipe has",
            (world, item) -> Reading.of(world.model().recipe().lines().size())));
    all.add(WATER);
    all.add(WATER_PHASE);
    for (String function :
        List.of(
            "oil",
            "gum",
            "emulsifier",
            "solubiliser",
            "surfactant",
            "preservative",
            "polyol",
            "electrolyte",
            "fragrance",
            "chelator",
            "ethanol",
            "preservative-booster",
            "humectant",
            "active",
            "antioxidant",
            "film-former",
            "protein",
            "peroxide",
            "silicone",
            "powder")) {
      all.add(sum(function, function + ".share"));
    }
    all.add(sum("particle", "particles.share"));
    all.add(
        Definition.number(
            "preservatives.count",
            Unit.NONE,
            "how many preservatives the recipe has",
            (world, item) -> count(world.model(), "preservative")));
    all.add(
        Definition.choices(
            "ingredients.charges",
            Set.copyOf(Ingredient.CHARGES),
            false,
            "charges of all ingredients that carry one",
            (model, item) -> {
              Set<String> charges = new HashSet<>();
              Set<String> missing = new HashSet<>();
              for (Component component : model.recipe().components()) {
                component.ingredient().charge().toOptional().ifPresent(charges::add);
                if (component.ingredient().charge().isUnknown()) {
                  missing.add(component.missing("charge"));
                }
              }
              return new Chosen(charges, missing);
            }));
    all.add(
        Definition.choices(
            "ingredients.functions",
            Set.copyOf(Ingredient.FUNCTIONS),
            false,
            "functions of all ingredients",
            (model, item) -> {
              Set<String> functions = new HashSet<>();
              Set<String> missing = new HashSet<>();
              for (Component component : model.recipe().components()) {
                component.ingredient().functions().toOptional().ifPresent(functions::addAll);
                if (component.ingredient().functions().isUnknown()) {
                  missing.add(component.missing("functions"));
                }
              }
              return new Chosen(functions, missing);
            }));
    return List.copyOf(all);
  }

  private static Definition sum(String function, String name) {
    return Definition.number(
        name,
        Unit.PERCENT,
        "sum of all ingredients whose function is " + function,
        (world, item) -> sumOf(world, function));
  }

  // What surely has the function, and what may have it. An amount "to pH" counts with what it
  // takes.
  static Reading sumOf(World world, String function) {
    long sure = 0;
    long possible = 0;
    Reading solved = Reading.of(0);
    Set<String> missing = new java.util.TreeSet<>();
    for (Component component : world.model().recipe().components()) {
      Truth has = component.has(function);
      if (has.odds().high() == 0) {
        continue;
      }
      boolean certain = has.odds().low() == 1;
      if (component.isSolvedFor()) {
        Reading share = world.of(IngredientProperties.SHARE, component.index());
        solved =
            solved.plus(
                certain
                    ? share
                    : new Reading(0, share.high(), Reading.union(share.missing(), has.missing())));
      } else if (certain) {
        sure += component.units();
        possible += component.units();
      } else if (component.units() > 0) {
        possible += component.units();
        missing.addAll(has.missing());
      }
    }
    return new Reading(Model.percent(sure), Model.percent(possible), missing).plus(solved);
  }

  // A line with nothing in it does not count.
  private static Reading count(Model model, String function) {
    int sure = 0;
    int possible = 0;
    Set<String> missing = new java.util.TreeSet<>();
    for (Component component : model.recipe().components()) {
      Truth has = component.has(function);
      if (component.units() == 0 && !component.isSolvedFor()) {
        continue;
      }
      if (has.odds().low() == 1) {
        sure++;
        possible++;
      } else if (has.odds().high() > 0) {
        possible++;
        missing.addAll(has.missing());
      }
    }
    return new Reading(sure, possible, missing);
  }

  private static Reading water(World world) {
    long units = 0;
    long unknown = 0;
    Set<String> missing = new java.util.TreeSet<>();
    for (Component component : world.model().recipe().components()) {
      if (component.name().equals(Recipe.WATER)) {
        units += component.units();
      } else if (!component.known() && component.units() > 0) {
        unknown += component.units();
        missing.add("composition of " + component.name());
      }
    }
    return new Reading(Model.percent(units), Model.percent(units + unknown), missing);
  }

  static Recipe.ResolvedLine line(Model model, int item) {
    return model.recipe().lines().get(item);
  }

  /** A line's name in a finding: the name as written, with its number where it is repeated. */
  static String lineName(Model model, int item) {
    Recipe.ResolvedLine line = line(model, item);
    for (Recipe.ResolvedLine other : model.recipe().lines()) {
      if (other.index() != item && other.line().name().equals(line.line().name())) {
        return line.line().name() + " (line " + (item + 1) + ")";
      }
    }
    return line.line().name();
  }
}
