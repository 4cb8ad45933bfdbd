package gelwright.api.http;

import gelwright.formula.Formula;
import gelwright.reports.JsonReport;
import gelwright.review.Review;
import gelwright.sheets.tree.Document;
import gelwright.sheets.tree.Limits;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.OptionalInt;
import java.util.concurrent.Semaphore;
import java.util.function.Consumer;
import java.util.function.Supplier;

/**
 * Streams of reviews: a formula a line in, a review or a problem a line out, in order.
 *
 * <p>One thread serves a stream. It reads a line, hands it over to the evaluator and goes on, until
 * as many lines are under way as the window has; then it waits for the oldest, writes it, and reads
 * the next. So the lines are evaluated in parallel and written in order, no more than a window of
 * them is in memory, and a client that does not take its answers is not read from any more. When
 * nothing more has arrived, everything under way is finished and sent before the thread waits: a
 * client that sends one line and waits for its answer gets it.
 *
 * <p>A client that stops sending ends in the idle time of its connection, one that sends a line a
 * byte at a time in the time a line may take, one that stops reading in the watchdog of writes. A
 * line that has no room or no time in the evaluator gets a problem line like any other.
 */
final class ReviewStreams {
  private static final List<MediaType> FORMS = List.of(MediaType.NDJSON);

  private final KnowledgeStore store;
  private final Evaluator evaluator;
  private final Metrics metrics;
  private final Sheets sheets;
  private final Guards guards;
  private final Limits limits;
  private final Supplier<LocalDate> today;
  private final Consumer<Throwable> faults;
  private final Semaphore streams;
  private final int window;

  ReviewStreams(
      KnowledgeStore store,
      Evaluator evaluator,
      Metrics metrics,
      Guards guards,
      Semaphore streams,
      Supplier<LocalDate> today,
      Consumer<Throwable> faults) {
    this.store = store;
    this.evaluator = evaluator;
    this.metrics = metrics;
    this.sheets = new Sheets(guards);
    this.guards = guards;
    this.limits = guards.line();
    this.streams = streams;
    this.today = today;
    this.faults = faults;
    this.window = 4 * guards.evaluations();
  }

  /** A line whose answer is on its way, or there. */
  private record Under(int line, Supplier<byte[]> answer) {}

  void post(Exchange exchange) {
    MediaType form = MediaType.best(exchange.header("Accept"), FORMS);
    exchange.bodyType(FORMS);
    Reviews.Asked asked = Reviews.asked(exchange.query(Reviews.QUERY), today.get());
    if (!streams.tryAcquire()) {
      throw Trouble.of(
              ProblemType.FULL, "As many streams are open as are taken: " + guards.streams() + ".")
          .with("Retry-After", "5")
          .with("Connection", "close");
    }
    try {
      exchange.header("Cache-Control", "no-store");
      exchange.headerMore("Link", "</v1/schemas/review>; rel=\"describedby\"");
      run(exchange, asked, exchange.begin(form));
    } catch (IOException gone) {
      // The client is not there any more, and there is nobody to tell.
      exchange.gone();
    } finally {
      streams.release();
    }
  }

  private void run(Exchange exchange, Reviews.Asked asked, OutputStream out) throws IOException {
    Lines lines = new Lines(exchange.input(), guards);
    Deque<Under> under = new ArrayDeque<>();
    int number = 0;
    try {
      while (true) {
        if (!under.isEmpty() && lines.wouldWait()) {
          drain(exchange, under, out);
          flush(exchange, out);
        }
        Lines.Line line = lines.next();
        if (line.isEnd()) {
          break;
        }
        number++;
        if (!line.isBlank()) {
          under.add(take(line, number, asked));
          // Whatever is ready goes; the oldest is waited for only when the window is full.
          while (under.size() >= window) {
            write(exchange, under.remove(), out);
          }
        }
      }
      drain(exchange, under, out);
    } catch (IOException | RuntimeException problem) {
      // What was read before is answered; then the reason why nothing follows.
      drain(exchange, under, out);
      byte[] last = Json.problem(Exchange.unread(problem), OptionalInt.of(number + 1));
      write(exchange, new Under(number + 1, () -> last), out);
      exchange.closeAfterwards();
    }
    flush(exchange, out);
  }

  private void drain(Exchange exchange, Deque<Under> under, OutputStream out) throws IOException {
    while (!under.isEmpty()) {
      write(exchange, under.remove(), out);
    }
  }

  private static void write(Exchange exchange, Under one, OutputStream out) throws IOException {
    byte[] answer = one.answer().get();
    exchange.write(answer.length, () -> out.write(answer));
    exchange.count(answer.length);
  }

  private static void flush(Exchange exchange, OutputStream out) throws IOException {
    exchange.write(0, out::flush);
  }

  private Under take(Lines.Line line, int number, Reviews.Asked asked) {
    try {
      if (line.isTooLong()) {
        throw Trouble.of(
            ProblemType.TOO_LARGE, "At most " + guards.lineBytes() + " bytes of a line are read.");
      }
      KnowledgeStore.Snapshot knowledge = store.current();
      Evaluator.Pending<byte[]> pending =
          evaluator.later(() -> review(line.bytes(), asked, knowledge));
      return new Under(
          number,
          () -> {
            try {
              return pending.await(evaluator.budget());
            } catch (Trouble trouble) {
              return Json.problem(trouble, OptionalInt.of(number));
            } catch (IllegalStateException fault) {
              faults.accept(fault);
              return Json.problem(
                  Trouble.of(ProblemType.INTERNAL, ProblemType.INTERNAL.meaning()),
                  OptionalInt.of(number));
            }
          });
    } catch (Trouble trouble) {
      byte[] answer = Json.problem(trouble, OptionalInt.of(number));
      return new Under(number, () -> answer);
    }
  }

  private byte[] review(byte[] line, Reviews.Asked asked, KnowledgeStore.Snapshot knowledge)
      throws IOException {
    Formula formula = sheets.formula(line, Document.Format.JSON, limits);
    Review review = knowledge.reviewer().review(formula, asked.on(), asked.include());
    metrics.reviewed(review);
    ByteArrayOutputStream out = new ByteArrayOutputStream(32_768);
    JsonReport.compact().write(review, out);
    return out.toByteArray();
  }

  /** Whether a line has nothing in it but spaces. */
  static boolean isBlank(byte[] line) {
    return new String(line, StandardCharsets.ISO_8859_1).isBlank();
  }
}
