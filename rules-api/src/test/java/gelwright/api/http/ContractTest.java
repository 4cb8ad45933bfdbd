package gelwright.api.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import gelwright.api.html.Style;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.reports.JsonReport;
import gelwright.reports.PredictionReport;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

@DisplayName("the HTTP service")
final class ContractTest {
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

  @Test
  @DisplayName("its description fits the OpenAPI 3.1 schema of 2022-10-07")
  void description() {
    assertEquals(List.of(), Contract.againstTheStandard());
    assertEquals(
        Contract.DOCUMENT,
        Contract.tree(ask().get("/openapi.json").then().statusCode(200).extract().asString()));
  }

  @Test
  @DisplayName("every route is described, and every path described is routed")
  void routes() {
    Map<String, Set<String>> described = new TreeMap<>();
    for (Map.Entry<String, JsonNode> path : Contract.DOCUMENT.get("paths").properties()) {
      Set<String> methods = new TreeSet<>();
      path.getValue().fieldNames().forEachRemaining(name -> methods.add(name.toUpperCase()));
      // Every resource that can be got can be asked for its headers alone.
      if (methods.contains("GET")) {
        methods.add("HEAD");
      }
      described.put(path.getKey(), methods);
    }
    assertEquals(described, new TreeMap<>(rig.service().routes()));
  }

  static Stream<Arguments> examples() {
    List<Arguments> examples = new ArrayList<>();
    for (Map.Entry<String, JsonNode> path : Contract.DOCUMENT.get("paths").properties()) {
      for (Map.Entry<String, JsonNode> content :
          path.getValue().at("/post/requestBody/content").properties()) {
        for (Map.Entry<String, JsonNode> example :
            content.getValue().path("examples").properties()) {
          JsonNode value = example.getValue().get("value");
          examples.add(
              Arguments.of(
                  path.getKey(),
                  example.getKey(),
                  content.getKey(),
                  value.isTextual() ? value.asText() : value.toString()));
        }
      }
    }
    assertTrue(examples.size() >= 6, "the description has examples");
    return examples.stream();
  }

  @ParameterizedTest(name = "the described example {1} of {0} is answered as described")
  @MethodSource("examples")
  void example(String path, String name, String type, String body) {
    ask().contentType(type).body(body).post(path).then().statusCode(200);
  }

  static Stream<Arguments> gets() {
    List<Arguments> gets = new ArrayList<>();
    for (Map.Entry<String, JsonNode> path : Contract.DOCUMENT.get("paths").properties()) {
      JsonNode get = path.getValue().path("get");
      if (get.isMissingNode()) {
        continue;
      }
      Map<String, String> inPath = new TreeMap<>();
      Map<String, String> inQuery = new TreeMap<>();
      for (JsonNode parameter : get.path("parameters")) {
        JsonNode one = Contract.resolved(parameter);
        (one.get("in").asText().equals("path") ? inPath : inQuery)
            .put(one.get("name").asText(), one.get("example").asText());
      }
      gets.add(Arguments.of(path.getKey(), inPath, inQuery));
    }
    return gets.stream();
  }

  @ParameterizedTest(name = "GET {0} with {1} {2}, its tag, and HEAD")
  @MethodSource("gets")
  void get(String path, Map<String, String> inPath, Map<String, String> inQuery) {
    Response got =
        ask()
            .pathParams(inPath)
            .queryParams(inQuery)
            .get(path)
            .then()
            .statusCode(200)
            .extract()
            .response();
    assertFalse(got.asString().isEmpty());
    Response head = ask().pathParams(inPath).queryParams(inQuery).head(path);
    assertEquals(200, head.statusCode());
    assertEquals("", head.asString());
    assertEquals(got.contentType(), head.contentType());
    String tag = got.header("ETag");
    if (tag != null) {
      assertEquals(tag, head.header("ETag"));
      Response again =
          ask()
              .pathParams(inPath)
              .queryParams(inQuery)
              .header("If-None-Match", "\"other\", W/" + tag)
              .get(path);
      assertEquals(304, again.statusCode());
      assertEquals("", again.asString());
      assertEquals(tag, again.header("ETag"));
    }
  }

  @ParameterizedTest(name = "{0} gives the bytes that the library gives")
  @ValueSource(strings = {"shade-mist.yaml", "nettle-calm-gel.yaml", "wind-shelter-gel-cream.yaml"})
  void same(String sheet) {
    Reviewer reviewer = Reviewer.using(BundledRuleSets.load());
    byte[] bytes = Rig.example(sheet);
    Review review =
        reviewer.review(
            new FormulaReader()
                .read(bytes, "", gelwright.sheets.tree.Document.Format.YAML)
                .orThrow(),
            Rig.TODAY);
    String answer =
        ask()
            .contentType("application/yaml")
            .body(bytes)
            .post("/v1/reviews")
            .then()
            .statusCode(200)
            .header("Link", startsWith("</openapi.json>; rel=\"service-desc\""))
            .header("Cache-Control", "no-store")
            .extract()
            .asString();
    assertEquals(JsonReport.compact().text(review), answer);
  }

