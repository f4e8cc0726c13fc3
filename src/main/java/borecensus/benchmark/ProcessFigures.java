package borecensus.benchmark;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;

/** What one process has used so far. */
final class ProcessFigures {
  private static final Path STATUS = Path.of("/proc/self/status");
  private static final String PEAK = "VmHWM:";
  private static final double KIB_PER_MIB = 1024;

  private ProcessFigures() {}

  /** Processor time and the peak of resident memory; NaN where the platform does not tell. */
  static List<Figure> of(String run) {
    return List.of(
        new Figure(run, Figure.WHOLE, "cpu_s", cpuSeconds()),
        new Figure(run, Figure.WHOLE, "peak_resident_mib", peakResidentMib()));
  }

  static double cpuSeconds() {
    return ProcessHandle.current()
        .info()
        .totalCpuDuration()
        .map(Duration::toMillis)
        .map(millis -> millis / 1e3)
        .orElse(Double.NaN);
  }

  /** Lets the next peak of the heap be that of what comes now. */
  static void forgetPeakHeap() {
    ManagementFactory.getMemoryPoolMXBeans().forEach(MemoryPoolMXBean::resetPeakUsage);
  }

  /** Sum of the heap pools' largest use since it was last forgotten: at least the true peak. */
  static double peakHeapMib() {
    return ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .map(MemoryPoolMXBean::getPeakUsage)
            .mapToDouble(usage -> usage.getUsed() / KIB_PER_MIB)
            .sum()
        / KIB_PER_MIB;
  }

  private static double peakResidentMib() {
    try {
      return Files.isReadable(STATUS)
          ? Files.readAllLines(STATUS).stream()
              .filter(line -> line.startsWith(PEAK))
              .mapToDouble(line -> Double.parseDouble(line.replaceAll("[^0-9]", "")) / KIB_PER_MIB)
              .findFirst()
              .orElse(Double.NaN)
          : Double.NaN;
    } catch (IOException notTold) {
      return Double.NaN;
    }
  }
}
