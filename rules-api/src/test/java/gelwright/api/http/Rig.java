package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;

import io.restassured.RestAssured;
import io.restassured.builder.RequestSpecBuilder;
import io.restassured.config.EncoderConfig;
import io.restassured.config.RestAssuredConfig;
import io.restassured.http.ContentType;
import io.restassured.specification.RequestSpecification;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.PrintStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** A service on a free port of this machine, and ways to talk to it. */
final class Rig implements AutoCloseable {
  static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  static final Path ROOT = Path.of("..");
  static final Path EXAMPLES = ROOT.resolve("docs/examples");

  /** A test that waits longer than this has found a fault. */
  static final int PATIENCE = 20_000;

  private final Service service;
  private final ByteArrayOutputStream log;

  private Rig(Settings settings, ByteArrayOutputStream log) {
    Service.Started started = Service.start(settings);
    assertEquals(List.of(), started.problems());
    this.service = started.service().orElseThrow();
    this.log = log;
  }

  static Rig start() {
    return start(settings -> settings);
  }

  static Rig start(UnaryOperator<Settings> change) {
    ByteArrayOutputStream log = new ByteArrayOutputStream();
    return new Rig(
        change.apply(settings(Guards.usual(), new PrintStream(log, true, StandardCharsets.UTF_8))),
        log);
  }

  /** With short times, so that a test of them is quick. */
  static Rig hasty(UnaryOperator<Guards> change) {
    return start(settings -> with(settings, change.apply(hasty())));
  }

  static Guards hasty() {
    Guards usual = Guards.usual();
    return new Guards(
        16_384,
        8_192,
        usual.headerBytes(),
        usual.depth(),
        usual.nodes(),
        usual.textLength(),
        usual.numberLength(),
        usual.formulaParts(),
        Duration.ofMillis(800),
        Duration.ofMillis(1_200),
        usual.bytesPerSecond(),
        2,
        4,
        usual.budget(),
        2,
        usual.connections(),
        Duration.ZERO,
        Duration.ofSeconds(5));
  }

  static Settings settings(Guards guards, PrintStream log) {
    return new Settings(
        "127.0.0.1",
        0,
        Optional.empty(),
        false,
        List.of(),
        List.of(),
        List.of(),
        false,
        true,
        log,
        () -> TODAY,
        guards);
  }

  static Settings with(Settings old, Guards guards) {
    return new Settings(
        old.host(),
        old.port(),
        old.token(),
        old.withoutToken(),
        old.corsOrigins(),
        old.ruleFolders(),
        old.ingredientFolders(),
        old.watch(),
        old.accessLog(),
        old.log(),
        old.today(),
        guards);
  }

  static Settings withToken(Settings old, String token, List<String> origins) {
    return new Settings(
        old.host(),
        old.port(),
        Optional.of(token).filter(text -> !text.isEmpty()),
        old.withoutToken(),
        origins,
        old.ruleFolders(),
        old.ingredientFolders(),
        old.watch(),
        old.accessLog(),
        old.log(),
        old.today(),
        old.guards());
  }

  static Settings withRules(Settings old, Path folder) {
    return new Settings(
        old.host(),
        old.port(),
        old.token(),
        old.withoutToken(),
        old.corsOrigins(),
        List.of(folder),
        List.of(),
        old.watch(),
        old.accessLog(),
        old.log(),
        old.today(),
        old.guards());
  }

  Service service() {
    return service;
  }

  int port() {
    return service.port();
  }

  String log() {
    return log.toString(StandardCharsets.UTF_8);
  }

  /** A request whose answer, and which itself, is held against the description. */
  RequestSpecification ask() {
    return RestAssured.given()
        .spec(
            new RequestSpecBuilder()
                .setBaseUri("http://127.0.0.1")
                .setPort(port())
                .setConfig(
                    RestAssuredConfig.config()
                        .encoderConfig(
                            EncoderConfig.encoderConfig()
                                .appendDefaultContentCharsetToContentTypeIfUndefined(false)
                                .encodeContentTypeAs("application/yaml", ContentType.TEXT)
                                .encodeContentTypeAs("application/x-ndjson", ContentType.TEXT)))
                .build())
        .filter(new Contract());
  }

  static byte[] example(String name) {
    try {
      return Files.readAllBytes(EXAMPLES.resolve(name));
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  /** A connection without any help. */
  Raw raw() throws IOException {
    return new Raw(port());
  }

  /** A connection on which bytes are sent as they are. */
  static final class Raw implements AutoCloseable {
    private final Socket socket;
    private final InputStream in;
    private final OutputStream out;

    Raw(int port) throws IOException {
      socket = new Socket("127.0.0.1", port);
      socket.setSoTimeout(PATIENCE);
      socket.setTcpNoDelay(true);
      in = socket.getInputStream();
      out = socket.getOutputStream();
    }

    Raw send(String text) throws IOException {
      return send(text.getBytes(StandardCharsets.ISO_8859_1));
    }

    Raw send(byte[] bytes) throws IOException {
      out.write(bytes);
      out.flush();
      return this;
    }

    Raw endOutput() throws IOException {
      socket.shutdownOutput();
      return this;
    }

    Socket socket() {
      return socket;
    }

    /** What comes until a text has come; all until the end where it does not. */
    String until(String text) throws IOException {
      StringBuilder answer = new StringBuilder();
      int next = read();
      while (next >= 0) {
        answer.append((char) next);
        if (answer.indexOf(text, Math.max(0, answer.length() - text.length())) >= 0) {
          break;
        }
        next = read();
      }
      return answer.toString();
    }

    /** All that comes until the other end closes. */
    String rest() throws IOException {
      return until("\0 never");
    }

    /** A connection that was reset has ended like one that was closed. */
    private int read() throws IOException {
      try {
        return in.read();
      } catch (java.net.SocketException reset) {
        return -1;
      }
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }

  @Override
  public void close() {
    service.close();
  }
}
