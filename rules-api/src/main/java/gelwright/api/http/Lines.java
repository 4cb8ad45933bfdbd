package gelwright.api.http;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;

/** Lines of a stream, each within its size and time. */
final class Lines {
  private final InputStream in;
  private final Guards guards;
  private final byte[] buffer = new byte[16_384];
  private int at;
  private int end;
  private boolean atEnd;

  Lines(InputStream in, Guards guards) {
    this.in = in;
    this.guards = guards;
  }

  /**
   * A line.
   *
   * @param bytes without the line feed
   * @param isTooLong whether it was longer than is read; then it has no bytes
   * @param isEnd whether there is none
   */
  // Lines are read and passed on, never compared.
  @SuppressWarnings("ArrayRecordComponent")
  record Line(byte[] bytes, boolean isTooLong, boolean isEnd) {
    boolean isBlank() {
      return !isTooLong && ReviewStreams.isBlank(bytes);
    }
  }

  /** Whether the next line is not here yet in full. */
  boolean wouldWait() throws IOException {
    if (atEnd) {
      return false;
    }
    for (int i = at; i < end; i++) {
      if (buffer[i] == '\n') {
        return false;
      }
    }
    return in.available() == 0;
  }

  /** The next line; waits for it. */
  Line next() throws IOException {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    boolean tooLong = false;
    long begun = 0;
    long bytes = 0;
    while (true) {
      int from = at;
      while (at < end && buffer[at] != '\n') {
        at++;
      }
      bytes += at - from;
      if (!tooLong) {
        line.write(buffer, from, at - from);
        if (line.size() > guards.lineBytes()) {
          tooLong = true;
          line.reset();
        }
      }
      if (at < end) {
        at++;
        return new Line(line.toByteArray(), tooLong, false);
      }
      if (atEnd) {
        return new Line(line.toByteArray(), tooLong, bytes == 0);
      }
      if (bytes > 0) {
        // A line that has begun has to end in time; between lines only the idle time counts.
        begun = begun == 0 ? System.nanoTime() : begun;
        if (System.nanoTime() - begun > guards.receive().toNanos()) {
          throw Trouble.of(ProblemType.TOO_SLOW, "The line did not arrive in time.");
        }
      }
      int read = in.read(buffer, 0, buffer.length);
      atEnd = read < 0;
      at = 0;
      end = Math.max(0, read);
    }
  }
}
