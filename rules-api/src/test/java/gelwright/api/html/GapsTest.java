package gelwright.api.html;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Formula;
import gelwright.review.Duty;
import gelwright.review.Finding;
import gelwright.review.Knowledge;
import gelwright.review.Outcome;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.Bundled;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.OwnSheets;
import gelwright.sheets.tree.Limits;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("what is missing, and what that leaves open")
final class GapsTest {
  private static final String COMFREY = "Symphytum Asperum Leaf Extract";
  private static final String TWO =
      Examples.COMFREY.replace(
          "  - { phase: D, name: Sodium Benzoate",
          "  - { phase: C, name: Fern of the Shade House, share: 1 % }\n"
              + "  - { phase: D, name: Sodium Benzoate");

  /** A name that is part of many other words, and words that stand in what is missing. */
  private static final String SHORT = Examples.COMFREY.replace(COMFREY, "a");

  @TempDir private Path folder;

  static Stream<String> sheets() {
    return Stream.concat(
        Examples.names().stream().map(Examples::sheet), Stream.of(Examples.COMFREY, TWO, SHORT));
  }

  private static Review review(String sheet) {
    return Examples.reviewed(sheet, "sheet.yaml", false).review();
  }

  private static List<Finding> open(Review review) {
    return review.findings().stream()
        .filter(each -> !each.isAccepted() && each.outcome() == Outcome.UNKNOWN)
        .toList();
  }

  @ParameterizedTest
  @MethodSource("sheets")
  @DisplayName("each open finding stands in one gap, each duty once")
  void nothingIsDropped(String sheet) {
    Review review = review(sheet);
    Gaps gaps = Gaps.of(review);
    List<Finding> told = new ArrayList<>();
    List<Duty> duties = new ArrayList<>(gaps.duties());
    for (Gap gap : gaps.all()) {
      told.addAll(gap.findings());
      duties.addAll(gap.duties());
      assertEquals(
          gap.findings().size(), gap.byRule().values().stream().mapToInt(List::size).sum());
    }
    assertEquals(open(review).size(), told.size());
    assertEquals(new HashSet<>(open(review)), new HashSet<>(told));
    assertEquals(review.duties().size(), duties.size());
    assertEquals(new HashSet<>(review.duties()), new HashSet<>(duties));
  }

  @Test
  @DisplayName("names that nobody knows are one gap, with what hangs on each alone")
  void two() {
    Review review = review(TWO);
    Gap gap = Gaps.of(review).strangers().orElseThrow();
    assertEquals(
        "Fern of the Shade House and " + COMFREY + " are not in the catalogue", gap.title());
    List<Finding> open = open(review);
    assertTrue(gap.findings().size() > 200, "an unknown name leaves much open");
    long rules = gap.findings().stream().map(Finding::rule).distinct().count();
    assertEquals(
        "Because of that "
            + rules
            + " rules could not be checked, "
            + gap.findings().size()
            + " checks in all.",
        gap.because());
    for (Gap.Stranger stranger : gap.strangers()) {
      String other = stranger.name().equals(COMFREY) ? "Fern of the Shade House" : COMFREY;
      long alone =
          open.stream()
              .filter(each -> !each.missing().isEmpty())
              .filter(
                  each ->
                      each.missing().stream()
                          .allMatch(
                              what -> what.contains(stranger.name()) && !what.contains(other)))
              .count();
      assertEquals(alone, stranger.alone());
      assertTrue(alone > 0 && alone < gap.findings().size());
      int line = stranger.where().orElseThrow().line();
      assertTrue(TWO.lines().toList().get(line - 1).contains(stranger.name()));
    }
  }

  @Test
  @DisplayName("the guide's three lines of an own ingredient close what it says they close")
  void ownSheet() throws IOException {
    String guide = Files.readString(Path.of("../docs/guide/house-rules.md"));
    int end = guide.indexOf("```\n", guide.indexOf("  " + COMFREY));
    String sheet = guide.substring(guide.lastIndexOf("```yaml\n", end) + "```yaml\n".length(), end);
    Files.writeString(folder.resolve("own.yaml"), sheet);
    Knowledge knowledge =
        OwnSheets.read(Bundled.load(), List.of(folder), Limits.USUAL)
            .ready()
            .value()
            .orElseThrow()
            .knowledge();
    Formula formula =
        new FormulaReader()
            .read(Examples.COMFREY.getBytes(StandardCharsets.UTF_8), "sheet.yaml")
            .orThrow();
    Review with = Reviewer.using(knowledge).review(formula, Examples.DAY);
    assertTrue(Gaps.of(with).strangers().isEmpty());
    String said =
        rules(review(Examples.COMFREY))
            + " rules could not be checked; with these lines in a folder given with"
            + " `--ingredients` it was "
            + rules(with)
            + ".";
    assertTrue(guide.replace('\n', ' ').contains(said), said);
  }

  private static long rules(Review review) {
    return open(review).stream().map(Finding::rule).distinct().count();
  }

  @Test
  @DisplayName("a name that is part of other words takes nothing that is not its own")
  void partOfWords() {
    Gap gap = Gaps.of(review(SHORT)).strangers().orElseThrow();
    for (Finding finding : gap.findings()) {
      assertTrue(
          finding.missing().stream().anyMatch(what -> what.matches("(.* of|what|how|row) a( .*)?")),
          () -> finding.rule() + ": " + finding.missing());
    }
  }

  @Test
  @DisplayName("a report says on top what is not known, and lists all it leaves open")
  void report() {
    Reports.Reviewed reviewed = Examples.stranger();
    Gaps gaps = Gaps.of(reviewed.review());
    Gap gap = gaps.strangers().orElseThrow();
    Document page = Jsoup.parse(Pages.of(Reports.of(reviewed)));
    String top = page.select(".verdict .unnamed").text();
    assertTrue(top.startsWith(COMFREY + " is not in the catalogue. " + gap.because()), top);
    Set<String> rules = new HashSet<>(page.select("article.open details .rule").eachText());
    assertEquals(gap.byRule().keySet(), rules);
    assertEquals(0, page.select("details[open]").size());
    String care = page.select("section.care").text();
    for (Duty duty : gap.duties()) {
      if (duty.rule().startsWith("caution.")) {
        assertTrue(care.contains(Told.line(duty.message())), duty.rule());
      }
    }
    assertFalse(page.select("section.care details").size() > 0, "cautions are never folded");
    Document known =
        Jsoup.parse(
            Pages.of(
                Reports.of(
                    Examples.reviewed(
                        Examples.COMFREY.replace(COMFREY, "Panthenol"), "k.yaml", false))));
    assertEquals(0, known.select(".unnamed").size());
  }
}
