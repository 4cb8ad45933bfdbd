package gelwright.api.http;

import java.time.Duration;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;

/**
 * Runs evaluations on as many threads as there is work for a processor, whatever threads the
 * requests come on, and takes on no more than a bounded number of them.
 *
 * <p>Work that is given up is interrupted. A search for remedies or headroom ends at its next step;
 * a single review hears nothing of it. Either keeps its place until it ends, so that the bound
 * holds; the limits on the size of a formula keep that short.
 */
final class Evaluator implements AutoCloseable {
  private final ExecutorService threads;
  private final Semaphore places;
  private final Duration budget;
  private final int most;
  private final AtomicInteger running = new AtomicInteger();

  Evaluator(Guards guards) {
    AtomicInteger number = new AtomicInteger();
    this.threads =
        Executors.newFixedThreadPool(
            guards.evaluations(),
            task -> {
              Thread thread = new Thread(task, "evaluation-" + number.incrementAndGet());
              thread.setDaemon(true);
              return thread;
            });
    this.most = guards.evaluations() + guards.waiting();
    this.places = new Semaphore(most, true);
    this.budget = guards.budget();
  }

  /** How many run. */
  int running() {
    return running.get();
  }

  /** How many wait for their turn. */
  int waiting() {
    return Math.max(0, most - places.availablePermits() - running.get());
  }

  /** Runs it and waits; refuses at once when there is no place. */
  <T> T now(Callable<T> work) {
    if (!places.tryAcquire()) {
      throw Trouble.of(
              ProblemType.FULL,
              "All places are taken; " + most + " requests are evaluated or wait.")
          .with("Retry-After", "1");
    }
    return start(work).await(budget);
  }

  /**
   * Runs it as soon as there is a place; waits for a place no longer than an evaluation may take.
   */
  <T> Pending<T> later(Callable<T> work) {
    boolean place;
    try {
      place = places.tryAcquire(budget.toNanos(), TimeUnit.NANOSECONDS);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw tooLong();
    }
    if (!place) {
      throw tooLong();
    }
    return start(work);
  }

  private <T> Pending<T> start(Callable<T> work) {
    Pending<T> pending = new Pending<>(new CompletableFuture<>(), new Worker());
    try {
      threads.execute(() -> run(work, pending));
    } catch (RuntimeException stopped) {
      places.release();
      throw Trouble.of(ProblemType.STOPPING, "The service takes nothing new.")
          .with("Retry-After", "5");
    }
    return pending;
  }

  private <T> void run(Callable<T> work, Pending<T> pending) {
    running.incrementAndGet();
    try {
      if (pending.worker.begins()) {
        pending.result.complete(work.call());
      }
    } catch (Exception | StackOverflowError | OutOfMemoryError problem) {
      pending.result.completeExceptionally(problem);
    } finally {
      pending.worker.ends();
      running.decrementAndGet();
      places.release();
    }
  }

  /** The thread of an evaluation while it runs, so that it can be told to give up. */
  private static final class Worker {
    private @Nullable Thread thread;
    private boolean abandoned;

    /** Whether anybody still waits for it. */
    synchronized boolean begins() {
      thread = Thread.currentThread();
      return !abandoned;
    }

    synchronized void ends() {
      thread = null;
      // Whoever gave it up may have done so at the last moment.
      boolean unused = Thread.interrupted();
    }

    synchronized void abandon() {
      abandoned = true;
      if (thread != null) {
        thread.interrupt();
      }
    }
  }

  /** An evaluation that was taken on. */
  record Pending<T>(CompletableFuture<T> result, Worker worker) {
    boolean isDone() {
      return result.isDone();
    }

    T await(Duration most) {
      try {
        return result.get(most.toNanos(), TimeUnit.NANOSECONDS);
      } catch (TimeoutException late) {
        worker.abandon();
        throw tooLong();
      } catch (InterruptedException interrupted) {
        worker.abandon();
        Thread.currentThread().interrupt();
        throw tooLong();
      } catch (ExecutionException failed) {
        if (failed.getCause() instanceof Trouble trouble) {
          throw trouble;
        }
        throw new IllegalStateException("an evaluation failed", failed.getCause());
      }
    }
  }

  Duration budget() {
    return budget;
  }

  private static Trouble tooLong() {
    return Trouble.of(
            ProblemType.TOO_LONG_TO_EVALUATE, "The evaluation did not end within its time.")
        .with("Retry-After", "2");
  }

  @Override
  public void close() {
    threads.shutdown();
  }
}
