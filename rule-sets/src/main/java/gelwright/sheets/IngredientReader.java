package gelwright.sheets;

import static java.util.Objects.requireNonNull;

import gelwright.ingredient.Ingredient;
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
 * source.
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
            document.root(), "an ingredient sheet", problems, List.of("sources", "ingredients"));
    List<Source> sources =
        keys.flatMap(k -> k.optional("sources", SourceReader::sources)).orElse(List.of());
    keys.flatMap(k -> k.required("ingredients", Keys::names))
        .ifPresent(
            mapping -> {
              for (Node.Entry entry : mapping.entries().values()) {
                new IngredientMapping(entry, problems, cited).read().ifPresent(ingredients::add);
              }
            });
    return problems.orElse(() -> new IngredientSheet(ingredients, sources, cited));
  }
}
