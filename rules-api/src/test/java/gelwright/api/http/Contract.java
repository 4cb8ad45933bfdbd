package gelwright.api.http;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import com.networknt.schema.dialect.Dialects;
import io.restassured.filter.Filter;
import io.restassured.filter.FilterContext;
import io.restassured.response.Response;
import io.restassured.specification.FilterableRequestSpecification;
import io.restassured.specification.FilterableResponseSpecification;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Pattern;

/**
 * Holds a request and its answer against the service's own description: the path, the method, the
 * parameters, the status, the media types, and both bodies against their schemas.
 */
final class Contract implements Filter {
  private static final Pattern EXCEPTION = Pattern.compile("[a-z]Exception\\b");

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final String HERE = "https://gelwright.invalid/openapi.json";
  private static final String TEXT = new String(OpenApi.document(), StandardCharsets.UTF_8);
  static final JsonNode DOCUMENT = tree(TEXT);

  /** It wonders about the parts of the description that are no schemas. Held, or forgotten. */
  private static final Logger WONDERING = Logger.getLogger("com.networknt.schema");

  static {
    WONDERING.setLevel(Level.SEVERE);
  }

  private static final SchemaRegistry SCHEMAS =
      SchemaRegistry.withDialect(
          Dialects.getOpenApi31(),
          registry ->
              registry
                  .defaultDialectId(Dialects.getOpenApi31().getId())
                  .schemas(Map.of(HERE, TEXT)));

