package gelwright.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import picocli.CommandLine.Model.OptionSpec;

@DisplayName("the command serve")
final class ServeCommandTest {
  private static final Path ROOT = Path.of("..");

  @TempDir Path folder;

  private record Ran(int status, String err) {}

  private static Terminal terminal(Map<String, String> environment, ByteArrayOutputStream err) {
    return new Terminal(
        new ByteArrayOutputStream(),
        StandardCharsets.UTF_8,
        new PrintStream(err, true, StandardCharsets.UTF_8),
        false,
        environment,
        () -> LocalDate.of(2026, 11, 25));
  }

  private static Ran run(Map<String, String> environment, String... arguments) {
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    int status = new Program(new FakeEngine(), terminal(environment, err)).run(arguments);
    return new Ran(status, err.toString(StandardCharsets.UTF_8));
  }

  private static String row(OptionSpec option) {
    String label = option.arity().max() == 0 ? "" : " " + option.paramLabel();
    String usual = option.defaultValue() == null ? "" : option.defaultValue();
    return "| `"
        + option.longestName()
        + label
        + "` | `"
        + ServeCommand.variable(option)
        + "` | "
        + usual
        + (usual.isEmpty() ? "" : " ")
        + "| "
        + String.join(" ", option.description())
        + " |";
  }

  @Test
  @DisplayName("the guide has the table of all options, their variables and usual values")
  void table() throws IOException {
    String guide = Files.readString(ROOT.resolve("docs/guide/serving.md"));
    List<String> rows =
        ServeCommand.line(terminal(Map.of(), new ByteArrayOutputStream()))
            .getCommandSpec()
            .options()
            .stream()
            .filter(option -> !option.usageHelp() && !option.versionHelp())
            .map(ServeCommandTest::row)
            .toList();
    assertTrue(rows.size() > 20);
    String table = String.join("\n", rows);
    assertTrue(guide.contains("\n" + table + "\n"), table);
    // And no row beside them.
    assertEquals(rows.size(), guide.lines().filter(line -> line.startsWith("| `--")).count());
  }

  @ParameterizedTest(name = "{0}={1} in the environment is wrong: {2}")
  @CsvSource({
    "GELWRIGHT_PORT, many, --port does not take",
    "GELWRIGHT_PORT, 70000, port: must be less than or equal to 65535",
    "GELWRIGHT_HOST, 0.0.0.0, there is no token",
    "GELWRIGHT_DEPTH, 5000, depth: must be less than or equal to 200",
    "GELWRIGHT_TOKEN, short, The token must have",
    "GELWRIGHT_TOKEN_FILE, no-such-file, cannot be read",
    "GELWRIGHT_CORS_ORIGIN, garden, corsOrigins",
    "GELWRIGHT_RULES, no-such-folder, There is no folder or file no-such-folder",
  })
  void wrong(String name, String value, String said) {
    Ran told = run(Map.of(name, value), "serve");
    assertEquals(2, told.status());
    assertTrue(told.err().contains(said), told.err());
    assertFalse(told.err().contains("\tat "), told.err());
    assertFalse(name.equals("GELWRIGHT_TOKEN") && told.err().contains(value), told.err());
  }

  @Test
  @DisplayName("the command line wins over the environment, and a token file over neither")
  void precedence() throws IOException {
    Path token = Files.writeString(folder.resolve("token"), "short\n");
    Ran ran =
        run(
            Map.of("GELWRIGHT_DEPTH", "5000"),
            "serve",
            "--depth",
            "12",
            "--token-file",
            token.toString());
    assertEquals(2, ran.status());
    assertTrue(ran.err().contains("The token must have"), ran.err());
    assertFalse(ran.err().contains("depth"), ran.err());
  }

  @Test
  @DisplayName("no other command loads the web server")
  void loadsLittle() throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xlog:class+load",
                "-cp",
                System.getProperty("java.class.path"),
                "gelwright.api.Main",
                "review",
                ROOT.resolve("docs/examples/shade-mist.yaml").toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertTrue(process.waitFor(1, TimeUnit.MINUTES));
    assertTrue(said.contains("gelwright.api.ReviewCommands"), "classes are told");
    for (String room : List.of("io.javalin.", "org.eclipse.jetty.", "kotlin.", "io.prometheus.")) {
      assertFalse(said.contains(" " + room), room);
    }
  }

  @Test
  @DisplayName("serves, and at SIGTERM finishes and ends")
  void sigterm() throws Exception {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                "gelwright.api.Main",
                "serve",
                "--port",
                "0",
                "--drain",
                "0")
            .redirectErrorStream(true)
            .start();
    try (var lines = process.inputReader(StandardCharsets.UTF_8)) {
      String first = lines.readLine();
      assertTrue(first != null && first.contains("\"event\":\"started\""), first);
      // Process.destroy would close the streams, too.
      process.toHandle().destroy();
      StringBuilder rest = new StringBuilder();
      lines.lines().forEach(line -> rest.append(line).append('\n'));
      assertTrue(rest.toString().contains("\"event\":\"draining\""), rest.toString());
      assertTrue(rest.toString().contains("\"event\":\"stopped\""), rest.toString());
      assertTrue(process.waitFor(1, TimeUnit.MINUTES));
      assertEquals(143, process.exitValue());
    } finally {
      process.destroyForcibly();
    }
  }
}
