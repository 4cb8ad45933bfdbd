package gelwright.reports;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.review.Review;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.FieldSource;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

@DisplayName("reviews as JUnit XML")
final class JUnitReportTest {
  static final List<String> HOSTILE = Samples.HOSTILE;

  private static byte[] bytes(List<Review> reviews, List<Unreadable> unreadable) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JUnitReport.write(reviews, unreadable, out);
    return out.toByteArray();
  }

  private static Document parse(byte[] bytes) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    return factory.newDocumentBuilder().parse(new ByteArrayInputStream(bytes));
  }

  private static Element testCase(Document document, String name) {
    NodeList cases = document.getElementsByTagName("testcase");
    for (int i = 0; i < cases.getLength(); i++) {
      Element one = (Element) cases.item(i);
      if (one.getAttribute("name").equals(name)) {
        return one;
      }
    }
    throw new AssertionError("no test case " + name);
  }

  private static String verdict(Element one) {
    for (String kind : List.of("failure", "error", "skipped")) {
      if (one.getElementsByTagName(kind).getLength() == 1) {
        return kind;
      }
    }
    return "passed";
  }

  @ParameterizedTest(name = "{0} -> {1}: {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "oil-load.above-gel-capacity [ingredient: Squalane] | failure | 14 % of oil",
        "oil-load.above-gel-capacity [ingredient: Jojoba Oil] | skipped | Accepted until 2027-03-01 because held",
        "acidity.weak | failure | The pH may leave",
        "acidity.drift | skipped | Borderline, probably holds: ",
        "preservation.no-data [preservative: Sodium Benzoate] | failure | Missing: inhibitory levels",
        "preservation.active-level [preservative: Sodium Benzoate] | skipped | Not checked: ",
        "label.children | skipped | May apply: ",
        "composition.sum | passed | ''",
        "suspension.grains-settle | passed | ''",
      })
  void table(String name, String verdict, String message) throws Exception {
    Element one = testCase(parse(bytes(List.of(Samples.full()), List.of())), name);
    assertEquals(verdict, verdict(one));
    if (!verdict.equals("passed")) {
      String said = ((Element) one.getElementsByTagName(verdict).item(0)).getAttribute("message");
      assertTrue(said.contains(message), said);
    }
  }

  @Test
  @DisplayName("the counts are those of the cases; a duty that applies is no case")
  void counts() throws Exception {
    Document document =
        parse(bytes(List.of(Samples.full()), List.of(Samples.unreadable("a.yaml"))));
    Element all = document.getDocumentElement();
    assertEquals(
        Integer.toString(document.getElementsByTagName("testcase").getLength()),
        all.getAttribute("tests"));
    assertEquals("3", all.getAttribute("failures"));
    assertEquals("1", all.getAttribute("errors"));
    assertEquals("4", all.getAttribute("skipped"));
    assertEquals(2, document.getElementsByTagName("testsuite").getLength());
    NodeList cases = document.getElementsByTagName("testcase");
    for (int i = 0; i < cases.getLength(); i++) {
      assertTrue(!((Element) cases.item(i)).getAttribute("name").equals("caution.patch-test"));
    }
  }

  @ParameterizedTest(name = "text that breaks out of nothing: row {index}")
  @FieldSource("HOSTILE")
  void hostile(String text) throws Exception {
    byte[] written = bytes(List.of(Samples.hostile(text)), List.of(Samples.unreadable(text)));
    Document document = parse(written);
    String name =
        ((Element) document.getElementsByTagName("testsuite").item(0)).getAttribute("name");
    StringBuilder expected = new StringBuilder();
    text.codePoints()
        .filter(
            point ->
                point == '\n'
                    || point == '\t'
                    || (!Character.isISOControl(point)
                        && Character.getType(point) != Character.SURROGATE
                        && point != 0xfffe
                        && point != 0xffff))
        .forEach(expected::appendCodePoint);
    assertEquals(expected.toString(), name);
    assertEquals(0, document.getElementsByTagName("script").getLength());
  }

  @Test
  @DisplayName("the same reviews give the same bytes")
  void repeats() throws Exception {
    assertArrayEquals(
        bytes(List.of(Samples.full()), List.of()), bytes(List.of(Samples.full()), List.of()));
  }
}
