package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The reviews of the example formulas, held to the files in {@code golden}. A change that is meant
 * is taken over with {@code -Dgolden.update=true} and read in the diff before it is committed.
 */
@DisplayName("reviews of the example formulas")
final class GoldenReviewsTest {
  private static final Path PROJECT = Path.of("..");
  private static final Path GOLDEN = Path.of("src/test/resources/golden");
  private static final boolean UPDATE = Boolean.getBoolean("golden.update");

  static List<String> examples() throws IOException {
    try (Stream<Path> files = Files.list(PROJECT.resolve("docs/examples"))) {
      return files
          .map(path -> path.getFileName().toString())
          .filter(name -> name.endsWith(".yaml"))
          .sorted()
          .toList();
    }
  }

  static Stream<Arguments> reviews() throws IOException {
    return examples().stream()
        .flatMap(name -> Stream.of(Arguments.of(name, "text"), Arguments.of(name, "json")));
  }

  @Test
  @DisplayName("there are eight of them")
  void eight() throws IOException {
    assertEquals(8, examples().size());
  }

  @ParameterizedTest(name = "{0} as {1}")
  @MethodSource("reviews")
  void isAsKept(String example, String format) throws IOException {
    String review = review(example, format);
    Path kept = GOLDEN.resolve(example.replace(".yaml", format.equals("text") ? ".txt" : ".json"));
    if (UPDATE) {
      Files.createDirectories(GOLDEN);
      Files.writeString(kept, review);
    }
    assertTrue(Files.exists(kept), "no kept review " + kept);
    assertEquals(Files.readString(kept), review);
  }

  @Test
  @DisplayName("the README shows a part of one of them, to the letter")
  void readmeShowsOne() throws IOException {
    String readme = Files.readString(PROJECT.resolve("README.md"));
    int start = readme.indexOf("A finding looks like this:");
    int open = readme.indexOf("```\n", start) + 4;
    String sample = readme.substring(open, readme.indexOf("```", open));
    assertFalse(sample.isBlank());
    assertTrue(
        Files.readString(GOLDEN.resolve("soil-off-scrub.txt")).contains(sample),
        "the README's sample is not in the review of the scrub:\n" + sample);
  }

  /** The review as printed when the program is run at the top of the project. */
  static String review(String example, String format) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    Terminal terminal =
        new Terminal(
            out,
            StandardCharsets.UTF_8,
            new PrintStream(err, true, StandardCharsets.UTF_8),
            false,
            Map.of(),
            () -> LocalDate.of(2026, 11, 25));
    int status =
        new Program(ENGINE, terminal)
            .run(
                "review",
                PROJECT.resolve("docs/examples").resolve(example).toString(),
                "--on",
                "2026-11-25",
                "--format",
                format);
    assertTrue(status <= 1, "status " + status + ": " + err.toString(StandardCharsets.UTF_8));
    return out.toString(StandardCharsets.UTF_8).replace("../docs/", "docs/");
  }

  private static final Engine ENGINE = new BundledEngine();
}
