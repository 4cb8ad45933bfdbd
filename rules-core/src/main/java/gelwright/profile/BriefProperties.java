package gelwright.profile;

import gelwright.formula.Brief;
import gelwright.formula.Equipment;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.rule.Chosen;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;

/** What the sheet says the product is meant to be, and what it is made with. */
final class BriefProperties {
  static final Definition BATCH_MASS =
      Definition.number(
          "batch.mass",
          Unit.GRAM,
          "mass of the batch",
          (world, item) -> stated(world.model().batch(), 0, "batch size (batch)"));

  static final List<Definition> ALL =
      List.of(
          choice("product.kind", Brief.KINDS, "what the product is meant to be", Brief::kind),
          choice(
              "product.use",
              Brief.USES,
              "whether it stays on the skin or is rinsed off",
              Brief::use),
          choice("product.users", Brief.USERS, "who it is for", Brief::users),
          choice("product.texture", Brief.TEXTURES, "the texture promised", Brief::texture),
          choice(
              "product.dispensing", Brief.DISPENSING, "the package it comes in", Brief::dispensing),
          choices("product.area", Brief.AREAS, "where it is used", Brief::area),
          choices("product.markets", List.of(), "where it is to be sold", Brief::markets),
          Definition.number(
              "product.pH-from",
              Unit.PH,
              "lower end of the pH aimed at",
              (world, item) ->
                  brief(world)
                      .pH()
                      .map(span -> Reading.of(span.from()))
                      .orElseGet(BriefProperties::noTargetPH)),
          Definition.number(
              "product.pH-to",
              Unit.PH,
              "upper end of the pH aimed at",
              (world, item) ->
                  brief(world)
                      .pH()
                      .map(span -> Reading.of(span.to()))
                      .orElseGet(BriefProperties::noTargetPH)),
          Definition.number(
              "product.shelf-life",
              Unit.MONTH,
              "how long the product is meant to keep",
              (world, item) ->
                  stated(brief(world).shelfLife(), 0, "shelf life (product.shelf-life)")),
          BATCH_MASS,
          equipment(
              "stirrer.type",
              Set.of("paddle", "propeller", "anchor", "rotor-stator", "whisk"),
              "what the batch is stirred with",
              "stirrer (equipment.stirrer)",
              Equipment::stirrerType),
          equipment(
              "vessel.cover",
              Set.of("open", "loose", "closed"),
              "how the vessel is covered",
              "cover of the vessel (equipment.vessel)",
              Equipment::vesselCover),
          Definition.number(
              "balance.readability",
              Unit.GRAM,
              "smallest step the balance shows",
              (world, item) ->
                  stated(world.model().equipment().balance(), 0, "balance (equipment.balance)")));

  static final List<Definition> OF_MARKETS =
      List.of(
          Definition.choice(
              "name",
              Set.of(),
              true,
              "code of the market",
              (model, item) -> Chosen.of(model.brief().markets().get(item))));

  private BriefProperties() {}

  private static Brief brief(World world) {
    return world.model().brief();
  }

  private static Reading noTargetPH() {
    return Reading.unknown(
        AcidityProperties.LOWEST, AcidityProperties.HIGHEST, "the pH aimed at (product.pH)");
  }

  private static Reading stated(Optional<Quantity> quantity, double least, String missing) {
    return quantity
        .map(value -> Reading.of(value.inBase()))
        .orElseGet(() -> Reading.unknown(least, Double.POSITIVE_INFINITY, missing));
  }

  private static Definition choice(
      String name, List<String> options, String meaning, Function<Brief, Optional<String>> part) {
    return Definition.choice(
        name,
        Set.copyOf(options),
        false,
        meaning,
        (model, item) ->
            part.apply(model.brief())
                .map(Chosen::of)
                .orElseGet(() -> Chosen.unknown(Set.of(meaning + " (" + name + ")"))));
  }

  private static Definition equipment(
      String name,
      Set<String> options,
      String meaning,
      String missing,
      Function<Equipment, Optional<String>> part) {
    return Definition.choice(
        name,
        options,
        false,
        meaning,
        (model, item) ->
            part.apply(model.equipment())
                .map(Chosen::of)
                .orElseGet(() -> Chosen.unknown(Set.of(missing))));
  }

  private static Definition choices(
      String name, List<String> options, String meaning, Function<Brief, List<String>> part) {
    return Definition.choices(
        name,
        Set.copyOf(options),
        false,
        meaning,
        (model, item) -> {
          List<String> names = part.apply(model.brief());
          return names.isEmpty()
              ? Chosen.unknown(Set.of(meaning + " (" + name + ")"))
              : Chosen.of(new HashSet<>(names));
        });
  }
}
