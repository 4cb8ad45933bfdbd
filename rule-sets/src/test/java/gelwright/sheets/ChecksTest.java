package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * What the models are checked against, read from the tests themselves: every named row of a science
 * test ends with its source in brackets. {@code -Dgolden.update=true} writes docs/models/checks.md
 * anew.
 */
@DisplayName("checks of the models against the outside")
final class ChecksTest {
  private static final Path ROOT = Path.of("..");
  private static final Path SCIENCE =
      ROOT.resolve("rules-core/src/test/java/gelwright/science").normalize();
  private static final Path SHEETS = Path.of("src/test/java/gelwright/sheets");
  private static final Path PAGE = ROOT.resolve("docs/models/checks.md");

  // String literals, joined over "+".
  private static final String LITERALS =
      "\"(?:[^\"\\\\\\n]|\\\\.)*\"(?:\\s*\\+\\s*\"(?:[^\"\\\\\\n]|\\\\.)*\")*";
  private static final Pattern LITERAL = Pattern.compile(LITERALS);
  private static final Pattern ONE = Pattern.compile("\"((?:[^\"\\\\\\n]|\\\\.)*)\"");
  private static final Pattern ROW =
      Pattern.compile("\\b(?:arguments|row)\\(\\s*(" + LITERALS + ")(\\s*\\+)?");
  private static final Pattern SOURCE = Pattern.compile(".*\\[([^\\]{}]+)\\]", Pattern.DOTALL);
  private static final Pattern CSV_ROWS =
      Pattern.compile("@CsvSource\\(\\{(.*?)\\}\\)", Pattern.DOTALL);

  /** How far the expected value of a row can be looked up. */
  private enum Standing {
    PUBLISHED("published"),
    MEMORY("published, recalled from memory"),
    COMPUTED("by hand, by definition or by another program"),
    PRACTICE("common practice, proposed or regression");

    private final String title;

    Standing(String title) {
      this.title = title;
    }

    static Standing of(String source) {
      String text = source.toLowerCase(Locale.ROOT);
      if (text.contains("memory")) {
        return MEMORY;
      }
      if (text.contains("practice") || text.contains("proposed") || text.contains("regression")) {
        return PRACTICE;
      }
      if (Stream.of(
              "comput", "by hand", "arithmetic", "definition", "molar volume", "textbook rule")
          .anyMatch(text::contains)) {
        return COMPUTED;
      }
      return PUBLISHED;
    }
  }

  /** A row that names its source. */
  private record Check(String test, String source) {}

