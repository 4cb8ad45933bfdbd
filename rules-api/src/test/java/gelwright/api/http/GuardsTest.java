package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.api.http.Rig.Raw;
import io.restassured.response.Response;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the service guards itself")
final class GuardsTest {
  private static final String TOKEN = "0123456789abcdef-tulip";
  private static final String POST =
      "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n";

  private static Rig rig;

  @BeforeAll
  static void start() {
    rig = Rig.hasty(guards -> guards);
  }

  @AfterAll
  static void stop() {
    rig.close();
  }

  @Test
  @DisplayName("a body that stops coming ends in 408, and the connection is closed")
  void stopsSending() throws IOException {
    try (Raw raw = rig.raw()) {
      String answer = raw.send(POST + "Content-Length: 100\r\n\r\n{\"formula\"").rest();
      assertTrue(answer.startsWith("HTTP/1.1 408 "), answer);
      assertTrue(answer.contains(ProblemType.TOO_SLOW.address()), answer);
    }
  }

  @Test
  @DisplayName("a body that comes a byte at a time ends in 408, although it never falls idle")
  void trickles() throws IOException {
    try (Raw raw = rig.raw()) {
      raw.send(POST + "Content-Length: 10000\r\n\r\n");
      assertEquals("408", trickle(raw));
    }
  }

  /** Sends spaces until an answer or the end comes. */
  private static String trickle(Raw raw) throws IOException {
    raw.socket().setSoTimeout(20);
    StringBuilder answer = new StringBuilder();
    long until = System.nanoTime() + Rig.PATIENCE * 1_000_000L;
    while (System.nanoTime() < until) {
      try {
        int next = raw.socket().getInputStream().read();
        if (next < 0) {
          break;
        }
        answer.append((char) next);
        continue;
      } catch (java.net.SocketTimeoutException nothingYet) {
        // Then one more byte.
      } catch (IOException closed) {
        break;
      }
      try {
        raw.send(" ");
      } catch (IOException closed) {
        // Its end is read next.
      }
    }
    assertTrue(System.nanoTime() < until, "it ends");
    return answer.length() == 0 ? "closed" : answer.substring(9, 12);
  }

  @Test
  @DisplayName("headers that come a byte at a time are cut off")
  void trickledHeaders() throws IOException {
    try (Raw raw = rig.raw()) {
      raw.send("GET /v1/rules HTTP/1.1\r\nHost: localhost\r\nX-Long:");
      String end = trickle(raw);
      assertTrue(end.equals("closed") || end.equals("400"), end);
    }
  }

  @Test
  @DisplayName("a connection on which nothing comes is closed")
  void idle() throws IOException {
    try (Raw raw = rig.raw()) {
      assertEquals("", raw.rest());
    }
  }

  @Test
  @DisplayName("an answer that nobody takes is given up, and its thread is free again")
  void notTaken() throws IOException {
    try (Raw raw = new Raw(rig.port())) {
      raw.socket().setReceiveBufferSize(1_024);
      byte[] request =
          "GET /v1/ingredients HTTP/1.1\r\nHost: localhost\r\n\r\n"
              .getBytes(StandardCharsets.US_ASCII);
      assertThrows(
          IOException.class,
          () -> {
            // More answers than all buffers between hold; then the server closes.
            for (int i = 0; i < 100_000; i++) {
              raw.send(request);
            }
          });
    }
  }

  @Test
  @DisplayName("past its bound the evaluator refuses at once, and says when to try again")
  void full() throws Exception {
    Guards guards = Rig.hasty();
    CountDownLatch hold = new CountDownLatch(1);
    CountDownLatch busy = new CountDownLatch(guards.evaluations());
    try (Evaluator evaluator = new Evaluator(guards)) {
      List<Evaluator.Pending<Integer>> under = new ArrayList<>();
      for (int i = 0; i < guards.evaluations() + guards.waiting(); i++) {
        under.add(
            evaluator.later(
                () -> {
                  busy.countDown();
                  hold.await();
                  return 1;
                }));
      }
      assertTrue(busy.await(Rig.PATIENCE, TimeUnit.MILLISECONDS));
      assertEquals(guards.evaluations(), evaluator.running());
      assertEquals(guards.waiting(), evaluator.waiting());
      Trouble refused = assertThrows(Trouble.class, () -> evaluator.now(() -> 1));
      assertEquals(ProblemType.FULL, refused.type());
      assertEquals("1", refused.headers().get("Retry-After"));
      hold.countDown();
      for (Evaluator.Pending<Integer> one : under) {
        assertEquals(1, one.await(Duration.ofMillis(Rig.PATIENCE)));
      }
      assertEquals(2, evaluator.now(() -> 2));
    }
  }

