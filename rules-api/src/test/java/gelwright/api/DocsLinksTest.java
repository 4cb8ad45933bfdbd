package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("the pages of the project")
final class DocsLinksTest {
  private static final Path ROOT = Path.of("..");
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#\\s]+)(?:#[^)]*)?\\)");

  @Test
  @DisplayName("link only to what is there")
  void linksLeadSomewhere() throws IOException {
    List<String> broken = new ArrayList<>();
    int links = 0;
    for (Path page : pages()) {
      Matcher link = LINK.matcher(Files.readString(page));
      while (link.find()) {
        if (link.group(1).contains("://")) {
          continue;
        }
        links++;
        if (!Files.exists(page.resolveSibling(link.group(1)))) {
          broken.add(page + " -> " + link.group(1));
        }
      }
    }
    assertTrue(links > 30, "found only " + links + " links");
    assertEquals(List.of(), broken);
  }

  private static List<Path> pages() throws IOException {
    List<Path> pages = new ArrayList<>(List.of(ROOT.resolve("README.md")));
    pages.add(ROOT.resolve("DEVELOPERS.md"));
    try (Stream<Path> docs = Files.walk(ROOT.resolve("docs"))) {
      docs.filter(path -> path.toString().endsWith(".md")).forEach(pages::add);
    }
    return pages;
  }
}
