package gelwright.api;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** For which day a report is made and where it goes. */
final class ReportOptions {
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec = CommandSpec.create();

  @Option(
      names = "--out",
      paramLabel = "FILE",
      description = "Write into this file instead of standard output.")
  private Optional<Path> out = Optional.empty();

  @Option(
      names = "--on",
      paramLabel = "DATE",
      description = "The day it is made for, such as 2026-11-25 (default: today).")
  private Optional<LocalDate> on = Optional.empty();

  LocalDate day(Terminal terminal) {
    return on.orElseGet(terminal.today());
  }

  /** Colour for what goes to a terminal, not into a file. */
  Ink ink(Terminal terminal) {
    return out.isPresent() ? Ink.PLAIN : terminal.ink();
  }

  /** A text for people in the charset of where it goes. */
  byte[] encoded(String text, Terminal terminal) {
    return text.getBytes(out.isPresent() ? StandardCharsets.UTF_8 : terminal.charset());
  }

  /** Writes a report; where that fails the call was wrong. */
  void write(byte[] report, Terminal terminal) {
    try {
      if (out.isPresent()) {
        Files.write(out.get(), report);
      } else {
        terminal.out().write(report);
        terminal.out().flush();
      }
    } catch (IOException e) {
      throw new ParameterException(
          spec.commandLine(),
          out.map(path -> "--out: " + path + " could not be written.")
              .orElse("Standard output could not be written."));
    }
  }
}
