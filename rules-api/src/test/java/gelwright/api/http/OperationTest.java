package gelwright.api.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import gelwright.api.http.Rig.Raw;
import io.restassured.response.Response;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.DisplayName;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@DisplayName("the service while it runs")
final class OperationTest {
  @TempDir Path folder;

  private static String set(String title, String require) {
    return """
        rule-set: bench
        title: %s
        edition: "%s"
        rules:
          some-water:
            title: There is water
            severity: warning
            require: %s
            message: "{water.share} of water."
            lesson: It is a gel of water.
            sources: [texture-practice]
        """
        .formatted(title, title, require);
  }

  @Test
  @DisplayName("takes changed own sheets over as a whole, and keeps the old ones when they are bad")
  void reload() throws IOException {
    Path file =
        Files.writeString(folder.resolve("bench.yaml"), set("First", "water.share >= 50 %"));
    try (Rig rig = Rig.start(settings -> Rig.withRules(settings, folder))) {
      String tag = rig.ask().get("/v1/rules").header("ETag");
      assertEquals("bench.some-water", rig.ask().get("/v1/rules/bench.some-water").path("id"));

      Files.writeString(file, set("Second", "water.share >= 60 %"));
      rig.service().lookForChanges();
      assertEquals(
          "water.share >= 60 %", rig.ask().get("/v1/rules/bench.some-water").path("require"));
      Response changed = rig.ask().header("If-None-Match", tag).get("/v1/rules");
      assertEquals(200, changed.statusCode());

      Files.writeString(file, set("Third", "water.share >= 60 Pa"));
      Response refused = rig.ask().post("/v1/reloads");
      assertEquals(422, refused.statusCode());
      refused
          .then()
          .body("type", equalTo(ProblemType.NOT_TAKEN_OVER.address()))
          .body("errors.file", hasItem("bench.yaml"))
          .body("errors.line", hasItem(8));
      assertFalse(refused.asString().contains(folder.toString()), refused::asString);
      rig.service().lookForChanges();
      assertTrue(rig.log().contains("\"event\":\"knowledge-refused\""), rig::log);
      assertEquals(
          "water.share >= 60 %", rig.ask().get("/v1/rules/bench.some-water").path("require"));

      Files.writeString(file, set("Fourth", "water.share >= 70 %"));
      rig.ask()
          .post("/v1/reloads")
          .then()
          .statusCode(200)
          .body("rule-sets.bench", equalTo("Fourth"));
      String metrics = rig.ask().get("/metrics").asString();
      assertTrue(
          metrics.contains("gelwright_knowledge_reloads_total{result=\"taken-over\"} 2"), metrics);
      assertTrue(
          metrics.contains("gelwright_knowledge_reloads_total{result=\"refused\"} "), metrics);
    }
  }

  @Test
  @DisplayName("is not ready first and serves on, then finishes what is under way, then is gone")
  void stops() throws Exception {
    Rig rig = Rig.start();
    byte[] sheet = Rig.example("shade-mist.yaml");
    try (Raw raw = rig.raw()) {
      // A request whose body is still to come is under way.
      raw.send(
              "POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/yaml\r\nContent-Length: "
                  + sheet.length
                  + "\r\nExpect: 100-continue\r\n\r\n")
          .until("HTTP/1.1 100 Continue\r\n\r\n");
      rig.service().drain();
      Response ready = rig.ask().get("/health/ready");
      assertEquals(503, ready.statusCode());
      assertEquals("stopping", ready.path("status"));
      assertEquals(200, rig.ask().get("/health/live").statusCode());
      Response served = rig.ask().get("/v1/textures");
      assertEquals(200, served.statusCode());
      assertEquals("close", served.header("Connection"));
      CompletableFuture<Void> stopped = CompletableFuture.runAsync(rig.service()::close);
      String answer = raw.send(sheet).rest();
      assertTrue(answer.startsWith("HTTP/1.1 200 "), answer);
      assertTrue(answer.contains("\"formula\":\"Shade mist\""), answer);
      stopped.get(Rig.PATIENCE, TimeUnit.MILLISECONDS);
      rig.service().await();
    }
    assertTrue(rig.log().contains("\"event\":\"draining\""));
    assertTrue(rig.log().contains("\"event\":\"stopped\""));
  }

  @Test
  @DisplayName("the log has no body, no query, no name of a formula and no address")
  void log() throws IOException {
    Rig rig = Rig.start();
    try (rig) {
      rig.ask()
          .contentType("application/yaml")
          .queryParam("on", "2027-03-01")
          .body(Rig.example("shade-mist.yaml"))
          .post("/v1/reviews");
      rig.ask().get("/v1/ingredients/Xanthan Gum");
    }
    String log = rig.log();
    assertTrue(
        log.contains(
            "\"event\":\"request\",\"method\":\"POST\",\"route\":\"/v1/reviews\",\"status\":200,"),
        log);
    assertTrue(log.contains("\"route\":\"/v1/ingredients/{name}\""), log);
    for (String word : List.of("Shade", "2027", "Xanthan", "127.0.0.1", "Exception")) {
      assertFalse(log.contains(word), word);
    }
    log.lines().forEach(line -> assertTrue(Contract.tree(line).has("event"), line));
  }

  @Test
  @DisplayName("says why it does not start")
  void doesNotStart() throws IOException {
    PrintStream nowhere =
        new PrintStream(PrintStream.nullOutputStream(), true, StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("bench.yaml"), set("Bad", "water.share >= 60 Pa"));
    Service.Started bad =
        Service.start(Rig.withRules(Rig.settings(Guards.usual(), nowhere), folder));
    assertTrue(bad.service().isEmpty());
    assertTrue(bad.problems().toString().contains("bench.yaml:8:"), bad.problems()::toString);
    try (Rig rig = Rig.start()) {
      Settings free = Rig.settings(Guards.usual(), nowhere);
      Service.Started taken =
          Service.start(
              new Settings(
                  free.host(),
                  rig.port(),
                  free.token(),
                  false,
                  List.of(),
                  List.of(),
                  List.of(),
                  false,
                  false,
                  free.log(),
                  free.today(),
                  free.guards()));
      assertTrue(taken.service().isEmpty());
      assertTrue(taken.problems().get(0).startsWith("It cannot listen on 127.0.0.1"));
    }
    assertEquals(Duration.ofSeconds(2), Guards.usual().drain());
  }
}
