package gelwright.api.http;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/** The page behind each type of problem. */
final class ProblemPages {
  private static final List<MediaType> FORMS = List.of(MediaType.HTML, MediaType.JSON);

  private ProblemPages() {}

  static void all(Exchange exchange) {
    exchange.query(Set.of());
    MediaType.best(exchange.header("Accept"), List.of(MediaType.JSON));
    exchange.answer(
        new Representation(
            Json.object(
                json -> {
                  json.writeArrayFieldStart("problems");
                  for (ProblemType type : ProblemType.values()) {
                    json.writeStartObject();
                    json.writeStringField("type", type.address());
                    json.writeNumberField("status", type.status());
                    json.writeStringField("title", type.title());
                    json.writeEndObject();
                  }
                  json.writeEndArray();
                }),
            MediaType.JSON));
  }

  static void one(Exchange exchange) {
    exchange.query(Set.of());
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    ProblemType type =
        ProblemType.of(exchange.parameter("name"))
            .orElseThrow(
                () -> Trouble.of(ProblemType.NOT_FOUND, "There is no such type of problem."));
    exchange.headerMore("Vary", "Accept");
    exchange.answer(new Representation(form == MediaType.HTML ? html(type) : json(type), form));
  }

  private static byte[] json(ProblemType type) {
    return Json.object(
        json -> {
          json.writeStringField("type", type.address());
          json.writeNumberField("status", type.status());
          json.writeStringField("title", type.title());
          json.writeStringField("meaning", type.meaning());
          json.writeStringField("remedy", type.remedy());
        });
  }

  /** Texts of the program only, and none of them has a character that HTML minds. */
  private static byte[] html(ProblemType type) {
    return String.format(
            Locale.ROOT,
            """
        <!doctype html>
        <html lang="en">
        <head><meta charset="utf-8"><title>%2$s</title></head>
        <body>
        <h1>%2$s</h1>
        <p>Status %1$d, type <code>%3$s</code></p>
        <p>%4$s</p>
        <p>%5$s</p>
        </body>
        </html>
        """,
            type.status(),
            type.title(),
            type.address(),
            type.meaning(),
            type.remedy())
        .getBytes(StandardCharsets.UTF_8);
  }
}
