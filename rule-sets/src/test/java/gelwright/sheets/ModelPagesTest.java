package gelwright.sheets;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every page of docs/models has what a reader needs to judge the model, and tests bear it out. */
@DisplayName("pages of the models")
final class ModelPagesTest {
  private static final Path PAGES = Path.of("..", "docs", "models");
  private static final Path SCIENCE = Path.of("..", "rules-core/src/main/java/gelwright/science");
  private static final Path TESTS = Path.of("..", "rules-core/src/test/java/gelwright");

  /** What a page has to have: as a heading, or as a word in bold at the start of a paragraph. */
  private static final Map<String, Pattern> PARTS = parts();

  private static final Pattern TEST = Pattern.compile("Test:\\s*`(\\w+Test)\\.(\\w+)`");

  private static Map<String, Pattern> parts() {
    Map<String, Pattern> parts = new LinkedHashMap<>();
    parts.put("an equation", Pattern.compile("(## |\\*\\*)(Equations?|Arithmetic)"));
    parts.put("its symbols with their units", Pattern.compile("[Ss]ymbols?\\b|\\bunit\\b"));
    parts.put("its range", Pattern.compile("(## |\\*\\*)(Range|Where first order ends)"));
    parts.put("its doubts", Pattern.compile("(## [^\\n]*[Dd]oubt|\\*\\*Doubts?)"));
    parts.put("its sources", Pattern.compile("(## |\\*\\*)Sources?"));
    parts.put("an example by hand", Pattern.compile("(## |\\*\\*)(By hand|Worked by hand)"));
    return parts;
  }

  private static String read(Path file) {
    try {
      return Files.readString(file, StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException(file + " cannot be read", e);
    }
  }

  static List<Path> pages() throws IOException {
    try (Stream<Path> files = Files.list(PAGES)) {
      // checks.md is a list of checks and no model.
      return files
          .filter(file -> file.toString().endsWith(".md") && !file.endsWith("checks.md"))
          .sorted()
          .toList();
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("pages")
  @DisplayName("equation, symbols, range, doubts, sources and an example by hand")
  void complete(Path page) {
    String text = read(page);
    List<String> missing =
        PARTS.entrySet().stream()
            .filter(part -> !part.getValue().matcher(text).find())
            .map(Map.Entry::getKey)
            .toList();
    assertEquals(List.of(), missing);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("pages")
  @DisplayName("a test repeats the example by hand")
  void repeated(Path page) {
    String text = read(page);
    if (page.endsWith("estimates.md")) {
      assertTrue(
          text.contains("`EstimateTest`, \"warm 20 Pa and cold 14 Pa\"")
              && read(TESTS.resolve("quantity/EstimateTest.java"))
                  .contains("warm 20 Pa and cold 14 Pa"));
      return;
    }
    Matcher named = TEST.matcher(text);
    assertTrue(named.find(), "no Test: `SomeTest.someMethod`");
    String test = read(TESTS.resolve("science/" + named.group(1) + ".java"));
    assertTrue(
        Pattern.compile("void " + named.group(2) + "\\(").matcher(test).find(), named.group());
  }

  @Test
  @DisplayName("every model of the engine has its page")
  void everyModel() throws IOException {
    String all = pages().stream().map(ModelPagesTest::read).collect(Collectors.joining());
    // These hold no model of their own: guards, constants and numerics that several models share.
    Set<String> helpers = Set.of("LogLeastSquares", "Require", "Thermal", "package-info");
    List<String> without = new ArrayList<>();
    try (Stream<Path> files = Files.list(SCIENCE)) {
      for (Path file : files.sorted().toList()) {
        String name = file.getFileName().toString().replace(".java", "");
        if (!helpers.contains(name) && !all.contains("`" + name)) {
          without.add(name);
        }
      }
    }
    assertEquals(List.of(), without);
  }
}
