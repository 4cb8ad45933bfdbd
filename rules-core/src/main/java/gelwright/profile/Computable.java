package gelwright.profile;

/** Something that worlds compute: a property, or what several properties share. */
abstract sealed class Computable permits Definition, Shared {
  /** What it comes to in a world. */
  abstract Object of(World world, int item);
}
