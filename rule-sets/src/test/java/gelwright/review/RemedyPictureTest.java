package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.charts.Chart;
import gelwright.charts.HeadroomBars;
import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.prediction.Curve;
import gelwright.profile.Profile;
import gelwright.quantity.Share;
import gelwright.sheets.BundledRuleSets;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

/**
 * The pictures of the guide's pages on remedies and headroom, drawn from the engine; {@code
 * -Dgolden.update=true} draws them anew.
 */
@DisplayName("pictures of remedies and headroom in the guide")
final class RemedyPictureTest {
  private static final Path GUIDE = Path.of("..", "docs", "guide");
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Knowledge KNOWLEDGE = BundledRuleSets.load();
  private static final Reviewer REVIEWER = Reviewer.using(KNOWLEDGE);

  private static Formula example(String name) {
    return Variations.examples().stream()
        .filter(each -> each.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  @Test
  @DisplayName("odds of the texture against the gum: where the remedy comes from")
  void oddsAgainstGum() throws IOException {
    Formula scrub = example("Soil-off scrub");
    Remedy remedy =
        REVIEWER.remedies(scrub, ON).stream()
            .filter(each -> each.rule().equals("texture.yields-too-easily"))
            .findFirst()
            .orElseThrow()
            .offers()
            .get(0);
    Edit.OfAmount gum = (Edit.OfAmount) remedy.edits().get(0);
    Line line = scrub.lines().get(gum.line());
    List<Curve.Point> points = new ArrayList<>();
    for (int i = 0; i <= 56; i++) {
      Share share = Share.nearest(0.3 + i / 40.0);
      Amount amount = new Amount.Stated(share);
      Formula changed = new Edit.OfAmount(gum.line(), line.name(), line.amount(), amount).in(scrub);
      double odds =
          REVIEWER
              .judged(
                  KNOWLEDGE.rules().rule("texture.yields-too-easily").orElseThrow(),
                  Profile.of(changed, KNOWLEDGE.catalogue(), ON),
                  Subject.FORMULA)
              .orElseThrow()
              .odds()
              .low();
      points.add(Curve.Point.exact(share.percent(), 100 * odds));
    }
    double offered = ((Amount.Stated) gum.to()).share().percent();
    Curve curve =
        new Curve(
            "odds",
            "Odds that the gel holds the shape promised",
            Curve.Axis.linear("Xanthan Gum", "%"),
            Curve.Axis.linear("odds", "%"),
            List.of(new Curve.Series("the rule holds", Curve.Kind.LIKELY, points)),
            List.of(
                Curve.Mark.alongY("the aim", 80, 80),
                Curve.Mark.alongX("the offer", offered, offered)),
            Set.of());
    held("remedy-odds.svg", Chart.of(curve, scrub.name()).svg("odds"));
  }

  @Test
  @DisplayName("headroom bars")
  void headroom() throws IOException {
    Formula cream = example("Wind-shelter gel-cream");
    held(
        "headroom.svg",
        Chart.of(HeadroomBars.of(REVIEWER.headroom(cream, ON)).orElseThrow(), cream.name())
            .svg("headroom"));
  }

  private static void held(String file, String svg) throws IOException {
    Path path = GUIDE.resolve(file);
    if (Boolean.getBoolean("golden.update")) {
      Files.writeString(path, svg);
    }
    assertTrue(Files.exists(path), "no picture " + file);
    assertEquals(Files.readString(path), svg, file);
  }
}
