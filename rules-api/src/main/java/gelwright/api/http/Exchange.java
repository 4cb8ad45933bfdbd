package gelwright.api.http;

import io.javalin.http.Context;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Duration;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.eclipse.jetty.ee10.servlet.ServletContextRequest;
import org.eclipse.jetty.io.Connection;
import org.eclipse.jetty.server.Request;

/** One request and its answer: the few things that handlers do with the web server. */
final class Exchange {
  private static final int CHUNK = 8_192;

  private final Context context;
  private final Guards guards;
  private final Watchdog watchdog;

  Exchange(Context context, Guards guards, Watchdog watchdog) {
    this.context = context;
    this.guards = guards;
    this.watchdog = watchdog;
  }

  Optional<String> header(String name) {
    return Optional.ofNullable(context.req().getHeader(name));
  }

  String parameter(String name) {
    return context.pathParam(name);
  }

  void header(String name, String value) {
    context.res().setHeader(name, value);
  }

  /** Adds to a header that is a list. */
  void headerMore(String name, String value) {
    String before = context.res().getHeader(name);
    context.res().setHeader(name, before == null ? value : before + ", " + value);
  }

  /** The query's parameters; any other than those known, and any given twice, is refused. */
  Map<String, String> query(Set<String> known) {
    String text = context.req().getQueryString();
    Map<String, String> query = new TreeMap<>();
    if (text == null || text.isEmpty()) {
      return query;
    }
    for (String pair : text.split("&", -1)) {
      String[] parts = pair.split("=", 2);
      String name = decoded(parts[0]);
      if (!known.contains(name)) {
        throw Trouble.of(
            ProblemType.MALFORMED_REQUEST,
            known.isEmpty()
                ? "This resource takes no query parameters."
                : "A query parameter is not known. Known are: "
                    + String.join(", ", known.stream().sorted().toList())
                    + ".");
      }
      if (query.put(name, parts.length == 2 ? decoded(parts[1]) : "") != null) {
        throw Trouble.of(
            ProblemType.MALFORMED_REQUEST, "The query parameter " + name + " is given twice.");
      }
    }
    return query;
  }

  private static String decoded(String text) {
    try {
      return java.net.URLDecoder.decode(text, java.nio.charset.StandardCharsets.UTF_8);
    } catch (IllegalArgumentException malformed) {
      throw Trouble.of(
          ProblemType.MALFORMED_REQUEST, "A percent sign in the query is not followed by a byte.");
    }
  }

  /** The day of a query. */
  static LocalDate day(Map<String, String> query, LocalDate today) {
    String text = query.get("on");
    if (text == null) {
      return today;
    }
    try {
      LocalDate day = text.length() == 10 ? LocalDate.parse(text) : LocalDate.MIN;
      if (day.getYear() >= 1900) {
        return day;
      }
    } catch (DateTimeParseException notADay) {
      // Said below.
    }
    throw Trouble.of(
        ProblemType.MALFORMED_REQUEST, "The parameter on takes a day such as 2026-11-25.");
  }

  /** The form of the body, and that nothing else is the matter with its headers. */
  MediaType bodyType(List<MediaType> taken) {
    if (header("Content-Encoding").filter(coding -> !coding.equals("identity")).isPresent()) {
      throw MediaType.unsupported("A body with a content coding is not read.", taken)
          .with("Accept-Encoding", "identity");
    }
    return MediaType.ofBody(header("Content-Type"), taken);
  }

  /** The whole body, within size, time and rate. */
  byte[] body() {
    int most = guards.bodyBytes();
    if (context.req().getContentLengthLong() > most) {
      throw tooLarge(most);
    }
    long begun = System.nanoTime();
    ByteArrayOutputStream body = new ByteArrayOutputStream(CHUNK);
    byte[] chunk = new byte[CHUNK];
    try {
      InputStream in = context.req().getInputStream();
      int read = in.read(chunk);
      while (read >= 0) {
        body.write(chunk, 0, read);
        if (body.size() > most) {
          throw tooLarge(most);
        }
        checkRate(begun, body.size());
        read = in.read(chunk);
      }
    } catch (IOException | RuntimeException problem) {
      throw unread(problem);
    }
    return body.toByteArray();
  }

  /** Refuses what arrives too slowly on the whole. */
  void checkRate(long begun, long bytes) {
    long taken = System.nanoTime() - begun;
    if (taken > guards.receive().toNanos()
        || (taken > guards.idle().toNanos()
            && bytes < guards.bytesPerSecond() * (taken / 1_000_000_000.0))) {
      throw tooSlow();
    }
  }

  private static Trouble tooLarge(int most) {
    return Trouble.of(ProblemType.TOO_LARGE, "At most " + most + " bytes are read.")
        .with("Connection", "close");
  }

