package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.apache.pdfbox.text.TextPosition;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.openqa.selenium.Keys;

/**
 * The review page in a real browser. Skipped where the machine has none, unless {@code
 * -Dbrowser.required=true}.
 */
@DisplayName("the review page")
final class ReviewPageTest {
  private static final int WIDE = 1_600;
  private static final int NARROW = 360;
  private static final int HIGH = 1_000;

  /** A sheet with remarks and spaces of its own. */
  private static final String REMARKS =
      """
      # Monday's batch
      formula: Bench gel        # the third try
      product: { kind: gel, use: leave-on, texture: serum, dispensing: pump, pH: 4.6 to 5.2 }
      batch: 200 g
      ingredients:
        # what swells
        - { phase: A, name: Aqua,        share: rest }
        - { phase: A, name: Xanthan Gum, share: 0.50 % }   # the coarse one
        - { phase: B, name: Glycerin,    share: 3 % }
      """;

  private static Rig rig;
  private static Browser browser;

  @BeforeAll
  static void start() {
    rig = Rig.start();
    browser = Browser.at(rig, WIDE, HIGH);
  }

  @AfterAll
  static void stop() {
    if (browser != null) {
      browser.close();
    }
    rig.close();
  }

  @AfterEach
  void quiet() {
    assertEquals(List.of(), browser.complaints(), "the browser has nothing to complain of");
    browser.size(WIDE, HIGH);
  }

  private static String stored() {
    return browser.read("JSON.parse(localStorage.getItem('gelwright.sheet')).text").asText();
  }

  private static List<String> texts(String selector) {
    List<String> texts = new ArrayList<>();
    browser
        .read(
            "[...document.querySelectorAll(arguments[0])].map((one) => one.textContent)", selector)
        .forEach(one -> texts.add(one.asText()));
    return texts;
  }

  private static String example(String name) {
    return new String(Rig.example(name), StandardCharsets.UTF_8);
  }

  private static List<String> names(String selector) {
    List<String> names = new ArrayList<>();
    browser
        .read("[...document.querySelectorAll(arguments[0])].map((one) => one.id)", selector)
        .forEach(one -> names.add(one.asText()));
    return names;
  }

  /** Tab until something has the focus. */
  private static void tabTo(String id) {
    for (int i = 0; i < 200 && !browser.focused().equals(id); i++) {
      browser.keys(Keys.TAB);
    }
    assertEquals(id, browser.focused(), "it can be reached by the keyboard");
  }

  @Test
  @DisplayName("a formula is written by keyboard alone, and its findings appear")
  void byKeyboard() {
    browser.fresh();
    tabTo("formula-name");
    browser.keys("Potting-shed serum");
    tabTo("field-product-kind");
    browser.keys("ser");
    tabTo("field-product-texture");
    browser.keys("serum");
    tabTo("field-product-pH");
    browser.keys("4.6 to 5.2");
    tabTo("line-0-share");
    browser.keys(Keys.ENTER, "Xanthan Gum", Keys.TAB, "0.5 %");
    browser.keys(Keys.ENTER, "Glycerin", Keys.TAB, "3");
    tabTo("add-step");
    browser.keys(Keys.ENTER);
    assertEquals("step-0-do", browser.focused());
    browser.keys("disp", Keys.TAB, Keys.TAB, "Xanthan Gum", Keys.TAB, "800 rpm");
    browser.changed();
    assertEquals(
        """
        formula: Potting-shed serum
        product:
          kind: serum
          use: leave-on
          users: adults
          texture: serum
          pH: 4.6 to 5.2
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Xanthan Gum, share: 0.5 % }
          - { phase: A, name: Glycerin, share: 3 }
        method:
          - { do: disperse, phase: A, with: Xanthan Gum, stir: 800 rpm }
        """,
        stored());
    assertEquals("Potting-shed serum", browser.text("#title"));
    assertTrue(browser.text("#verdict").startsWith("Breaks "), browser.text("#verdict"));
    assertTrue(
        texts("#group-preservation .finding h4").toString().contains("Error"),
        "a water gel without a preservative is an error");
    assertEquals("q.s. 96.5 %", browser.text("#line-0-mass"));
    assertTrue(
        browser.read("document.querySelectorAll('#ingredient-names option').length").asInt() > 600);
  }