  @Test
  @DisplayName("an evaluation past its budget is given up; its place is free when it has ended")
  void budget() throws Exception {
    CountDownLatch hold = new CountDownLatch(1);
    try (Evaluator evaluator = new Evaluator(one(Duration.ofMillis(50)))) {
      Trouble late =
          assertThrows(
              Trouble.class,
              () ->
                  evaluator.now(
                      () -> {
                        // As a single review does, it hears of no interruption.
                        while (hold.getCount() > 0) {
                          Thread.onSpinWait();
                        }
                        return 1;
                      }));
      assertEquals(ProblemType.TOO_LONG_TO_EVALUATE, late.type());
      assertEquals(
          ProblemType.FULL, assertThrows(Trouble.class, () -> evaluator.now(() -> 1)).type());
      hold.countDown();
      assertEquals(3, evaluator.later(() -> 3).await(Duration.ofMillis(Rig.PATIENCE)));
    }
  }

  @ParameterizedTest(name = "{0} gives {1}")
  @CsvSource({
    "localhost, 200",
    "LOCALHOST:8080, 200",
    "127.0.0.1:80, 200",
    "127.1.2.3, 200",
    "[::1]:8080, 200",
    "rebound.example, 421",
    "localhost.rebound.example, 421",
    "127.0.0.1.rebound.example:8080, 421",
    "0.0.0.0, 421",
    "10.0.0.1, 421"
  })
  @DisplayName("without a token it answers only to the names of this machine")
  void host(String host, int status) throws IOException {
    try (Raw raw = rig.raw()) {
      String answer =
          raw.send("GET /health/live HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n")
              .rest();
      assertTrue(answer.startsWith("HTTP/1.1 " + status + " "), answer);
      assertEquals(status == 421, answer.contains(ProblemType.MISDIRECTED.address()), answer);
    }
  }

  private static Guards one(Duration budget) {
    Guards usual = Guards.usual();
    return new Guards(
        usual.bodyBytes(),
        usual.lineBytes(),
        usual.headerBytes(),
        usual.depth(),
        usual.nodes(),
        usual.textLength(),
        usual.numberLength(),
        usual.formulaParts(),
        usual.idle(),
        usual.receive(),
        usual.bytesPerSecond(),
        1,
        0,
        budget,
        usual.streams(),
        usual.connections(),
        usual.drain(),
        usual.stop());
  }

  private static Response headroom(Rig of) {
    return of.ask()
        .contentType("application/yaml")
        .body(Rig.example("soil-off-scrub.yaml"))
        .post("/v1/headroom");
  }

  @Test
  @DisplayName("a search past its time ends in 503, and gives its place back")
  void searchPastItsTime() throws IOException {
    try (Rig small = Rig.start(settings -> Rig.with(settings, one(Duration.ofMillis(60))))) {
      Response late = headroom(small);
      assertEquals(503, late.statusCode(), late.asString());
      assertEquals(ProblemType.TOO_LONG_TO_EVALUATE.address(), late.path("type"));
      assertEquals("2", late.header("Retry-After"));
      // There is one place. Once the search given up has left it, the next is taken on in its turn.
      String type = ProblemType.FULL.address();
      while (type.equals(ProblemType.FULL.address())) {
        type = headroom(small).path("type");
      }
      assertEquals(ProblemType.TOO_LONG_TO_EVALUATE.address(), type);
    }
  }

  @Test
  @DisplayName("with all places taken it answers 503 at once, and says when to come again")
  void allPlacesTaken() throws Exception {
    try (Rig small = Rig.start(settings -> Rig.with(settings, one(Guards.usual().budget())))) {
      AtomicBoolean enough = new AtomicBoolean();
      CompletableFuture<Void> busy =
          CompletableFuture.runAsync(
              () -> {
                while (!enough.get()) {
                  headroom(small);
                }
              });
      Response refused;
      do {
        refused =
            small
                .ask()
                .contentType("application/yaml")
                .body(Rig.example("shade-mist.yaml"))
                .post("/v1/reviews");
      } while (refused.statusCode() == 200);
      enough.set(true);
      assertEquals(503, refused.statusCode(), refused.asString());
      assertEquals(ProblemType.FULL.address(), refused.path("type"));
      assertEquals("1", refused.header("Retry-After"));
      busy.get(60, TimeUnit.SECONDS);
    }
  }

