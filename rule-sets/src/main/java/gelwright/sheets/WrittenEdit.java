package gelwright.sheets;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Step;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Edits in the words of the formula sheet: keys with texts, numbers of lines and steps counted from
 * 1, and a step as its keys.
 */
public final class WrittenEdit {
  private WrittenEdit() {}

  /**
   * The keys of an edit, in order; values are texts, whole numbers, or the keys of a step with
   * texts and lists of texts.
   */
  public static Map<String, Object> of(Edit edit) {
    Map<String, Object> keys = new LinkedHashMap<>();
    if (edit instanceof Edit.OfAmount each) {
      line(keys, each.ingredient(), each.line());
      keys.put("from", amount(each.from()));
      keys.put("to", amount(each.to()));
    } else if (edit instanceof Edit.Substitution each) {
      line(keys, each.ingredient(), each.line());
      keys.put("replace-with", each.with());
      keys.put("from", amount(each.from()));
      keys.put("to", amount(each.to()));
    } else if (edit instanceof Edit.OfPhase each) {
      line(keys, each.ingredient(), each.line());
      keys.put("field", "phase");
      keys.put("from", each.from());
      keys.put("to", each.to());
    } else if (edit instanceof Edit.OfSize each) {
      line(keys, each.ingredient(), each.line());
      keys.put("field", "size");
      each.from().ifPresent(from -> keys.put("from", quantity(from)));
      keys.put("to", quantity(each.to()));
    } else if (edit instanceof Edit.Addition each) {
      line(keys, each.ingredient(), each.line());
      keys.put("add-to-phase", each.phase());
      keys.put("to", amount(each.to()));
    } else if (edit instanceof Edit.Removal each) {
      line(keys, each.ingredient(), each.line());
      keys.put("from", amount(each.from()));
      keys.put("to", "left-out");
    } else if (edit instanceof Edit.OfStep each) {
      keys.put("step", each.step() + 1);
      keys.put("field", each.field());
      each.from().ifPresent(from -> keys.put("from", quantity(from)));
      keys.put("to", quantity(each.to()));
    } else if (edit instanceof Edit.Move each) {
      keys.put("step", each.step() + 1);
      keys.put("field", "position");
      keys.put("from", String.valueOf(each.step() + 1));
      keys.put("to", String.valueOf(each.to() + 1));
    } else if (edit instanceof Edit.Insertion each) {
      keys.put("step", each.step() + 1);
      keys.put("insert", step(each.done()));
    } else if (edit instanceof Edit.OfPH each) {
      keys.put("pH", "target");
      each.from().ifPresent(from -> keys.put("from", pH(from)));
      keys.put("to", pH(each.to()));
    } else if (edit instanceof Edit.OfBrief each) {
      keys.put("product", each.promise().key());
      if (!each.from().isEmpty()) {
        keys.put("from", each.from());
      }
      keys.put("to", each.to());
    } else if (edit instanceof Edit.OfBatch each) {
      keys.put("batch", "mass");
      each.from().ifPresent(from -> keys.put("from", quantity(from)));
      keys.put("to", quantity(each.to()));
    }
    return keys;
  }

  private static void line(Map<String, Object> keys, String ingredient, int line) {
    keys.put("ingredient", ingredient);
    keys.put("line", line + 1);
  }

  static String amount(Amount amount) {
    if (amount instanceof Amount.Stated stated) {
      return stated.share().toString();
    }
    return amount instanceof Amount.Rest ? "rest" : "to-pH";
  }

  /** All digits and no idle ones. */
  static String quantity(Quantity quantity) {
    String number = BigDecimal.valueOf(quantity.value()).stripTrailingZeros().toPlainString();
    return quantity.unit() == Unit.NONE || quantity.unit() == Unit.PH
        ? number
        : number + " " + quantity.unit().symbol();
  }

  /** Names that are parted by commas. */
  static List<String> listed(String names) {
    return Pattern.compile(",").splitAsStream(names).map(String::strip).toList();
  }

  /** As it is usually written where that is the same number, else all its digits. */
  static String pH(double pH) {
    String usual = Quantity.of(pH, Unit.PH).toString();
    return Double.compare(Double.parseDouble(usual), pH) == 0
        ? usual
        : quantity(Quantity.of(pH, Unit.PH));
  }

  /** The keys of a new line, in the order a sheet has them. */
  static Map<String, Object> line(Edit.Addition edit) {
    Map<String, Object> keys = new LinkedHashMap<>();
    if (!edit.phase().isEmpty()) {
      keys.put("phase", edit.phase());
    }
    keys.put("name", edit.ingredient());
    keys.put("share", amount(edit.to()));
    return keys;
  }

  /** The keys of a step, in the order a sheet has them; several ingredients are a list. */
  static Map<String, Object> step(Step step) {
    Map<String, Object> keys = new LinkedHashMap<>();
    keys.put("do", step.action().word());
    step.phase().ifPresent(phase -> keys.put("phase", phase));
    step.into().ifPresent(into -> keys.put("into", into));
    if (!step.with().isEmpty()) {
      keys.put("with", step.with().size() == 1 ? step.with().get(0) : step.with());
    }
    boolean reached = step.action() == Step.Action.HEAT || step.action() == Step.Action.COOL;
    step.temperature().ifPresent(at -> keys.put(reached ? "to" : "at", quantity(at)));
    step.pH().ifPresent(pH -> keys.put("to", pH(pH)));
    step.over().ifPresent(over -> keys.put("over", quantity(over)));
    step.lasting().ifPresent(time -> keys.put("for", quantity(time)));
    step.stir().ifPresent(stir -> keys.put("stir", quantity(stir)));
    return keys;
  }
}
