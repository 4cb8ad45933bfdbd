package gelwright.charts;

import java.io.StringReader;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.jetbrains.letsPlot.commons.geometry.DoubleVector;
import org.jetbrains.letsPlot.core.util.PlotSvgExportCommon;
import org.w3c.dom.Attr;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.helpers.DefaultHandler;

/** What the chart library drew, reduced to what a page with a strict policy lets pass. */
final class Svg {
  // The library writes a style sheet, classes and ids drawn by lot. Its document is parsed, and a
  // new one is written that holds only the elements and attributes listed here: the rules of the
  // style sheet for each text go into its attributes, ids are numbered in their order, and
  // coordinates are rounded to hundredths, far coarser than what mathematics on another machine
  // could differ by.

  private static final String NAMESPACE = "http://www.w3.org/2000/svg";

  private static final Set<String> ELEMENTS =
      Set.of(
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

  private static final Set<String> ATTRIBUTES =
      Set.of(
          "clip-path",
          "cx",
          "cy",
          "d",
          "dx",
          "dy",
          "fill",
          "fill-opacity",
          "fill-rule",
          "font-family",
          "font-size",
          "font-style",
          "font-weight",
          "height",
          "id",
          "points",
          "r",
          "stroke",
          "stroke-dasharray",
          "stroke-dashoffset",
          "stroke-linecap",
          "stroke-opacity",
          "stroke-width",
          "text-anchor",
          "transform",
          "width",
          "x",
          "x1",
          "x2",
          "y",
          "y1",
          "y2");

  /** Attributes that are numbers through and through. */
  private static final Set<String> NUMBERS =
      Set.of(
          "cx",
          "cy",
          "d",
          "fill-opacity",
          "font-size",
          "height",
          "points",
          "r",
          "stroke-dasharray",
          "stroke-dashoffset",
          "stroke-opacity",
          "stroke-width",
          "transform",
          "width",
          "x",
          "x1",
          "x2",
          "y",
          "y1",
          "y2");

  /** What of the style sheet is taken over. */
  private static final Set<String> STYLES =
      Set.of("fill", "font-size", "font-weight", "font-style");

  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(?:\\.[0-9]+)?(?:E-?[0-9]+)?");
  private static final int DECIMALS = 2;

  /** Around what the library draws, whose outermost words reach over its edge. */
  private static final int MARGIN = 14;

  private static final int NOTE_LINE = 22;
  private static final int NOTE_WIDTH = 92;

  private final String prefix;
  private final Map<String, String> ids = new HashMap<>();
  private final Map<String, Map<String, String>> styles = new HashMap<>();
  private final XMLStreamWriter out;

  private Svg(String prefix, XMLStreamWriter out) {
    this.prefix = prefix;
    this.out = out;
  }

  /**
   * Draws.
   *
   * @param specification of the plot, or empty for a note of what the telling says
   */
  static String of(
      Map<String, Object> specification,
      int width,
      int height,
      String title,
      String telling,
      String prefix) {
    StringWriter text = new StringWriter();
    try {
      XMLStreamWriter out = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
      Svg svg = new Svg(prefix, out);
      List<String> note = specification.isEmpty() ? note(title, telling) : List.of();
      int tall = note.isEmpty() ? height : NOTE_LINE * (note.size() + 1);
      svg.open(width, tall, title, telling);
      if (note.isEmpty()) {
        Element drawn = parse(draw(specification, width, height)).getDocumentElement();
        svg.readStyles(drawn);
        svg.children(drawn);
      } else {
        svg.write(note, width, tall);
      }
      out.writeEndElement();
      out.flush();
    } catch (XMLStreamException e) {
      throw new IllegalStateException("a string can be written to", e);
    }
    return text.append('\n').toString();
  }

  private static String draw(Map<String, Object> specification, int width, int height) {
    return PlotSvgExportCommon.INSTANCE.buildSvgImageFromRawSpecs(
        changeable(specification),
        new DoubleVector(width, height),
        (across, down, colours) -> {
          throw new IllegalStateException("no plot here holds an image");
        },
        true);
  }

  // The library writes into what it is given.
  private static Map<String, Object> changeable(Map<String, Object> specification) {
    Map<String, Object> copy = new LinkedHashMap<>();
    new TreeMap<>(specification).forEach((key, value) -> copy.put(key, changeable(value)));
    return copy;
  }

  private static Object changeable(Object value) {
    if (value instanceof Map<?, ?> map) {
      Map<String, Object> copy = new LinkedHashMap<>();
      map.forEach((key, each) -> copy.put((String) key, changeable(each)));
      return copy;
    }
    if (value instanceof List<?> list) {
      List<Object> copy = new ArrayList<>();
      list.forEach(each -> copy.add(changeable(each)));
      return copy;
    }
    return value;
  }

  private static Document parse(String svg) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
      factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      factory.setXIncludeAware(false);
      factory.setExpandEntityReferences(false);
      DocumentBuilder builder = factory.newDocumentBuilder();
      // Problems are thrown, not printed.
      builder.setErrorHandler(new DefaultHandler());
      return builder.parse(new InputSource(new StringReader(svg)));
    } catch (ParserConfigurationException | org.xml.sax.SAXException | java.io.IOException e) {
      throw new IllegalStateException("the chart library wrote what is no XML", e);
    }
  }

  private void open(int width, int height, String title, String telling) throws XMLStreamException {
    out.setDefaultNamespace(NAMESPACE);
    out.writeStartElement(NAMESPACE, "svg");
    out.writeDefaultNamespace(NAMESPACE);
    int wide = width + 2 * MARGIN;
    int tall = height + 2 * MARGIN;
    String box = -MARGIN + " " + -MARGIN + " " + wide + " " + tall;
    out.writeAttribute("viewBox", box);
    out.writeAttribute("width", Integer.toString(wide));
    out.writeAttribute("height", Integer.toString(tall));
    out.writeAttribute("role", "img");
    out.writeAttribute("aria-labelledby", prefix + "-title " + prefix + "-desc");
    out.writeAttribute("font-family", "sans-serif");
    told("title", title);
    told("desc", telling);
    out.writeEmptyElement(NAMESPACE, "path");
    out.writeAttribute(
        "d", "M" + -MARGIN + " " + -MARGIN + "h" + wide + "v" + tall + "h-" + wide + "z");
    out.writeAttribute("fill", "#ffffff");
  }

  private void told(String element, String words) throws XMLStreamException {
    out.writeStartElement(NAMESPACE, element);
    out.writeAttribute("id", prefix + "-" + element);
    out.writeCharacters(wellFormed(words));
    out.writeEndElement();
  }

  /** What cannot stand in XML 1.0 becomes U+FFFD; line breaks and tabs become spaces. */
  static String wellFormed(String text) {
    StringBuilder mended = new StringBuilder(text.length());
    text.codePoints()
        .map(
            point ->
                Character.isWhitespace(point)
                    ? ' '
                    : point < 0x20
                            || point == 0x7f
                            || (point >= 0xd800 && point <= 0xdfff)
                            || (point & 0xfffe) == 0xfffe
                        ? 0xfffd
                        : point)
        .forEach(mended::appendCodePoint);
    return mended.toString();
  }

  // --- A note in the place of a plot

  private static List<String> note(String title, String telling) {
    List<String> lines = new ArrayList<>();
    for (String text : List.of(title, telling)) {
      StringBuilder line = new StringBuilder();
      for (String word : wellFormed(text).split(" +", -1)) {
        if (line.length() > 0 && line.length() + 1 + word.length() > NOTE_WIDTH) {
          lines.add(line.toString());
          line.setLength(0);
        }
        line.append(line.length() == 0 ? "" : " ").append(word);
      }
      lines.add(line.toString());
    }
    return lines;
  }

  private void write(List<String> note, int width, int height) throws XMLStreamException {
    out.writeEmptyElement(NAMESPACE, "rect");
    out.writeAttribute("width", Integer.toString(width));
    out.writeAttribute("height", Integer.toString(height));
    out.writeAttribute("fill", "#ffffff");
    out.writeAttribute("stroke", "#555555");
    for (int i = 0; i < note.size(); i++) {
      out.writeStartElement(NAMESPACE, "text");
      out.writeAttribute("x", "16");
      out.writeAttribute("y", Integer.toString(NOTE_LINE * (i + 1) + 4));
      out.writeAttribute("font-size", "14");
      out.writeAttribute("fill", "#222222");
      if (i == 0) {
        out.writeAttribute("font-weight", "bold");
      }
      out.writeCharacters(note.get(i));
      out.writeEndElement();
    }
  }

  // --- What the library drew

  // Rules of the form "#id .class { name: value; … }"; others are of no use here.
  private void readStyles(Element drawn) {
    NodeList sheets = drawn.getElementsByTagName("style");
    for (int i = 0; i < sheets.getLength(); i++) {
      String sheet = sheets.item(i).getTextContent();
      int at = 0;
      for (int open = sheet.indexOf('{'); open >= 0; open = sheet.indexOf('{', at)) {
        int close = sheet.indexOf('}', open);
        String selector = sheet.substring(at, open).strip();
        at = close + 1;
        int dot = selector.lastIndexOf('.');
        if (!selector.startsWith("#") || dot < 0) {
          continue;
        }
        Map<String, String> rules =
            styles.computeIfAbsent(selector.substring(dot + 1), key -> new TreeMap<>());
        for (String rule : sheet.substring(open + 1, close).split(";", -1)) {
          int colon = rule.indexOf(':');
          String name = colon < 0 ? "" : rule.substring(0, colon).strip();
          String value = rule.substring(colon + 1).strip();
          if (STYLES.contains(name) && !value.equals("normal")) {
            rules.put(name, value.endsWith("px") ? value.substring(0, value.length() - 2) : value);
          }
        }
      }
    }
  }

  private void children(Element parent) throws XMLStreamException {
    for (Node child = parent.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child instanceof Element element && ELEMENTS.contains(element.getTagName())) {
        element(element);
      }
    }
  }

  private void element(Element element) throws XMLStreamException {
    boolean words = element.getTagName().equals("text") || element.getTagName().equals("tspan");
    String content = words ? ownText(element) : "";
    boolean empty = element.getElementsByTagName("*").getLength() == 0 && content.isEmpty();
    boolean holds = Set.of("g", "defs", "text", "tspan").contains(element.getTagName());
    if (empty && holds) {
      return;
    }
    if (empty) {
      out.writeEmptyElement(NAMESPACE, element.getTagName());
      attributes(element);
      return;
    }
    out.writeStartElement(NAMESPACE, element.getTagName());
    attributes(element);
    if (!content.isEmpty()) {
      out.writeCharacters(wellFormed(content));
    }
    children(element);
    out.writeEndElement();
  }

  private static String ownText(Element element) {
    StringBuilder text = new StringBuilder();
    for (Node child = element.getFirstChild(); child != null; child = child.getNextSibling()) {
      if (child.getNodeType() == Node.TEXT_NODE) {
        text.append(child.getTextContent());
      }
    }
    return text.toString().strip();
  }

  private void attributes(Element element) throws XMLStreamException {
    Map<String, String> all = new TreeMap<>();
    for (String name : element.getAttribute("class").split(" ", -1)) {
      all.putAll(styles.getOrDefault(name, Map.of()));
    }
    NamedNodeMap own = element.getAttributes();
    for (int i = 0; i < own.getLength(); i++) {
      Attr attribute = (Attr) own.item(i);
      if (ATTRIBUTES.contains(attribute.getName())) {
        all.put(attribute.getName(), attribute.getValue());
      }
    }
    all.remove("font-family");
    for (Map.Entry<String, String> attribute : all.entrySet()) {
      out.writeAttribute(attribute.getKey(), value(attribute.getKey(), attribute.getValue()));
    }
  }

  private String value(String name, String value) {
    if (name.equals("id")) {
      return id(value);
    }
    if (name.equals("clip-path")) {
      return "url(#" + id(value.substring(value.indexOf('#') + 1, value.indexOf(')'))) + ")";
    }
    if (!NUMBERS.contains(name)) {
      return value;
    }
    Matcher number = NUMBER.matcher(value);
    return number.replaceAll(found -> rounded(found.group())).strip();
  }

  private String id(String drawn) {
    return ids.computeIfAbsent(drawn, key -> prefix + "-" + (ids.size() + 1));
  }

  private static String rounded(String number) {
    BigDecimal rounded =
        new BigDecimal(number).setScale(DECIMALS, RoundingMode.HALF_EVEN).stripTrailingZeros();
    return rounded.signum() == 0 ? "0" : rounded.toPlainString();
  }
}
