package gelwright.rule;

import gelwright.quantity.Bounded;
import java.util.List;

/** Facts that hold nothing: what constant parts are computed with. */
enum NoFacts implements Facts {
  NONE;

  @Override
  public Bounded number(int slot) {
    throw none();
  }

  @Override
  public Chosen choice(int slot) {
    throw none();
  }

  @Override
  public Truth truth(int slot) {
    throw none();
  }

  @Override
  public Bounded call(int slot, List<Argument> arguments) {
    throw none();
  }

  @Override
  public List<? extends Item> items(int kind) {
    throw none();
  }

  private static IllegalArgumentException none() {
    return new IllegalArgumentException("there are no facts here");
  }
}