  private static Trouble tooSlow() {
    return Trouble.of(ProblemType.TOO_SLOW, "The body did not arrive in time.")
        .with("Connection", "close");
  }

  /** What became of a body that could not be read to its end. */
  static Trouble unread(Exception problem) {
    if (problem instanceof Trouble trouble) {
      return trouble;
    }
    for (Throwable cause = problem; cause != null; cause = cause.getCause()) {
      if (cause instanceof java.util.concurrent.TimeoutException) {
        return tooSlow();
      }
    }
    return Trouble.of(
            ProblemType.MALFORMED_REQUEST, "The body ends early, or its chunks are malformed.")
        .with("Connection", "close");
  }

  InputStream input() throws IOException {
    return context.req().getInputStream();
  }

  /** An answer that is not compressed and goes out as it comes. */
  OutputStream begin(MediaType type) throws IOException {
    context.res().setStatus(200);
    context.res().setContentType(type.header());
    return context.res().getOutputStream();
  }

  /** Counts bytes that were written. */
  void count(long bytes) {
    Long before = context.attribute("bytes");
    context.attribute("bytes", (before == null ? 0 : before) + bytes);
  }

  /** The client went away before the end of its answer. */
  void gone() {
    context.attribute("gone", true);
  }

  /** The request was not read to its end, so that nothing can follow it on its connection. */
  void closeAfterwards() {
    if (!context.res().isCommitted()) {
      header("Connection", "close");
    }
  }

  /** Something that writes. */
  @FunctionalInterface
  interface Write {
    void run() throws IOException;
  }

  /** Writes so many bytes; when they are not taken in time the connection is closed. */
  void write(long bytes, Write write) throws IOException {
    Duration most = guards.idle().plus(Duration.ofMillis(bytes * 1_000 / guards.bytesPerSecond()));
    Watchdog.Writing watched = watchdog.write(most, connection(context)::close);
    try {
      write.run();
    } finally {
      watched.close();
    }
  }

  static Connection connection(Context context) {
    Request request = ServletContextRequest.getServletContextRequest(context.req());
    return request.getConnectionMetaData().getConnection();
  }

  void answer(int status, MediaType type, byte[] bytes) {
    boolean gzip = bytes.length >= Representation.WORTH_COMPRESSING && takesGzip();
    headerMore("Vary", "Accept-Encoding");
    send(status, type, gzip ? Representation.gzip(bytes) : bytes, gzip);
  }

  /** A resource with its tag; without its content for a client that has it. */
  void answer(Representation resource) {
    answer(resource, "no-cache");
  }

  /** A resource with its tag, and how long it may be kept. */
  void answer(Representation resource, String cacheControl) {
    boolean gzip = resource.bytes().length >= Representation.WORTH_COMPRESSING && takesGzip();
    headerMore("Vary", "Accept-Encoding");
    header("Cache-Control", cacheControl);
    header("ETag", resource.tag(gzip));
    Optional<String> known = header("If-None-Match");
    if (known.isPresent() && matches(known.get(), resource)) {
      context.res().setStatus(304);
      return;
    }
    send(200, resource.type(), gzip ? resource.compressed() : resource.bytes(), gzip);
  }

  private static boolean matches(String header, Representation resource) {
    List<String> tags =
        Arrays.stream(header.split(",", -1))
            .map(tag -> tag.strip().replaceFirst("^W/", ""))
            .toList();
    return tags.contains("*")
        || tags.contains(resource.tag(false))
        || tags.contains(resource.tag(true));
  }

  private void send(int status, MediaType type, byte[] bytes, boolean gzip) {
    context.res().setStatus(status);
    context.res().setContentType(type.header());
    if (gzip) {
      header("Content-Encoding", "gzip");
    }
    context.res().setContentLengthLong(bytes.length);
    count(bytes.length);
    try {
      OutputStream out = context.res().getOutputStream();
      write(
          bytes.length,
          () -> {
            out.write(bytes);
            out.flush();
          });
    } catch (IOException gone) {
      // The client is not there any more, and there is nobody to tell.
      gone();
    }
  }

  private boolean takesGzip() {
    double gzip = -1;
    double any = 0;
    for (String coding :
        header("Accept-Encoding").orElse("").toLowerCase(Locale.ROOT).split(",", -1)) {
      String[] parts = coding.split(";", -1);
      double quality = parts.length > 1 && parts[1].strip().matches("q=0(\\.0*)?") ? 0 : 1;
      if (parts[0].strip().equals("gzip")) {
        gzip = quality;
      } else if (parts[0].strip().equals("*")) {
        any = quality;
      }
    }
    return gzip < 0 ? any > 0 : gzip > 0;
  }
}
