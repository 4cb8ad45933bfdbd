package gelwright.sheets;

import gelwright.ingredient.Equivalent;
import gelwright.ingredient.HeatLimit;
import gelwright.ingredient.InhibitoryLevel;
import gelwright.ingredient.Salt;
import gelwright.ingredient.Trait;
import gelwright.quantity.Dimension;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The keys and closed words of an ingredient sheet. */
final class IngredientWords {
  static final List<String> INGREDIENT = ingredient();
  static final List<String> HEAT_KINDS =
      Arrays.stream(HeatLimit.Kind.values()).map(HeatLimit.Kind::word).toList();
  static final List<String> GROUPS = List.of("gram-positive", "gram-negative", "yeast", "mould");
  static final List<String> BASES =
      Arrays.stream(InhibitoryLevel.Basis.values())
          .map(basis -> basis.name().toLowerCase(Locale.ROOT))
          .toList();

  static final List<String> EQUIVALENTS =
      Arrays.stream(Equivalent.values()).map(Equivalent::word).toList();

  static final List<String> SALT_EFFECTS =
      Arrays.stream(Salt.Effect.values()).map(Salt.Effect::word).toList();

  /** Dimensions of the figures of what salt does. */
  static final Map<String, Dimension> SALT =
      Map.of(
          "half-at", Dimension.MOLALITY,
          "opens-at", Dimension.NUMBER,
          "left", Dimension.NUMBER,
          "up-to", Dimension.SHARE,
          "none-from", Dimension.SHARE,
          "salted-from", Dimension.MOLALITY,
          "unsalted-up-to", Dimension.NUMBER);

  /** Keys of a gum. */
  static final List<String> GUM =
      List.of(
          "law",
          "parameters",
          "range",
          "salt",
          "flow-activation-energy",
          "sets",
          "pairs",
          "at",
          "strength",
          "together",
          "shear-rates",
          "source");

  /** Keys of a pair of gums. */
  static final List<String> PAIR =
      List.of(
          "law",
          "parameters",
          "range",
          "salt",
          "flow-activation-energy",
          "sets",
          "share",
          "source");

  /** Flow laws with the dimensions of their parameters. */
  static final Map<String, Map<String, Dimension>> LAWS = laws();

  private IngredientWords() {}

  private static List<String> ingredient() {
    List<String> keys =
        new ArrayList<>(List.of("synonyms", "cas", "functions", "charge", "dissolves", "source"));
    for (Trait trait : Trait.values()) {
      keys.add(trait.key());
    }
    keys.addAll(
        List.of(
            "acid",
            "heat",
            "gum",
            "hydration",
            "inhibitory",
            "kinetics",
            "binding",
            "hydrates",
            "grades",
            "made-of",
            "allergens",
            "counts-as",
            "note",
            "measured"));
    return List.copyOf(keys);
  }

  private static Map<String, Map<String, Dimension>> laws() {
    Map<String, Map<String, Dimension>> laws = new LinkedHashMap<>();
    Map<String, Dimension> herschelBulkley = new LinkedHashMap<>();
    herschelBulkley.put("yield", Dimension.STRESS);
    herschelBulkley.put("yield-power", Dimension.NUMBER);
    herschelBulkley.put("consistency", Dimension.STRESS);
    herschelBulkley.put("consistency-power", Dimension.NUMBER);
    herschelBulkley.put("flow-index", Dimension.NUMBER);
    laws.put("herschel-bulkley", herschelBulkley);
    Map<String, Dimension> cross = new LinkedHashMap<>();
    cross.put("zero-shear-viscosity", Dimension.VISCOSITY);
    cross.put("zero-shear-power", Dimension.NUMBER);
    cross.put("time", Dimension.TIME);
    cross.put("time-power", Dimension.NUMBER);
    cross.put("cross-exponent", Dimension.NUMBER);
    laws.put("cross", cross);
    Map<String, Dimension> coil = new LinkedHashMap<>();
    coil.put("intrinsic-viscosity", Dimension.SPECIFIC_VOLUME);
    coil.put("molar-mass", Dimension.MOLAR_MASS);
    coil.put("break", Dimension.NUMBER);
    coil.put("power-below", Dimension.NUMBER);
    coil.put("power-above", Dimension.NUMBER);
    coil.put("specific-at-break", Dimension.NUMBER);
    coil.put("cross-exponent", Dimension.NUMBER);
    laws.put("coil", coil);
    Map<String, Dimension> newtonian = new LinkedHashMap<>();
    newtonian.put("viscosity", Dimension.VISCOSITY);
    newtonian.put("growth", Dimension.NUMBER);
    laws.put("newtonian", newtonian);
    return laws;
  }
}
