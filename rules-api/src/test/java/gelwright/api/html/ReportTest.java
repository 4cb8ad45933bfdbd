package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import gelwright.problem.Place;
import gelwright.problem.Problem;
import gelwright.reports.JsonReport;
import gelwright.reports.Unreadable;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Include;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.rule.RuleSet;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.jsoup.parser.Parser;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Reports of the example formulas, read back with an HTML parser. */
@DisplayName("printed reports")
final class ReportTest {
  private static final Pattern NUMBER = Pattern.compile("-?\\d+(?:\\.\\d+)?(?:e-?\\d+)?");

  /** With a finding that is accepted, and one of each thing a sheet can say in words. */
  private static final String TALKATIVE =
      """
      formula: "@ name"
      version: "@ version"
      product: { kind: serum, use: leave-on, area: [face], texture: serum, dispensing: pump, pH: 5.0 to 5.8, markets: [EU] }
      equipment: { vessel: { diameter: 85 mm, cover: open } }
      ingredients:
        - { phase: "@ phase", name: Aqua, share: rest }
        - { phase: "@ phase", name: Xanthan Gum, share: 3 %, grade: "@ grade" }
        - { phase: "@ phase", name: Sodium Benzoate, share: 0.9 % }
        - { phase: "@ phase", name: Salicylic Acid, share: 0.5 %, hydrate: "@ hydrate" }
        - { phase: B, name: "@ ingredient", share: 2 %, lot: "@ lot" }
      method:
        - { do: disperse, phase: "@ phase", with: "@ with", stir: 800 rpm }
        - { do: add, phase: B, into: "@ into" }
      label:
        ingredients: ["@ label"]
        warnings: ["@ warning"]
      accepted:
        - { rule: texture.gum-above-usual-level, subject: Xanthan Gum, observed: 3 %, because: "@ because", until: 2027-03-01 }
        - { rule: feel.slimy-xanthan, subject: "@ subject", because: "@ because", until: 2027-03-01 }
      """;

  private static String talkative(String words) {
    return TALKATIVE.replace("@", words.replace("\\", "\\\\").replace("\"", "\\\""));
  }

  private static Document page(String html) {
    return Jsoup.parse(html);
  }

  private static Document page(Reports.Reviewed reviewed) {
    return page(Pages.of(Reports.of(reviewed)));
  }

  private static Reports.Reviewed example(String name) {
    return Examples.reviewed(Examples.sheet(name), "docs/examples/" + name, false);
  }

  static List<String> names() {
    return Examples.names();
  }

