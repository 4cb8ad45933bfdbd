package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import gelwright.api.http.Rig.Raw;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.tree.Document;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;

/**
 * Bodies and connections that mean no good. Each is answered with 4xx, or with 200 where the
 * library by itself finds a formula in it; and the service is as well afterwards as before.
 */
@DisplayName("hostile requests")
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
final class HostileTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /**
   * One connection and one thread's worth of heap come and go; a leak of a body a time does not.
   */
  private static final long HEAP_TOLERANCE = 48L << 20;

  private final HttpClient client = HttpClient.newHttpClient();
  private Rig rig;
  private long before;
  private int sent;
  private int closedOnUs;

  /** A body to send. */
  private record Body(String type, byte[] bytes) {
    static Body json(String text) {
      return new Body("application/json", text.getBytes(StandardCharsets.UTF_8));
    }

    static Body yaml(String text) {
      return new Body("application/yaml", text.getBytes(StandardCharsets.UTF_8));
    }

    Document.Format format() {
      return type.endsWith("json") ? Document.Format.JSON : Document.Format.YAML;
    }
  }

  @BeforeAll
  void start() throws Exception {
    rig = Rig.hasty(guards -> guards);
    // What is loaded and cached once is there before the heap is looked at.
    send("/v1/reviews", Body.json(valid().toString()));
    send("/v1/rule-checks", Body.yaml("rule-set: a"));
    before = heap();
  }

  @AfterAll
  void wellAfterwards() throws Exception {
    try (Rig closing = rig) {
      assertTrue(sent >= 400, "only " + sent + " were sent");
      assertTrue(closedOnUs <= 3, closedOnUs + " were left without an answer at first");
      assertEquals(200, send("/v1/reviews", Body.json(valid().toString())).statusCode());
      assertFalse(closing.log().contains("\"event\":\"fault\""), closing::log);
      long until = System.nanoTime() + Rig.PATIENCE * 1_000_000L;
      long after = heap();
      while (after - before > HEAP_TOLERANCE && System.nanoTime() < until) {
        after = heap();
      }
      assertTrue(after - before <= HEAP_TOLERANCE, before + " bytes before, " + after + " after");
    }
  }

  /** The heap in use once what nobody holds is gone; the log of the test itself does not count. */
  private long heap() {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return runtime.totalMemory() - runtime.freeMemory() - 2L * rig.log().length();
  }

  private HttpResponse<String> send(String path, Body body) throws Exception {
    sent++;
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + rig.port() + path))
            .header("Content-Type", body.type())
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.bytes()))
            .build();
    try {
      return client.send(request, HttpResponse.BodyHandlers.ofString());
    } catch (IOException closed) {
      // The service closes a connection that idled too long, perhaps just as the client takes it up
      // again (RFC 9112, section 9.5); then it is asked once more, on another. That happens by
      // chance
      // and seldom; see wellAfterwards().
      closedOnUs++;
      return client.send(request, HttpResponse.BodyHandlers.ofString());
    }
  }

  private void refused(Body body) throws Exception {
    HttpResponse<String> answer = send("/v1/reviews", body);
    boolean formula =
        answer.statusCode() == 200
            && new FormulaReader().read(body.bytes(), "", body.format()).isOk();
    assertTrue(
        formula || (answer.statusCode() >= 400 && answer.statusCode() < 500),
        () -> answer.statusCode() + " " + answer.body() + " for " + text(body));
    Contract.tellsNothing(formula ? "" : answer.body());
    if (!formula) {
      assertEquals(List.of(), Contract.errors("/components/schemas/Problem", answer.body()));
    }
    HttpResponse<String> check = send("/v1/rule-checks", body);
    assertTrue(check.statusCode() < 500, () -> check.body() + " for " + text(body));
    Contract.tellsNothing(check.body());
    if (sent % 3 == 0) {
      HttpResponse<String> edited = send("/v1/sheet-edits", edited(body));
      assertTrue(edited.statusCode() < 500, () -> edited.body() + " for " + text(body));
      Contract.tellsNothing(edited.statusCode() == 200 ? "" : edited.body());
    }
  }

  /** The same, as the text of a sheet in which everything is to be changed. */
  private static Body edited(Body body) throws IOException {
    JsonNode edits =
        JSON.readTree(
            """
            [{"step":1,"field":"position","to":"2"},
             {"pH":"target","to":"5.2"},
             {"product":"area","to":"hands, feet"},
             {"batch":"mass","to":"2 kg"},
             {"step":1,"insert":{"do":"hold","phase":"A","with":["Aqua","Glycerin"]}},
             {"ingredient":"Menthol","line":1,"add-to-phase":"A","to":"1 %"}]
            """);
    return Body.json(
        JSON.createObjectNode()
            .put("sheet", new String(body.bytes(), StandardCharsets.UTF_8))
            .put("type", body.type())
            .<com.fasterxml.jackson.databind.node.ObjectNode>set("edits", edits)
            .toString());
  }

  private static String text(Body body) {
    String text = new String(body.bytes(), StandardCharsets.UTF_8);
    return text.length() > 300 ? text.substring(0, 300) + "…" : text;
  }

  /** A sheet with every section. */
  private static JsonNode valid() throws IOException {
    return JSON.readTree(
        """
        {"formula":"Bench gel","version":"3",
         "product":{"kind":"gel-cream","use":"leave-on","area":["face"],"users":"adults","texture":"soft-gel",
          "dispensing":"tube","pH":"5.0 to 5.8","markets":["EU"],"shelf-life":"12 months"},
         "batch":"500 g",
         "equipment":{"balance":"0.01 g","vessel":{"diameter":"85 mm","cover":"open"},
          "stirrer":{"type":"propeller","diameter":"50 mm"},"room":{"temperature":"22 °C","humidity":"50 %"}},
         "ingredients":[{"phase":"A","name":"Aqua","share":"rest"},{"phase":"A","name":"Glycerin","share":4},
          {"phase":"A","name":"Sclerotium Gum","share":"1.2 %"},{"phase":"B","name":"Squalane","share":"6 %"},
          {"phase":"C","name":"Lactic Acid","share":"0.4 %","strength":"80 %"},
          {"phase":"C","name":"Pumice","share":"3 %","size":"300 µm"}],
         "method":[{"do":"heat","phase":"A","to":"38 °C","over":"10 min"},
          {"do":"disperse","phase":"A","with":"Sclerotium Gum","stir":"800 rpm"},
          {"do":"add","phase":"B","into":"A","at":"25 °C","stir":"1500 rpm","for":"5 min"}],
         "label":{"ingredients":["Aqua"],"warnings":["Keep out of eyes."]},
         "measured":[{"what":"pH","value":5.4,"at":"22 °C"}],
         "accepted":[{"rule":"oil-load.above-gel-capacity","subject":"oil","observed":"14 %","because":"held",
          "until":"2027-03-01"}]}
        """);
  }

  private static List<String> pointers(JsonNode node, String here, List<String> all) {
    all.add(here);
    if (node.isObject()) {
      for (Iterator<String> keys = node.fieldNames(); keys.hasNext(); ) {
        String key = keys.next();
        pointers(node.get(key), here + "/" + key, all);
      }
    }
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      pointers(node.get(i), here + "/" + i, all);
    }
    return all;
  }

  private static JsonNode with(JsonNode tree, String pointer, JsonNode value) {
    if (pointer.isEmpty()) {
      return value;
    }
    JsonNode copy = tree.deepCopy();
    int slash = pointer.lastIndexOf('/');
    JsonNode parent = copy.at(pointer.substring(0, slash));
    String key = pointer.substring(slash + 1);
    if (parent instanceof ArrayNode array) {
      array.set(Integer.parseInt(key), value);
    } else {
      ((ObjectNode) parent).set(key, value);
    }
    return copy;
  }

  @Test
  @DisplayName("a value of every wrong type at every pointer of a valid sheet")
  void wrongTypes() throws Exception {
    JsonNode valid = valid();
    List<String> values =
        List.of(
            "null", "true", "-1e308", "\"\"", "\"\\ud800\\u202e<script>\"", "[]", "{}", "[[{}]]");
    for (String pointer : pointers(valid, "", new ArrayList<>())) {
      for (String value : values) {
        refused(Body.json(with(valid, pointer, JSON.readTree(value)).toString()));
      }
    }
  }

  @Test
  @DisplayName("sheets cut off, and sheets with bytes changed")
  void broken() throws Exception {
    byte[] json = valid().toString().getBytes(StandardCharsets.UTF_8);
    byte[] yaml = Rig.example("wind-shelter-gel-cream.yaml");
    for (int at = 1; at < json.length; at += 29) {
      refused(new Body("application/json", java.util.Arrays.copyOf(json, at)));
    }
    for (int at = 1; at < yaml.length; at += 61) {
      refused(new Body("application/yaml", java.util.Arrays.copyOf(yaml, at)));
    }
    long seed = Long.getLong("seed", 5);
    Random random = new Random(seed);
    for (int i = 0; i < 120; i++) {
      byte[] bytes = (i % 2 == 0 ? json : yaml).clone();
      for (int j = 0; j < 3; j++) {
        bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
      }
      refused(new Body(i % 2 == 0 ? "application/json" : "application/yaml", bytes));
    }
  }

  @Test
  @DisplayName("bombs, encodings and what YAML can be made to do")
  void bombs() throws Exception {
    StringBuilder laughs = new StringBuilder("a: &a [x, x]\n");
    for (char c = 'b'; c < 'k'; c++) {
      laughs.append(c).append(": &").append(c).append(" [*").append((char) (c - 1)).append(", *");
      laughs.append((char) (c - 1)).append("]\n");
    }
    List<Body> bodies = new ArrayList<>();
    for (String yaml :
        List.of(
            laughs.toString(),
            "formula: &a [*a]",
            "? [formula]\n: x",
            "<<: {formula: x}",
            "formula: !!java.net.URL [http://localhost]",
            "formula: !!javax.script.ScriptEngineManager [x]",
            "%YAML 9.9\n---\nformula: x",
            "formula: x\n---\nformula: y",
            "formula: |\n" + " x\n".repeat(4_000),
            "\tformula: x",
            "formula: x\nformula: y",
            "{".repeat(8_000),
            "[".repeat(8_000),
            "- ".repeat(5_000),
            "? ".repeat(5_000),
            "a: ".repeat(3_000),
            "'" + "x".repeat(16_000),
            "formula: \"\\x00\\uD800\"",
            "formula: x\ningredients: [" + "{},".repeat(3_000) + "]",
            "formula: x\ningredients: [" + "{nmae: Auqa, share: 1},".repeat(600) + "]",
            "formula: x\nbatch: " + "9".repeat(45) + " g\ningredients: [{name: Aqua, share: rest}]",
            "formula: x\nbatch: 1e999 g\ningredients: [{name: Aqua, share: rest}]",
            "formula: x\ningredients: [{name: Aqua, share: 1e-999999999 %}]",
            "formula: x\ningredients: [{name: Aqua, share: NaN %}]",
            "formula: x\ningredients: [{name: Aqua, share: .inf}]",
            "formula: x\ningredients: [{name: Aqua, share: 0x7fffffffffffffff}]",
            "null",
            "---",
            "...",
            "#",
            "\u0000",
            "\u0007",
            "\uFEFF\uFEFFformula: x",
            "formula: \uFFFE")) {
      bodies.add(Body.yaml(yaml));
    }
    for (String json :
        List.of(
            "[".repeat(8_000),
            "{\"a\":".repeat(3_000),
            "[" + "1,".repeat(7_000) + "1]",
            "{\"formula\":1e999999999}",
            "{\"formula\":" + "1".repeat(16_000) + "}",
            "{\"formula\":-" + "0.".repeat(10) + "}",
            "{\"formula\":\"x\",\"formula\":\"y\"}",
            "{\"\":\"\"}",
            "{'formula':'x'}",
            "{\"formula\":\"x\",}",
            "{\"formula\":NaN}",
            "{\"formula\":Infinity}",
            "// x\n{}",
            "{\"formula\":\"\\ud800\"}",
            "{\"\\ud800\":1}",
            "{\"formula\":\"\t\"}",
            "\"" + "x".repeat(15_000) + "\"",
            "{\"__proto__\":{\"x\":1}}",
            "{\"formula\":\"${jndi:ldap://x}\",\"ingredients\":\"#{1+1}\"}")) {
      bodies.add(Body.json(json));
    }
    String sheet = valid().toString();
    for (java.nio.charset.Charset charset :
        List.of(StandardCharsets.UTF_16, StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
      bodies.add(new Body("application/json", sheet.getBytes(charset)));
      bodies.add(new Body("application/yaml", "formula: x".getBytes(charset)));
    }
    bodies.add(new Body("application/json", sheet.getBytes(StandardCharsets.ISO_8859_1)));
    for (int[] bytes :
        new int[][] {
          {0xC0, 0x80}, {0xED, 0xA0, 0x80}, {0xF8, 0x88}, {0xFF, 0xFE, 0, 0}, {0x80}, {}
        }) {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      out.writeBytes("formula: ".getBytes(StandardCharsets.UTF_8));
      for (int one : bytes) {
        out.write(one);
      }
      bodies.add(new Body("application/yaml", out.toByteArray()));
      bodies.add(new Body("application/json", out.toByteArray()));
    }
    for (Body body : bodies) {
      refused(body);
    }
  }

  @Test
  @DisplayName("chunks, lengths and headers that are tricks")
  void tricks() throws IOException {
    String post =
        "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n";
    String chunked = post + "Transfer-Encoding: chunked\r\n\r\n";
    for (String request :
        List.of(
            chunked + "-1\r\n\r\n",
            chunked + "ffffffffffffffff\r\n{}",
            chunked + "7fffffff\r\n{}",
            chunked + "2\r\n{}0\r\n\r\n",
            chunked + "2;" + "x".repeat(9_000) + "\r\n{}\r\n0\r\n\r\n",
            chunked + "2\n{}\n0\n\n",
            chunked + "\r\n\r\n",
            chunked + "0x2\r\n{}\r\n0\r\n\r\n",
            chunked + " 2\r\n{}\r\n0\r\n\r\n",
            chunked + "2\r\n{}\r\n0\r\nX: " + "y".repeat(9_000) + "\r\n\r\n",
            post + "Transfer-Encoding: chunked\r\nContent-Length: 2\r\n\r\n{}",
            post + "Transfer-Encoding: chunked, chunked\r\n\r\n0\r\n\r\n",
            post + "Transfer-Encoding: gzip\r\n\r\n{}",
            post + "Transfer-Encoding: xchunked\r\n\r\n0\r\n\r\n",
            post + "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}",
            post + "Content-Length: 2, 2\r\n\r\n{}",
            post + "Content-Length: -2\r\n\r\n{}",
            post + "Content-Length: +2\r\n\r\n{}",
            post + "Content-Length: 2x\r\n\r\n{}",
            post + "Content-Length: 99999999999999999999\r\n\r\n{}",
            post + "Content-Length : 2\r\n\r\n{}",
            post + "Content-Length: 2\r\nExpect: miracles\r\n\r\n{}",
            post + "Content-Length: 2\r\n\r\n{}GARBAGE\r\n\r\n",
            post + "Content-Length: 2\r\n folded: x\r\n\r\n{}",
            post + "No-Colon\r\nContent-Length: 2\r\n\r\n{}",
            post + ": empty\r\nContent-Length: 2\r\n\r\n{}",
            post + "X: a\u0000b\r\nContent-Length: 2\r\n\r\n{}",
            post + "Host: y\r\nContent-Length: 2\r\n\r\n{}",
            "POST /v1/reviews HTTP/1.1\r\nContent-Length: 2\r\n\r\n{}",
            "POST /v1/reviews HTTP/1.1\r\nHost: x y\r\nContent-Length: 2\r\n\r\n{}",
            "POST /v1/reviews\r\n\r\n",
            "CONNECT x:1 HTTP/1.1\r\nHost: localhost\r\n\r\n",
            "TRACE /v1/rules HTTP/1.1\r\nHost: localhost\r\n\r\n",
            "OPTIONS * HTTP/1.1\r\nHost: localhost\r\n\r\n",
            "XYZZY /v1/rules HTTP/1.1\r\nHost: localhost\r\n\r\n",
            "GET http:// HTTP/1.1\r\nHost: localhost\r\n\r\n",
            "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
            "\u0016\u0003\u0001\u0002\u0000\u0001\u0000\u0001\u00fc\u0003\u0003",
            "\r\n".repeat(200),
            "\u0000".repeat(200))) {
      sent++;
      try (Raw raw = rig.raw()) {
        String answer = raw.send(request).rest();
        for (String part : answer.split("(?=HTTP/1\\.1 )")) {
          assertTrue(
              part.isEmpty() || part.matches("(?s)HTTP/1\\.1 (4\\d\\d|505|501|100) .*"),
              () -> part + "\nfor " + request);
        }
        Contract.tellsNothing(answer);
      } catch (java.net.SocketException closedWhileSending) {
        // It need not be heard to its end.
      }
    }
  }

  @Test
  @DisplayName("connections that are closed early, at every part of a request")
  void earlyCloses() throws IOException {
    byte[] body = Rig.example("shade-mist.yaml");
    String head =
        "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/yaml\r\nContent-Length: "
            + body.length
            + "\r\n\r\n";
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    whole.writeBytes(head.getBytes(StandardCharsets.US_ASCII));
    whole.writeBytes(body);
    byte[] request = whole.toByteArray();
    for (int at = 0; at <= request.length; at += 47) {
      sent++;
      byte[] part = java.util.Arrays.copyOf(request, at);
      try (Raw raw = rig.raw()) {
        raw.send(part);
      }
      try (Raw raw = rig.raw()) {
        String answer = raw.send(part).endOutput().rest();
        assertTrue(answer.isEmpty() || answer.startsWith("HTTP/1.1 4"), answer);
        Contract.tellsNothing(answer);
      }
    }
  }
}