  @Test
  @DisplayName("with a token everything but health asks for it")
  void token() throws IOException {
    try (Rig closed = Rig.start(settings -> Rig.withToken(settings, TOKEN, List.of()))) {
      for (String shown :
          List.of(
              "",
              "Bearer",
              "Bearer " + TOKEN + "x",
              "Bearer " + TOKEN.substring(1),
              "Basic " + TOKEN)) {
        Response response =
            shown.isEmpty()
                ? closed.ask().get("/v1/rules")
                : closed.ask().header("Authorization", shown).get("/v1/rules");
        assertEquals(401, response.statusCode());
        assertEquals("Bearer", response.header("WWW-Authenticate"));
      }
      assertEquals(401, closed.ask().get("/metrics").statusCode());
      assertEquals(401, closed.ask().get("/nowhere").statusCode());
      assertEquals(200, closed.ask().get("/health/ready").statusCode());
      assertEquals(
          200,
          closed.ask().header("Authorization", "Bearer " + TOKEN).get("/v1/rules").statusCode());
      assertFalse(closed.log().contains(TOKEN));
    }
  }

  @Test
  @DisplayName("pages of other origins may not call it, but for those named")
  void origins() {
    assertEquals(
        null,
        rig.ask()
            .header("Origin", "https://garden.example")
            .get("/v1/rules")
            .header("Access-Control-Allow-Origin"));
    try (Rig open =
        Rig.start(settings -> Rig.withToken(settings, "", List.of("https://garden.example")))) {
      Response named = open.ask().header("Origin", "https://garden.example").get("/v1/rules");
      assertEquals("https://garden.example", named.header("Access-Control-Allow-Origin"));
      assertTrue(named.header("Vary").contains("Origin"));
      assertEquals(
          null,
          open.ask()
              .header("Origin", "https://other.example")
              .get("/v1/rules")
              .header("Access-Control-Allow-Origin"));
      Response preflight =
          open.ask()
              .header("Origin", "https://garden.example")
              .header("Access-Control-Request-Method", "POST")
              .options("/v1/reviews");
      assertEquals(204, preflight.statusCode());
      assertTrue(preflight.header("Access-Control-Allow-Methods").contains("POST"));
      assertTrue(preflight.header("Access-Control-Allow-Headers").contains("Content-Type"));
    }
  }

  private static Settings on(String host, boolean withoutToken, String token) {
    Settings usual = Rig.settings(Guards.usual(), new PrintStream(PrintStream.nullOutputStream()));
    return new Settings(
        host,
        usual.port(),
        Optional.of(token).filter(text -> !text.isEmpty()),
        withoutToken,
        List.of(),
        List.of(),
        List.of(),
        false,
        false,
        usual.log(),
        usual.today(),
        usual.guards());
  }

  @ParameterizedTest(name = "listening on {0}, without-token {1}, token \"{2}\": {3} problems")
  @CsvSource({
    "127.0.0.1, false, '', 0",
    "::1, false, '', 0",
    "localhost, false, '', 0",
    "0.0.0.0, false, '', 1",
    "0.0.0.0, true, '', 0",
    "0.0.0.0, false, 0123456789abcdef, 0",
    "0.0.0.0, false, short, 1",
    "'', false, '', 1",
  })
  void loopback(String host, boolean withoutToken, String token, int problems) {
    List<String> told = on(host, withoutToken, token).problems();
    assertEquals(problems, told.size(), told::toString);
    assertFalse(told.toString().contains("short") && !token.isEmpty(), told::toString);
  }

  @ParameterizedTest(name = "{0} is told with the rule it breaks")
  @ValueSource(strings = {"bodyBytes", "depth", "evaluations"})
  void bounds(String name) {
    Guards usual = Guards.usual();
    Guards wrong =
        new Guards(
            0,
            usual.lineBytes(),
            usual.headerBytes(),
            100_000,
            usual.nodes(),
            usual.textLength(),
            usual.numberLength(),
            usual.formulaParts(),
            usual.idle(),
            usual.receive(),
            usual.bytesPerSecond(),
            0,
            usual.waiting(),
            usual.budget(),
            usual.streams(),
            usual.connections(),
            usual.drain(),
            usual.stop());
    List<String> told =
        Rig.settings(wrong, new PrintStream(PrintStream.nullOutputStream())).problems();
    assertEquals(3, told.size(), told::toString);
    assertTrue(told.stream().anyMatch(one -> one.startsWith(name + ": must be ")), told::toString);
  }
}
