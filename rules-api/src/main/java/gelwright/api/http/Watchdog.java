package gelwright.api.http;

import java.time.Duration;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.io.Connection;

/**
 * Closes connections whose other end has stopped: one that takes no answer, and one that sends its
 * headers a byte at a time so that it never falls idle.
 *
 * <p>It looks at all of them a few times within one idle time. A thread that is blocked in a write
 * wakes with an error when its connection is closed.
 */
final class Watchdog implements Connection.Listener, AutoCloseable {
  private final ScheduledExecutorService clock;
  private final long idle;
  private final Set<Writing> writing = ConcurrentHashMap.newKeySet();
  private final Map<Connection, Progress> connections = new ConcurrentHashMap<>();
  private final Set<Connection> busy = ConcurrentHashMap.newKeySet();

  private record Progress(long bytes, long since) {}

  /** An answer that is being written. */
  final class Writing {
    private final long until;
    private final Runnable close;

    private Writing(long until, Runnable close) {
      this.until = until;
      this.close = close;
    }

    void close() {
      writing.remove(this);
    }
  }

  Watchdog(Guards guards) {
    this.idle = guards.idle().toNanos();
    this.clock =
        Executors.newSingleThreadScheduledExecutor(
            task -> {
              Thread thread = new Thread(task, "watchdog");
              thread.setDaemon(true);
              return thread;
            });
    long pause = Math.max(TimeUnit.MILLISECONDS.toNanos(20), Math.min(idle / 4, 1_000_000_000L));
    ScheduledFuture<?> unused =
        clock.scheduleWithFixedDelay(this::look, pause, pause, TimeUnit.NANOSECONDS);
  }

  /** Watches a write until it is closed. */
  Writing write(Duration most, Runnable close) {
    Writing one = new Writing(System.nanoTime() + most.toNanos(), close);
    writing.add(one);
    return one;
  }

  private void look() {
    long now = System.nanoTime();
    writing.removeIf(one -> isOver(one, now));
    connections.replaceAll((connection, before) -> progress(connection, before, now));
  }

  private static boolean isOver(Writing one, long now) {
    boolean over = now - one.until > 0;
    if (over) {
      one.close.run();
    }
    return over;
  }

  private Progress progress(Connection connection, Progress before, long now) {
    long bytes = connection.getBytesIn();
    // Bytes came, and no request came of them: headers are under way.
    if (busy.contains(connection) || bytes <= before.bytes) {
      return new Progress(bytes, now);
    }
    if (now - before.since > idle) {
      connection.close();
    }
    return before;
  }

  /** A request has come on a connection. */
  void begun(Connection connection) {
    busy.add(connection);
  }

  /** Its answer is written. */
  void ended(Connection connection) {
    connections.replace(connection, new Progress(connection.getBytesIn(), System.nanoTime()));
    busy.remove(connection);
  }

  @Override
  public void onOpened(Connection connection) {
    connections.put(connection, new Progress(0, System.nanoTime()));
  }

  @Override
  public void onClosed(Connection connection) {
    connections.remove(connection);
    busy.remove(connection);
  }

  /** How many connections are open. */
  int open() {
    return connections.size();
  }

  @Override
  public void close() {
    clock.shutdownNow();
  }
}
