package gelwright.review;

/** The engine itself, as reviews name it. */
public final class Engine {
  /** Version of the engine; the same as the artifact's. */
  public static final String VERSION = "0.1.0";

  private Engine() {}
}
