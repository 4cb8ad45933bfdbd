package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.api.html.Paper.Blanks;
import gelwright.api.html.Paper.Block;
import gelwright.api.html.Paper.Cell;
import gelwright.api.html.Paper.Column;
import gelwright.api.html.Paper.Fact;
import gelwright.api.html.Paper.Facts;
import gelwright.api.html.Paper.Holds;
import gelwright.api.html.Paper.Note;
import gelwright.api.html.Paper.Points;
import gelwright.api.html.Paper.Row;
import gelwright.api.html.Paper.Section;
import gelwright.api.html.Paper.Step;
import gelwright.api.html.Paper.Table;
import gelwright.api.html.Paper.Words;
import java.io.IOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jsoup.parser.ParseErrorList;
import org.jsoup.parser.Parser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Pages read back with an HTML parser of another make. */
class PagesTest {
  /** How many texts {@link #paper} is made of. */
  private int texts;

  private String text(String core) {
    texts++;
    return core + texts;
  }

  /** A paper with every kind of block, each text its own. */
  private Paper paper(String core) {
    texts = 0;
    List<Block> blocks = new ArrayList<>();
    blocks.add(new Words(text(core)));
    blocks.add(new Paper.Quoted(text(core)));
    blocks.add(
        new Facts(
            List.of(
                new Fact(text(core), text(core), text(core)),
                new Fact(text(core), text(core), ""))));
    blocks.add(new Points(false, List.of(text(core))));
    blocks.add(new Points(true, List.of(text(core))));
    blocks.add(new Paper.References(List.of(text(core))));
    for (Note.Kind kind : Note.Kind.values()) {
      blocks.add(new Note(kind, List.of(text(core))));
    }
    blocks.add(
        new Table(
            text(core),
            List.of(
                new Column(text(core), Holds.TEXT),
                new Column(text(core), Holds.NUMBER),
                new Column(text(core), Holds.BLANK)),
            List.of(
                new Row(
                    List.of(new Cell(text(core), text(core)), Cell.of(text(core)), Cell.of("")),
                    false),
                new Row(List.of(Cell.of(text(core)), Cell.of(""), Cell.of("")), true))));
    blocks.add(
        new Step(1, text(core), List.of(text(core)), List.of(text(core)), List.of(text(core))));
    blocks.add(new Blanks(List.of(text(core))));
    Page page =
        new Page(text(core), text(core), List.of(text(core), text(core)), List.of(text(core)));
    return new Paper(page, List.of(new Section(text(core), blocks)));
  }

