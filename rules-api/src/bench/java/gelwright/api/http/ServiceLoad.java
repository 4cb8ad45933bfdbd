package gelwright.api.http;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedOutputStream;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.SocketException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicLong;

/**
 * How much the service bears: reviews against an echo of the same sizes, a stream against single
 * posts, and a load with a SIGTERM in its middle. Prints rates of one run; they mean something only
 * beside one another.
 *
 * <p>Arguments: {@code echo [SECONDS]}, {@code stream [FORMULAS]} or {@code sigterm [SECONDS]}.
 */
public final class ServiceLoad {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final byte[] SHEET =
      """
      {"formula":"Bench serum","product":{"kind":"serum","use":"leave-on","area":["face"],"users":"adults",\
      "texture":"serum","dispensing":"pump","pH":"5.0 to 5.8","markets":["EU"],"shelf-life":"12 months"},\
      "batch":"500 g","ingredients":[{"phase":"A","name":"Aqua","share":"rest"},\
      {"phase":"A","name":"Glycerin","share":"4 %"},{"phase":"A","name":"Propanediol","share":"3 %"},\
      {"phase":"A","name":"Xanthan Gum","share":"0.5 %"},{"phase":"B","name":"Panthenol","share":"1 %"},\
      {"phase":"B","name":"Allantoin","share":"0.2 %"},{"phase":"C","name":"Sodium Benzoate","share":"0.4 %"},\
      {"phase":"C","name":"Potassium Sorbate","share":"0.2 %"},{"phase":"C","name":"Citric Acid","share":"to-pH"}],\
      "method":[{"do":"disperse","phase":"A","with":"Xanthan Gum","stir":"800 rpm"},\
      {"do":"hydrate","phase":"A","at":"25 °C","for":"45 min","stir":"400 rpm"},\
      {"do":"add","phase":"B","into":"A","stir":"300 rpm","for":"5 min"},\
      {"do":"add","phase":"C","into":"A","stir":"300 rpm","for":"5 min"},\
      {"do":"adjust-pH","with":"Citric Acid","to":5.4}]}
      """
          .getBytes(StandardCharsets.UTF_8);

  private ServiceLoad() {}

  /** Runs one of them. */
  public static void main(String[] arguments) throws Exception {
    String what = arguments.length == 0 ? "echo" : arguments[0];
    int most = arguments.length < 2 ? 0 : Integer.parseInt(arguments[1]);
    switch (what) {
      case "echo" -> echo(most == 0 ? 20 : most);
      case "stream" -> stream(most == 0 ? 100_000 : most);
      case "sigterm" -> sigterm(most == 0 ? 60 : most);
      default -> throw new IllegalArgumentException("echo, stream or sigterm, not " + what);
    }
  }

  /** A connection that is kept, as plain as can be, so that it costs little beside the server. */
  private static final class Line implements AutoCloseable {
    private final Socket socket;
    private final InputStream in;
    private final OutputStream out;
    private final byte[] request;
    private final byte[] buffer = new byte[65_536];
    private boolean closing;

    Line(int port, String path) throws IOException {
      socket = new Socket("127.0.0.1", port);
      socket.setTcpNoDelay(true);
      in = socket.getInputStream();
      out = socket.getOutputStream();
      byte[] head =
          ("POST " + path + " HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: "
                  + SHEET.length + "\r\n\r\n")
              .getBytes(StandardCharsets.US_ASCII);
      request = new byte[head.length + SHEET.length];
      System.arraycopy(head, 0, request, 0, head.length);
      System.arraycopy(SHEET, 0, request, head.length, SHEET.length);
    }

    /** Whether the server said that nothing may follow. */
    boolean isClosing() {
      return closing;
    }

    /** Status of the answer, read to its end. */
    int post() throws IOException {
      out.write(request);
      int end = 0;
      int headEnd = -1;
      while (headEnd < 0) {
        int read = in.read(buffer, end, buffer.length - end);
        if (read < 0) {
          throw new SocketException(end == 0 ? "closed before an answer" : "closed in an answer");
        }
        end += read;
        headEnd = new String(buffer, 0, end, StandardCharsets.ISO_8859_1).indexOf("\r\n\r\n");
      }
      String head = new String(buffer, 0, headEnd, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
      closing = head.contains("connection: close");
      int at = head.indexOf("content-length: ") + "content-length: ".length();
      int stop = head.indexOf("\r\n", at);
      long left =
          Long.parseLong(head.substring(at, stop < 0 ? head.length() : stop)) - (end - headEnd - 4);
      while (left > 0) {
        int read = in.read(buffer, 0, (int) Math.min(left, buffer.length));
        if (read < 0) {
          throw new SocketException("closed in an answer");
        }
        left -= read;
      }
      return Integer.parseInt(head.substring(9, 12));
    }

    @Override
    public void close() throws IOException {
      socket.close();
    }
  }

