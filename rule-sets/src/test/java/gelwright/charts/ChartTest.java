package gelwright.charts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.prediction.Curve;
import gelwright.prediction.Curve.Axis;
import gelwright.prediction.Curve.Kind;
import gelwright.prediction.Curve.Mark;
import gelwright.prediction.Curve.Point;
import gelwright.prediction.Curve.Series;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

@DisplayName("pictures")
final class ChartTest {
  /** Names that would be markup, a formula, a link, a script or no XML at all if taken as such. */
  private static final String HOSTILE =
      "</text><script>alert(1)</script>\" onload=\"x &amp; <a href=\"javascript:x\">x</a>"
          + " \\(\\alpha\\) ]]> <!-- \u0000\u0007\ud800\uffff\n\t[x](y) ${x} {{x}}";

  private static Curve curve(String name, boolean logarithmic, Kind kind, List<Mark> marks) {
    List<Point> points = new ArrayList<>();
    for (double x = 1; x <= 1024; x *= 2) {
      points.add(new Point(x, 50 / x, 100 / x, 200 / x));
    }
    Axis along = new Axis("shear rate", "/s", logarithmic);
    Axis up = new Axis("viscosity of " + name, "Pa·s", logarithmic);
    return new Curve(
        "flow",
        "Flow of " + name,
        along,
        up,
        List.of(
            new Series(name, kind, points),
            new Series(name, Kind.MEASURED, List.of(Point.exact(10, 10)))),
        marks,
        Set.of("what " + name + " is"));
  }

  private static final List<Mark> MARKS =
      List.of(
          Mark.alongX("band " + HOSTILE, 2, 4),
          Mark.alongX("line", 10, 10),
          Mark.alongY("level", 20, 20),
          new Mark("window", 10, 10, 1, 20),
          new Mark("open window", 12, 12, Double.NEGATIVE_INFINITY, 20));

  private static Curve unknown() {
    return new Curve(
        "flow",
        "Flow",
        Axis.linear("a", ""),
        Axis.linear("b", "%"),
        List.of(),
        List.of(),
        Set.of("flow law of Gellan Gum " + HOSTILE));
  }

  static Stream<Arguments> pictures() {
    return Stream.of(
        Arguments.of("a plain curve", Chart.of(curve("gel", false, Kind.LIKELY, MARKS), "Mist")),
        Arguments.of("a logarithmic one", Chart.of(curve("gel", true, Kind.AT_LEAST, MARKS), "")),
        Arguments.of("hostile names", Chart.of(curve(HOSTILE, true, Kind.AT_MOST, MARKS), HOSTILE)),
        Arguments.of("an unknown curve", Chart.of(unknown(), HOSTILE)),
        Arguments.of(
            "one point",
            Chart.of(
                new Curve(
                    "x",
                    "X",
                    Axis.linear("a", ""),
                    Axis.linear("b", "%"),
                    List.of(new Series("only", Kind.LIKELY, List.of(Point.exact(3, 0)))),
                    List.of(),
                    Set.of()),
                "")),
        Arguments.of(
            "bars",
            Chart.of(
                new Bars(
                    "Composition " + HOSTILE,
                    "share",
                    "%",
                    List.of(
                        Bars.Bar.of("Aqua", 95.5, "%"),
                        Bars.Bar.of(HOSTILE, 4, "%"),
                        Bars.Bar.of(HOSTILE, 0, "%"))),
                HOSTILE)),
        Arguments.of(
            "bars below zero",
            Chart.of(
                new Bars(
                    "Room left",
                    "room",
                    "",
                    List.of(Bars.Bar.of("pH", -0.4, ""), Bars.Bar.of("a", 0, ""))),
                "")));
  }

  private static Document parse(String svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    return factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
  }