  static JsonNode tree(String text) {
    try {
      return JSON.readTree(text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the standard's own schema has to say of the description. */
  static List<String> againstTheStandard() {
    try (InputStream in =
        Objects.requireNonNull(
            Contract.class.getResourceAsStream("/openapi/openapi-3.1-schema-2022-10-07.json"))) {
      String standard = new String(in.readAllBytes(), StandardCharsets.UTF_8);
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(standard, InputFormat.JSON)
          .validate(TEXT, InputFormat.JSON)
          .stream()
          .map(Error::toString)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What a part of the description, by its pointer, has to say of a document. */
  static List<String> errors(String pointer, String document) {
    return SCHEMAS
        .getSchema(
            "{\"$schema\": \""
                + Dialects.getOpenApi31().getId()
                + "\", \"$ref\": \""
                + HERE
                + "#"
                + pointer
                + "\"}",
            InputFormat.JSON)
        .validate(
            document,
            InputFormat.JSON,
            context -> context.executionConfig(config -> config.formatAssertionsEnabled(true)))
        .stream()
        .map(Error::toString)
        .toList();
  }

  @Override
  public Response filter(
      FilterableRequestSpecification request,
      FilterableResponseSpecification expected,
      FilterContext context) {
    Response response = context.next(request, expected);
    String path = URI.create(request.getURI()).getPath();
    String template = template(path);
    String method = request.getMethod().toLowerCase(Locale.ROOT);
    check(response);
    if (template.isEmpty() || !DOCUMENT.at("/paths/" + escape(template)).has(method)) {
      // Not described; then it must not be answered, but for HEAD, which every GET has.
      assertTrue(response.statusCode() >= 400 || method.equals("head") || method.equals("options"));
      return response;
    }
    String operation = "/paths/" + escape(template) + "/" + method;
    if (response.statusCode() < 400) {
      parameters(operation, request);
      Object body = request.getBody();
      String type = bare(request.getContentType());
      if (body != null && type.equals("application/json")) {
        String text =
            body instanceof byte[] bytes
                ? new String(bytes, StandardCharsets.UTF_8)
                : body.toString();
        assertEquals(
            List.of(),
            errors(operation + "/requestBody/content/application~1json/schema", text),
            "the request fits its schema");
      }
    }
    answer(operation, response);
    return response;
  }

  private static void parameters(String operation, FilterableRequestSpecification request) {
    List<String> known = new ArrayList<>();
    for (JsonNode parameter : DOCUMENT.at(operation + "/parameters")) {
      JsonNode one = resolved(parameter);
      if (one.get("in").asText().equals("query")) {
        known.add(one.get("name").asText());
      }
    }
    for (String name : request.getQueryParams().keySet()) {
      assertTrue(known.contains(name), "the parameter " + name + " is described");
    }
  }

  private static void answer(String operation, Response response) {
    String responses = operation + "/responses/";
    String status = Integer.toString(response.statusCode());
    JsonNode described = DOCUMENT.at(responses + status);
    String key = described.isMissingNode() ? "default" : status;
    assertTrue(response.statusCode() >= 300 || !key.equals("default"), status + " is described");
    String pointer = responses + key;
    JsonNode answer = DOCUMENT.at(pointer);
    if (answer.has("$ref")) {
      pointer = answer.get("$ref").asText().substring(1);
      answer = DOCUMENT.at(pointer);
    }
    for (Iterator<String> names = answer.path("headers").fieldNames(); names.hasNext(); ) {
      String name = names.next();
      assertNotNull(response.header(name), "the header " + name + " is there");
    }
    String text = response.asString();
    if (text.isEmpty()) {
      return;
    }
    String type = bare(response.contentType());
    assertTrue(answer.path("content").has(type), type + " is described for " + status);
    if (type.equals("application/json") || type.endsWith("+json")) {
      assertEquals(
          List.of(), errors(pointer + "/content/" + escape(type) + "/schema", text), "it fits");
    }
    if (type.equals("application/x-ndjson")) {
      text.lines()
          .forEach(
              line ->
                  assertEquals(
                      List.of(),
                      errors(
                          "/components/schemas/" + (tree(line).has("type") ? "Problem" : "Review"),
                          line)));
    }
  }

  /** What holds of every answer. */
  static void check(Response response) {
    assertFalse(response.statusCode() == 500, response::asString);
    assertEquals("nosniff", response.header("X-Content-Type-Options"));
    assertNotNull(response.header("Content-Security-Policy"));
    assertEquals(null, response.header("Server"));
    assertEquals(null, response.header("Set-Cookie"));
    if (response.statusCode() >= 400
        && !response.asString().isEmpty()
        && !response.asString().contains("stopping")) {
      assertEquals("application/problem+json", bare(response.contentType()));
      assertEquals(
          List.of(), errors("/components/schemas/Problem", response.asString()), "a problem");
      assertEquals(response.statusCode(), tree(response.asString()).get("status").asInt());
    }
    tellsNothing(response.asString());
  }

  /** Nothing of the program's inside or of the machine. */
  static void tellsNothing(String text) {
    for (String word :
        List.of("\tat ", ".java:", "jetty", "javalin", "com.fasterxml", "snakeyaml", "/tmp/")) {
      assertFalse(text.contains(word), () -> word + " in " + text);
    }
    // "Exceptions of the law" may be told of; an IllegalStateException may not.
    assertFalse(EXCEPTION.matcher(text).find(), () -> "an exception in " + text);
  }

  static JsonNode resolved(JsonNode node) {
    return node.has("$ref") ? DOCUMENT.at(node.get("$ref").asText().substring(1)) : node;
  }

  static String bare(String type) {
    return type == null ? "" : type.split(";", 2)[0].strip();
  }

  static String escape(String key) {
    return key.replace("~", "~0").replace("/", "~1");
  }

  /** The path as described: the one with the fewest placeholders that it fits. */
  static String template(String path) {
    String best = "";
    for (Iterator<String> paths = DOCUMENT.get("paths").fieldNames(); paths.hasNext(); ) {
      String template = paths.next();
      StringBuilder pattern = new StringBuilder();
      for (String part : template.split("(?=\\{)|(?<=\\})", -1)) {
        pattern.append(
            part.equals("{file}") || (part.equals("{name}") && template.contains("ingredients"))
                ? ".+"
                : part.startsWith("{") ? "[^/]+" : Pattern.quote(part));
      }
      if (path.matches(pattern.toString()) && (best.isEmpty() || !template.contains("{"))) {
        best = template;
      }
    }
    return best;
  }
}
