package gelwright.api.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.IOException;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("what can go wrong with a request is told as a problem")
final class ProblemTest {
  private static Rig rig;

  @BeforeAll
  static void start() {
    rig = Rig.start();
  }

  @AfterAll
  static void stop() {
    rig.close();
  }

  private static RequestSpecification ask() {
    return rig.ask();
  }

  private static void is(Response response, ProblemType type) {
    assertEquals(type.status(), response.statusCode(), response::asString);
    response.then().body("type", equalTo(type.address())).body("title", equalTo(type.title()));
  }

  @ParameterizedTest(name = "{0} to {1} is {2}")
  @CsvSource(
      delimiter = '|',
      value = {
        "GET | /nowhere | NOT_FOUND",
        "GET | /page/none | NOT_FOUND",
        "GET | /v1/rules/ | NOT_FOUND",
        "GET | /V1/rules | NOT_FOUND",
        "GET | /v1/rules/no.such | NOT_FOUND",
        "GET | /v1/ingredients/Nothing Of The Kind | NOT_FOUND",
        "GET | /v1/schemas/profile | NOT_FOUND",
        "GET | /problems/none | NOT_FOUND",
        "POST | /v1/predictions-to-come | NOT_FOUND",
        "GET | /v1/reviews | METHOD_NOT_ALLOWED",
        "PUT | /v1/reviews | METHOD_NOT_ALLOWED",
        "DELETE | /v1/rules | METHOD_NOT_ALLOWED",
        "POST | /health/live | METHOD_NOT_ALLOWED",
        "PATCH | /v1/ingredients/Aqua | METHOD_NOT_ALLOWED",
        "OPTIONS | /v1/reviews | METHOD_NOT_ALLOWED",
        "GET | /v1/rules?limit=3 | MALFORMED_REQUEST",
        "GET | /v1/ingredients?find= | MALFORMED_REQUEST",
        "GET | /v1/ingredients?find=a&find=b | MALFORMED_REQUEST",
        "GET | /v1/rules/a%2Fb | MALFORMED_REQUEST",
        "GET | /v1/x/%2e%2e/rules | MALFORMED_REQUEST",
        "GET | /v1/rules;x=1 | MALFORMED_REQUEST",
        "GET | /v1/rules/%00 | MALFORMED_REQUEST",
      })
  void addresses(String method, String path, ProblemType type) {
    Response response = ask().urlEncodingEnabled(path.contains(" ")).request(method, path);
    is(response, type);
    assertEquals(type == ProblemType.METHOD_NOT_ALLOWED, response.header("Allow") != null);
  }

  @ParameterizedTest(name = "the request line {0} is malformed")
  @ValueSource(
      strings = {
        "GET /v1//rules HTTP/1.1",
        "GET //v1/rules HTTP/1.1",
        "GET /v1/ingredients?find=%zz HTTP/1.1",
        "GET /v1/../v1/rules%2e HTTP/9.9",
        "GET /v1/rul es HTTP/1.1",
        "GET v1/rules HTTP/1.1",
        "G\u0001T /v1/rules HTTP/1.1",
        "GET /v1/rules HTTP/2.0",
        "GET",
      })
  void requestLines(String line) throws IOException {
    try (Rig.Raw raw = rig.raw()) {
      String answer = raw.send(line + "\r\nHost: localhost\r\nConnection: close\r\n\r\n").rest();
      assertTrue(answer.startsWith("HTTP/1.1 4") || answer.startsWith("HTTP/1.1 505 "), answer);
      assertTrue(answer.contains("application/problem+json"), answer);
      Contract.tellsNothing(answer);
    }
  }

  @ParameterizedTest(name = "the query {0} of a review is malformed")
  @CsvSource({
    "on=yesterday",
    "on=",
    "on=2026-02-30",
    "on=+99999-01-01",
    "on=0001-01-01",
    "include=everything",
    "include=",
    "'include=trace,'",
    "onn=2026-11-25",
    "on=2026-11-25&on=2026-11-25",
  })
  void queries(String query) {
    is(
        ask()
            .urlEncodingEnabled(false)
            .contentType("application/yaml")
            .body(Rig.example("shade-mist.yaml"))
            .post("/v1/reviews?" + query),
        ProblemType.MALFORMED_REQUEST);
  }

