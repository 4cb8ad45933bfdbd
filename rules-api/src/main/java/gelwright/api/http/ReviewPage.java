package gelwright.api.http;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/**
 * The review page: a page in the browser over this service, and the files that it is made of.
 *
 * <p>The files are named in a list and read when the service starts. An address is looked up among
 * them and never becomes a path, so nothing else can be reached. What is written for this program
 * is asked for anew with its tag; a library lies under its version, so that a browser may keep it.
 */
final class ReviewPage {
  /** Names of all files, a line each. */
  static final String LIST = "files.txt";

  /** Name of the page itself. */
  static final String PAGE = "page.html";

  /**
   * What the page may load, and from where: this service only, and pictures made of its answers.
   */
  static final String POLICY =
      "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:;"
          + " connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

  /**
   * The library that reads and writes YAML in the browser; its folder is named with its version.
   */
  private static final String LIBRARY = "yaml-";

  private static final String OWN = "/gelwright/page/";
  private static final String WEBJARS = "/META-INF/resources/webjars/yaml/";
  private static final String KEEP = "public, max-age=31536000, immutable";

  private static final Map<String, MediaType> TYPES =
      Map.of(
          "html", MediaType.HTML,
          "css", MediaType.CSS,
          "js", MediaType.SCRIPT,
          "svg", MediaType.SVG,
          "yaml", MediaType.YAML);

  private final Map<String, Representation> files;

  private ReviewPage(Map<String, Representation> files) {
    this.files = Map.copyOf(files);
  }

  /** Reads all files. */
  static ReviewPage load() {
    Map<String, Representation> files = new LinkedHashMap<>();
    for (String name : names()) {
      files.put(name, new Representation(read(resource(name)), type(name)));
    }
    return new ReviewPage(files);
  }

  /** The names of the files, as they stand in addresses. */
  static List<String> names() {
    return new String(read(OWN + LIST), StandardCharsets.UTF_8)
        .lines()
        .filter(line -> !line.isBlank() && !line.startsWith("#"))
        .toList();
  }

  /** The page. */
  void page(Exchange exchange) {
    exchange.query(Set.of());
    MediaType.best(exchange.header("Accept"), List.of(MediaType.HTML));
    exchange.header("Content-Security-Policy", POLICY);
    exchange.answer(file(PAGE));
  }

  /** One of its files. */
  void file(Exchange exchange) {
    exchange.query(Set.of());
    String name = exchange.parameter("file");
    Representation file = files.get(name);
    if (file == null || name.equals(PAGE)) {
      throw Trouble.of(ProblemType.NOT_FOUND, "The page has no such file.");
    }
    if (name.startsWith(LIBRARY)) {
      exchange.answer(file, KEEP);
    } else {
      exchange.answer(file);
    }
  }

  /** A file that there is. */
  Representation file(String name) {
    Representation file = files.get(name);
    if (file == null) {
      throw new IllegalArgumentException("name: the page has no file " + name);
    }
    return file;
  }

  private static MediaType type(String name) {
    String ending = name.substring(name.lastIndexOf('.') + 1).toLowerCase(Locale.ROOT);
    MediaType type = TYPES.get(ending);
    if (type == null) {
      throw new IllegalStateException("no media type for " + name);
    }
    return type;
  }

  /** {@code yaml-2.3.1/index.js} is the file of that version of the library; all else is own. */
  private static String resource(String name) {
    if (!name.startsWith(LIBRARY)) {
      return OWN + name;
    }
    int slash = name.indexOf('/');
    return WEBJARS
        + name.substring(LIBRARY.length(), slash)
        + "/browser/dist"
        + name.substring(slash);
  }

  private static byte[] read(String resource) {
    try (InputStream in = ReviewPage.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new FileNotFoundException("no bundled resource " + resource);
      }
      return in.readAllBytes();
    } catch (IOException exception) {
      throw new UncheckedIOException(exception);
    }
  }
}