  @Test
  @DisplayName("a prediction is that of the library, in the bytes of its writer")
  void prediction() {
    byte[] bytes = Rig.example("shade-mist.yaml");
    Prediction prediction =
        Predictor.using(BundledRuleSets.load())
            .predict(
                new FormulaReader()
                    .read(bytes, "", gelwright.sheets.tree.Document.Format.YAML)
                    .orThrow(),
                Rig.TODAY);
    String answer =
        ask()
            .contentType("application/yaml")
            .body(bytes)
            .post("/v1/predictions")
            .then()
            .statusCode(200)
            .extract()
            .asString();
    assertEquals(PredictionReport.compact().text(prediction), answer);
  }

  @ParameterizedTest(name = "{0} is drawn")
  @CsvSource({"flow", "preservatives", "temperature", "water-activity", "composition"})
  void picture(String curve) {
    String svg =
        ask()
            .contentType("application/yaml")
            .accept("image/svg+xml")
            .body(Rig.example("shade-mist.yaml"))
            .queryParam("curve", curve)
            .post("/v1/predictions")
            .then()
            .statusCode(200)
            .contentType("image/svg+xml")
            .extract()
            .asString();
    assertTrue(svg.contains("<title"), svg);
    assertTrue(svg.contains("<desc"), svg);
  }

  @ParameterizedTest(name = "Accept: {0}, curve {1} -> 400")
  @CsvSource({"application/json, flow", "image/svg+xml, ''", "image/svg+xml, taste"})
  void noPicture(String accept, String curve) {
    ask()
        .contentType("application/yaml")
        .accept(accept)
        .body(Rig.example("shade-mist.yaml"))
        .queryParam("curve", curve)
        .post("/v1/predictions")
        .then()
        .statusCode(400);
  }

  @Test
  @DisplayName("the day and the trace are as asked for, and a language changes no number")
  void asked() {
    ask()
        .contentType("application/yaml")
        .body(Rig.example("shade-mist.yaml"))
        .header("Accept-Language", "de-DE, de;q=0.9")
        .queryParam("on", "2027-03-01")
        .queryParam("include", "trace")
        .post("/v1/reviews")
        .then()
        .statusCode(200)
        .body("editions.on", equalTo("2027-03-01"))
        .body("findings.any { it.trace != null }", equalTo(true))
        .body("findings.any { it.odds instanceof String }", equalTo(false));
  }

  @ParameterizedTest(name = "Accept: {0} on a review gives {1}")
  @CsvSource(
      delimiter = '|',
      value = {
        "application/json | application/json",
        "application/sarif+json | application/sarif+json",
        "application/json;q=0.2, application/sarif+json;q=0.8 | application/sarif+json",
        "text/html;q=0.9, */*;q=0.1 | text/html",
        "text/html | text/html",
        "application/* | application/json",
        "*/*, application/json;q=0 | application/sarif+json",
      })
  void negotiation(String accept, String type) {
    Response response =
        ask()
            .contentType("application/yaml")
            .accept(accept)
            .body(Rig.example("shade-mist.yaml"))
            .post("/v1/reviews");
    assertEquals(200, response.statusCode());
    assertEquals(type, Contract.bare(response.contentType()));
  }

  @Test
  @DisplayName("a review as a page may be styled by its one sheet, and nothing else")
  void page() {
    Response response =
        ask()
            .contentType("application/yaml")
            .accept("text/html")
            .queryParam("on", "2026-11-25")
            .body(Rig.example("shade-mist.yaml"))
            .post("/v1/reviews");
    response
        .then()
        .statusCode(200)
        .header("Content-Type", startsWith("text/html;"))
        .header("Content-Security-Policy", equalTo(Style.HOUSE.policyOfAnswer()))
        .header("Cache-Control", equalTo("no-store"));
    Document page = Jsoup.parse(response.asString());
    assertEquals("Shade mist", page.select("h1").text());
    assertEquals(4, page.select("figure svg").size(), "the curves and the composition");
    assertTrue(page.text().contains("Reviewed for 2026-11-25"), "the day asked for");
  }

  @Test
  @DisplayName("an answer worth it is compressed for who takes it, with a tag of its own")
  void compression() throws IOException, InterruptedException {
    HttpResponse<byte[]> plain = rules("identity");
    HttpResponse<byte[]> gzip = rules("br;q=1, gzip");
    assertEquals("gzip", gzip.headers().firstValue("Content-Encoding").orElse(""));
    assertEquals("", plain.headers().firstValue("Content-Encoding").orElse(""));
    assertEquals("", rules("gzip;q=0, *").headers().firstValue("Content-Encoding").orElse(""));
    byte[] unpacked = new GZIPInputStream(new ByteArrayInputStream(gzip.body())).readAllBytes();
    assertArrayEquals(plain.body(), unpacked);
    assertNotEquals(plain.headers().firstValue("ETag"), gzip.headers().firstValue("ETag"));
    assertTrue(gzip.headers().firstValue("Vary").orElse("").contains("Accept-Encoding"));
  }