  @ParameterizedTest(name = "{0} of a review is malformed at line {1}, column {2}: {3}")
  @CsvSource(
      delimiter = '|',
      value = {
        "application/yaml | 1 | 11 | not-yaml | formula: [",
        "application/yaml | 1 | 1 | empty-document | ' '",
        "application/json | 1 | 14 | not-json | {\"formula\": }",
        "application/json | 1 | 7 | several-documents | {\"a\":1}{}",
      })
  void malformed(String type, int line, int column, String code, String body) {
    Response response =
        ask().contentType(type).body(body.getBytes(StandardCharsets.UTF_8)).post("/v1/reviews");
    is(response, ProblemType.MALFORMED_DOCUMENT);
    response.then().body("errors.code", hasItem(code)).body("errors.line", hasItem(line));
    assertTrue(response.<Integer>path("errors[0].column") > 0);
  }

  @Test
  @DisplayName("what is no formula has a pointer, line and column for each mistake")
  void notAFormula() {
    String sheet =
        """
        formula: Bench gel
        product: { kind: sirup }
        ingredients:
          - { name: Aqua, share: 99 % }
          - { name: Xanthan Gum, shar: 1 % }
        """;
    Response response =
        ask()
            .contentType("application/yaml")
            .body(sheet.getBytes(StandardCharsets.UTF_8))
            .post("/v1/reviews");
    is(response, ProblemType.NOT_A_FORMULA);
    response
        .then()
        .body("errors.pointer", hasItem("/product/kind"))
        .body("errors.find { it.pointer == '/product/kind' }.line", equalTo(2))
        .body("errors.find { it.pointer == '/product/kind' }.column", equalTo(18))
        .body("errors.pointer", hasItem("/ingredients/1/shar"))
        .body("errors.find { it.pointer == '/ingredients/1/shar' }.line", equalTo(5));
  }

  @Test
  @DisplayName("no form that is accepted: a review is not a picture")
  void notAcceptable() {
    Response response =
        ask()
            .contentType("application/yaml")
            .accept("image/svg+xml")
            .body(Rig.example("shade-mist.yaml"))
            .post("/v1/reviews");
    is(response, ProblemType.NOT_ACCEPTABLE);
    response
        .then()
        .body(
            "detail",
            equalTo("Available are: application/json, application/sarif+json, text/html."));
    is(ask().accept("application/xml").get("/v1/rules"), ProblemType.NOT_ACCEPTABLE);
    is(ask().accept("*/*;q=0").get("/v1/rules"), ProblemType.NOT_ACCEPTABLE);
    is(ask().accept("application/json;q=nonsense").get("/v1/rules"), ProblemType.NOT_ACCEPTABLE);
  }

  @ParameterizedTest(name = "a body of the form {0}, coded {1}, is not read")
  @CsvSource({
    "text/plain, ''",
    "application/x-www-form-urlencoded, ''",
    "application/json; charset=utf-16, ''",
    "application/jsonx, ''",
    "'', ''",
    "application/json, gzip",
  })
  void unsupported(String type, String coding) throws IOException {
    byte[] sheet = "{}".getBytes(StandardCharsets.UTF_8);
    try (Rig.Raw raw = rig.raw()) {
      String answer =
          raw.send(
                  "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Length: 2\r\n"
                      + (type.isEmpty() ? "" : "Content-Type: " + type + "\r\n")
                      + (coding.isEmpty() ? "" : "Content-Encoding: " + coding + "\r\n")
                      + "\r\n")
              .send(sheet)
              .rest();
      assertTrue(answer.startsWith("HTTP/1.1 415 "), answer);
      assertTrue(answer.contains("\r\nAccept-Post: application/json, application/yaml"), answer);
      assertTrue(answer.contains(ProblemType.UNSUPPORTED_MEDIA_TYPE.address()), answer);
      Contract.tellsNothing(answer);
    }
  }

