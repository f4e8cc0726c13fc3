package borecensus.benchmark;

import java.lang.management.ManagementFactory;
import java.util.Locale;

/**
 * Where the figures were taken.
 *
 * @param processors that this process may use
 * @param memoryGib of the machine
 * @param load processes that wanted a processor during the last minute when all was done; NaN where
 *     not told
 */
record Machine(String platform, String java, int processors, double memoryGib, double load) {

  static Machine now() {
    var system = ManagementFactory.getOperatingSystemMXBean();
    double memoryGib =
        system instanceof com.sun.management.OperatingSystemMXBean known
            ? known.getTotalMemorySize() / (double) (1L << 30)
            : Double.NaN;
    double load = system.getSystemLoadAverage();
    return new Machine(
        system.getName() + " " + system.getArch(),
        System.getProperty("java.vm.name") + " " + Runtime.version().feature(),
        system.getAvailableProcessors(),
        memoryGib,
        load < 0 ? Double.NaN : load);
  }

  String line() {
    return String.format(
        Locale.ROOT,
        "%s, %s, %d processors, %.0f GiB of memory, load average %.1f at the end",
        platform,
        java,
        processors,
        memoryGib,
        load);
  }
}
