package gelwright.api;

/** Where the program starts. */
public final class Main {
  private static final int WRONG_USE = 2;

  private Main() {}

  /**
   * Prints how the program is used, on standard error, and ends with exit code 2.
   *
   * @param arguments what stands on the command line; no command is known yet
   */
  public static void main(String[] arguments) {
    System.err.println("usage: java -jar gelwright.jar <command> [options] [files]");
    System.exit(WRONG_USE);
  }
}
