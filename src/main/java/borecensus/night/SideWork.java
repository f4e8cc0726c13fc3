package borecensus.night;

import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.function.Supplier;

/**
 * Work of a night that goes on beside its other work: a step whose tasks are few, or whose driver
 * is busy, leaves processors idle that another can use. What it does must not depend on the other.
 */
final class SideWork<T> implements AutoCloseable {
  private final FutureTask<T> task;
  private final Thread thread;

  private SideWork(FutureTask<T> task, Thread thread) {
    this.task = task;
    this.thread = thread;
  }

  /**
   * Begins work, in a thread of its own; its jobs belong to the present step.
   *
   * @param name of the thread
   */
  static <T> SideWork<T> begin(String name, Supplier<T> work) {
    FutureTask<T> task = new FutureTask<>(work::get);
    Thread thread = new Thread(task, name);
    thread.setDaemon(true);
    thread.start();
    return new SideWork<>(task, thread);
  }

  /**
   * Waits for the end of the work; what went wrong with it goes wrong here.
   *
   * @return what it has come to
   */
  T end() {
    try {
      return task.get();
    } catch (ExecutionException failure) {
      if (failure.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      if (failure.getCause() instanceof Error cause) {
        throw cause;
      }
      throw new IllegalStateException(failure.getCause());
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("the night was interrupted", stopped);
    }
  }

  /**
   * Stops the work if it goes on still, since the night has failed elsewhere, and waits until it
   * has stopped: nothing may write to the store once another run may hold it.
   */
  @Override
  public void close() {
    thread.interrupt();
    try {
      thread.join();
    } catch (InterruptedException stopped) {
      Thread.currentThread().interrupt();
    }
  }
}
