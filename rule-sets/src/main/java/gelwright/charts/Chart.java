package gelwright.charts;

import static java.util.Objects.requireNonNull;

import gelwright.prediction.Curve;
import java.util.Map;

/**
 * A picture of a curve or of bars. Immutable; drawn anew each time it is asked for.
 *
 * <p>Cost: some 10 to 50 milliseconds; the first picture of a process takes one or two seconds,
 * most of which goes into loading the chart library.
 */
public final class Chart {
  private final String title;
  private final String telling;
  private final Map<String, Object> specification;
  private final int height;

  private Chart(String title, String telling, Map<String, Object> specification, int height) {
    this.title = title;
    this.telling = telling;
    this.specification = specification;
    this.height = height;
  }

  /**
   * A picture of a curve; of one that is not known a note of what is missing.
   *
   * @param curve the numbers; two formulas side by side are one curve with the series of both
   * @param about what they are of, such as the name of the formula; may be empty
   */
  public static Chart of(Curve curve, String about) {
    requireNonNull(curve, "curve");
    Plot plot = Plot.of(curve, requireNonNull(about, "about"));
    return new Chart(
        heading(curve.title(), about), Telling.of(curve), plot.specification(), plot.height());
  }

  /**
   * A picture of horizontal bars.
   *
   * @param bars the numbers
   * @param about what they are of; may be empty
   */
  public static Chart of(Bars bars, String about) {
    requireNonNull(bars, "bars");
    Plot plot = Plot.of(bars, requireNonNull(about, "about"));
    return new Chart(
        heading(bars.title(), about), Telling.of(bars), plot.specification(), plot.height());
  }

  private static String heading(String title, String about) {
    return about.isEmpty() ? title : title + " – " + about;
  }

  /**
   * The picture as an SVG element, to be written into a file or put into a page.
   *
   * @param prefix of every id in it, so that ids are unique in a page that shows several: a letter,
   *     then letters, digits and hyphens
   */
  public String svg(String prefix) {
    if (!isName(prefix)) {
      throw new IllegalArgumentException("prefix is no name: " + prefix);
    }
    return Svg.of(specification, Plot.WIDTH, height, title, telling, prefix);
  }

  private static boolean isName(String prefix) {
    return !prefix.isEmpty()
        && Character.isLetter(prefix.charAt(0))
        && prefix.chars().allMatch(c -> c < 128 && (Character.isLetterOrDigit(c) || c == '-'));
  }
}
