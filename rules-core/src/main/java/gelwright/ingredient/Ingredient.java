package gelwright.ingredient;

import static java.util.Objects.requireNonNull;

import gelwright.quantity.Share;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What is known of one ingredient.
 *
 * @param name INCI name
 * @param synonyms other names the trade writes
 * @param cas CAS registry number, or empty
 * @param functions what it is used for, such as gum, oil, preservative
 * @param charge none, nonionic, anionic, cationic or amphoteric
 * @param dissolves where it goes: water, oil, both or neither
 * @param traits single numbers
 * @param acid acid–base behaviour
 * @param heat what it bears in the process, by kind
 * @param gum how it thickens
 * @param hydration how fast it hydrates
 * @param inhibitory inhibitory levels by organism group
 * @param kinetics how fast heat destroys it
 * @param binding binding constant S of a preservative, per % of a surfactant, by the INCI name of
 *     the surfactant
 * @param hydrates molar mass by hydrate form, first the form meant when a line says nothing
 * @param grades what differs by grade
 * @param composition of a blend or a solution, in shares of it; empty for a single substance
 * @param allergens fragrance allergens that the law has declared, in % of the ingredient, by the
 *     name they are declared under; a substance that is itself one carries 100 % of it
 * @param countsAs molecules or atoms of what the law counts in one molecule of it, such as two of
 *     sulfur dioxide in a metabisulfite
 * @param note a short remark, or empty
 * @param measured whether its figures were measured on a lot rather than taken from literature
 */
public record Ingredient(
    String name,
    List<String> synonyms,
    String cas,
    Known<Set<String>> functions,
    Known<String> charge,
    Known<String> dissolves,
    Map<Trait, Figure> traits,
    Known<Acid> acid,
    Known<List<HeatLimit>> heat,
    Known<Gum> gum,
    Known<HydrationData> hydration,
    Known<List<InhibitoryLevel>> inhibitory,
    Known<Kinetics> kinetics,
    Map<String, Figure> binding,
    Map<String, Figure> hydrates,
    Map<String, Grade> grades,
    Map<String, Share> composition,
    Known<Map<String, Figure>> allergens,
    Map<Equivalent, Integer> countsAs,
    String note,
    boolean measured) {
  /** What an ingredient can be used for. */
  public static final List<String> FUNCTIONS =
      List.of(
          "solvent",
          "gum",
          "oil",
          "emulsifier",
          "solubiliser",
          "preservative",
          "preservative-booster",
          "chelator",
          "humectant",
          "acid",
          "base",
          "buffer",
          "active",
          "exfoliant",
          "particle",
          "pearl",
          "surfactant",
          "fragrance",
          "colourant",
          "antioxidant",
          "film-former",
          "powder",
          "polyol",
          "electrolyte",
          "protein",
          "ethanol",
          "astringent",
          "cooling",
          "conditioner",
          "emollient",
          "silicone",
          "peroxide",
          "deodorant");

  /** The charges there are. */
  public static final List<String> CHARGES =
      List.of("none", "nonionic", "anionic", "cationic", "amphoteric");

  /** What an ingredient can dissolve in. */
  public static final List<String> DISSOLVES = List.of("water", "oil", "both", "neither");

  /**
   * What differs by grade.
   *
   * @param gum the grade's own flow law
   * @param hydration the grade's own hydration
   */
  public record Grade(Known<Gum> gum, Known<HydrationData> hydration) {}

  public Ingredient {
    requireNonNull(name, "name");
    synonyms = List.copyOf(synonyms);
    traits = Map.copyOf(traits);
    binding = Map.copyOf(binding);
    hydrates = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(hydrates));
    grades = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(grades));
    countsAs = Map.copyOf(countsAs);
    composition = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(composition));
  }

  public Optional<Figure> trait(Trait trait) {
    return Optional.ofNullable(traits.get(trait));
  }
}
