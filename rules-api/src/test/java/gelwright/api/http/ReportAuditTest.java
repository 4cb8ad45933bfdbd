package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;

import gelwright.api.html.Examples;
import gelwright.api.html.Pages;
import gelwright.api.html.Reports;
import gelwright.review.Include;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Reports and papers as files in a browser, held against WCAG 2.2 A and AA. */
@DisplayName("reports and papers")
final class ReportAuditTest {
  private static final int WIDE = 1_280;
  private static final int NARROW = 360;
  private static final int HIGH = 900;

  @TempDir private Path folder;

  private static Map<String, String> pages(Rig rig) {
    Map<String, String> pages = new TreeMap<>();
    pages.put("a name nobody knows", Pages.of(Reports.of(Examples.stranger())));
    Reports.Reviewed whole =
        Examples.reviewed(
            Examples.sheet("nettle-calm-gel.yaml"),
            "nettle.yaml",
            true,
            Include.REMEDIES,
            Include.HEADROOM,
            Include.TRACE);
    pages.put("remedies, headroom and trace", Pages.of(Reports.of(whole)));
    pages.put(
        "several formulas",
        Pages.of(
            Reports.of(
                List.of(Examples.stranger(), Examples.drawn("shade-mist.yaml")), List.of())));
    for (String paper :
        List.of("/v1/batch-sheets?make=400%20g", "/v1/label-drafts", "/v1/stability-plans")) {
      pages.put(
          paper,
          rig.ask()
              .contentType("application/yaml")
              .accept("text/html")
              .urlEncodingEnabled(false)
              .body(Rig.example("nettle-calm-gel.yaml"))
              .post(paper)
              .then()
              .statusCode(200)
              .extract()
              .asString());
    }
    return pages;
  }

  @Test
  @DisplayName("an audit finds nothing against WCAG 2.2 AA, folded and unfolded, wide and narrow")
  void audit() throws IOException {
    try (Rig rig = Rig.start();
        Browser browser = Browser.at(rig, WIDE, HIGH)) {
      Map<String, List<String>> found = new TreeMap<>();
      int number = 0;
      for (Map.Entry<String, String> page : pages(rig).entrySet()) {
        Path file = Files.writeString(folder.resolve("page" + number++ + ".html"), page.getValue());
        browser.size(WIDE, HIGH).file(file);
        add(found, page.getKey(), browser);
        browser.run("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
        add(found, page.getKey() + ", unfolded", browser);
        browser.size(NARROW, HIGH);
        add(found, page.getKey() + ", narrow", browser);
      }
      assertEquals(Map.of(), found);
    }
  }

  private static void add(Map<String, List<String>> found, String page, Browser browser) {
    List<String> audit = browser.audit();
    if (!audit.isEmpty()) {
      found.put(page, audit);
    }
  }
}