  private static List<Element> elements(Document document) {
    NodeList all = document.getElementsByTagName("*");
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < all.getLength(); i++) {
      elements.add((Element) all.item(i));
    }
    return elements;
  }

  @ParameterizedTest(name = "{0} -> an image with a title and a text for those who do not see it")
  @MethodSource("pictures")
  void isAccessible(String what, Chart chart) throws Exception {
    Element root = parse(chart.svg("p")).getDocumentElement();
    assertEquals("http://www.w3.org/2000/svg", root.getAttribute("xmlns"));
    assertEquals("img", root.getAttribute("role"));
    assertEquals("p-title p-desc", root.getAttribute("aria-labelledby"));
    Element title = (Element) root.getElementsByTagName("title").item(0);
    Element desc = (Element) root.getElementsByTagName("desc").item(0);
    assertEquals("p-title", title.getAttribute("id"));
    assertEquals("p-desc", desc.getAttribute("id"));
    assertFalse(title.getTextContent().isBlank());
    assertTrue(desc.getTextContent().length() > 10, desc.getTextContent());
  }

  @ParameterizedTest(name = "{0} -> nothing that a strict page stops, and nothing from outside")
  @MethodSource("pictures")
  void isSelfContained(String what, Chart chart) throws Exception {
    Set<String> allowed =
        Set.of(
            "svg",
            "title",
            "desc",
            "g",
            "path",
            "rect",
            "line",
            "text",
            "tspan",
            "defs",
            "clipPath",
            "circle",
            "polyline",
            "polygon");
    for (Element element : elements(parse(chart.svg("p")))) {
      assertTrue(allowed.contains(element.getTagName()), element.getTagName());
      NamedNodeMap attributes = element.getAttributes();
      for (int i = 0; i < attributes.getLength(); i++) {
        String name = attributes.item(i).getNodeName();
        String value = attributes.item(i).getNodeValue();
        assertFalse(name.equals("style") || name.equals("class") || name.startsWith("on"), name);
        assertFalse(name.contains("href"), name);
        assertTrue(!value.contains("url(") || value.startsWith("url(#p-"), value);
        assertFalse(value.contains("NaN") || value.contains("Infinity"), name + "=" + value);
      }
    }
  }

  @ParameterizedTest(name = "{0} -> every id has the prefix, once, and every reference is met")
  @MethodSource("pictures")
  void ids(String what, Chart chart) throws Exception {
    Set<String> ids = new HashSet<>();
    Set<String> references = new HashSet<>();
    for (Element element : elements(parse(chart.svg("chart-7")))) {
      if (element.hasAttribute("id")) {
        assertTrue(element.getAttribute("id").startsWith("chart-7-"));
        assertTrue(ids.add(element.getAttribute("id")), element.getAttribute("id"));
      }
      if (element.hasAttribute("clip-path")) {
        String url = element.getAttribute("clip-path");
        references.add(url.substring(5, url.length() - 1));
      }
    }
    assertTrue(ids.containsAll(references), ids + " " + references);
  }

  @ParameterizedTest(name = "{0} -> the same bytes twice")
  @MethodSource("pictures")
  void isRepeatable(String what, Chart chart) {
    assertEquals(chart.svg("p"), chart.svg("p"));
  }

  @Test
  @DisplayName("the text tells the numbers, the ranges, the marks and what is missing")
  void tells() throws Exception {
    String desc =
        parse(Chart.of(curve("gel", true, Kind.LIKELY, MARKS), "Mist").svg("p"))
            .getElementsByTagName("desc")
            .item(0)
            .getTextContent();
    for (String words :
        List.of(
            "shear rate in /s, logarithmic",
            "Gel: 100 Pa·s (50 to 200) at 1 /s",
            "Marked: line, 10 /s",
            "Marked: window, 1 to 20 Pa·s at 10 /s",
            "Marked: open window, up to 20 Pa·s at 12 /s",
            "Missing: what gel is.")) {
      assertTrue(desc.contains(words), words + " in " + desc);
    }
  }

  @Test
  @DisplayName("an unknown curve -> a picture that says what is missing, and no plot")
  void unknownSaysSo() throws Exception {
    Document document = parse(Chart.of(unknown(), "Mist").svg("p"));
    StringBuilder words = new StringBuilder();
    for (Element element : elements(document)) {
      if (element.getTagName().equals("text")) {
        words.append(element.getTextContent()).append(' ');
      }
    }
    assertTrue(words.toString().startsWith("Flow – Mist Not known. Missing: flow law of Gellan"));
    assertEquals(0, document.getElementsByTagName("line").getLength());
  }

  @Test
  @DisplayName("two series -> different dashes besides different colours")
  void dashes() throws Exception {
    List<Series> two = new ArrayList<>();
    for (String name : List.of("warm", "cold")) {
      two.add(new Series(name, Kind.LIKELY, List.of(Point.exact(0, 1), Point.exact(1, 2))));
    }
    Curve compared =
        new Curve("x", "X", Axis.linear("a", ""), Axis.linear("b", ""), two, List.of(), Set.of());
    Set<String> colours = new HashSet<>();
    Set<String> dashes = new HashSet<>();
    for (Element element : elements(parse(Chart.of(compared, "").svg("p")))) {
      if (element.getTagName().equals("path") && element.getAttribute("fill").equals("none")) {
        colours.add(element.getAttribute("stroke"));
        dashes.add(element.getAttribute("stroke-dasharray"));
      }
    }
    assertEquals(2, colours.size(), colours.toString());
    assertEquals(2, dashes.size(), dashes.toString());
  }

  @Test
  @DisplayName("a hostile name stays text, to the letter, in the title")
  void hostileIsText() throws Exception {
    String title =
        parse(Chart.of(curve("gel", true, Kind.LIKELY, List.of()), "a<b>&\"c\"").svg("p"))
            .getElementsByTagName("title")
            .item(0)
            .getTextContent();
    assertEquals("Flow of gel – a<b>&\"c\"", title);
  }

  @ParameterizedTest(name = "prefix \"{0}\" is turned down")
  @MethodSource("prefixes")
  void prefixes(String prefix) {
    Chart chart = Chart.of(unknown(), "");
    assertThrows(IllegalArgumentException.class, () -> chart.svg(prefix));
  }

  static Stream<String> prefixes() {
    return Stream.of("", "7", "a b", "a\"b", "é", "-a");
  }
}
