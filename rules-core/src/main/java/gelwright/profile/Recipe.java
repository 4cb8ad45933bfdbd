package gelwright.profile;

import gelwright.formula.Amount;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Known;
import gelwright.ingredient.Lot;
import gelwright.quantity.Share;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * A recipe with blends and strengths expanded: a 60 % solution brings its water, a blend its parts,
 * and what is left to 100 % is computed. All in exact shares.
 */
final class Recipe {
  /** INCI name of water: what strengths, rests and adjustments come out of. */
  static final String WATER = "Aqua";

  /** Blends of blends of blends end here: deeper nesting is a loop in somebody's data. */
  private static final int DEEPEST = 8;

  private final List<ResolvedLine> lines = new ArrayList<>();
  private final List<Component> components = new ArrayList<>();
  private final Map<String, Integer> byName = new LinkedHashMap<>();
  private final Map<String, List<Component>> surely = new HashMap<>();
  private final Map<String, List<Component>> possibly = new HashMap<>();
  private @Nullable List<Component> binders;
  private final List<Component> strangers;
  private final long statedUnits;
  private final int rests;

  /**
   * A line and what it resolves to.
   *
   * @param index its number
   * @param line as written
   * @param ingredient what the catalogue has under its name, if anything
   * @param units the share of the raw material, exact; 0 for an amount still to be solved
   * @param name INCI name, or the name as written when it is not known
   */
  record ResolvedLine(
      int index, Line line, Optional<Ingredient> ingredient, long units, String name) {}

  Recipe(Formula formula, Catalogue catalogue) {
    long stated = 0;
    int restLines = 0;
    for (Line line : formula.lines()) {
      if (line.amount() instanceof Amount.Stated amount) {
        stated = Math.addExact(stated, amount.share().units());
      } else if (line.amount() instanceof Amount.Rest) {
        restLines++;
      }
    }
    this.statedUnits = stated;
    this.rests = restLines;
    long rest = Share.ALL.units() - stated;
    Map<String, List<Component.Part>> parts = new LinkedHashMap<>();
    Map<String, Ingredient> found = new LinkedHashMap<>();
    for (int i = 0; i < formula.lines().size(); i++) {
      Line line = formula.lines().get(i);
      // A lot is one of the ingredient's, else an own ingredient of both names, else a stranger.
      Optional<Lot> lot = line.lot().flatMap(name -> catalogue.lot(line.name(), name));
      Optional<Ingredient> own =
          lot.isPresent()
              ? Optional.empty()
              : line.lot().flatMap(name -> catalogue.find(line.name() + " " + name));
      Optional<Ingredient> ingredient = own.isPresent() ? own : catalogue.find(line.name());
      boolean stranger = line.lot().isPresent() && lot.isEmpty() && own.isEmpty();
      long units =
          line.amount() instanceof Amount.Stated amount
              ? amount.share().units()
              : line.amount() instanceof Amount.Rest ? Math.max(0, rest) : 0;
      String name = ingredient.map(Ingredient::name).orElse(line.name());
      lines.add(new ResolvedLine(i, line, ingredient, units, name));
      long content = units;
      if (line.strength().isPresent()) {
        content = new Share(units).part(line.strength().get()).units();
        Component.Part water = new Component.Part(i, units - content, line);
        add(parts, found, WATER, catalogue.find(WATER), water);
      }
      Component.Part whole = new Component.Part(i, content, line, lot, stranger);
      expand(catalogue, whole, name, ingredient, parts, found, 0);
    }
    for (Map.Entry<String, List<Component.Part>> entry : parts.entrySet()) {
      Ingredient ingredient = found.get(entry.getKey());
      Component component =
          new Component(
              components.size(),
              ingredient != null ? ingredient : nothingKnownOf(entry.getKey()),
              ingredient != null,
              List.copyOf(entry.getValue()));
      byName.put(entry.getKey(), component.index());
      components.add(component);
    }
    this.strangers = components.stream().filter(each -> !each.known()).toList();
  }