  private static Set<String> shape(Document page) {
    Set<String> shape = new TreeSet<>();
    for (Element element : page.getAllElements()) {
      shape.add(
          element.tagName()
              + element.attributes().asList().stream()
                  .map(a -> " " + a.getKey())
                  .sorted()
                  .collect(Collectors.joining()));
    }
    return shape;
  }

  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "</title><script>alert(1)</script>",
        "</style><style>*{display:none}</style>",
        "\" onmouseover=\"alert(1)\" x=\"",
        "' onload='alert(1)' x='",
        "\"><img src=x onerror=alert(1)>",
        "<svg><desc><script>alert(1)</script></desc></svg>",
        "<svg onload=alert(1)><![CDATA[<script>]]></svg>",
        "--><script>alert(1)</script><!--",
        "&lt;script&gt;alert(1)&lt;/script&gt;",
        "&#60;b&#62;",
        "</p></section></main></body></html><p>",
        "${7*7} $unsafe{x} @raw <%= 1 %> {{1}}",
        "javascript:alert(1)",
        "`${a}`<math><mtext></table><mglyph><style><!--</style><img title=\"--&gt;&lt;img src=1"
            + " onerror=alert(1)&gt;\">",
        "plain ÄÖÜ – µ % ° ½ \uD83C\uDF3F"
      })
  void no_text_becomes_markup(String core) {
    Document plain = Jsoup.parse(Pages.of(paper("plain")));
    Document page = Jsoup.parse(Pages.of(paper(core)));
    String shown = page.body().wholeText();
    assertAll(
        () -> assertEquals(plain.getAllElements().size(), page.getAllElements().size()),
        () -> assertEquals(shape(plain), shape(page)),
        () -> assertEquals(plain.select("[class]").size(), page.select("[class]").size()),
        () -> assertTrue(page.select("script, iframe, object, embed, img, link").isEmpty()));
    for (int i = 1; i <= texts; i++) {
      String text = core + i;
      assertTrue(shown.contains(text), () -> "not to be read on the page: " + text);
    }
  }

  @Test
  void a_page_is_sound_html() {
    Parser parser = Parser.htmlParser().setTrackErrors(50);
    Document page = parser.parseInput(Pages.of(paper("text")), "");
    ParseErrorList errors = parser.getErrors();
    assertTrue(errors.isEmpty(), () -> errors.toString());
    assertEquals("en", page.select("html").attr("lang"));
    assertEquals(1, page.select("h1").size());
    assertEquals(1, page.select("main").size());
    assertEquals(1, page.select("header").size());
    assertEquals(1, page.select("footer").size());
    assertEquals("utf-8", page.select("meta[charset]").attr("charset"));
    assertFalse(page.title().isBlank());
    assertTrue(page.select("th").stream().allMatch(th -> th.attr("scope").equals("col")));
  }

  @Test
  void a_page_asks_for_nothing_and_is_styled_by_the_one_sheet_its_policy_names() throws Exception {
    Document page = Jsoup.parse(Pages.of(paper("text")));
    assertEquals(0, page.select("[src], [href], [style], link, script").size());
    assertEquals(1, page.select("style").size());
    String css = page.select("style").get(0).data();
    assertFalse(css.contains("url(") || css.contains("@import"), "the sheet fetches something");
    byte[] digest =
        MessageDigest.getInstance("SHA-256").digest(css.getBytes(StandardCharsets.UTF_8));
    String hash = "'sha256-" + Base64.getEncoder().encodeToString(digest) + "'";
    String policy = page.select("meta[http-equiv=Content-Security-Policy]").attr("content");
    assertTrue(policy.startsWith("default-src 'none';"), policy);
    assertTrue(policy.contains("style-src " + hash + ";"), policy);
    assertFalse(policy.contains("unsafe"), policy);
    assertTrue(Style.HOUSE.policyOfAnswer().contains("frame-ancestors 'none'"));
  }

  /** Text that goes into a page as it is: the sheet of the house, and pictures the program drew. */
  @Test
  void only_the_sheet_and_drawn_pictures_go_in_unescaped() throws IOException, URISyntaxException {
    List<String> unescaped = new ArrayList<>();
    Path templates = Path.of("src/main/jte");
    try (Stream<Path> files = Files.walk(templates)) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        for (String line : Files.readAllLines(file)) {
          if (line.contains("$unsafe")) {
            unescaped.add(templates.relativize(file) + ": " + line.strip());
          }
        }
      }
    }
    assertEquals(
        List.of(
            "block.jte: $unsafe{picture.svg()}",
            "layout.jte: <style>$unsafe{Style.HOUSE.css()}</style>"),
        unescaped);
  }

  /** WCAG 2.2, success criterion 1.4.3: at least 4.5 to 1 for text; here for every pair in use. */
  @ParameterizedTest(name = "{0}")
  @ValueSource(strings = {"ink paper", "soft paper", "accent paper", "ink tint", "soft tint"})
  void text_stands_out_from_its_ground(String pair) {
    List<String> names = List.of(pair.split(" "));
    double a = luminance(names.get(0));
    double b = luminance(names.get(1));
    double contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    assertTrue(contrast >= 4.5, () -> pair + ": " + contrast);
  }

  /** Relative luminance as WCAG 2.2 defines it. */
  private static double luminance(String name) {
    String css = Style.HOUSE.css();
    int at = css.indexOf("--" + name + ": #");
    assertTrue(at >= 0, () -> "no colour " + name);
    int start = css.indexOf('#', at) + 1;
    int rgb = Integer.parseInt(css.substring(start, start + 6), 16);
    return 0.2126 * linear(rgb >> 16)
        + 0.7152 * linear(rgb >> 8 & 255)
        + 0.0722 * linear(rgb & 255);
  }

  private static double linear(int channel) {
    double c = channel / 255.0;
    return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
  }

  @Test
  void a_sheet_that_would_close_its_element_is_refused() {
    assertThrows(IllegalArgumentException.class, () -> Style.of("a{} </style>"));
  }

  @Test
  void a_table_has_a_cell_for_each_column() {
    List<Column> two = List.of(new Column("a", Holds.TEXT), new Column("b", Holds.TEXT));
    List<Row> one = List.of(new Row(List.of(Cell.of("a")), false));
    assertThrows(IllegalArgumentException.class, () -> new Table("", two, one));
  }
}
