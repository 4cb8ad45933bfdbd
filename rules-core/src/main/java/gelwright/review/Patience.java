package gelwright.review;

import java.util.concurrent.CancellationException;

/** Long searches end when their thread is interrupted: nobody waits for the answer any more. */
final class Patience {
  private Patience() {}

  /**
   * Goes on, or ends the search.
   *
   * @throws CancellationException when the thread was interrupted
   */
  static void check() {
    if (Thread.currentThread().isInterrupted()) {
      throw new CancellationException("interrupted while looking for remedies or headroom");
    }
  }
}