  private static String read(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(file + " cannot be read", e);
    }
  }

  private static List<Path> tests(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith("Test.java")).sorted().toList();
    } catch (IOException e) {
      throw new IllegalStateException(folder + " cannot be read", e);
    }
  }

  private static String name(Path file) {
    return file.getFileName().toString().replace(".java", "");
  }

  private static String joined(String literals) {
    StringBuilder joined = new StringBuilder();
    for (Matcher one = ONE.matcher(literals); one.find(); ) {
      joined.append(one.group(1));
    }
    return joined.toString();
  }

  private static List<Check> checks() {
    List<Check> checks = new ArrayList<>();
    for (Path file : tests(SCIENCE)) {
      for (Matcher literal = LITERAL.matcher(read(file)); literal.find(); ) {
        Matcher source = SOURCE.matcher(joined(literal.group()));
        if (source.matches()) {
          checks.add(new Check(name(file), source.group(1)));
        }
      }
    }
    // Tables of tests over the bundled sheets carry the source in their last column.
    for (String test : List.of("AllergenSharesTest", "CountedAsTest")) {
      Matcher table = CSV_ROWS.matcher(read(SHEETS.resolve(test + ".java")));
      assertTrue(table.find(), test);
      for (Matcher row = LITERAL.matcher(table.group(1)); row.find(); ) {
        String cells = joined(row.group());
        checks.add(new Check(test, cells.substring(cells.lastIndexOf(',') + 1).strip()));
      }
    }
    long structures =
        read(Path.of("src/test/resources/gelwright/sheets/structures.csv"))
            .lines()
            .filter(line -> !line.startsWith("#") && !line.startsWith("ingredient;"))
            .count();
    for (long i = 0; i < structures; i++) {
      checks.add(new Check("MolarMassesTest", "computed by CDK from the structure, IUPAC 2021"));
    }
    return checks;
  }

  private static long count(List<Check> checks, Standing standing) {
    return checks.stream().filter(check -> Standing.of(check.source) == standing).count();
  }

  @Test
  @DisplayName("every row of a science test ends with its source in brackets")
  void everyRowHasASource() {
    List<String> without = new ArrayList<>();
    for (Path file : tests(SCIENCE)) {
      for (Matcher row = ROW.matcher(read(file)); row.find(); ) {
        String text = joined(row.group(1));
        // Seeds are random input, and a name that is put together is looked at where it ends.
        boolean random = text.startsWith("seed ");
        boolean goesOn = row.group(2) != null;
        if (!random && !goesOn && !SOURCE.matcher(text).matches()) {
          without.add(name(file) + ": " + text);
        }
      }
    }
    assertEquals(List.of(), without);
  }

  @Test
  @DisplayName("150 rows against published values, 60 of them from a text that can be looked up")
  void enough() {
    List<Check> checks = checks();
    long published = count(checks, Standing.PUBLISHED);
    long recalled = count(checks, Standing.MEMORY);
    assertTrue(published + recalled >= 150, published + " published, " + recalled + " recalled");
    assertTrue(published >= 60, published + " published");
  }

  @Test
  @DisplayName("docs/models/checks.md tells what the tests hold")
  void page() throws IOException {
    String page = page(checks());
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(PAGE, page, StandardCharsets.UTF_8);
    }
    assertEquals(page, read(PAGE), "run with -Dgolden.update=true to write it anew");
  }

  private static String page(List<Check> checks) {
    Map<String, Map<Standing, Integer>> counts = new TreeMap<>();
    Map<String, Map<String, Integer>> sources = new TreeMap<>();
    for (Check check : checks) {
      counts
          .computeIfAbsent(check.test, key -> new EnumMap<>(Standing.class))
          .merge(Standing.of(check.source), 1, Integer::sum);
      if (Standing.of(check.source) == Standing.PUBLISHED) {
        sources
            .computeIfAbsent(check.test, key -> new TreeMap<>())
            .merge(check.source.replaceAll(",? read\\b", ""), 1, Integer::sum);
      }
    }
    StringBuilder page = new StringBuilder();
    page.append("# What the models are checked against\n\n");
    page.append(
        "Written by `ChecksTest` from the tests; every row names its source in brackets.\n");
    page.append(
        "Random input, symmetry and agreement of two routes come on top and are not counted.\n\n");
    page.append("| test | rows |");
    for (Standing standing : Standing.values()) {
      page.append(' ').append(standing.title).append(" |");
    }
    page.append("\n|---|---|").append("---|".repeat(Standing.values().length)).append('\n');
    counts.forEach(
        (test, byStanding) -> {
          int all = byStanding.values().stream().mapToInt(Integer::intValue).sum();
          page.append("| `").append(test).append("` | ").append(all).append(" |");
          for (Standing standing : Standing.values()) {
            page.append(' ').append(byStanding.getOrDefault(standing, 0)).append(" |");
          }
          page.append('\n');
        });
    page.append("| **all** | **").append(checks.size()).append("** |");
    for (Standing standing : Standing.values()) {
      page.append(" **").append(count(checks, standing)).append("** |");
    }
    page.append("\n\n## Published sources\n\n");
    sources.forEach(
        (test, works) -> {
          List<String> parts = new ArrayList<>();
          for (String work : new TreeSet<>(works.keySet())) {
            parts.add(work + " (" + works.get(work) + ")");
          }
          page.append("* `")
              .append(test)
              .append("`: ")
              .append(String.join("; ", parts))
              .append('\n');
        });
    return page.toString();
  }
}
