package borecensus.night;

import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;

/**
 * Work of a night that goes on beside its other work: a step whose tasks are few, or whose driver
 * is busy, leaves processors idle that another can use. What it does must not depend on the other.
 */
final class SideWork<T> {
  private final FutureTask<T> task;

  private SideWork(FutureTask<T> task) {
    this.task = task;
  }

  /** Something that takes a while and gives a value. */
  interface Work<T> {
    T done();
  }

  /**
   * Begins work, in a thread of its own; its jobs belong to the present step.
   *
   * @param name of the thread
   */
  static <T> SideWork<T> begin(String name, Work<T> work) {
    SideWork<T> side = new SideWork<>(new FutureTask<>(work::done));
    Thread thread = new Thread(side.task, name);
    // A night that has failed elsewhere does not wait for it.
    thread.setDaemon(true);
    thread.start();
    return side;
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
}
