package gelwright.sheets;

import gelwright.formula.Amount;
import gelwright.formula.Brief;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.quantity.Share;
import gelwright.quantity.Unit;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;

/** Edits of every kind that a formula can take. */
final class RandomEdits {
  /** Names that quoting has to be right for; only characters count here. */
  static final List<String> NAMES =
      List.of(
          "Xanthan Gum",
          "Caprylic/Capric Triglyceride",
          "1,2-Hexanediol",
          "Oil: a test, 'wild' # 4",
          "Null",
          "true",
          "12",
          "@scent",
          "- dash",
          "\uD835\uDCB3anthan \u00b5",
          "Ta'u Extract",
          "of \"quotes\"",
          "back\\slash",
          "[x]",
          "{y}",
          "a: b",
          "ends:",
          "Semi;Colon",
          "% of what");

  private final Random random;

  RandomEdits(Random random) {
    this.random = random;
  }

  private <T> T one(List<T> all) {
    return all.get(random.nextInt(all.size()));
  }

  private Amount amount() {
    return switch (random.nextInt(8)) {
      case 0 -> new Amount.Rest();
      case 1 -> new Amount.ToPH();
      default ->
          new Amount.Stated(
              Share.ofPercent(BigDecimal.valueOf(random.nextInt(10_000), random.nextInt(3) + 2))
                  .orElseThrow());
    };
  }

  private String phase() {
    return one(List.of("A", "B", "C", "F", "Z 2"));
  }

  /** An edit of a line. */
  Edit ofLine(Formula formula) {
    int at = random.nextInt(formula.lines().size());
    Line line = formula.lines().get(at);
    return switch (random.nextInt(6)) {
      case 0 -> new Edit.OfAmount(at, line.name(), line.amount(), amount());
      case 1 -> new Edit.Substitution(at, line.name(), one(NAMES), line.amount(), amount());
      case 2 -> new Edit.OfPhase(at, line.name(), line.phase(), phase());
      case 3 ->
          new Edit.OfSize(
              at,
              line.name(),
              line.size(),
              Quantity.of(100 + random.nextInt(900), Unit.of("µm").orElseThrow()));
      case 4 ->
          new Edit.Addition(
              random.nextInt(formula.lines().size() + 1), phase(), one(NAMES), amount());
      default ->
          formula.lines().size() > 1
              ? new Edit.Removal(at, line.name(), line.amount())
              : new Edit.OfAmount(at, line.name(), line.amount(), amount());
    };
  }

  /** An edit of any kind. */
  Edit of(Formula formula) {
    return switch (random.nextInt(12)) {
      case 0, 1 -> ofStep(formula);
      case 2 -> move(formula);
      case 3 -> new Edit.Insertion(random.nextInt(formula.method().size() + 1), step());
      case 4 -> new Edit.OfPH(Optional.empty(), 4 + random.nextInt(3000) / 1000.0);
      case 5 -> brief(formula);
      case 6 ->
          new Edit.OfBatch(
              formula.batch(), Quantity.of(50 + random.nextInt(2000) / 4.0, Unit.GRAM));
      default -> ofLine(formula);
    };
  }

  private Edit move(Formula formula) {
    if (formula.method().isEmpty()) {
      return ofLine(formula);
    }
    return new Edit.Move(
        random.nextInt(formula.method().size()), random.nextInt(formula.method().size()));
  }

  private Edit ofStep(Formula formula) {
    if (formula.method().isEmpty()) {
      return ofLine(formula);
    }
    int at = random.nextInt(formula.method().size());
    Step step = formula.method().get(at);
    boolean reaches = step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL;
    return switch (random.nextInt(3)) {
      case 0 ->
          new Edit.OfStep(
              at,
              reaches ? "to" : "at",
              Edit.Part.TEMPERATURE,
              step.temperature(),
              Quantity.of(20 + random.nextInt(600) / 10.0, Unit.CELSIUS));
      case 1 ->
          new Edit.OfStep(
              at,
              "for",
              Edit.Part.LASTING,
              step.lasting(),
              Quantity.of(1 + random.nextInt(90), Unit.MINUTE));
      default ->
          new Edit.OfStep(
              at,
              "stir",
              Edit.Part.STIR,
              step.stir(),
              Quantity.of(50 + random.nextInt(2000), Unit.RPM));
    };
  }

  private Step step() {
    Step.Action action = one(List.of(Step.Action.values()));
    List<String> with = new ArrayList<>();
    for (int i = random.nextInt(3); i > 0; i--) {
      with.add(one(NAMES));
    }
    return new Step(
        action,
        random.nextBoolean() ? Optional.of(phase()) : Optional.empty(),
        with,
        random.nextBoolean() ? Optional.of(phase()) : Optional.empty(),
        random.nextBoolean()
            ? Optional.of(Quantity.of(20 + random.nextInt(60), Unit.CELSIUS))
            : Optional.empty(),
        action == Step.Action.ADJUST_PH && random.nextBoolean()
            ? Optional.of(4 + random.nextInt(30) / 10.0)
            : Optional.empty(),
        Optional.empty(),
        random.nextBoolean() ? Optional.of(Quantity.of(12.5, Unit.MINUTE)) : Optional.empty(),
        random.nextBoolean() ? Optional.of(Quantity.of(400, Unit.RPM)) : Optional.empty());
  }

  private Edit brief(Formula formula) {
    Brief now = formula.brief();
    return switch (random.nextInt(4)) {
      case 0 ->
          new Edit.OfBrief(Edit.Promise.TEXTURE, now.texture().orElse(""), one(Brief.TEXTURES));
      case 1 ->
          new Edit.OfBrief(
              Edit.Promise.DISPENSING, now.dispensing().orElse(""), one(Brief.DISPENSING));
      case 2 -> {
        List<String> areas = new ArrayList<>(Brief.AREAS);
        Collections.shuffle(areas, random);
        yield new Edit.OfBrief(
            Edit.Promise.AREA,
            String.join(", ", now.area()),
            String.join(", ", areas.subList(0, 1 + random.nextInt(3))));
      }
      default -> new Edit.OfBrief(Edit.Promise.PH, "", "4.3 to " + (5 + random.nextInt(20) / 10.0));
    };
  }
}
