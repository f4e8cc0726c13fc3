package borecensus.night;

/**
 * What the tasks of one step of a night came to.
 *
 * @param step as in {@link NightProgress#begins}
 * @param taskCpuSeconds processor time of tasks; what the driver computes is not in it
 * @param rowsRead from files, kept intermediate results included
 * @param bytesRead likewise
 * @param rowsWritten to files
 * @param bytesWritten likewise
 * @param shuffleBytes moved between partitions
 * @param spilledBytes put aside on disk for want of memory
 */
public record StepWork(
    String step,
    long tasks,
    double taskCpuSeconds,
    long rowsRead,
    long bytesRead,
    long rowsWritten,
    long bytesWritten,
    long shuffleBytes,
    long spilledBytes) {

  static StepWork none(String step) {
    return new StepWork(step, 0, 0, 0, 0, 0, 0, 0, 0);
  }

  StepWork plus(StepWork other) {
    return new StepWork(
        step,
        tasks + other.tasks,
        taskCpuSeconds + other.taskCpuSeconds,
        rowsRead + other.rowsRead,
        bytesRead + other.bytesRead,
        rowsWritten + other.rowsWritten,
        bytesWritten + other.bytesWritten,
        shuffleBytes + other.shuffleBytes,
        spilledBytes + other.spilledBytes);
  }
}
