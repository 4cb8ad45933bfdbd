package gelwright.formula;

import java.util.List;

/**
 * The label as drafted.
 *
 * @param ingredients the ingredient list in its order
 * @param warnings the warnings it carries
 */
public record Label(List<String> ingredients, List<String> warnings) {
  public Label {
    ingredients = List.copyOf(ingredients);
    warnings = List.copyOf(warnings);
  }
}
