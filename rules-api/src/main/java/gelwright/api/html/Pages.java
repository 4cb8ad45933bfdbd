package gelwright.api.html;

import static java.util.Objects.requireNonNull;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.Map;

/**
 * Writes pages. Immutable and thread-safe; the same model gives the same text.
 *
 * <p>Templates are classes made in the build ({@code src/main/jte}); none is compiled while the
 * program runs.
 */
public final class Pages {
  /** Where the build puts the templates' classes; the build file names it too. */
  private static final String TEMPLATES = "gelwright.api.html.templates";

  private static final TemplateEngine ENGINE =
      TemplateEngine.createPrecompiled(
          null, ContentType.Html, Pages.class.getClassLoader(), TEMPLATES);

  private Pages() {}

  /** A paper as one HTML file. */
  public static String of(Paper paper) {
    return render("paper.jte", Map.of("paper", requireNonNull(paper, "paper")));
  }

  /** A report of reviews as one HTML file. */
  public static String of(Report report) {
    return render("report.jte", Map.of("report", requireNonNull(report, "report")));
  }

  /**
   * A page of a template of its own.
   *
   * @param template its file below {@code src/main/jte}
   * @param model by the names of the template's parameters
   */
  static String render(String template, Map<String, Object> model) {
    StringOutput output = new StringOutput(16_384);
    ENGINE.render(template, model, output);
    return output.toString();
  }
}