  private static String plain(String text) {
    return text.replaceAll("\\s+", " ").strip();
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("names")
  @DisplayName("nothing of a review is left out")
  void nothingIsLeftOut(String name) {
    Reports.Reviewed reviewed = example(name);
    Review review = reviewed.review();
    Document page = page(reviewed);
    String text = plain(page.body().text());
    Gaps gaps = Gaps.of(review);
    List<String> missing = new ArrayList<>();
    for (Finding finding : review.findings()) {
      want(missing, text, finding.title());
      want(missing, text, finding.rule());
      if (finding.isAccepted() || finding.outcome() != Outcome.UNKNOWN) {
        // What the messages of one rule end with alike is said once.
        for (String sentence : finding.message().split("(?<=\\.) ", -1)) {
          want(missing, text, sentence);
        }
        if (!finding.isAccepted()) {
          want(missing, text, finding.lesson());
        }
      } else {
        want(missing, text, Words.name(finding.subject()));
        for (String what : finding.missing()) {
          if (what.startsWith("what ") && what.endsWith(" is")) {
            want(missing, text, what.substring("what ".length(), what.length() - " is".length()));
            continue;
          }
          String words = Words.missing(List.of(what)).get(0);
          int colon = words.indexOf(": ");
          for (Gap.Stranger stranger :
              gaps.strangers().stream().flatMap(gap -> gap.strangers().stream()).toList()) {
            words = colon < 0 ? words.replace(stranger.name(), "it") : words;
          }
          want(missing, text, colon < 0 ? words : words.substring(colon + 2));
        }
      }
    }
    for (Duty duty : review.duties()) {
      if (Words.isTold(duty)) {
        // Of what may apply, depending on a name that nobody knows, cautions alone are told in
        // full.
        boolean full = gaps.duties().contains(duty) || duty.rule().startsWith("caution.");
        want(missing, text, full ? duty.message() : duty.title());
        want(missing, text, full ? "" : Words.name(duty.subject()));
        want(missing, text, duty.rule());
      }
    }
    for (String line : gaps.next()) {
      want(missing, text, Told.capital(line));
    }
    want(missing, text, review.editions().formulaSha256());
    want(missing, text, Words.counts(review));
    want(missing, text, Words.rests(review.editions()));
    want(missing, text, Words.verdict(review));
    want(missing, text, Words.CLOSING);
    reviewed.formula().lines().forEach(line -> want(missing, text, line.name()));
    assertEquals(List.of(), missing);
    Set<String> rules = new TreeSet<>();
    Set<String> shown = new TreeSet<>();
    for (Finding finding : review.findings()) {
      if (!finding.isAccepted() && finding.outcome() != Outcome.UNKNOWN) {
        rules.add(finding.rule());
      }
    }
    page.select("article.finding .rule").forEach(rule -> shown.add(rule.text()));
    assertEquals(rules, shown);
  }

  private static void want(List<String> missing, String text, String words) {
    String line = plain(Told.line(words));
    if (!text.contains(line)) {
      missing.add(line);
    }
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("names")
  @DisplayName("numbers are those of the JSON")
  void numbersAreThoseOfTheJson(String name) throws IOException {
    Reports.Reviewed reviewed = example(name);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    JsonReport.compact().write(reviewed.review(), out);
    JsonNode json = new ObjectMapper().readTree(out.toByteArray());
    Document page = page(reviewed);
    List<String> told = page.select(".scale .numbers").eachText();
    int drawn = 0;
    for (JsonNode finding : json.get("findings")) {
      boolean scaled =
          finding.has("observed")
              && finding.has("limit")
              && finding.at("/limit/likely").isNumber()
              && !finding.get("outcome").asText().equals("unknown");
      if (!scaled) {
        continue;
      }
      List<Double> numbers = new ArrayList<>();
      for (String part : List.of("observed", "limit")) {
        for (String end : List.of("likely", "low", "high")) {
          JsonNode number = finding.get(part).path(end);
          if (number.isNumber()) {
            numbers.add(number.asDouble());
          }
        }
      }
      if (told.stream().anyMatch(line -> tells(line, numbers))) {
        drawn++;
      } else {
        boolean count = finding.at("/observed/unit").asText().equals("1");
        boolean same = numbers.stream().distinct().count() == 1;
        assertTrue(count || same, () -> "not on a scale: " + finding);
      }
    }
    assertEquals(drawn > 0, !told.isEmpty());
  }

  /** Whether all of the numbers stand in a line, to the three digits that people are told. */
  private static boolean tells(String line, List<Double> numbers) {
    List<Double> told = new ArrayList<>();
    String plain = line.replace("×10", "e");
    for (int i = 0; i <= 9; i++) {
      plain = plain.replace("⁰¹²³⁴⁵⁶⁷⁸⁹".charAt(i), (char) ('0' + i));
    }
    Matcher matcher = NUMBER.matcher(plain.replace('⁻', '-'));
    while (matcher.find()) {
      told.add(Double.parseDouble(matcher.group()));
    }
    return numbers.stream()
        .allMatch(
            number ->
                told.stream()
                    .anyMatch(each -> Math.abs(each - number) <= 0.006 * Math.abs(number) + 1e-9));
  }

  /** Pages of every kind, made once. */
  private static final class Made {
    static final List<String> PAGES = made();
    static final Set<String> SHAPES = new TreeSet<>();

    static {
      PAGES.forEach(html -> SHAPES.addAll(shape(page(html))));
    }
  }

  private static List<String> made() {
    Reports.Reviewed drawn = Examples.drawn("nettle-calm-gel.yaml");
    Reports.Reviewed other = example("wind-shelter-gel-cream.yaml");
    Reports.Reviewed accepting = Examples.reviewed(talkative("plain"), "talk.yaml", false);
    Unreadable unread =
        new Unreadable(
            "broken.yaml",
            List.of(
                new Problem(
                    new Place("broken.yaml", 3, 1, ""),
                    "no-such-key",
                    "There is no key.",
                    "Try it.")));
    return List.of(
        Pages.of(Reports.of(drawn)),
        Pages.of(Reports.of(accepting)),
        Pages.of(Reports.of(List.of(drawn, other, accepting), List.of())),
        Pages.of(Reports.of(List.of(other), List.of(unread))),
        Pages.of(Reports.of(List.of(), List.of(unread))));
  }

  @Test
  @DisplayName(
      "pages are sound: headings in order, ids unique, links lead somewhere, nothing from outside")
  void pagesAreSound() {
    for (String html : Made.PAGES) {
      Parser parser = Parser.htmlParser().setTrackErrors(50);
      Document page = parser.parseInput(html, "");
      assertEquals(List.of(), parser.getErrors());
      assertEquals(1, page.select("h1").size());
      assertEquals(1, page.select("main").size());
      assertEquals(1, page.select("body > header").size());
      assertEquals(1, page.select("body > footer").size());
      int before = 1;
      for (Element heading : page.select("h1, h2, h3, h4, h5, h6")) {
        int level = heading.tagName().charAt(1) - '0';
        assertTrue(level <= before + 1, () -> "a level is left out before: " + heading.text());
        assertFalse(heading.text().isBlank());
        before = level;
      }
      Set<String> ids = new HashSet<>();
      for (Element element : page.select("[id]")) {
        assertTrue(ids.add(element.id()), () -> "twice: " + element.id());
      }
      for (Element element : page.select("[href]")) {
        String target = element.attr("href");
        assertTrue(target.startsWith("#") && ids.contains(target.substring(1)), target);
      }
      for (Element element : page.select("[aria-labelledby]")) {
        for (String target : element.attr("aria-labelledby").split(" ", -1)) {
          assertTrue(ids.contains(target), target);
        }
      }
      assertAll(
          () -> assertEquals(0, page.select("[style], [src], script, link, img, form").size()),
          () -> assertEquals(1, page.select("style").size()));
      for (Element svg : page.select("svg")) {
        boolean told =
            !svg.attr("aria-label").isBlank()
                || (!svg.select("> title").text().isBlank()
                    && !svg.select("> desc").text().isBlank());
        assertTrue(told, () -> "a picture without words: " + svg.outerHtml().substring(0, 200));
        assertEquals("img", svg.attr("role"));
      }
    }
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
        "<svg onload=alert(1)><desc><script>1</script></desc></svg>",
        "--><script>alert(1)</script><!--",
        "&lt;b&gt;",
        "</p></article></section></main></body></html><p>",
        "${7*7} $unsafe{x} @template.x() <%= 1 %> {{1}}",
        "]]><script>alert(1)</script>",
        "<math><mtext></table><mglyph><style><!--</style><img title=x>",
      })
  @DisplayName("no text of a sheet becomes markup")
  void noTextBecomesMarkup(String words) {
    Reports.Reviewed reviewed = Examples.reviewed(talkative(words), words, false);
    String alone = Pages.of(Reports.of(reviewed));
    String several = Pages.of(Reports.of(List.of(reviewed, reviewed), List.of()));
    for (String html : List.of(alone, several)) {
      Document page = page(html);
      Set<String> others = shape(page);
      others.removeAll(Made.SHAPES);
      assertEquals(Set.of(), others);
      assertEquals(1, page.select("h1").size());
      assertEquals(0, page.select("script, img, math, iframe, object").size());
      String text = page.body().wholeText();
      for (String field :
          List.of("name", "version", "phase", "ingredient", "lot", "with", "into")) {
        assertTrue(text.contains(words + " " + field), () -> "not to be read: " + field);
      }
    }
    assertTrue(page(alone).title().contains(words + " name"));
  }

  @Test
  @DisplayName("what was accepted is counted, with reason and date")
  void acceptedIsCounted() {
    Reports.Reviewed reviewed = Examples.reviewed(talkative("plain"), "talk.yaml", false);
    int accepted = reviewed.review().accepted();
    assertTrue(accepted > 0, "the sheet accepts nothing: " + reviewed.review().rules());
    Document page = page(reviewed);
    assertEquals("Accepted: " + accepted, page.select("section.accepted h2").text());
    String text = page.select("section.accepted").text();
    assertTrue(text.contains("plain because") && text.contains("2027-03-01"), text);
  }

  @Test
  @DisplayName("remedies and headroom stand in it when asked for, and it says when they were not")
  void remediesAndHeadroom() {
    String sheet =
        """
        formula: Bench gel
        ingredients:
          - { name: Aqua, share: rest }
          - { name: Xanthan Gum, share: 4 % }
        """;
    Document without = page(Examples.reviewed(sheet, "gel.yaml", false));
    assertTrue(without.text().contains("--include remedies,headroom"));
    Reports.Reviewed with =
        Examples.reviewed(sheet, "gel.yaml", false, Include.REMEDIES, Include.HEADROOM);
    Document page = page(with);
    assertFalse(page.text().contains("--include remedies"));
    assertEquals(1, page.select("section:has(> h2:containsOwn(Headroom)) table").size());
    assertEquals(1, page.select("section:has(> h2:containsOwn(Headroom)) svg").size());
    long offers =
        with.review().remedies().orElseThrow().stream()
            .mapToLong(each -> Math.max(1, each.offers().size()))
            .sum();
    assertEquals(offers, page.select(".remedy").size());
  }

  @ParameterizedTest(name = "batch: {0} -> {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "batch: 250 g | Masses for the batch of 250 g",
        "'' | Masses for 100 g; the sheet states no batch",
        "batch: 0.001 g | Masses for 100 g; a batch as stated cannot be weighed",
      })
  @DisplayName("the recipe says for which batch its masses are")
  void batch(String line, String caption) {
    String sheet =
        """
        formula: Bench gel
        %s
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Xanthan Gum, share: 1 %% }
        """
            .formatted(line);
    Document page = page(Examples.reviewed(sheet, "gel.yaml", false));
    assertEquals(caption, page.select("caption").get(0).text());
    Element gum = page.select("tbody tr").get(1);
    assertEquals(List.of("A", "Xanthan Gum", "1 %"), gum.select("td").eachText().subList(0, 3));
    double grams = Double.parseDouble(gum.select("td").get(3).text());
    assertEquals(caption.contains("250") ? 2.5 : 1, grams, 1e-9);
  }

