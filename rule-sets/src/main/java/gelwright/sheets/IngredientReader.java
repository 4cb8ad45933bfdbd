package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Lot;
import gelwright.ingredient.Source;
import gelwright.rule.Text;
import gelwright.sheets.mapping.Keys;
import gelwright.sheets.mapping.Problems;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import gelwright.sheets.tree.Node;
import gelwright.sheets.tree.Read;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads ingredient sheets: what is known of each ingredient, every figure with its range and
 * source, and of single lots of them.
 *
 * <p>A sheet may bring sources of its own under {@code sources}.
 */
public final class IngredientReader {
  private final Limits limits;

  /** A reader with the usual limits. */
  public IngredientReader() {
    this(Limits.USUAL);
  }

  public IngredientReader(Limits limits) {
    this.limits = requireNonNull(limits, "limits");
  }

  /** The ingredients of a sheet; its format is told by the file's name. */
  public Read<IngredientSheet> read(byte[] bytes, String file) {
    return Document.read(bytes, file, Document.Format.of(file), limits).then(this::read);
  }

  /** The ingredients of a sheet that is a tree already. */
  public Read<IngredientSheet> read(Document document) {
    Problems problems = Problems.of(document, limits);
    List<Ingredient> ingredients = new ArrayList<>();
    List<Text> cited = new ArrayList<>();
    Optional<Keys> keys =
        Keys.of(
            document.root(),
            "an ingredient sheet",
            problems,
            List.of("sources", "ingredients", "lots"));
    List<Source> sources =
        keys.flatMap(k -> k.optional("sources", SourceReader::sources)).orElse(List.of());
    // A sheet of lots needs no ingredients.
    keys.flatMap(
            k ->
                k.has("lots")
                    ? k.optional("ingredients", Keys::names)
                    : k.required("ingredients", Keys::names))
        .ifPresent(
            mapping -> {
              for (Node.Entry entry : mapping.entries().values()) {
                new IngredientMapping(entry, problems, cited).read().ifPresent(ingredients::add);
              }
            });
    List<Lot> lots = new ArrayList<>();
    List<Text> lotsOf = new ArrayList<>();
    keys.flatMap(k -> k.optional("lots", Keys::names))
        .ifPresent(
            mapping -> {
              for (Node.Entry entry : mapping.entries().values()) {
                lotsOf.add(new Text(entry.key().strip(), entry.keyPlace()));
                lots(entry, problems, cited, lots);
              }
            });
    return problems.orElse(() -> new IngredientSheet(ingredients, sources, cited, lots, lotsOf));
  }

  /** The lots of one ingredient. */
  private static void lots(
      Node.Entry ingredient, Problems problems, List<Text> cited, List<Lot> lots) {
    Keys.names(ingredient.value(), "lots of an ingredient", problems)
        .ifPresent(
            named -> {
              for (Node.Entry entry : named.entries().values()) {
                IngredientMapping.lot(ingredient.key().strip(), entry, problems, cited)
                    .ifPresent(lots::add);
              }
            });
  }
}
