package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.ingredient.Catalogue;
import gelwright.ingredient.Figure;
import gelwright.ingredient.Ingredient;
import gelwright.ingredient.Source;
import gelwright.problem.Problem;
import gelwright.rule.Rule;
import gelwright.rule.RuleSet;
import gelwright.rule.Table;
import gelwright.rule.Text;
import gelwright.sheets.tree.Read;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.reflect.RecordComponent;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/** No number of the bundled sheets stands without unit, source and standing. */
@DisplayName("sources of figures")
final class SourcesOfFiguresTest {
  private static final Library LIBRARY = Bundled.load();
  private static final Catalogue CATALOGUE = LIBRARY.catalogue();

  // An ingredient's own default source, and a source inside one figure.
  private static final Pattern DEFAULT = Pattern.compile("(?m)^ {4}source: .*\n");
  private static final Pattern INLINE = Pattern.compile(", source: (?:\\[[^\\]]*\\]|[\\w-]+)");
  private static final Pattern INGREDIENT = Pattern.compile("(?m)^ {2}(?=\\S.*:\\s*$)");

  /** Every figure in a record of records, however deep. */
  private static void collect(Object value, String path, Map<String, Figure> into)
      throws ReflectiveOperationException {
    if (value instanceof Figure figure) {
      into.put(path, figure);
    } else if (value instanceof Map<?, ?> map) {
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        collect(entry.getValue(), path + "/" + entry.getKey(), into);
      }
    } else if (value instanceof Iterable<?> list) {
      int i = 0;
      for (Object each : list) {
        collect(each, path + "/" + i++, into);
      }
    } else if (value instanceof Record && value.getClass().getName().startsWith("gelwright.")) {
      for (RecordComponent component : value.getClass().getRecordComponents()) {
        var accessor = component.getAccessor();
        accessor.setAccessible(true);
        collect(accessor.invoke(value), path + "/" + component.getName(), into);
      }
    } else if (value instanceof java.util.Optional<?> optional && optional.isPresent()) {
      collect(optional.get(), path, into);
    }
  }

  @Test
  @DisplayName("every figure of every ingredient has sources, and each source its standing")
  void figures() throws ReflectiveOperationException {
    Map<String, Figure> all = new java.util.TreeMap<>();
    for (Ingredient ingredient : CATALOGUE.ingredients()) {
      collect(ingredient, ingredient.name(), all);
    }
    for (Map.Entry<String, Figure> each : all.entrySet()) {
      assertFalse(each.getValue().sources().isEmpty(), each.getKey());
      for (String id : each.getValue().sources()) {
        Source source = CATALOGUE.source(id).orElseThrow(() -> new AssertionError(each.getKey()));
        assertFalse(source.citation().isBlank(), id);
        assertTrue(List.of(Source.Standing.values()).contains(source.standing()), id);
      }
    }
    assertTrue(all.size() > 2500, "figures: " + all.size());
  }

  @Test
  @DisplayName("every row of every table and every rule cites sources that exist")
  void tablesAndRules() {
    int numbers = 0;
    for (RuleSet set : LIBRARY.ruleSets()) {
      for (Table table : set.tables()) {
        for (Table.Row row : table.rows()) {
          long own =
              row.cells().values().stream().filter(Table.Cell.Number.class::isInstance).count();
          numbers += own;
          assertTrue(
              own == 0 || !row.sources().isEmpty(),
              set.id() + " " + table.name() + " " + row.key());
          known(row.sources());
        }
      }
      for (Rule rule : set.rules()) {
        assertFalse(rule.sources().isEmpty(), rule.id());
        known(rule.sources());
      }
    }
    assertTrue(numbers > 100, "numbers in tables: " + numbers);
  }

  private static void known(List<Text> sources) {
    sources.forEach(id -> assertTrue(CATALOGUE.source(id.text()).isPresent(), id.text()));
  }

  private static String read(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> blocks() {
    List<String> blocks = new ArrayList<>();
    for (String name : Bundled.names()) {
      if (name.startsWith("gelwright/ingredients/")) {
        String text = read(Path.of("src", "main", "resources", name));
        String[] parts = INGREDIENT.split(text);
        for (int i = 1; i < parts.length; i++) {
          blocks.add("  " + parts[i]);
        }
      }
    }
    return blocks;
  }

  private static List<String> problems(String block) {
    Read<IngredientSheet> read =
        new IngredientReader().read(Samples.utf8("ingredients:\n" + block), "one.yaml");
    return read.problems().stream().map(Problem::code).toList();
  }

  @Test
  @DisplayName("taking the sources out of any bundled ingredient with figures is an error")
  void withoutAnySource() throws ReflectiveOperationException {
    int refused = 0;
    for (String block : blocks()) {
      assertEquals(List.of(), problems(block), block);
      Map<String, Figure> figures = new java.util.TreeMap<>();
      IngredientSheet sheet =
          new IngredientReader()
              .read(Samples.utf8("ingredients:\n" + block), "one.yaml")
              .value()
              .orElseThrow();
      collect(sheet.ingredients(), "", figures);
      String bare = INLINE.matcher(DEFAULT.matcher(block).replaceAll("")).replaceAll("");
      bare = bare.replaceAll("(?m)^ +source: .*\n", "");
      if (figures.isEmpty()) {
        continue;
      }
      List<String> codes = problems(bare);
      assertTrue(codes.contains("no-source"), block + codes);
      refused++;
    }
    assertTrue(refused > 500, "ingredients: " + refused);
  }

  @Test
  @DisplayName(
      "taking the source out of one figure, with none around it, is an error of that figure")
  void withoutOneSource() {
    Random random = new Random(20261125);
    int tried = 0;
    for (String block : blocks()) {
      String own = DEFAULT.matcher(block).replaceAll("");
      if (!problems(own).isEmpty()) {
        continue; // its figures lean on the default that was just taken away
      }
      List<int[]> spots = new ArrayList<>();
      for (Matcher spot = INLINE.matcher(own); spot.find(); ) {
        spots.add(new int[] {spot.start(), spot.end()});
      }
      if (spots.isEmpty()) {
        continue;
      }
      int[] spot = spots.get(random.nextInt(spots.size()));
      String without = own.substring(0, spot[0]) + own.substring(spot[1]);
      assertTrue(problems(without).contains("no-source"), without);
      tried++;
    }
    assertTrue(tried >= 10, "figures tried: " + tried);
  }
}
