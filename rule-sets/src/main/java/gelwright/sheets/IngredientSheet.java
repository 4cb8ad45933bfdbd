package gelwright.sheets;

import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.rule.Text;
import java.util.List;

/**
 * What an ingredient sheet gives.
 *
 * @param ingredients in the order written
 * @param sources that the sheet brings along
 * @param cited ids of sources its figures cite, with their places; whether there are such sources
 *     is for the one to say who knows all sheets
 * @param lots in the order written
 * @param lotsOf names of the ingredients that lots are of, with their places
 */
public record IngredientSheet(
    List<Ingredient> ingredients,
    List<Source> sources,
    List<Text> cited,
    List<Lot> lots,
    List<Text> lotsOf) {
  public IngredientSheet {
    ingredients = List.copyOf(ingredients);
    sources = List.copyOf(sources);
    cited = List.copyOf(cited);
    lots = List.copyOf(lots);
    lotsOf = List.copyOf(lotsOf);
  }
}
