package gelwright.api.http;

import gelwright.sheets.tree.Limits;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import java.time.Duration;
import org.hibernate.validator.constraints.time.DurationMin;

/**
 * How much the service takes on. None of them can be switched off.
 *
 * @param bodyBytes size of the body of a request; not of a stream
 * @param lineBytes size of one line of a stream
 * @param headerBytes size of the request line with all headers
 * @param depth how deep lists and mappings may stand inside one another
 * @param nodes how many scalars, lists, mappings and keys a document may have
 * @param textLength longest text or key, in characters
 * @param numberLength longest number, in characters
 * @param formulaParts how many ingredients a formula may have; as many steps, measurements,
 *     readings of one measurement and acceptances
 * @param idle how long nothing may arrive, or nothing be taken
 * @param receive how long a body, or a line of a stream, may take to arrive
 * @param bytesPerSecond least rate at which a body arrives and an answer is taken, after a grace of
 *     one idle time
 * @param evaluations how many evaluations run at once
 * @param waiting how many more may wait for their turn
 * @param budget how long one evaluation may take, with its wait
 * @param streams how many streams may be open
 * @param connections how many connections may be open
 * @param drain how long the service goes on when it is told to stop, so that balancers see it
 * @param stop how long what is under way may take after that
 */
public record Guards(
    @Min(1_024) @Max(16_777_216) int bodyBytes,
    @Min(1_024) @Max(16_777_216) int lineBytes,
    @Min(1_024) @Max(65_536) int headerBytes,
    @Min(6) @Max(200) int depth,
    @Min(100) @Max(1_000_000) int nodes,
    @Min(100) @Max(1_000_000) int textLength,
    @Min(10) @Max(1_000) int numberLength,
    @Min(10) @Max(10_000) int formulaParts,
    @DurationMin(millis = 1) Duration idle,
    @DurationMin(millis = 1) Duration receive,
    @Min(1) @Max(1_000_000_000) int bytesPerSecond,
    @Min(1) @Max(1_024) int evaluations,
    @Min(0) @Max(100_000) int waiting,
    @DurationMin(millis = 1) Duration budget,
    @Min(1) @Max(10_000) int streams,
    @Min(1) @Max(1_000_000) int connections,
    @DurationMin Duration drain,
    @DurationMin Duration stop) {
  /** How many problems are told before the rest is only counted. */
  private static final int PROBLEMS = 100;

  /** The guards that hold where nothing else is said. */
  public static Guards usual() {
    return new Guards(
        262_144,
        262_144,
        8_192,
        20,
        20_000,
        5_000,
        50,
        200,
        Duration.ofSeconds(15),
        Duration.ofSeconds(30),
        512,
        Runtime.getRuntime().availableProcessors(),
        256,
        Duration.ofSeconds(30),
        16,
        1_024,
        Duration.ofSeconds(2),
        Duration.ofSeconds(20));
  }

  /** Bounds of reading a body. */
  Limits document() {
    return new Limits(bodyBytes, depth, nodes, textLength, PROBLEMS);
  }

  /** Bounds of reading a line of a stream. */
  Limits line() {
    return document().withBytes(lineBytes);
  }
}