  @Test
  @DisplayName("a trace that was asked for is shown")
  void trace() {
    Reports.Reviewed traced =
        Examples.reviewed(
            Examples.sheet("shade-mist.yaml"), "shade-mist.yaml", false, Include.TRACE);
    assertFalse(page(traced).select("ul.trace li").isEmpty());
  }

  @Test
  @DisplayName("the same review gives the same bytes")
  void sameBytes() {
    assertEquals(
        Pages.of(Reports.of(Examples.drawn("shade-mist.yaml"))),
        Pages.of(Reports.of(Examples.drawn("shade-mist.yaml"))));
  }

  @Test
  @DisplayName("a library tells every formula, links to it, and what could not be read")
  void library() {
    List<Reports.Reviewed> all = names().stream().map(ReportTest::example).toList();
    Document page = page(Pages.of(Reports.of(all, List.of())));
    assertEquals(all.size(), page.select("article.formula").size());
    assertEquals(
        all.size(),
        page.select("tbody tr td a").stream().filter(a -> a.attr("href").startsWith("#f")).count());
    assertFalse(page.select("ol.commonest li").isEmpty());
    Document unread = page(Made.PAGES.get(4));
    assertTrue(
        unread.text().contains("broken.yaml could not be read: line 3: There is no key. Try it."));
  }

  @Test
  @DisplayName("every rule set has its topic")
  void topics() {
    List<String> sets =
        Examples.library().ruleSets().stream()
            .filter(set -> !set.rules().isEmpty())
            .map(RuleSet::id)
            .sorted()
            .toList();
    List<String> named = Topics.OF_THE_PROGRAM.bySet().keySet().stream().sorted().toList();
    assertEquals(sets, named);
    assertEquals("House rules", Topics.OF_THE_PROGRAM.of("garden.no-pumice"));
  }
}
