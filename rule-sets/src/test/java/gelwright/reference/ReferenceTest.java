package gelwright.reference;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("reference pages")
final class ReferenceTest {
  private static final Path FOLDER = Path.of("..", "docs", "reference");
  private static final boolean UPDATE = Boolean.getBoolean("golden.update");

  @Test
  @DisplayName("say what the sheets say")
  void asKept() throws IOException {
    Map<String, String> pages = new Reference().pages();
    if (UPDATE) {
      write(pages);
    }
    List<String> differing = new ArrayList<>();
    for (Map.Entry<String, String> page : pages.entrySet()) {
      Path file = FOLDER.resolve(page.getKey());
      if (!Files.exists(file) || !Files.readString(file).equals(page.getValue())) {
        differing.add(page.getKey());
      }
    }
    assertTrue(
        differing.isEmpty(),
        () -> "pages that differ (run with -Dgolden.update=true and read the diff): " + differing);
    assertEquals(new TreeSet<>(pages.keySet()), kept(), "pages without a rule");
  }

  private static TreeSet<String> kept() throws IOException {
    try (Stream<Path> files = Files.walk(FOLDER)) {
      TreeSet<String> kept = new TreeSet<>();
      files
          .filter(Files::isRegularFile)
          .forEach(file -> kept.add(FOLDER.relativize(file).toString().replace('\\', '/')));
      return kept;
    }
  }

  private static void write(Map<String, String> pages) throws IOException {
    Files.createDirectories(FOLDER);
    for (String old : kept()) {
      if (!pages.containsKey(old)) {
        Files.delete(FOLDER.resolve(old));
      }
    }
    for (Map.Entry<String, String> page : pages.entrySet()) {
      Path file = FOLDER.resolve(page.getKey());
      Files.createDirectories(file.getParent());
      Files.write(file, page.getValue().getBytes(StandardCharsets.UTF_8));
    }
  }
}