  private static HttpResponse<byte[]> rules(String encoding)
      throws IOException, InterruptedException {
    URI uri = URI.create("http://127.0.0.1:" + rig.port() + "/v1/rules");
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(uri).header("Accept-Encoding", encoding).build(),
            HttpResponse.BodyHandlers.ofByteArray());
  }

  @Test
  @DisplayName("a name with a slash, a synonym and a changed case find the ingredient")
  void names() {
    String name =
        ask()
            .get("/v1/ingredients")
            .then()
            .extract()
            .<List<String>>path("ingredients.name")
            .stream()
            .filter(one -> one.contains("/"))
            .findFirst()
            .orElseThrow();
    String href =
        ask()
            .queryParam("find", name)
            .get("/v1/ingredients")
            .then()
            .extract()
            .path("ingredients[0].href");
    ask().urlEncodingEnabled(false).get(href).then().statusCode(200).body("name", equalTo(name));
    ask().get("/v1/ingredients/xanthan gum").then().body("name", equalTo("Xanthan Gum"));
    ask()
        .get("/v1/ingredients/Xantan Gum")
        .then()
        .statusCode(404)
        .body("detail", startsWith("No ingredient is called so. Nearest: Xanthan Gum"));
  }

  @Test
  @DisplayName(
      "a rule set is checked with all that is wrong at once, and an edited copy in its place")
  void ruleChecks() {
    String faulty =
        """
        rule-set: bench
        title: Rules of the bench
        edition: "1"
        rules:
          sour:
            title: Sour
            severity: warning
            require: water-phase.pH <= 5 %
            message: "{gel.yield-stres}"
            lesson: It is sour.
        """;
    ask()
        .contentType("application/yaml")
        .body(faulty)
        .post("/v1/rule-checks")
        .then()
        .statusCode(200)
        .body("sound", equalTo(false))
        .body("problems.line", hasItem(8))
        .body("problems.line", hasItem(9))
        .body("problems.pointer", hasItem("/rules/sour/require"));
    ask()
        .contentType("application/yaml")
        .body(Rig.example("house-rules/evening-course.yaml"))
        .post("/v1/rule-checks")
        .then()
        .statusCode(200)
        .body("rule-set", equalTo("evening-course"));
    ask()
        .contentType("application/yaml")
        .body(
            "rule-set: texture\ntitle: T\nedition: \"1\"\nrules: {}\n"
                .getBytes(StandardCharsets.UTF_8))
        .post("/v1/rule-checks")
        .then()
        .statusCode(200)
        .body("rule-set", equalTo("texture"));
  }

  @Test
  @DisplayName("each type of problem has a page, in both forms")
  void pages() {
    for (ProblemType type : ProblemType.values()) {
      ask()
          .get(type.address())
          .then()
          .statusCode(200)
          .header("Content-Type", startsWith("text/html"))
          .body("html.body.h1", equalTo(type.title()));
      ask()
          .accept("application/json")
          .get(type.address())
          .then()
          .body("meaning", equalTo(type.meaning()));
    }
  }

  @Test
  @DisplayName("metrics tell requests, latency, outcomes by rule set and the queue")
  void metrics() {
    ask().contentType("application/yaml").body(Rig.example("shade-mist.yaml")).post("/v1/reviews");
    // A request is counted when its answer has gone out, so that may be a moment later.
    String metrics = metrics("status=\"200\"} ");
    assertTrue(metrics.endsWith("# EOF\n"), "OpenMetrics ends so");
    for (String line :
        List.of(
            "gelwright_http_requests_total{method=\"POST\",route=\"/v1/reviews\",status=\"200\"} ",
            "gelwright_http_request_duration_seconds_bucket{route=\"/v1/reviews\",le=\"",
            "gelwright_rule_outcomes_total{outcome=\"breaks\",rule_set=\"law-eu\"} ",
            "gelwright_reviews_total{outcome=\"breaks\"} ",
            "gelwright_evaluations_waiting 0",
            "gelwright_streams_open 0")) {
      assertTrue(metrics.contains("\n" + line), () -> line + " in\n" + metrics);
    }
    assertTrue(ask().accept("text/plain").get("/metrics").contentType().startsWith("text/plain"));
  }

  private static String metrics(String part) {
    long until = System.nanoTime() + Rig.PATIENCE * 1_000_000L;
    String wanted = "method=\"POST\",route=\"/v1/reviews\"," + part;
    String text = "";
    while (!text.contains(wanted) && System.nanoTime() < until) {
      text = ask().get("/metrics").then().statusCode(200).extract().asString();
    }
    return text;
  }
}
