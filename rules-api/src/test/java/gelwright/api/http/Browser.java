package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import org.junit.jupiter.api.Assumptions;
import org.openqa.selenium.By;
import org.openqa.selenium.JavascriptExecutor;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.interactions.Actions;
import org.openqa.selenium.logging.LogEntry;
import org.openqa.selenium.logging.LogType;
import org.openqa.selenium.logging.LoggingPreferences;
import org.openqa.selenium.print.PageSize;
import org.openqa.selenium.print.PrintOptions;

/**
 * A browser without a window, at the review page of a service.
 *
 * <p>The browser and its driver are those of the machine; nothing is fetched. Where there is none,
 * tests that need it are skipped and say so; with {@code -Dbrowser.required=true} they fail.
 */
final class Browser implements AutoCloseable {
  private static final List<Path> BROWSERS =
      List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/google-chrome"));
  private static final List<Path> DRIVERS = List.of(Path.of("/usr/bin/chromedriver"));

  /** It misses classes for this version of the browser, which nobody needs. Held, or forgotten. */
  private static final Logger DRIVING = Logger.getLogger("org.openqa.selenium");

  static {
    DRIVING.setLevel(Level.SEVERE);
  }

  private final ChromeDriver driver;
  private final String origin;
  private String calm = "";

  private Browser(ChromeDriver driver, int port) {
    this.driver = driver;
    this.origin = "http://127.0.0.1:" + port;
  }

  /** At a service, with a page of this width and height. */
  static Browser at(Rig rig, int width, int height) {
    Optional<Path> browser = BROWSERS.stream().filter(Files::isExecutable).findFirst();
    Optional<Path> driver = DRIVERS.stream().filter(Files::isExecutable).findFirst();
    if (browser.isEmpty() || driver.isEmpty()) {
      String why = "There is no Chromium with its driver on this machine.";
      if (Boolean.getBoolean("browser.required")) {
        fail(why);
      }
      Assumptions.abort(why + " The review page was not tested.");
    }
    LoggingPreferences logs = new LoggingPreferences();
    logs.enable(LogType.PERFORMANCE, Level.ALL);
    logs.enable(LogType.BROWSER, Level.ALL);
    ChromeOptions options =
        new ChromeOptions()
            .setBinary(browser.get().toFile())
            .addArguments(
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--disable-dev-shm-usage",
                "--disable-background-networking",
                "--hide-scrollbars",
                "--lang=en-GB",
                "--force-device-scale-factor=1");
    options.setCapability("goog:loggingPrefs", logs);
    ChromeDriverService service =
        new ChromeDriverService.Builder()
            .usingDriverExecutable(driver.get().toFile())
            .withSilent(true)
            .build();
    ChromeDriver chrome = new ChromeDriver(service, options);
    chrome.manage().timeouts().scriptTimeout(Duration.ofMillis(2L * Rig.PATIENCE));
    Browser at = new Browser(chrome, rig.port());
    at.size(width, height);
    at.calm();
    return at;
  }

  String origin() {
    return origin;
  }

