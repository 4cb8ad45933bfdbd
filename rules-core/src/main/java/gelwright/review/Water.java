package gelwright.review;

import gelwright.formula.Amount;
import gelwright.formula.Edit;
import gelwright.formula.Formula;
import gelwright.formula.Line;
import gelwright.ingredient.Catalogue;
import gelwright.quantity.Share;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The line that takes up the difference when a share changes: the one that asks for the rest, else
 * the water.
 */
record Water(int line, String name, Optional<Share> stated, Share share) {
  /** INCI name of water. */
  static final String NAME = "Aqua";

  /** Empty where neither is there, or two lines ask for the rest. */
  static Optional<Water> of(Formula formula, Catalogue catalogue) {
    long stated = 0;
    int rest = -1;
    int water = -1;
    for (int i = 0; i < formula.lines().size(); i++) {
      Line line = formula.lines().get(i);
      if (line.amount() instanceof Amount.Stated amount) {
        stated = Math.addExact(stated, amount.share().units());
        boolean pure = line.strength().isEmpty();
        if (water < 0
            && pure
            && catalogue.find(line.name()).filter(each -> each.name().equals(NAME)).isPresent()) {
          water = i;
        }
      } else if (line.amount() instanceof Amount.Rest) {
        if (rest >= 0) {
          return Optional.empty();
        }
        rest = i;
      }
    }
    if (rest >= 0) {
      Share left = new Share(Math.max(0, Share.ALL.units() - stated));
      return Optional.of(new Water(rest, formula.lines().get(rest).name(), Optional.empty(), left));
    }
    if (water < 0) {
      return Optional.empty();
    }
    Line line = formula.lines().get(water);
    Share share = ((Amount.Stated) line.amount()).share();
    return Optional.of(new Water(water, line.name(), Optional.of(share), share));
  }

  /** Edits, and then what the water makes room for or fills. */
  List<Edit> balance(List<Edit> edits, Share more) {
    if (stated.isEmpty() || more.units() == 0) {
      return List.copyOf(edits);
    }
    int then = line;
    for (Edit edit : edits) {
      if (edit instanceof Edit.Addition addition && addition.line() <= then) {
        then++;
      } else if (edit instanceof Edit.Removal removal && removal.line() < then) {
        then--;
      }
    }
    List<Edit> balanced = new ArrayList<>(edits);
    balanced.add(
        new Edit.OfAmount(
            then,
            name,
            new Amount.Stated(stated.get()),
            new Amount.Stated(stated.get().minus(more))));
    return balanced;
  }
}
