package gelwright.api;

import java.util.logging.Level;
import java.util.logging.Logger;

/** Where the program starts. */
public final class Main {
  /** A library tells its version when it starts; nobody asked. Held, or the level is forgotten. */
  private static final Logger VALIDATOR = Logger.getLogger("org.hibernate.validator");

  private Main() {}

  /**
   * Runs a command and ends the process with its exit status: 0 nothing found at or above the level
   * asked for, 1 findings, 2 input that could not be read or a wrong call.
   *
   * @param arguments what stands on the command line
   */
  public static void main(String[] arguments) {
    VALIDATOR.setLevel(Level.WARNING);
    Terminal terminal = Terminal.ofThisProcess();
    System.exit(new Program(new BundledEngine(), terminal).run(arguments));
  }
}
