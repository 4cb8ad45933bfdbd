package gelwright.api.http;

import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.temporal.ChronoUnit;

/**
 * The log: one JSON object a line. It has no bodies, no names of formulas, no queries, no tokens
 * and no addresses of clients.
 */
final class Log {
  private final PrintStream out;
  private final boolean access;

  Log(PrintStream out, boolean access) {
    this.out = out;
    this.access = access;
  }

  void event(String event, Json.Part more) {
    String line =
        new String(
            Json.object(
                json -> {
                  json.writeStringField("time", now());
                  json.writeStringField("event", event);
                  more.write(json);
                }),
            StandardCharsets.UTF_8);
    out.print(line);
    out.flush();
  }

  void access(String method, String route, int status, double seconds, long bytes) {
    if (access) {
      event(
          "request",
          json -> {
            json.writeStringField("method", method);
            json.writeStringField("route", route);
            json.writeNumberField("status", status);
            json.writeNumberField("milliseconds", Math.round(seconds * 100_000) / 100.0);
            json.writeNumberField("bytes", bytes);
          });
    }
  }

  /** A fault of the service: its kind and the place in the program, not its message. */
  void fault(Throwable fault) {
    event(
        "fault",
        json -> {
          Throwable cause = fault;
          while (cause.getCause() != null) {
            cause = cause.getCause();
          }
          json.writeStringField("kind", cause.getClass().getName());
          StackTraceElement[] trace = cause.getStackTrace();
          json.writeArrayFieldStart("at");
          for (int i = 0; i < Math.min(12, trace.length); i++) {
            json.writeString(trace[i].toString());
          }
          json.writeEndArray();
        });
  }

  private static String now() {
    return Instant.now().truncatedTo(ChronoUnit.MILLIS).toString();
  }
}
