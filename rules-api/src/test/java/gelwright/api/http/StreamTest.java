package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gelwright.api.http.Rig.Raw;
import io.restassured.response.Response;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;

@DisplayName("a stream of reviews")
final class StreamTest {
  private static final String HEAD =
      "POST /v1/review-streams HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/x-ndjson\r\n"
          + "Transfer-Encoding: chunked\r\n\r\n";

  private static Rig rig;

  @BeforeAll
  static void start() {
    rig = Rig.hasty(guards -> guards);
  }

  @AfterAll
  static void stop() {
    rig.close();
  }

  private static String formula(String name) {
    return "{\"formula\":\""
        + name
        + "\",\"ingredients\":[{\"name\":\"Aqua\",\"share\":\"rest\"},{\"name\":\"Xanthan"
        + " Gum\",\"share\":\"0.5 %\"}]}\n";
  }

  private static String chunk(String text) {
    return Integer.toHexString(text.length()) + "\r\n" + text + "\r\n";
  }

  @Test
  @DisplayName("answers each line in order, a bad one with a problem that names it, and goes on")
  void inOrder() {
    StringBuilder lines = new StringBuilder();
    for (int i = 0; i < 60; i++) {
      lines.append(
          switch (i % 6) {
            case 1 -> "{\"formula\": \"half\"\n";
            case 2 -> "{\"formula\": 7}\n";
            case 3 -> "\r\n";
            case 4 -> "{\"formula\": \"" + "x".repeat(9_000) + "\"}\n";
            default -> formula("Gel " + i);
          });
    }
    Response response =
        rig.ask()
            .contentType("application/x-ndjson")
            .queryParam("on", "2027-01-31")
            .body(lines.toString().getBytes(StandardCharsets.UTF_8))
            .post("/v1/review-streams");
    assertEquals(200, response.statusCode());
    List<JsonNode> answers = response.asString().lines().map(Contract::tree).toList();
    assertEquals(50, answers.size());
    int at = 0;
    for (int i = 0; i < 60; i++) {
      if (i % 6 == 3) {
        continue;
      }
      JsonNode answer = answers.get(at++);
      switch (i % 6) {
        case 1 -> problem(answer, ProblemType.MALFORMED_DOCUMENT, i + 1);
        case 2 -> problem(answer, ProblemType.NOT_A_FORMULA, i + 1);
        case 4 -> problem(answer, ProblemType.TOO_LARGE, i + 1);
        default -> {
          assertEquals("Gel " + i, answer.get("formula").asText());
          assertEquals("2027-01-31", answer.at("/editions/on").asText());
        }
      }
    }
  }

  private static void problem(JsonNode answer, ProblemType type, int line) {
    assertEquals(type.address(), answer.path("type").asText(), answer::toString);
    assertEquals(line, answer.get("line").asInt());
  }

  @Test
  @DisplayName("a client that waits for each answer before it sends the next line gets it")
  void backAndForth() throws IOException {
    try (Raw raw = rig.raw()) {
      raw.send(HEAD);
      for (int i = 0; i < 5; i++) {
        raw.send(chunk(formula("Turn " + i)));
        // A formula's name comes first in its review, a line feed last.
        String answer = raw.until("\"formula\":\"Turn " + i + "\"") + raw.until("}\n");
        assertTrue(answer.contains("\"formula\":\"Turn " + i + "\""), answer);
      }
      String end = raw.send("0\r\n\r\n").until("0\r\n\r\n");
      assertTrue(end.endsWith("0\r\n\r\n"), end);
    }
  }

  @Test
  @DisplayName("the last line needs no line feed, and an empty stream has an empty answer")
  void ends() {
    Response response =
        rig.ask()
            .contentType("application/x-ndjson")
            .body(formula("Last").strip())
            .post("/v1/review-streams");
    assertEquals("Last", Contract.tree(response.asString()).get("formula").asText());
    assertEquals(
        "",
        rig.ask()
            .contentType("application/x-ndjson")
            .body("\n\n")
            .post("/v1/review-streams")
            .asString());
  }

  @Test
  @DisplayName("a client that stops sending gets what is due, is told, and is let go")
  void stopsSending() throws IOException {
    try (Raw raw = rig.raw()) {
      String answer = raw.send(HEAD).send(chunk(formula("First"))).send("ff\r\n{\"for").rest();
      assertTrue(answer.contains("\"formula\":\"First\""), answer);
      assertTrue(answer.contains(ProblemType.TOO_SLOW.address()), answer);
    }
  }

  @Test
  @DisplayName("a stream that breaks off or is malformed in its chunks is told so far")
  void breaksOff() throws IOException {
    try (Raw raw = rig.raw()) {
      String answer = raw.send(HEAD).send(chunk(formula("First"))).send("zz\r\n").rest();
      assertTrue(answer.contains("\"formula\":\"First\""), answer);
      assertTrue(answer.contains(ProblemType.MALFORMED_REQUEST.address()), answer);
      Contract.tellsNothing(answer);
    }
  }

  @Test
  @DisplayName("a client that does not read is cut off, and others go on")
  void notRead() throws IOException {
    try (Raw raw = rig.raw()) {
      raw.socket().setReceiveBufferSize(1_024);
      raw.send(HEAD);
      String lines = chunk(formula("Unread").repeat(20));
      assertThrows(
          IOException.class,
          () -> {
            for (int i = 0; i < 100_000; i++) {
              raw.send(lines);
            }
          });
    }
    assertEquals(
        200,
        rig.ask()
            .contentType("application/x-ndjson")
            .body(formula("Other"))
            .post("/v1/review-streams")
            .statusCode());
  }

  @Test
  @DisplayName("past the bound on streams it refuses")
  void bound() throws IOException {
    try (Rig few = Rig.start();
        Raw first = few.raw()) {
      // Answered once, a stream is known to be open.
      first.send(HEAD).send(chunk(formula("Open"))).until("\"formula\":\"Open\"");
      int refused = 0;
      Raw[] others = new Raw[Guards.usual().streams()];
      for (int i = 0; i < others.length; i++) {
        others[i] = few.raw();
        String status = others[i].send(HEAD).send(chunk(formula("More"))).until("\r\n");
        refused += status.startsWith("HTTP/1.1 503 ") ? 1 : 0;
      }
      for (Raw other : others) {
        other.close();
      }
      assertEquals(1, refused);
    }
  }
}