  private static void expand(
      Catalogue catalogue,
      Component.Part whole,
      String name,
      Optional<Ingredient> ingredient,
      Map<String, List<Component.Part>> parts,
      Map<String, Ingredient> found,
      int depth) {
    if (ingredient.isPresent() && !ingredient.get().composition().isEmpty() && depth < DEEPEST) {
      // The last part takes what rounding leaves, so that a blend never gains or loses mass.
      long left = whole.units();
      int remaining = ingredient.get().composition().size();
      for (Map.Entry<String, Share> part : ingredient.get().composition().entrySet()) {
        remaining--;
        long share = remaining == 0 ? left : new Share(whole.units()).part(part.getValue()).units();
        left -= share;
        Optional<Ingredient> inner = catalogue.find(part.getKey());
        String innerName = inner.map(Ingredient::name).orElse(part.getKey());
        // The lot is that of the blend, not of what the blend is made of.
        Component.Part piece = new Component.Part(whole.line(), share, whole.source());
        expand(catalogue, piece, innerName, inner, parts, found, depth + 1);
      }
      return;
    }
    add(parts, found, name, ingredient, whole);
  }

  private static void add(
      Map<String, List<Component.Part>> parts,
      Map<String, Ingredient> found,
      String name,
      Optional<Ingredient> ingredient,
      Component.Part part) {
    ingredient.ifPresent(value -> found.put(name, value));
    parts.computeIfAbsent(name, key -> new ArrayList<>()).add(part);
  }

  private static Ingredient nothingKnownOf(String name) {
    return new Ingredient(
        name,
        List.of(),
        "",
        Known.unknown(),
        Known.unknown(),
        Known.unknown(),
        Map.of(),
        Known.unknown(),
        Known.unknown(),
        Known.unknown(),
        Known.unknown(),
        Known.unknown(),
        Known.unknown(),
        Map.of(),
        Map.of(),
        Map.of(),
        Map.of(),
        Known.unknown(),
        Map.of(),
        "",
        false);
  }

  List<ResolvedLine> lines() {
    return lines;
  }

  List<Component> components() {
    return components;
  }

  /** Those under whose name the catalogue has nothing. */
  List<Component> strangers() {
    return strangers;
  }

  /** Those present that surely have a function, in recipe order. */
  List<Component> surely(String function) {
    return surely.computeIfAbsent(
        function,
        key ->
            components.stream()
                .filter(each -> each.units() > 0 && each.has(key).odds().low() == 1)
                .toList());
  }

  /** Those present that have or may have a function, in recipe order. */
  List<Component> possibly(String function) {
    return possibly.computeIfAbsent(
        function,
        key ->
            components.stream()
                .filter(each -> each.units() > 0 && each.has(key).odds().high() > 0)
                .toList());
  }

  /** Those present that are or may be in micelles in the water, in recipe order. */
  List<Component> binders() {
    List<Component> known = binders;
    if (known == null) {
      known =
          components.stream()
              .filter(each -> each.units() > 0 && each.binds().odds().high() > 0)
              .toList();
      binders = known;
    }
    return known;
  }

  /** Number of the component of this INCI name, or -1. */
  int indexOf(String name) {
    Integer index = byName.get(name);
    return index == null ? -1 : index;
  }

  Optional<Component> component(String name) {
    Integer index = byName.get(name);
    return index == null ? Optional.empty() : Optional.of(components.get(index));
  }

  /** All that is stated, without the rest, in units of a share. */
  long statedUnits() {
    return statedUnits;
  }

  /** What the recipe adds up to, in units of a share. */
  long totalUnits() {
    return rests > 0 ? Math.max(statedUnits, Share.ALL.units()) : statedUnits;
  }

  /** How many lines ask for the rest. */
  int rests() {
    return rests;
  }

  /** Names that appear on more than one line, by INCI name. */
  Set<String> doubles() {
    Set<String> seen = new java.util.HashSet<>();
    Set<String> doubles = new java.util.TreeSet<>();
    for (ResolvedLine line : lines) {
      if (!seen.add(line.name())) {
        doubles.add(line.name());
      }
    }
    return doubles;
  }
}
