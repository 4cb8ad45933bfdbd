package gelwright.api.http;

import static org.hamcrest.Matchers.containsString;
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
import gelwright.batch.BatchSheets;
import gelwright.calibration.Calibration;
import gelwright.calibration.Calibrator;
import gelwright.comparison.Comparer;
import gelwright.comparison.FormulaComparison;
import gelwright.formula.Formula;
import gelwright.labelling.LabelDrafts;
import gelwright.prediction.Prediction;
import gelwright.prediction.Predictor;
import gelwright.quantity.Quantity;
import gelwright.quantity.Unit;
import gelwright.reports.CalibrationReport;
import gelwright.reports.ComparisonReport;
import gelwright.reports.JsonReport;
import gelwright.reports.PaperReport;
import gelwright.reports.PredictionReport;
import gelwright.review.Knowledge;
import gelwright.review.Review;
import gelwright.review.Reviewer;
import gelwright.sheets.BundledRuleSets;
import gelwright.sheets.FormulaReader;
import gelwright.sheets.ReadingsReader;
import gelwright.stability.StabilityPlans;
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
    Map<String, String> inQuery = new TreeMap<>();
    for (JsonNode parameter :
        Contract.DOCUMENT.get("paths").get(path).at("/post").path("parameters")) {
      JsonNode one = Contract.resolved(parameter);
      if (one.path("required").asBoolean()) {
        inQuery.put(one.get("name").asText(), one.get("example").asText());
      }
    }
    // As bytes: a text would be sent in another charset than UTF-8 where the type names none.
    ask().contentType(type).queryParams(inQuery).body(utf8(body)).post(path).then().statusCode(200);
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
  @DisplayName("the edits of a remedy, made in the text, keep its comments and clear its finding")
  void edited() throws IOException {
    String sheet =
        new String(Rig.example("shade-mist.yaml"), StandardCharsets.UTF_8)
            .replace("method:", "method:  # of the second trial");
    JsonNode review =
        Contract.tree(
            ask()
                .contentType("application/yaml")
                .body(sheet.getBytes(StandardCharsets.UTF_8))
                .queryParam("include", "remedies")
                .post("/v1/reviews")
                .then()
                .statusCode(200)
                .extract()
                .asString());
    JsonNode remedy = null;
    String rule = "";
    for (JsonNode finding : review.get("findings")) {
      if (remedy == null && finding.at("/remedies/0/reaches").asBoolean()) {
        remedy = finding.at("/remedies/0");
        rule = finding.get("rule").asText();
      }
    }
    assertTrue(remedy != null, "the mist has a finding with a remedy");
    String body =
        new com.fasterxml.jackson.databind.ObjectMapper()
            .createObjectNode()
            .put("type", "application/yaml")
            .put("sheet", sheet)
            .<com.fasterxml.jackson.databind.node.ObjectNode>set("edits", remedy.get("edits"))
            .toString();
    String changed =
        ask()
            .contentType("application/json")
            .body(body)
            .post("/v1/sheet-edits")
            .then()
            .statusCode(200)
            .header("Cache-Control", "no-store")
            .extract()
            .path("sheet");
    assertTrue(changed.contains("method:  # of the second trial\n"), changed);
    JsonNode after =
        Contract.tree(
            ask()
                .contentType("application/yaml")
                .body(changed.getBytes(StandardCharsets.UTF_8))
                .post("/v1/reviews")
                .asString());
    assertNotEquals("breaks", after.at("/rules/" + rule).asText());
  }

  static Stream<Arguments> refusedEdits() {
    String edit = "{\"ingredient\":\"Aqua\",\"line\":1,\"from\":\"99 %\",\"to\":\"rest\"}";
    String csv = "\"type\":\"text/csv\",\"sheet\":\"name,share\\nAqua,99\"";
    return Stream.of(
        Arguments.of("no edits", "{" + csv + ",\"edits\":[]}", 422, "/edits", "empty-list"),
        Arguments.of("no sheet", "{\"edits\":[" + edit + "]}", 422, "", "missing-key"),
        Arguments.of(
            "another form",
            "{\"type\":\"text/html\",\"sheet\":\"a\",\"edits\":[" + edit + "]}",
            422,
            "/type",
            "unknown-word"),
        Arguments.of(
            "an unknown edit",
            "{" + csv + ",\"edits\":[" + edit + ",{\"colour\":\"red\"}]}",
            422,
            "/edits/1",
            "not-an-edit"),
        Arguments.of(
            "a sheet that is none",
            "{\"type\":\"application/yaml\",\"sheet\":\"formula: [\",\"edits\":[" + edit + "]}",
            422,
            "",
            "not-yaml"),
        Arguments.of(
            "a change of another file",
            "{" + csv + ",\"edits\":[{\"pH\":\"target\",\"to\":\"5.0\"}]}",
            422,
            "",
            "not-in-table"),
        Arguments.of(
            "another sheet",
            "{" + csv + ",\"edits\":[" + edit.replace("Aqua", "Alcohol") + "]}",
            422,
            "/ingredients/0",
            "other-ingredient"),
        Arguments.of("no JSON", "{", 400, "", "not-json"),
        Arguments.of(
            "a key twice",
            "{" + csv + "," + csv + ",\"edits\":[" + edit + "]}",
            400,
            "/type",
            "duplicate-key"));
  }

  @ParameterizedTest(name = "edits with {0} -> {2} {4}")
  @MethodSource("refusedEdits")
  void refusedEdits(String what, String body, int status, String pointer, String code) {
    JsonNode problem =
        Contract.tree(
            ask()
                .contentType("application/json")
                .body(body)
                .post("/v1/sheet-edits")
                .then()
                .statusCode(status)
                .extract()
                .asString());
    List<String> told = new ArrayList<>();
    problem
        .get("errors")
        .forEach(
            error -> told.add(error.get("pointer").asText() + " " + error.get("code").asText()));
    assertTrue(told.contains(pointer + " " + code), told::toString);
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

  @ParameterizedTest(name = "{0} gives the bytes of the library, and a page with a policy")
  @CsvSource({
    "/v1/batch-sheets?make=2kg, batch-sheet, Batch sheet",
    "/v1/label-drafts, label-draft, Label draft",
    "/v1/stability-plans, stability-plan, Stability plan"
  })
  void paper(String path, String schema, String kind) {
    byte[] bytes = Rig.example("wind-shelter-gel-cream.yaml");
    Formula formula =
        new FormulaReader().read(bytes, "", gelwright.sheets.tree.Document.Format.YAML).orThrow();
    Knowledge knowledge = BundledRuleSets.load();
    PaperReport writer = PaperReport.compact();
    String expected =
        switch (schema) {
          case "batch-sheet" ->
              writer.text(
                  BatchSheets.using(knowledge)
                      .of(formula, Quantity.of(2, Unit.KILOGRAM), Rig.TODAY));
          case "label-draft" -> writer.text(LabelDrafts.using(knowledge).of(formula, Rig.TODAY));
          default -> writer.text(StabilityPlans.using(knowledge).of(formula, Rig.TODAY));
        };
    String answer =
        ask()
            .contentType("application/yaml")
            .body(bytes)
            .post(path)
            .then()
            .statusCode(200)
            .header("Content-Security-Policy", startsWith("default-src 'none'; frame-ancestors"))
            .extract()
            .asString();
    assertEquals(expected, answer);
    Response page =
        ask()
            .contentType("application/yaml")
            .accept("text/html,application/xhtml+xml;q=0.9,*/*;q=0.1")
            .body(bytes)
            .post(path);
    assertEquals(200, page.statusCode());
    assertEquals("text/html", Contract.bare(page.contentType()));
    org.jsoup.nodes.Document html = org.jsoup.Jsoup.parse(page.asString());
    assertEquals("Wind-shelter gel-cream – " + kind, html.title());
    String policy = page.header("Content-Security-Policy");
    assertTrue(policy.contains("style-src '" + Style.HOUSE.hash() + "'"), policy);
    assertTrue(policy.contains("frame-ancestors 'none'"), policy);
    assertFalse(policy.contains("unsafe"), policy);
    assertEquals(Style.HOUSE.css(), html.select("style").get(0).data());
  }

  @ParameterizedTest(name = "make={0} -> 400")
  @ValueSource(strings = {"", "2", "2 °C", "0 g", "-1 kg", "1e30 kg", "much"})
  void noBatch(String make) {
    ask()
        .contentType("application/yaml")
        .body(Rig.example("shade-mist.yaml"))
        .queryParam("make", make)
        .post("/v1/batch-sheets")
        .then()
        .statusCode(400);
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

  private static final String WARM = "first: " + gel("warm", "38");
  private static final String COLD = "second: " + gel("cold", "22");

  private static byte[] utf8(String body) {
    return body.getBytes(StandardCharsets.UTF_8);
  }

  private static String gel(String name, String celsius) {
    return "{ formula: "
        + name
        + ", ingredients: [{ phase: A, name: Aqua, share: rest }, { phase: A, name: Sclerotium Gum,"
        + " share: 1 % }], method: [{ do: hydrate, phase: A, at: "
        + celsius
        + " °C, for: 30 min }] }\n";
  }

  @Test
  @DisplayName("a comparison is that of the library, in the bytes of its writer")
  void comparison() {
    FormulaReader reader = new FormulaReader();
    FormulaComparison comparison =
        Comparer.using(BundledRuleSets.load())
            .compare(
                formula(reader, gel("warm", "38")), formula(reader, gel("cold", "22")), Rig.TODAY);
    String answer =
        ask()
            .contentType("application/yaml")
            .body(utf8(WARM + COLD))
            .post("/v1/comparisons")
            .then()
            .statusCode(200)
            .header("Cache-Control", "no-store")
            .body(
                "properties.find { it.name == 'gel.hydration' }.verdict",
                equalTo("certainly-lower"))
            .extract()
            .asString();
    // The sheets stand elsewhere in the common body, and only that may differ.
    assertEquals(withoutPlaces(ComparisonReport.compact().text(comparison)), withoutPlaces(answer));
  }

  private static gelwright.formula.Formula formula(FormulaReader reader, String sheet) {
    return reader
        .read(
            sheet.getBytes(StandardCharsets.UTF_8), "", gelwright.sheets.tree.Document.Format.YAML)
        .orThrow();
  }

  private static String withoutPlaces(String json) {
    return json.replaceAll(",\"where\":\\{[^}]*\\}", "");
  }

  @ParameterizedTest(name = "{0} of two formulas is drawn")
  @ValueSource(strings = {"flow", "flow-ratio", "preservatives", "temperature", "water-activity"})
  void pictureOfBoth(String curve) {
    String svg =
        ask()
            .contentType("application/yaml")
            .accept("image/svg+xml")
            .body(utf8(WARM + COLD))
            .queryParam("curve", curve)
            .post("/v1/comparisons")
            .then()
            .statusCode(200)
            .contentType("image/svg+xml")
            .extract()
            .asString();
    assertTrue(svg.contains("warm and cold</title>"), svg);
  }

  @ParameterizedTest(name = "comparison, Accept: {0}, curve {1} -> 400")
  @CsvSource({"application/json, flow", "image/svg+xml, ''", "image/svg+xml, taste"})
  void noPictureOfBoth(String accept, String curve) {
    ask()
        .contentType("application/yaml")
        .accept(accept)
        .body(utf8(WARM + COLD))
        .queryParam("curve", curve)
        .post("/v1/comparisons")
        .then()
        .statusCode(400);
  }

  private static final String READINGS = "readings/sclerotium-gum-bench-3.yaml";

  @Test
  @DisplayName("a calibration is that of the library, in the bytes of its writer")
  void calibration() {
    byte[] bytes = Rig.example(READINGS);
    Calibration calibration =
        Calibrator.using(BundledRuleSets.load().catalogue())
            .calibrate(
                new ReadingsReader()
                    .read(
                        gelwright.sheets.tree.Document.read(
                                bytes,
                                "",
                                gelwright.sheets.tree.Document.Format.YAML,
                                gelwright.sheets.tree.Limits.USUAL)
                            .orThrow())
                    .orThrow())
            .value()
            .orElseThrow();
    String answer =
        ask()
            .contentType("application/yaml")
            .body(bytes)
            .post("/v1/calibrations")
            .then()
            .statusCode(200)
            .header("Link", containsString("</v1/schemas/calibration>; rel=\"describedby\""))
            .extract()
            .asString();
    assertEquals(CalibrationReport.compact().text(calibration), answer);
    ask()
        .contentType("application/yaml")
        .accept("image/svg+xml")
        .body(bytes)
        .post("/v1/calibrations")
        .then()
        .statusCode(200)
        .contentType("image/svg+xml");
  }

  @Test
  @DisplayName("readings that make no sense are refused with the places of all of them")
  void senselessReadings() {
    ask()
        .contentType("application/yaml")
        .body(
            """
            readings-of: Sclerotium Gum
            lot: bench 3
            series:
              - share: 1 %
                points:
                  - { shear-rate: 0 /s, stress: 7 Pa }
                  - { shear-rate: 1 /s, stress: -8 Pa }
            """)
        .post("/v1/calibrations")
        .then()
        .statusCode(422)
        .body("type", equalTo("/problems/no-calibration"))
        .body("errors.pointer", hasItem("/series/0/points/0"))
        .body("errors.pointer", hasItem("/series/0/points/1"));
    ask()
        .contentType("application/yaml")
        .body("formula: Bare gel")
        .post("/v1/calibrations")
        .then()
        .statusCode(422)
        .body("errors.code", hasItem("missing-key"));
    ask()
        .contentType("application/yaml")
        .body("readings-of: [")
        .post("/v1/calibrations")
        .then()
        .statusCode(400);
  }

  @ParameterizedTest(name = "/v1/schemas/{0}, which answers link to, is there")
  @ValueSource(
      strings = {"calibration", "comparison", "headroom", "prediction", "readings", "review"})
  void linkedSchemas(String name) {
    ask().get("/v1/schemas/" + name).then().statusCode(200);
  }

  static Stream<Arguments> badPairs() {
    return Stream.of(
        Arguments.of("no second formula", WARM, 422, "missing-key", ""),
        Arguments.of("a key too many", WARM + COLD + "third: 1\n", 422, "unknown-key", "/third"),
        Arguments.of(
            "a misspelt key",
            WARM + COLD.replace("second", "secund"),
            422,
            "unknown-key",
            "/secund"),
        Arguments.of(
            "a fault in the second",
            WARM + COLD.replace("share: 1 %", "share: lots"),
            422,
            "",
            "/second/ingredients/1/share"),
        Arguments.of(
            "a fault in the first",
            WARM.replace("at: 38 °C", "at: 380 °C") + COLD,
            422,
            "",
            "/first/method/0/at"),
        Arguments.of("a formula that is text", WARM + "second: gel\n", 422, "", "/second"),
        Arguments.of("a list", "[1, 2]", 422, "not-a-mapping", ""),
        Arguments.of("a formula alone", gel("warm", "38"), 422, "unknown-key", "/formula"),
        Arguments.of("no document", "first: [", 400, "not-yaml", ""),
        Arguments.of("nothing", "", 400, "", ""),
        Arguments.of("one key twice", WARM + WARM + COLD, 400, "duplicate-key", "/first"));
  }

  @ParameterizedTest(name = "comparison of {0} -> {2} {3} at {4}")
  @MethodSource("badPairs")
  void badPair(String what, String body, int status, String code, String pointer) {
    JsonNode answer =
        Contract.tree(
            ask()
                .contentType("application/yaml")
                .body(utf8(body))
                .post("/v1/comparisons")
                .then()
                .statusCode(status)
                .extract()
                .asString());
    boolean right = false;
    for (JsonNode error : answer.path("errors")) {
      right |=
          (code.isEmpty() || error.path("code").asText().equals(code))
              && (pointer.isEmpty() || error.path("pointer").asText().equals(pointer));
    }
    assertTrue(right, () -> answer.toString());
  }

  @Test
  @DisplayName("faults in both formulas -> all of them at once, each with its pointer")
  void badBoth() {
    ask()
        .contentType("application/yaml")
        .body(
            utf8(
                WARM.replace("name: Aqua", "nmae: Aqua")
                    + COLD.replace("do: hydrate", "do: hydrat")))
        .post("/v1/comparisons")
        .then()
        .statusCode(422)
        .body("errors.pointer", hasItem("/first/ingredients/0/nmae"))
        .body("errors.pointer", hasItem("/second/method/0/do"));
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