  private static double rate(int port, String path, int connections, int seconds) throws Exception {
    AtomicLong answers = new AtomicLong();
    AtomicBoolean counting = new AtomicBoolean();
    AtomicBoolean end = new AtomicBoolean();
    List<Thread> threads = new ArrayList<>();
    for (int i = 0; i < connections; i++) {
      Thread thread =
          new Thread(
              () -> {
                try (Line line = new Line(port, path)) {
                  while (!end.get()) {
                    if (line.post() != 200) {
                      throw new IllegalStateException("not answered with 200");
                    }
                    if (counting.get()) {
                      answers.incrementAndGet();
                    }
                  }
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
      thread.start();
      threads.add(thread);
    }
    TimeUnit.SECONDS.sleep(seconds / 2);
    counting.set(true);
    long begun = System.nanoTime();
    TimeUnit.SECONDS.sleep(seconds);
    double rate = answers.get() / ((System.nanoTime() - begun) / 1e9);
    end.set(true);
    for (Thread thread : threads) {
      thread.join();
    }
    return rate;
  }

  private static void echo(int seconds) throws Exception {
    Settings settings =
        new Settings(
            "127.0.0.1",
            0,
            Optional.empty(),
            false,
            List.of(),
            List.of(),
            List.of(),
            false,
            false,
            new PrintStream(PrintStream.nullOutputStream(), false, StandardCharsets.UTF_8),
            () -> LocalDate.of(2026, 11, 25),
            Guards.usual());
    JsonNode[] review = new JsonNode[1];
    Service service =
        Service.start(
                settings,
                Map.of(
                    "/echo",
                    exchange -> {
                      try {
                        JsonNode sheet = JSON.readTree(exchange.body());
                        if (!sheet.has("formula")) {
                          throw new IllegalStateException("the sheet was not read");
                        }
                        exchange.answer(200, MediaType.JSON, JSON.writeValueAsBytes(review[0]));
                      } catch (IOException e) {
                        throw new UncheckedIOException(e);
                      }
                    }))
            .service()
            .orElseThrow();
    try (service) {
      review[0] = sample(service.port());
      double reviews = rate(service.port(), "/v1/reviews", 8, seconds);
      double echoes = rate(service.port(), "/echo", 8, seconds);
      double again = rate(service.port(), "/v1/reviews", 8, seconds);
      System.out.printf(
          Locale.ROOT,
          "reviews %.0f /s, then echo %.0f /s, then reviews %.0f /s: ratio %.2f%n",
          reviews,
          echoes,
          again,
          again / echoes);
    }
  }

  private static JsonNode sample(int port) throws IOException {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket
          .getOutputStream()
          .write(
              ("POST /v1/reviews HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nContent-Type:"
                      + " application/json\r\nContent-Length: " + SHEET.length + "\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      socket.getOutputStream().write(SHEET);
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return JSON.readTree(answer.substring(answer.indexOf("\r\n\r\n") + 4));
    }
  }

  /** A service of its own process. */
  private static final class Child implements AutoCloseable {
    private final Process process;
    private final int port;

    Child(String... options) throws IOException {
      List<String> command = new ArrayList<>();
      command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
      command.addAll(List.of(options));
      command.addAll(
          List.of(
              "-cp",
              System.getProperty("java.class.path"),
              "gelwright.api.Main",
              "serve",
              "--port",
              "0",
              "--no-access-log"));
      process = new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
      BufferedReader lines = process.inputReader(StandardCharsets.UTF_8);
      port = JSON.readTree(lines.readLine()).get("port").asInt();
      Thread reader = new Thread(() -> lines.lines().forEach(System.out::println));
      reader.setDaemon(true);
      reader.start();
    }

    void terminate() {
      process.toHandle().destroy();
    }

    @Override
    public void close() throws IOException {
      terminate();
      try {
        process.waitFor(1, TimeUnit.MINUTES);
      } catch (InterruptedException interrupted) {
        Thread.currentThread().interrupt();
      }
    }
  }

  private static void stream(int formulas) throws Exception {
    try (Child child = new Child("-Xmx128m")) {
      // What is timed first must be as warm as what is timed last.
      rate(child.port, "/v1/reviews", 8, 40);
      double single = rate(child.port, "/v1/reviews", 1, 15);
      System.out.printf(Locale.ROOT, "single posts, one connection: %.0f /s%n", single);
      System.out.printf(
          Locale.ROOT,
          "single posts, eight connections: %.0f /s%n",
          rate(child.port, "/v1/reviews", 8, 15));
      double rate = stream(child.port, formulas);
      double again = rate(child.port, "/v1/reviews", 1, 15);
      System.out.printf(
          Locale.ROOT,
          "stream: %.0f /s; single posts again: %.0f /s; %.2f of them%n",
          rate,
          again,
          rate / again);
    }
  }

  private static double stream(int port, int formulas) throws Exception {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      Thread sender =
          new Thread(
              () -> {
                try {
                  OutputStream out = new BufferedOutputStream(socket.getOutputStream(), 32_768);
                  out.write(
                      ("POST /v1/review-streams HTTP/1.1\r\nHost: localhost\r\nContent-Type:"
                              + " application/x-ndjson\r\nContent-Length: "
                              + (long) SHEET.length * formulas
                              + "\r\nConnection: close\r\n\r\n")
                          .getBytes(StandardCharsets.US_ASCII));
                  for (int i = 0; i < formulas; i++) {
                    out.write(SHEET);
                  }
                  out.flush();
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
      long begun = System.nanoTime();
      sender.start();
      long answers = 0;
      long last = begun;
      int tenth = Math.max(1, formulas / 10);
      BufferedReader in =
          new BufferedReader(
              new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8), 65_536);
      String line = in.readLine();
      while (line != null) {
        if (line.contains("{\"formula\":\"")) {
          answers++;
          if (answers % tenth == 0) {
            long now = System.nanoTime();
            System.out.printf(
                Locale.ROOT, "  %d: %.0f /s%n", answers, tenth / ((now - last) / 1e9));
            last = now;
          }
        } else if (line.contains("{\"type\":\"/problems/")) {
          throw new IllegalStateException(line);
        }
        line = in.readLine();
      }
      sender.join();
      if (answers != formulas) {
        throw new IllegalStateException(answers + " answers to " + formulas + " formulas");
      }
      return formulas / ((System.nanoTime() - begun) / 1e9);
    }
  }

  private static void sigterm(int seconds) throws Exception {
    AtomicLong answered = new AtomicLong();
    AtomicLong refused = new AtomicLong();
    AtomicLong lost = new AtomicLong();
    AtomicLong turnedAway = new AtomicLong();
    AtomicBoolean told = new AtomicBoolean();
    try (Child child = new Child()) {
      List<Thread> threads = new ArrayList<>();
      for (int i = 0; i < 64; i++) {
        Thread thread =
            new Thread(
                () -> {
                  while (!told.get() || turnedAway.get() < 64) {
                    boolean first = true;
                    try (Line line = new Line(child.port, "/v1/reviews")) {
                      while (!line.isClosing()) {
                        int status = line.post();
                        (status == 200 ? answered : refused).incrementAndGet();
                        first = false;
                      }
                    } catch (IOException problem) {
                      // A connection that was never taken on has nothing in flight; any other has.
                      if (told.get() && first) {
                        turnedAway.incrementAndGet();
                        return;
                      }
                      lost.incrementAndGet();
                      System.out.println("lost: " + problem.getMessage());
                      return;
                    }
                  }
                });
        thread.start();
        threads.add(thread);
      }
      TimeUnit.SECONDS.sleep(seconds / 2);
      long before = answered.get();
      told.set(true);
      child.terminate();
      for (Thread thread : threads) {
        thread.join(TimeUnit.SECONDS.toMillis(seconds));
      }
      System.out.printf(
          Locale.ROOT,
          "answered %d before SIGTERM and %d after, not with 200: %d, lost in flight: %d, turned"
              + " away on new connections: %d%n",
          before,
          answered.get() - before,
          refused.get(),
          lost.get(),
          turnedAway.get());
    }
  }
}