  @Test
  @DisplayName("rows are added, moved, taken out and taken back")
  void rows() {
    browser.with(REMARKS);
    browser.click("#line-1-down");
    assertEquals("line-2-up", browser.focused());
    assertTrue(stored().indexOf("Glycerin") < stored().indexOf("Xanthan Gum"));
    assertTrue(stored().contains("share: 0.50 % }   # the coarse one"));
    browser.click("#line-0-remove");
    assertFalse(stored().contains("Aqua"));
    browser.click("#undo");
    browser.click("#undo");
    assertEquals(REMARKS, stored());
    browser.click("#redo");
    assertNotEquals(REMARKS, stored());
    browser.changed();
  }

  @Test
  @DisplayName("table and text are views of one sheet: remarks, spaces and digits stay")
  void views() {
    browser.with(REMARKS);
    browser.click("#as-text");
    assertEquals(REMARKS, browser.read("document.getElementById('sheet-text').value").asText());
    browser.click("#as-table");
    browser.find("#line-2-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "4.5 %");
    browser.find("#field-product-area").sendKeys("face, hands");
    browser.changed();
    assertEquals(
        REMARKS
            .replace("Glycerin,    share: 3 %", "Glycerin,    share: 4.5 %")
            .replace("use: leave-on, texture", "use: leave-on, area: [face, hands], texture"),
        stored());
    browser.click("#as-text");
    assertEquals(stored(), browser.read("document.getElementById('sheet-text').value").asText());
  }

  @Test
  @DisplayName(
      "what is wrong in the text is marked at its line, and the table waits until it is mended")
  void mistakes() {
    browser.with(REMARKS.replace("name: Glycerin", "nmae: Glycerin"));
    browser.click("#as-text");
    assertEquals("The sheet cannot be read: 2 mistakes.", browser.text("#verdict"));
    assertEquals(List.of("9"), texts("#line-numbers .marked.error"));
    assertTrue(
        browser
            .text("#problems")
            .contains("\"nmae\" is not a key of an ingredient line. Did you mean name?"));
    browser.click("#problems button");
    assertEquals("sheet-text", browser.focused());
    browser.find("#sheet-text").sendKeys(Keys.chord(Keys.CONTROL, "a"), "formula: [");
    browser.changed();
    assertTrue(browser.text("#verdict").contains("cannot be read"));
    browser.click("#as-table");
    assertTrue(browser.text("#sheet-notice").contains("cannot be shown as a table"));
    browser.run(
        "const area = document.getElementById('sheet-text'); area.value = arguments[0];"
            + " area.dispatchEvent(new Event('input'))",
        REMARKS);
    browser.changed();
    assertEquals(List.of(), texts("#problems section"));
    browser.click("#as-table");
    browser.find("#line-2-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "much");
    browser.changed();
    assertEquals("true", browser.find("#line-2-share").getDomAttribute("aria-invalid"));
  }

  @Test
  @DisplayName(
      "every finding of the service is on the page, with its number, limit, lesson and sources")
  void complete() {
    for (String name :
        List.of("nettle-calm-gel.yaml", "soil-off-scrub.yaml", "greenhouse-cool-down-spray.yaml")) {
      browser.with(example(name));
      JsonNode review =
          Contract.tree(
              rig.ask()
                  .contentType("application/yaml")
                  .body(Rig.example(name))
                  .post("/v1/reviews")
                  .asString());
      String page = browser.text("#review-body");
      int unknown = 0;
      for (JsonNode finding : review.get("findings")) {
        if (finding.get("outcome").asText().equals("unknown")) {
          unknown++;
          assertTrue(page.contains(finding.get("title").asText() + "?"), finding::toString);
          continue;
        }
        String message = finding.get("message").asText();
        assertTrue(page.contains(message.substring(0, message.indexOf(". ") + 1)), message);
        assertTrue(page.contains(finding.get("lesson").asText()), message);
        for (JsonNode source : finding.get("sources")) {
          assertTrue(page.contains(source.get("citation").asText()), source::toString);
        }
      }
      for (JsonNode duty : review.get("duties")) {
        assertTrue(
            duty.get("applies").asText().equals("no")
                || page.contains(duty.get("message").asText()));
      }
      for (JsonNode caution : review.get("cautions")) {
        assertTrue(
            page.contains(caution.asText())
                || caution.asText().contains("not a safety assessment"));
      }
      assertTrue(
          page.contains("Not checked (" + Math.max(unknown, review.get("unchecked").size()) + ")"),
          "nothing unchecked is hidden");
      assertTrue(page.contains("not a certificate, and not a safety assessment"));
      assertEquals(
          browser.read("document.querySelectorAll('.scale').length"),
          browser.read("document.querySelectorAll('.scale[aria-hidden=true] + p').length"),
          "each drawn scale has its words");
      assertTrue(browser.read("document.querySelectorAll('.scale').length").asInt() > 3);
    }
  }

  @Test
  @DisplayName("a name that nobody knows is told once, with how much it leaves open and what to do")
  void unnamed() {
    String name = "greenhouse-cool-down-spray.yaml";
    browser.with(example(name));
    JsonNode review =
        Contract.tree(
            rig.ask()
                .contentType("application/yaml")
                .body(Rig.example(name))
                .post("/v1/reviews")
                .asString());
    Set<String> rules = new HashSet<>();
    int checks = 0;
    for (JsonNode finding : review.get("findings")) {
      if (finding.get("outcome").asText().equals("unknown")
          && finding.get("missing").toString().contains("Cucumis Sativus Fruit Extrakt")) {
        rules.add(finding.get("rule").asText());
        checks++;
      }
    }
    assertTrue(rules.size() > 100 && checks > rules.size(), "much hangs on a name");
    assertEquals(
        "Cucumis Sativus Fruit Extrakt is not in the catalogue. Because of that "
            + rules.size()
            + " rules could not be checked, "
            + checks
            + " checks in all. Which, and what to do",
        browser.text(".unnamed").strip());
    String group = "document.querySelector('.unchecked article')";
    assertEquals(
        rules.size(), browser.read(group + ".querySelectorAll('details li').length").asInt());
    assertEquals(
        0, browser.read("document.querySelectorAll('.unchecked details[open]').length").asInt());
    assertTrue(texts("#group-caution .hanging li").size() > 10, "cautions are not folded");
    assertEquals(
        "null",
        browser.read("document.querySelector('#group-caution details .hanging')").toString());
    browser.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
    assertEquals(List.of(), browser.audit());
    browser.with(example("nettle-calm-gel.yaml"));
    assertEquals("null", browser.read("document.querySelector('.unnamed')").toString());
  }

  @Test
  @DisplayName("an accepted finding is folded away and counted, with who answers for it")
  void acceptedFinding() {
    browser.with(
        example("nettle-calm-gel.yaml")
            + """
            accepted:
              - rule: weighing.preservative-amount
                subject: Dipotassium Glycyrrhizate
                observed: 0.8 g
                because: weighed on the pharmacy's balance
                until: 2027-03-01
            """);
    assertTrue(browser.text("#verdict").endsWith("1 is accepted."), browser.text("#verdict"));
    assertEquals("Accepted (1)", browser.text("#accepted h3"));
    assertTrue(
        browser
            .text("#accepted")
            .contains("Accepted until 2027-03-01, because: weighed on the pharmacy's balance"));
    assertEquals(
        "null", browser.read("document.querySelector('#accepted details[open]')").toString());
    assertFalse(browser.text("#group-weighing").contains("Dipotassium"));
    assertEquals("This sheet also has accepted: see its text.", browser.text("#others"));
  }

  @Test
  @DisplayName("every finding is reached by keyboard, and from it the line that it speaks of")
  void reachable() {
    browser.with(example("nettle-calm-gel.yaml"));
    int all =
        browser.read("document.querySelectorAll('#review-body [data-finding]').length").asInt();
    assertTrue(all > 7, () -> all + " findings");
    browser.run("document.getElementById('review-title').focus()");
    TreeSet<Integer> reached = new TreeSet<>();
    for (int i = 0; i < 400; i++) {
      browser.keys(Keys.TAB);
      JsonNode at =
          browser.read(
              "{inside: document.getElementById('review').contains(document.activeElement), index:"
                  + " [...document.querySelectorAll('#review-body [data-finding]')]"
                  + ".indexOf(document.activeElement.closest('[data-finding]')), hidden:"
                  + " document.activeElement.getBoundingClientRect().top <"
                  + " document.querySelector('.verdict-strip').getBoundingClientRect().bottom - 1}");
      if (!at.get("inside").asBoolean()) {
        break;
      }
      assertFalse(at.get("hidden").asBoolean(), "what has the focus is not covered");
      if (at.get("index").asInt() >= 0) {
        reached.add(at.get("index").asInt());
      }
    }
    assertEquals(all, reached.size());
    browser.run("document.querySelector('.finding .place button').focus()");
    browser.keys(Keys.ENTER);
    assertTrue(browser.focused().startsWith("line-"), browser.focused());
  }

  @Test
  @DisplayName("an answer that comes after the sheet has changed again is dropped")
  void stale() {
    String key =
        browser.before(
            "const asked = window.fetch; let number = 0; window.order = [];"
                + " window.fetch = async (path, options) => {"
                + " if (path !== '/v1/reviews') { return asked(path, options); }"
                + " const mine = ++number;"
                // The second takes its time, and does not let itself be called off.
                + " const answer = await asked(path, mine === 2 ? {...options, signal: undefined} : options);"
                + " if (mine === 2) { await new Promise((done) => setTimeout(done, 1200)); }"
                + " window.order.push(mine); return answer; };");
    try {
      browser.with(REMARKS);
      browser.find("#line-1-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "7 %");
      browser.run("return new Promise((done) => setTimeout(done, 320))");
      browser.find("#line-1-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "0.6 %");
      browser.until("window.order.includes(3)").reviewed();
      String verdict = browser.text("#verdict");
      browser.until("window.order.at(-1) === 2").reviewed();
      assertEquals(verdict, browser.text("#verdict"));
      assertFalse(browser.text("#review-body").contains("7 %"), "the dropped answer was shown");
    } finally {
      browser.noMore(key);
    }
  }

  @Test
  @DisplayName(
      "a remedy is applied by its button, the page shows what that changed, and it is taken back")
  void remedy() {
    browser.whole();
    String key = browser.before(resource("/page/remedies.js"));
    try {
      browser.with(example("soil-off-scrub.yaml"));
      browser.until("document.querySelector('button.apply')");
      assertTrue(browser.text("#review-body").contains("No single change puts this right."));
      assertTrue(browser.text("#headroom").contains("0.2\u00a0%"));
      assertEquals(
          List.of(" Brings duties: Concentrated acids irritate."), texts(".remedies .brings"));
      browser.run("document.querySelector('button.apply').focus()");
      browser.keys(Keys.ENTER);
      browser.until("document.getElementById('changes').textContent.includes('Put right (')");
      browser.changed();
      assertEquals("changes-title", browser.focused());
      assertTrue(stored().contains("name: Xanthan Gum, share: 0.9 %"));
      assertEquals("0.9 %", browser.find("#line-3-share").getDomProperty("value"));
      assertEquals(
          List.of("line-3-name"), names(".touched .name"), "the line that was changed is marked");
      String changes = browser.text("#changes");
      assertTrue(changes.contains("Xanthan Gum: 0.3 % → 0.9 %"), changes);
      assertTrue(changes.contains("The gel will be thinner than promised"), changes);
      browser.click("#take-back");
      browser.changed();
      assertEquals(example("soil-off-scrub.yaml"), stored());
      assertEquals("", browser.text("#changes"));
    } finally {
      browser.noMore(key);
      browser.calm();
    }
  }

  @Test
  @DisplayName(
      "what this service offers of remedies is on the page and can be applied; what it does not is not")
  void remediesOfTheService() {
    boolean offered =
        Contract.DOCUMENT
            .at("/components/parameters/include/schema")
            .toString()
            .contains("remedies");
    boolean editable = offered && Contract.DOCUMENT.get("paths").has("/v1/sheet-edits");
    String sheet = example("soil-off-scrub.yaml");
    browser.whole();
    try {
      browser.with(sheet);
      browser.until("document.getElementById('more').textContent === ''");
      assertEquals(offered, !texts(".remedies").isEmpty());
      assertEquals(offered, !texts("#headroom").isEmpty());
      assertEquals(editable, !texts("button.apply").isEmpty());
      if (editable) {
        browser.click("#group-texture button.apply");
        browser.until("document.getElementById('changes').textContent.includes('Put right (')");
        assertNotEquals(sheet, stored());
        assertEquals(sheet.lines().count(), stored().lines().count());
        assertFalse(texts("#changes .list-title").contains("Put right (0)"));
        assertEquals(List.of(), browser.audit());
      }
    } finally {
      browser.calm();
    }
  }

  @Test
  @DisplayName("a sheet is kept and compared with the one at hand")
  void compared() {
    browser.with(example("nettle-calm-gel.yaml"));
    browser.click("#keep");
    browser.reviewed();
    assertTrue(browser.text("#compare-body").contains("The two sheets say the same."));
    browser.find("#line-0-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "rest");
    browser.find("#field-product-pH").sendKeys(Keys.chord(Keys.CONTROL, "a"), "4.6 to 5.2");
    browser.find("#step-7-to").sendKeys(Keys.chord(Keys.CONTROL, "a"), "4.9");
    browser.changed();
    browser.until("document.getElementById('compare-body').textContent.includes('Brief, pH')");
    String text = browser.text("#compare-body");
    for (String has :
        List.of(
            "Aqua85 %rest",
            "Step 8adjust-pH with Lactic Acid to pH 6.2adjust-pH with Lactic Acid to pH 4.9",
            "The recipe does not add up to 100 %",
            "Put right (9)",
            "pH 6.2 (6.05 to 6.35)pH 4.9 (4.75 to 5.05)")) {
      assertTrue(text.contains(has), () -> has + " in " + text);
    }
    browser.click("#swap");
    browser.changed();
    assertEquals(example("nettle-calm-gel.yaml"), stored());
  }

  @Test
  @DisplayName("the sheet, the view and the sheet that was kept survive a reload")
  void reload() {
    browser.with(REMARKS);
    browser.click("#keep-here");
    browser.find("#line-2-share").sendKeys(Keys.chord(Keys.CONTROL, "a"), "4 %");
    browser.click("#as-text");
    browser.changed();
    String before = stored();
    browser.open();
    assertEquals(before, browser.read("document.getElementById('sheet-text').value").asText());
    assertEquals("true", browser.find("#as-text").getDomAttribute("aria-pressed"));
    browser.until("document.getElementById('compare-body').textContent.includes('Glycerin')");
    assertEquals(
        0,
        rig.log().lines().filter(line -> line.contains("Bench gel")).count(),
        "the service keeps nothing");
  }

  @Test
  @DisplayName("files come in by drag and drop: YAML, JSON and a table; an example from the list")
  void files() {
    browser.fresh();
    browser.drop(Map.of("gel.yaml", REMARKS));
    browser.changed();
    assertEquals(REMARKS, stored());
    browser.drop(
        Map.of(
            "gel.json",
            "{\"formula\":\"Bare gel\",\"product\":{\"area\":[\"face\"],\"pH\":5.40},\"ingredients\":[{\"name\":\"Aqua\",\"share\":\"99 %\"},{\"name\":\"Xanthan Gum\",\"share\":\"1 %\"}]}"));
    browser.changed();
    assertEquals(
        """
        formula: Bare gel
        product:
          area: [ face ]
          pH: 5.40
        ingredients:
          - { name: Aqua, share: 99 % }
          - { name: Xanthan Gum, share: 1 % }
        """,
        stored());
    browser.drop(Map.of("Bench gel.csv", "Phase;INCI;%\nA;Aqua;q.s.\nA;\"Xanthan Gum\";0,4\n"));
    browser.changed();
    assertEquals(
        """
        formula: Bench gel
        ingredients:
          - { phase: A, name: Aqua, share: rest }
          - { phase: A, name: Xanthan Gum, share: 0.4 }
        """,
        stored());
    assertTrue(browser.text("#verdict").contains("rule"), browser.text("#verdict"));
    browser.drop(Map.of("Bench gel.csv", "INCI;%\nAqua;q.s.\nGlycerin;1,250\n"));
    browser.changed();
    assertTrue(
        browser.text("#verdict").contains("cannot be read"),
        "a number that could be two things is no guess");
    for (String strange :
        List.of(
            "[".repeat(50_000),
            "a: &x [*x, *x]",
            "--- 1\n--- 2",
            "\u0000",
            "? {}\n: 1",
            "formula: {}\ningredients: {}\nmethod: 3")) {
      browser.drop(Map.of("strange.yaml", strange));
      browser.changed();
      assertTrue(
          browser.text("#verdict").contains("cannot be read"), () -> strange.substring(0, 1));
      browser.open();
      assertTrue(
          browser.text("#verdict").contains("cannot be read"), () -> strange.substring(0, 1));
    }
    browser.run(
        "const list = document.getElementById('example'); list.value = 'shade-mist.yaml';"
            + " list.dispatchEvent(new Event('change'))");
    browser.until("document.getElementById('title').textContent === 'Shade mist'").changed();
    assertEquals(example("shade-mist.yaml"), stored());
  }

  @Test
  @DisplayName(
      "a folder of 30 sheets gives a table, the commonest mistakes, a CSV and an HTML file")
  void aClass(@TempDir Path folder) throws IOException {
    browser.fresh();
    browser.run(
        "window.saved = []; const made = URL.createObjectURL; URL.createObjectURL = (blob) => {"
            + " window.saved.push(blob); return made.call(URL, blob); };");
    List<String> names =
        ReviewPage.names().stream().filter(name -> name.startsWith("examples/")).toList();
    Map<String, String> sheets = new LinkedHashMap<>();
    for (int i = 0; i < 30; i++) {
      String text = example(names.get(i % names.size()).substring("examples/".length()));
      sheets.put(
          String.format("pupil-%02d.yaml", i + 1),
          i == 11 ? text.replace("ingredients:", "ingredient:") : text);
    }
    sheets.put("notes.txt", "not a sheet");
    for (Map.Entry<String, String> sheet : sheets.entrySet()) {
      Files.writeString(folder.resolve(sheet.getKey()), sheet.getValue());
    }
    browser.find("#class-folder").sendKeys(folder.toAbsolutePath().toString());
    browser.until("document.querySelectorAll('.class-table tbody tr').length === 30");
    assertEquals(
        "30 sheets reviewed. 1 file passed over: only YAML, JSON and CSV are read.",
        browser.text("#class-status"));
    assertTrue(texts("#class-kept:not([hidden])").toString().contains("does not keep this table"));
    List<String> rows = texts(".class-table tbody tr");
    assertTrue(
        rows.get(11).contains("cannot be read")
            && rows.get(11).contains("Did you mean ingredients?"),
        rows.get(11));
    List<String> commonest = texts(".commonest h4");
    assertTrue(commonest.size() > 10 && commonest.get(0).contains(" of 30 "), commonest::toString);
    assertEquals(List.of(), browser.audit());
    browser.run("window.saved.length = 0");
    browser.click("#class-csv");
    browser.click("#class-html");
    browser.run(
        "return Promise.all(window.saved.map((blob) => blob.text())).then((texts) => { window.texts = texts; })");
    JsonNode saved = browser.read("window.texts");
    assertTrue(saved.get(0).asText().lines().count() > 200);
    assertTrue(saved.get(0).asText().contains("/pupil-12.yaml\",\"\",\"cannot be read\""));
    String html = saved.get(1).asText();
    assertTrue(
        html.startsWith("<!doctype html>\n<html lang=\"en\">") && html.contains("pupil-30.yaml"));
    assertFalse(html.contains("<script") || html.contains("http"), "one file, which loads nothing");
    browser.click(".class-table tbody tr:nth-child(3) button");
    browser.changed();
    assertEquals(sheets.get("pupil-03.yaml"), stored());
  }

  /**
   * Texts that would do something, were they taken for markup or for a formula of a spreadsheet.
   */
  private static final List<String> HOSTILE =
      List.of(
          "<img src=x onerror=window.hit=1>",
          "<script>window.hit=2</script>",
          "\\\"><svg onload=window.hit=3>",
          "</textarea><iframe srcdoc='<script>parent.hit=4</script>'>",
          "</title><style>*{display:none}</style>",
          "javascript:window.hit=5//",
          "' onmouseover='window.hit=6' x='",
          "<a href=javascript:window.hit=7>x</a>",
          "${window.hit=8}{{constructor.constructor('window.hit=9')()}}",
          "]]><x xmlns='http://www.w3.org/1999/xhtml'><script>window.hit=10</script></x>",
          "\\u202Egnp.exe\\u0000\\u2028<b>",
          "=HYPERLINK(\\\"javascript:1\\\",\\\"x\\\")");

  private static String hostile(String bad) {
    return """
        # %1$s
        formula: "%1$s"
        version: "%1$s"
        product: { kind: gel, use: leave-on, texture: serum, pH: 4.6 to 5.2 }
        ingredients:
          - { phase: "A", name: Aqua, share: rest }
          - { phase: "%1$s", name: "%1$s", share: 3 %%, grade: "%1$s", lot: "%1$s" }
          - { phase: A, name: Xanthan Gum, share: 1 %%, grade: "%1$s" }
        method:
          - { do: disperse, phase: "%1$s", with: "%1$s" }
          - { do: add, phase: A, into: "%1$s" }
        label: { ingredients: ["%1$s"], warnings: ["%1$s"] }
        accepted:
          - { rule: texture.yields-too-easily, subject: "%1$s", because: "%1$s", until: 2027-01-01 }
        """
        .formatted(bad);
  }

  @Test
  @DisplayName(
      "hostile names in a sheet stay text: on the page, in pictures, in a class and in what is saved")
  void hostileNames() {
    // In the class each is alone; on the page several stand together, which is quicker.
    Map<String, String> sheets = new LinkedHashMap<>();
    for (String bad : HOSTILE) {
      sheets.put("a" + sheets.size() + bad.replaceAll("[/\\\\]", "") + ".yaml", hostile(bad));
    }
    for (int i = 0; i < HOSTILE.size(); i += 4) {
      browser.with(hostile(String.join(" ", HOSTILE.subList(i, i + 4))));
      browser.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
      browser.nothingHostile();
      assertFalse(browser.text("#verdict").isEmpty());
      browser.click("#as-text");
      browser.click("#keep-here");
      browser.changed();
      browser.nothingHostile();
    }
    browser.drop(sheets);
    browser.until(
        "document.querySelectorAll('.class-table tbody tr').length === " + HOSTILE.size());
    browser.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
    browser.nothingHostile();
    browser.run(
        "window.saved = []; const made = URL.createObjectURL; URL.createObjectURL = (blob) => {"
            + " window.saved.push(blob); return made.call(URL, blob); };");
    browser.click("#class-csv");
    browser.click("#class-html");
    browser.run(
        "return Promise.all(window.saved.map((blob) => blob.text())).then((texts) => { window.texts = texts; })");
    assertFalse(
        browser.read("window.texts[0]").asText().contains(",\"=HYPER"),
        "a cell is never a formula");
    assertEquals(
        0,
        browser
            .read(
                "new DOMParser().parseFromString(window.texts[1].replace(/<style>[^<]*<.style>/, ''), 'text/html')"
                    + ".querySelectorAll('script, img, iframe, a, b, [onload], [onerror], [onmouseover]').length")
            .asInt());
    String shown = browser.text("#class-body");
    assertTrue(shown.contains("<img src=x onerror=window.hit=1>"), "the name is shown as it is");
  }

  @Test
  @DisplayName("no request leaves the service, and the policy lets none")
  void origin() {
    browser.addresses();
    browser.with(example("wind-shelter-gel-cream.yaml"));
    browser.click("#keep");
    browser.reviewed();
    List<String> elsewhere =
        browser.addresses().stream()
            .filter(
                address ->
                    !address.startsWith(browser.origin() + "/")
                        && !address.startsWith("blob:" + browser.origin() + "/"))
            .toList();
    assertEquals(List.of(), elsewhere);
    assertEquals(
        "blocked",
        browser.run("return fetch('http://127.0.0.1:9/x').then(() => 'sent', () => 'blocked')"));
    assertEquals(
        "blocked",
        browser.run(
            "return new Promise((done) => { const script = document.createElement('script');"
                + " script.textContent = 'window.inline = 1'; document.head.append(script);"
                + " script.remove(); done(window.inline ? 'ran' : 'blocked'); })"));
    // Both attempts are told to the console, which is what they are for.
    String told = browser.complaints().toString();
    assertTrue(told.contains("connect-src 'self'") && told.contains("script-src 'self'"), told);
  }

  @ParameterizedTest(name = "an audit finds nothing against WCAG 2.2 AA at {0} pixels")
  @ValueSource(ints = {NARROW, WIDE})
  void audit(int width) {
    browser.size(width, HIGH);
    browser.with(example("nettle-calm-gel.yaml"));
    assertEquals(List.of(), browser.audit());
    browser.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
    browser.click("#line-1-more");
    browser.click("#keep");
    browser.reviewed();
    assertEquals(List.of(), browser.audit());
    browser.click("#as-text");
    browser.run(
        "const area = document.getElementById('sheet-text'); area.value += 'strange: 1\\n';"
            + " area.dispatchEvent(new Event('input'))");
    browser.changed();
    assertEquals(List.of(), browser.audit());
    assertEquals(
        width, browser.read("document.documentElement.scrollWidth").asInt(), "nothing sticks out");
  }

  @Test
  @DisplayName("a page with remedies is as accessible")
  void auditOfRemedies() {
    browser.whole();
    String key = browser.before(resource("/page/remedies.js"));
    try {
      browser.with(example("soil-off-scrub.yaml"));
      browser.until("document.querySelector('button.apply')");
      browser.click("button.apply");
      browser.until("document.getElementById('changes').textContent.includes('Put right (')");
      browser.reviewed();
      assertEquals(List.of(), browser.audit());
    } finally {
      browser.noMore(key);
      browser.calm();
    }
  }

  @Test
  @DisplayName("each picture is an image with its description, and its numbers stand beside it")
  void pictures() {
    browser.with(example("wind-shelter-gel-cream.yaml"));
    JsonNode images =
        browser.read(
            "[...document.querySelectorAll('#pictures img')].map((one) => [one.alt, one.naturalWidth, one.src])");
    assertEquals(5, images.size());
    for (int i = 0; i < images.size(); i++) {
      JsonNode image = images.get(i);
      // The last is the composition, as bars.
      String told = i < 4 ? "Along: " : "Squalane 2 %";
      assertTrue(image.get(0).asText().contains(told), image::toString);
      assertTrue(image.get(1).asInt() > 500, image::toString);
      assertTrue(image.get(2).asText().startsWith("blob:"));
    }
    assertTrue(texts("#pictures caption").contains("The gel"));
    assertTrue(browser.text("#pictures").contains("Marked: soft-gel, as promised"));
  }

  @Test
  @DisplayName(
      "on paper: the sheet, all findings with their sources, the pictures, and nothing cut off")
  void paper() throws IOException {
    browser.with(example("nettle-calm-gel.yaml"));
    List<String> messages = texts("#review-body .finding .message");
    byte[] pdf = browser.paper();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      int pages = document.getNumberOfPages();
      assertTrue(pages >= 6 && pages <= 24, () -> pages + " pages");
      List<String> outside = new ArrayList<>();
      StringBuilder text = new StringBuilder();
      PDFTextStripper reader =
          new PDFTextStripper() {
            @Override
            protected void writeString(String words, List<TextPosition> places) throws IOException {
              for (TextPosition place : places) {
                float x = place.getTextMatrix().getTranslateX();
                float y = place.getTextMatrix().getTranslateY();
                if (x < 30 || x > 595 - 30 || y < 30 || y > 842 - 30) {
                  outside.add(words);
                }
              }
              super.writeString(words, places);
            }
          };
      text.append(reader.getText(document));
      assertEquals(List.of(), outside, "outside of the margins");
      String printed = squeezed(text.toString());
      for (String message : messages) {
        assertTrue(printed.contains(squeezed(message)), message);
      }
      for (String has :
          List.of(
              "Nettle-calm gel",
              "Aloe Barbadensis Leaf Juice",
              "Adjust-pH with Lactic Acid to pH 6.2",
              "Steinberg D. C., The chemistry of preservatives",
              "Not checked (8)",
              "not a safety assessment")) {
        assertTrue(printed.contains(squeezed(has)), has);
      }
      assertFalse(printed.contains("Startfromanexample"), "no fields on paper");
    }
    browser.media("print");
    try {
      JsonNode cut =
          browser.read(
              "[...document.querySelectorAll('body *')].filter((one) => one.checkVisibility() &&"
                  + " !one.matches('.unseen, .unseen *') && getComputedStyle(one).overflowX !== 'visible'"
                  + " && one.scrollWidth > one.clientWidth + 1).map((one) => one.outerHTML.slice(0, 200))");
      assertEquals("[]", cut.toString());
    } finally {
      browser.media("");
    }
  }

  /** Text without spaces and hyphens of line breaks. */
  private static String squeezed(String text) {
    return text.replaceAll("[\\s\\u00a0]+", "");
  }

  @Test
  @DisplayName(
      "a service with a token is asked with the one that is given, which stays in this tab")
  void token() {
    String token = "0123456789abcdef-aster";
    try (Rig closed = Rig.start(settings -> Rig.withToken(settings, token, List.of()));
        Browser other = Browser.at(closed, WIDE, HIGH)) {
      other.run("location.href = arguments[0]", other.origin() + "/");
      other.until("document.getElementById('token-dialog')?.open");
      assertEquals("token", other.focused());
      assertEquals(List.of(), other.audit());
      other.keys("wrong-token-wrong", Keys.ENTER);
      other.until(
          "!document.getElementById('token-wrong').hidden && document.getElementById('token-dialog').open");
      other.keys(token, Keys.ENTER);
      other.reviewed();
      assertTrue(other.text("#verdict").contains("rule"), other.text("#verdict"));
      assertEquals(token, other.read("sessionStorage.getItem('gelwright.token')").asText());
      assertFalse(other.read("Object.values(localStorage).join()").asText().contains(token));
      assertFalse(closed.log().contains(token));
    }
  }

  private static String resource(String name) {
    try (InputStream in =
        Objects.requireNonNull(ReviewPageTest.class.getResourceAsStream(name), name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
