package gelwright.profile;

import java.util.concurrent.atomic.AtomicInteger;

/**
 * Something that worlds compute: a property, or what several properties share. Those that are made
 * once, when the class that holds them is loaded, have a place of their own in every world, so that
 * a world finds what it has computed without a search.
 */
abstract sealed class Computable permits Definition, Shared {
  /** The place of what is made for one profile alone. */
  static final int NOWHERE = -1;

  private static final AtomicInteger PLACES = new AtomicInteger();

  private final int place;

  Computable(boolean lasting) {
    this.place = lasting ? PLACES.getAndIncrement() : NOWHERE;
  }

  /** Its place, or {@link #NOWHERE}. */
  final int place() {
    return place;
  }

  /** Places taken so far. */
  static int places() {
    return PLACES.get();
  }

  /** What it comes to in a world. */
  abstract Object of(World world, int item);
}