  /** The size of the page, whatever a window can be. */
  Browser size(int width, int height) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of("width", width, "height", height, "deviceScaleFactor", 1, "mobile", false));
    return this;
  }

  /** The page as somebody sees it who has never been there. */
  Browser fresh() {
    driver.get(origin + "/openapi.json");
    run("localStorage.clear(); sessionStorage.clear();");
    return open();
  }

  /** The page, with what the browser has kept. */
  Browser open() {
    driver.get(origin + "/");
    return reviewed();
  }

  /** Another page than that of the service, from a file. */
  Browser file(Path page) {
    driver.get(page.toUri().toString());
    return this;
  }

  /** The page with a sheet that the browser has kept. */
  Browser with(String sheet) {
    driver.get(origin + "/openapi.json");
    run(
        "localStorage.clear(); localStorage.setItem('gelwright.sheet', JSON.stringify({text:"
            + " arguments[0]}))",
        sheet);
    return open();
  }

  /**
   * From the next page on it is not told that the service offers remedies: they cost hundreds of
   * reviews for each sheet.
   */
  void calm() {
    calm =
        before(
            """
            const whole = window.fetch;
            window.fetch = async (path, options) => {
              const answer = await whole(path, options);
              if (path !== '/openapi.json' || !answer.ok) {
                return answer;
              }
              const description = await answer.json();
              description.components.parameters.include.schema.pattern = 'trace';
              return new Response(JSON.stringify(description));
            };
            """);
  }

  /** From the next page on it is told all that the service offers. */
  void whole() {
    noMore(calm);
  }

  /**
   * Opens the page and waits for the first review alone.
   *
   * @return milliseconds of processor time that the page's own thread has taken: its scripts, and
   *     all of it, with layout and drawing
   */
  double[] untilReviewed() {
    driver.executeCdpCommand("Performance.enable", Map.of("timeDomain", "threadTicks"));
    double[] before = taken();
    driver.get(origin + "/");
    until("performance.getEntriesByName('reviewed').length > 0");
    double[] after = taken();
    // A page in a process of its own counts from nothing.
    boolean anew = after[1] < before[1];
    return new double[] {after[0] - (anew ? 0 : before[0]), after[1] - (anew ? 0 : before[1])};
  }

  private double[] taken() {
    double script = 0;
    double all = 0;
    Object metrics = driver.executeCdpCommand("Performance.getMetrics", Map.of()).get("metrics");
    for (Object metric : (List<?>) metrics) {
      Map<?, ?> one = (Map<?, ?>) metric;
      double value = ((Number) one.get("value")).doubleValue() * 1_000;
      if (one.get("name").equals("ScriptDuration")) {
        script = value;
      } else if (one.get("name").equals("TaskDuration")) {
        all = value;
      }
    }
    return new double[] {script, all};
  }

  /** Runs before any script of the pages that are opened from now on; the key takes it out. */
  String before(String script) {
    return (String)
        driver
            .executeCdpCommand("Page.addScriptToEvaluateOnNewDocument", Map.of("source", script))
            .get("identifier");
  }

  void noMore(String key) {
    driver.executeCdpCommand("Page.removeScriptToEvaluateOnNewDocument", Map.of("identifier", key));
  }

  Object run(String script, Object... arguments) {
    return ((JavascriptExecutor) driver).executeScript(script, arguments);
  }

  JsonNode read(String expression, Object... arguments) {
    return Contract.tree(
        (String) run("return JSON.stringify(" + expression + " ?? null)", arguments));
  }

  String text(String selector) {
    return (String) run("return document.querySelector(arguments[0])?.textContent ?? ''", selector);
  }

  /** Waits until an expression is true; the browser looks, so that nothing here sleeps. */
  Browser until(String expression) {
    Object came =
        driver.executeAsyncScript(
            """
            const [most, done] = arguments;
            const end = performance.now() + most;
            const look = () => {
              if (EXPRESSION) {
                done(true);
              } else if (performance.now() > end) {
                done(false);
              } else {
                setTimeout(look, 25);
              }
            };
            look();
            """
                .replace("EXPRESSION", expression),
            Rig.PATIENCE);
    if (!Boolean.TRUE.equals(came)) {
      fail("never: " + expression + "\nverdict: " + text("#verdict") + "\n" + complaints());
    }
    return this;
  }

  /** Waits until the sheet at hand is reviewed, its pictures and all. */
  Browser reviewed() {
    return until(
        "document.getElementById('busy')?.hidden && !document.getElementById('review')"
            + ".hasAttribute('aria-busy') && !document.getElementById('verdict').textContent"
            + ".startsWith('No review')");
  }

  /** Waits until the sheet as it stands now is taken up and reviewed. */
  Browser changed() {
    // The page waits a moment for the next key before it asks.
    driver.executeAsyncScript("const done = arguments[0]; setTimeout(done, 400);");
    return reviewed();
  }

  /** Keys, one after the other, to whatever has the focus. */
  Browser keys(CharSequence... keys) {
    Actions actions = new Actions(driver);
    for (CharSequence key : keys) {
      actions.sendKeys(key);
    }
    actions.perform();
    return this;
  }

  String focused() {
    return (String) run("return document.activeElement?.id ?? ''");
  }

  WebElement find(String selector) {
    return driver.findElement(By.cssSelector(selector));
  }

  void click(String selector) {
    run("document.querySelector(arguments[0]).click()", selector);
  }

  /** Files dropped on the page: names and texts. */
  void drop(Map<String, String> files) {
    run(
        """
        const all = new DataTransfer();
        for (const [name, text] of Object.entries(arguments[0])) {
          all.items.add(new File([text], name));
        }
        document.dispatchEvent(new DragEvent('drop', {dataTransfer: all, bubbles: true, cancelable: true}));
        """,
        files);
  }

  /** Where the page has sent requests, and what it has loaded, since this was last asked. */
  List<String> addresses() {
    List<String> addresses = new ArrayList<>();
    for (LogEntry entry : driver.manage().logs().get(LogType.PERFORMANCE)) {
      JsonNode message = Contract.tree(entry.getMessage()).get("message");
      if (message.get("method").asText().equals("Network.requestWillBeSent")) {
        addresses.add(message.at("/params/request/url").asText());
      }
    }
    return addresses;
  }

  /** What the browser complained of, but for answers of 4xx, which a test may want. */
  List<String> complaints() {
    return driver.manage().logs().get(LogType.BROWSER).getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= Level.WARNING.intValue())
        .map(LogEntry::getMessage)
        .filter(message -> !message.contains("the server responded with a status of 4"))
        // The audit reads colours off the page in its own way.
        .filter(message -> !message.contains("willReadFrequently"))
        .toList();
  }

  /** The page on A4. */
  byte[] paper() {
    PrintOptions options = new PrintOptions();
    options.setPageSize(new PageSize(29.7, 21.0));
    options.setBackground(true);
    options.setShrinkToFit(false);
    return Base64.getDecoder().decode(driver.print(options).getContent());
  }

  void media(String media) {
    driver.executeCdpCommand("Emulation.setEmulatedMedia", Map.of("media", media));
  }

  byte[] picture() {
    return Base64.getDecoder()
        .decode(
            (String)
                driver
                    .executeCdpCommand("Page.captureScreenshot", Map.of("format", "png"))
                    .get("data"));
  }

  /** What an audit by axe-core finds against WCAG 2.2 A and AA and its best practices. */
  List<String> audit() {
    if (!Boolean.TRUE.equals(run("return typeof axe === 'object'"))) {
      run(script());
    }
    Object found =
        driver.executeAsyncScript(
            """
            const done = arguments[0];
            axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']})
              .then((result) => done(JSON.stringify({
                passes: result.passes.length,
                violations: result.violations.map((one) => one.id + ': ' + one.help + ' – '
                  + one.nodes.slice(0, 4).map((node) => node.html.slice(0, 160)).join(' | '))})));
            """);
    JsonNode result = Contract.tree((String) found);
    if (result.get("passes").asInt() < 20) {
      fail("the audit looked at hardly anything");
    }
    List<String> violations = new ArrayList<>();
    result.get("violations").forEach(one -> violations.add(one.asText()));
    return violations;
  }

  private static String script() {
    String axe = "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js";
    try (InputStream in = Objects.requireNonNull(Browser.class.getResourceAsStream(axe), axe)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  /** Nothing has run that came out of a sheet, and no markup has come of it. */
  void nothingHostile() {
    assertEquals("null", read("window.hit").toString(), "a script out of a sheet has run");
    assertEquals(
        "[]",
        read("[...document.querySelectorAll('script:not([src=\"/page/main.js\"]), iframe, object,"
                + " embed, base, meta[http-equiv], form, [onerror], [onload], [onclick],"
                + " [onfocus], [onmouseover], [style], a[href^=javascript], img:not([src^=blob])')]"
                + ".map((one) => one.outerHTML)")
            .toString(),
        "markup out of a sheet");
  }

  @Override
  public void close() {
    driver.quit();
  }
}
