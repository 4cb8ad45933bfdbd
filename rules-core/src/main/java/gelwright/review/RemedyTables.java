package gelwright.review;

import gelwright.ingredient.Ingredient;
import gelwright.problem.Problem;
import gelwright.problem.Spelling;
import gelwright.rule.Table;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * What the tables of the rule sets say about remedies. Of several rows with one key the last
 * counts, so that a house can change what is bundled.
 *
 * @param acids what may be added to lower the pH, the first first
 * @param bases what may be added to raise it
 * @param replaceable functions whose ingredients another may take the place of
 */
record RemedyTables(List<String> acids, List<String> bases, Set<String> replaceable) {
  private static final String ADJUSTERS = "pH-adjusters";
  private static final String ADJUSTS = "used-to";
  private static final String LOWER = "lower";
  private static final String RAISE = "raise";
  private static final String FUNCTIONS = "replaceable-functions";
  private static final String SUBSTITUTE = "substitute";
  private static final String ALLOWED = "allowed";

  static RemedyTables of(Knowledge knowledge) {
    Map<String, String> adjusters = words(knowledge, ADJUSTERS, ADJUSTS);
    return new RemedyTables(
        keys(adjusters, LOWER),
        keys(adjusters, RAISE),
        Set.copyOf(keys(words(knowledge, FUNCTIONS, SUBSTITUTE), ALLOWED)));
  }

  private static Map<String, String> words(Knowledge knowledge, String table, String column) {
    Map<String, String> words = new LinkedHashMap<>();
    for (Table.Row row : knowledge.rules().rowsOf(table)) {
      words.put(row.key(), row.name(column).orElse(""));
    }
    return words;
  }

  private static List<String> keys(Map<String, String> words, String word) {
    return words.entrySet().stream()
        .filter(each -> each.getValue().equals(word))
        .map(Map.Entry::getKey)
        .toList();
  }

  /** Rows that name what there is not, or say nothing that can be meant. */
  static List<Problem> problems(Knowledge knowledge) {
    List<Problem> problems = new ArrayList<>();
    for (Table.Row row : knowledge.rules().rowsOf(ADJUSTERS)) {
      if (knowledge.catalogue().find(row.key()).isEmpty()) {
        problems.add(
            new Problem(
                row.place(),
                "unknown-ingredient",
                "There is no ingredient '" + row.key() + "'.",
                Spelling.hint(row.key(), names(knowledge))));
      }
      word(row, ADJUSTERS, ADJUSTS, Set.of(LOWER, RAISE, "nothing"), problems);
    }
    for (Table.Row row : knowledge.rules().rowsOf(FUNCTIONS)) {
      if (!Ingredient.FUNCTIONS.contains(row.key())) {
        problems.add(
            new Problem(
                row.place(),
                "unknown-function",
                "No ingredient has the function '" + row.key() + "'.",
                Spelling.hint(row.key(), Ingredient.FUNCTIONS)));
      }
      word(row, FUNCTIONS, SUBSTITUTE, Set.of(ALLOWED, "never"), problems);
    }
    return List.copyOf(problems);
  }

  private static void word(
      Table.Row row,
      String table,
      String column,
      Collection<String> words,
      List<Problem> problems) {
    String written = row.name(column).orElse("");
    if (!words.contains(written)) {
      problems.add(
          new Problem(
              row.place(),
              "unknown-option",
              "'"
                  + column
                  + "' of row '"
                  + row.key()
                  + "' of a table "
                  + table
                  + " must be one of "
                  + String.join(", ", new TreeSet<>(words))
                  + ".",
              Spelling.hint(written, words)));
    }
  }

  private static List<String> names(Knowledge knowledge) {
    return knowledge.catalogue().ingredients().stream().map(Ingredient::name).toList();
  }
}
