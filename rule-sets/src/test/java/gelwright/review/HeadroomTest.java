package gelwright.review;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import gelwright.sheets.BundledRuleSets;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

@DisplayName("headroom")
final class HeadroomTest {
  private static final LocalDate ON = LocalDate.of(2026, 11, 25);
  private static final Map<String, List<Headroom>> FOUND = new HashMap<>();

  /** Values tried in between on each side. */
  private static final int BETWEEN = 3;

  private static final Reviewer REVIEWER = Reviewer.using(BundledRuleSets.load());

  static Stream<Named<Formula>> examples() {
    return Variations.examples().stream().map(each -> Named.of(each.name(), each));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("examples")
  @DisplayName("just inside each bound no outcome changes, just outside the one named does")
  void bounds(Formula formula) {
    Map<Concern, Outcome> now = outcomes(formula);
    List<String> faults = new ArrayList<>();
    int bounds = 0;
    for (Headroom each : headroom(formula)) {
      for (Headroom.Side side : List.of(each.down(), each.up())) {
        String about = each.what().text() + " at " + side.free();
        if (!outcomes(at(formula, each, side.free())).equals(now)) {
          faults.add(about + ": an outcome has changed already");
        }
        if (side.change().isPresent()) {
          bounds++;
          Headroom.Change change = side.change().get();
          Map<Concern, Outcome> then = outcomes(at(formula, each, change.at()));
          Outcome from = now.getOrDefault(change.concern(), Outcome.HOLDS);
          Outcome to = then.getOrDefault(change.concern(), Outcome.HOLDS);
          if (from != change.from() || to != change.to() || from == to) {
            faults.add(about + ": from " + from + " to " + to + ", told " + change);
          }
          double step = Math.abs(change.at().value() - side.free().value());
          if (step > each.grid().value() * (1 + 1e-9)) {
            faults.add(about + ": the next is " + change.at() + ", more than a step away");
          }
        }
      }
    }
    assertEquals(List.of(), faults);
    assertTrue(bounds >= 10, "bounds: " + bounds);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("examples")
  @DisplayName("in between too no outcome changes, and the gap that is told is not too small")
  void inBetween(Formula formula) {
    Random random = new Random(20261129);
    Map<Concern, Outcome> now = outcomes(formula);
    List<String> faults = new ArrayList<>();
    int tried = 0;
    for (Headroom each : headroom(formula)) {
      for (Headroom.Side side : List.of(each.down(), each.up())) {
        String about = each.what().text() + " to " + side.free();
        double way = side.free().value() - each.now().value();
        double gap = side.gap().value();
        if (gap > Math.abs(way) + 1e-9 || (way != 0) != (gap > 0)) {
          faults.add(about + ": gap of " + side.gap());
        }
        for (int i = 0; i < BETWEEN; i++) {
          double steps = Math.rint(random.nextDouble() * way / each.grid().value());
          if (steps == 0) {
            continue;
          }
          tried++;
          Quantity value =
              Quantity.of(each.now().value() + steps * each.grid().value(), each.now().unit());
          if (!outcomes(at(formula, each, value)).equals(now)) {
            faults.add(about + ": an outcome has changed at " + value);
          }
        }
      }
    }
    assertEquals(List.of(), faults);
    assertTrue(tried >= 20, "tried: " + tried);
  }

  private static List<Headroom> headroom(Formula formula) {
    return FOUND.computeIfAbsent(formula.name(), name -> REVIEWER.headroom(formula, ON));
  }

  private static Map<Concern, Outcome> outcomes(Formula formula) {
    Map<Concern, Outcome> outcomes = new HashMap<>();
    for (Finding each : REVIEWER.review(formula, ON).findings()) {
      outcomes.put(new Concern(each.rule(), each.subject()), each.outcome());
    }
    return outcomes;
  }

  /** The formula with one number elsewhere, made here anew. */
  private static Formula at(Formula formula, Headroom headroom, Quantity value) {
    if (value.equals(headroom.now())) {
      return formula;
    }
    if (headroom.what() instanceof Headroom.What.ShareOf share) {
      Line line = formula.lines().get(share.line());
      Share to = Share.nearest(value.in(Unit.PERCENT));
      Share from = ((Amount.Stated) line.amount()).share();
      List<Edit> edits = new ArrayList<>();
      edits.add(new Edit.OfAmount(share.line(), line.name(), line.amount(), new Amount.Stated(to)));
      for (int i = 0; i < formula.lines().size(); i++) {
        Line water = formula.lines().get(i);
        if (water.name().equals("Aqua") && water.amount() instanceof Amount.Stated stands) {
          Amount left = new Amount.Stated(stands.share().minus(to.minus(from)));
          edits.add(new Edit.OfAmount(i, water.name(), water.amount(), left));
        }
      }
      return Edit.all(edits, formula);
    }
    if (headroom.what() instanceof Headroom.What.Temperature temperature) {
      double now = headroom.now().value();
      List<Edit> edits = new ArrayList<>();
      boolean cooled = false;
      for (int i = temperature.step(); i < formula.method().size() && !cooled; i++) {
        cooled = formula.method().get(i).action() == gelwright.formula.Step.Action.COOL;
        Optional<Quantity> stated = formula.method().get(i).temperature();
        if (!cooled && stated.isPresent() && stated.get().in(Unit.CELSIUS) == now) {
          edits.add(new Edit.OfStep(i, "at", Edit.Part.TEMPERATURE, stated, value));
        }
      }
      return Edit.all(edits, formula);
    }
    return new Edit.OfPH(Optional.empty(), value.value()).in(formula);
  }
}
