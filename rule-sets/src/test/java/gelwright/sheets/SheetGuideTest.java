package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import gelwright.formula.Brief;
import gelwright.ingredient.Ingredient;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** What the guide shows can be read, and no key is left out of it. */
@DisplayName("guide to the sheets")
final class SheetGuideTest {
  private static final Path GUIDE = Path.of("..", "docs", "guide");
  private static final Pattern BLOCK = Pattern.compile("```(yaml|csv)\n(.*?)```", Pattern.DOTALL);

  private static String page(String name) throws IOException {
    return Files.readString(GUIDE.resolve(name));
  }

  @TestFactory
  @DisplayName("example of the formula sheet")
  Stream<DynamicTest> formulas() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    Matcher block = BLOCK.matcher(page("formula-sheet.md"));
    while (block.find()) {
      String text = block.group(2);
      String file = "guide." + block.group(1);
      String sheet =
          block.group(1).equals("csv")
              ? text
              : (text.contains("formula:") ? "" : "formula: Dew\n")
                  + (text.startsWith("ingredients:") || text.contains("\ningredients:")
                      ? ""
                      : "ingredients: [{ name: Aqua, share: rest }]\n")
                  + text;
      tests.add(
          dynamicTest(
              text.lines().findFirst().orElseThrow(),
              () ->
                  assertEquals(
                      List.of(), new FormulaReader().read(Samples.utf8(sheet), file).problems())));
    }
    return tests.stream();
  }

  @TestFactory
  @DisplayName("example of the ingredient sheet")
  Stream<DynamicTest> ingredients() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    Matcher block = BLOCK.matcher(page("ingredient-sheet.md"));
    while (block.find()) {
      String text = block.group(2);
      if (text.startsWith("sources:")) {
        String sheet =
            text.contains("ingredients:") || text.contains("lots:")
                ? text
                : text + "ingredients: {}\n";
        tests.add(good(text, sheet));
      } else if (text.startsWith("density:")) {
        // Three ways to write a figure: each alone.
        text.lines().forEach(line -> tests.add(good(line, ofOne(line + "\n"))));
      } else {
        tests.add(good(text, ofOne(text)));
      }
    }
    return tests.stream();
  }

  private static String ofOne(String keys) {
    return "ingredients:\n  Dew:\n    source: bench\n" + keys.indent(4);
  }

  private static DynamicTest good(String name, String sheet) {
    return dynamicTest(
        name.lines().findFirst().orElseThrow(),
        () ->
            assertEquals(
                List.of(), new IngredientReader().read(Samples.utf8(sheet), "x.yaml").problems()));
  }

  @Test
  @DisplayName("every key of a sheet is on its page")
  void complete() throws IOException {
    String formula = page("formula-sheet.md");
    Stream.of(
            FormulaWords.SHEET,
            FormulaWords.PRODUCT,
            FormulaWords.LINE,
            FormulaWords.STEP,
            FormulaWords.READING,
            FormulaWords.READINGS,
            FormulaWords.ACCEPTANCE,
            Brief.KINDS,
            Brief.AREAS,
            Brief.TEXTURES,
            Brief.DISPENSING,
            FormulaWords.ACTIONS)
        .flatMap(List::stream)
        .forEach(word -> assertTrue(formula.contains(word), word));
    String ingredient = page("ingredient-sheet.md");
    Stream.of(
            IngredientWords.INGREDIENT,
            IngredientWords.GUM,
            Ingredient.FUNCTIONS,
            IngredientWords.HEAT_KINDS)
        .flatMap(List::stream)
        .forEach(word -> assertTrue(ingredient.contains(word), word));
  }
}
