package gelwright.api;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Where the program runs: its streams, its environment, the day.
 *
 * @param out standard output
 * @param charset of standard output: the terminal's own, UTF-8 into a file or a pipe
 * @param err standard error
 * @param interactive whether a person looks at both
 * @param environment variables
 * @param today asked for only when no date is given
 */
record Terminal(
    OutputStream out,
    Charset charset,
    PrintStream err,
    boolean interactive,
    Map<String, String> environment,
    Supplier<LocalDate> today) {

  static Terminal ofThisProcess() {
    boolean interactive = hasConsole();
    return new Terminal(
        System.out,
        interactive ? consoleCharset() : StandardCharsets.UTF_8,
        System.err,
        interactive,
        System.getenv(),
        () -> LocalDate.now(ZoneId.systemDefault()));
  }

  /** From Java 22 on there may be a console that is no terminal; it says so itself. */
  @SuppressWarnings("SystemConsoleNull") // null before 22, and asked below from 22 on
  private static boolean hasConsole() {
    Object console = System.console();
    if (console == null) {
      return false;
    }
    try {
      Method asked = java.io.Console.class.getMethod("isTerminal");
      return Boolean.TRUE.equals(asked.invoke(console));
    } catch (ReflectiveOperationException before22) {
      return true;
    }
  }

  private static Charset consoleCharset() {
    String name =
        Optional.ofNullable(System.getProperty("stdout.encoding"))
            .or(() -> Optional.ofNullable(System.getProperty("sun.stdout.encoding")))
            .or(() -> Optional.ofNullable(System.getProperty("native.encoding")))
            .orElse("UTF-8");
    return Charset.isSupported(name) ? Charset.forName(name) : StandardCharsets.UTF_8;
  }

  /** Colour on a terminal, unless {@code NO_COLOR} is set to anything, or the terminal is dumb. */
  Ink ink() {
    boolean unwanted =
        !environment.getOrDefault("NO_COLOR", "").isEmpty()
            || environment.getOrDefault("TERM", "").equals("dumb");
    return interactive && !unwanted ? Ink.COLOURED : Ink.PLAIN;
  }

  boolean wantsStackTraces() {
    return environment.getOrDefault("GELWRIGHT_DEBUG", "").equals("1");
  }

  void print(String text) {
    try {
      out.write(text.getBytes(charset));
      out.flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  void complain(String text) {
    err.print(text);
    err.flush();
  }
}