  @Test
  @DisplayName("a body that is too large, said beforehand or found while reading")
  void tooLarge() throws IOException {
    byte[] large = ("formula: " + "x".repeat(300_000)).getBytes(StandardCharsets.UTF_8);
    is(answered(large), ProblemType.TOO_LARGE);
    try (Rig.Raw raw = rig.raw()) {
      String said =
          raw.send(
                  "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
                      + "Content-Length: 99999999999\r\n\r\n")
              .rest();
      assertTrue(said.startsWith("HTTP/1.1 413 "), said);
    }
  }

  // The service answers when it has read the length, and closes. This client writes all before it
  // reads, so it may find the connection closed before the answer; then it is asked again.
  private static Response answered(byte[] body) throws IOException {
    IOException closed = null;
    for (int i = 0; i < 5; i++) {
      try {
        return postOf(body);
      } catch (SocketException early) {
        closed = early;
      }
    }
    throw java.util.Objects.requireNonNull(closed);
  }

  // The client throws what its methods do not declare.
  private static Response postOf(byte[] body) throws SocketException {
    return ask().contentType("application/yaml").body(body).post("/v1/reviews");
  }

  @Test
  @DisplayName("bounds on depth, parts, texts, numbers and the parts of a formula")
  void bounds() {
    String deep = "[".repeat(30) + "]".repeat(30);
    String number = "1".repeat(60);
    for (String body :
        List.of(
            "{\"formula\": " + deep + "}",
            "{\"formula\": \"" + "x".repeat(6_000) + "\"}",
            "{\"formula\": " + number + "}",
            "{\"formula\": [" + "1,".repeat(21_000) + "1]}")) {
      is(
          ask().contentType("application/json").body(body).post("/v1/reviews"),
          ProblemType.MALFORMED_DOCUMENT);
    }
    String line = "{\"name\": \"Glycerin\", \"share\": \"0.1 %\"},";
    Response many =
        ask()
            .contentType("application/json")
            .body(
                "{\"formula\": \"Long\", \"ingredients\": ["
                    + line.repeat(250)
                    + "{\"name\": \"Aqua\", \"share\": \"rest\"}]}")
            .post("/v1/reviews");
    is(many, ProblemType.NOT_A_FORMULA);
    many.then().body("errors[0].pointer", equalTo("/ingredients"));
  }

  @Test
  @DisplayName("headers and an address that are too large")
  void headers() throws IOException {
    try (Rig.Raw raw = rig.raw()) {
      String answer =
          raw.send(
                  "GET /v1/rules HTTP/1.1\r\nHost: localhost\r\nX-Y: "
                      + "y".repeat(9_000)
                      + "\r\n\r\n")
              .rest();
      assertTrue(answer.startsWith("HTTP/1.1 431 "), answer);
      assertTrue(answer.contains(ProblemType.HEADERS_TOO_LARGE.address()), answer);
    }
    try (Rig.Raw raw = rig.raw()) {
      String answer =
          raw.send("GET /" + "y".repeat(9_000) + " HTTP/1.1\r\nHost: localhost\r\n\r\n").rest();
      assertTrue(answer.startsWith("HTTP/1.1 414 "), answer);
      assertTrue(answer.contains(ProblemType.ADDRESS_TOO_LONG.address()), answer);
    }
  }

  @Test
  @DisplayName("the guide has each type with its status and title")
  void guide() throws IOException {
    String guide = Files.readString(Rig.ROOT.resolve("docs/guide/http.md"));
    for (ProblemType type : ProblemType.values()) {
      String row = "| " + type.status() + " | `" + type.address() + "` | " + type.title() + " |";
      assertTrue(guide.contains(row), row);
    }
  }
}
