package borecensus.night;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BooleanSupplier;
import java.util.jar.JarEntry;
import java.util.jar.JarOutputStream;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A standalone Spark cluster of real processes on the loopback device: a master and workers with
 * one core each. Their class path is Spark's own, so that whatever else a night needs must have
 * been sent to them.
 */
final class StandaloneCluster implements AutoCloseable {
  /** Libraries of ours that a plain Spark does not have, by the start of their files' names. */
  private static final List<String> NOT_IN_SPARK =
      List.of("picocli-", "fastcsv-", "compiler-", "duckdb_jdbc-");

  private static final Pattern MASTER_URL = Pattern.compile("spark://127\\.0\\.0\\.1:\\d+");
  private static final Duration PATIENCE = Duration.ofMinutes(2);

  private final Path folder;
  private final Path jar;
  private final List<Path> libraries = new ArrayList<>();
  private final List<Process> processes = new ArrayList<>();
  private final List<Process> workers = new ArrayList<>();
  private final String url;

  /** Starts the processes; what they write stands in the folder. */
  StandaloneCluster(Path folder, int workerCount) throws IOException {
    this.folder = folder;
    Path sparkJars = Files.createDirectories(folder.resolve("jars"));
    for (Path entry : classPath()) {
      String name = entry.getFileName().toString();
      if (NOT_IN_SPARK.stream().anyMatch(name::startsWith)) {
        libraries.add(entry);
      } else if (name.endsWith(".jar") && Files.isRegularFile(entry)) {
        Files.createSymbolicLink(sparkJars.resolve(name), entry);
      }
    }
    jar = jarOf(placeOf(NightlyJob.class), folder.resolve("borecensus.jar"));
    startSpark(
        "master", "master.Master", "--host", "127.0.0.1", "--port", "0", "--webui-port", "0");
    url = masterUrl();
    for (int i = 1; i <= workerCount; i++) {
      workers.add(startWorker("worker-" + processes.size()));
    }
  }

  /** The address of the master. */
  String url() {
    return url;
  }

  /** Runs a command of ours as any Java program, the way the launchers do. */
  Process runDirectly(String name, String... arguments) throws IOException {
    String all =
        Stream.concat(Stream.of(jar), libraries.stream())
            .map(Path::toString)
            .collect(Collectors.joining(":", "", ":" + sparkClassPath()));
    List<String> command = java(all, "borecensus.command.Main");
    command.addAll(List.of(arguments));
    return start(name, command, Map.of("SPARK_MASTER_URL", url));
  }

  /** Runs a command of ours through {@code spark-submit}. */
  Process submit(String name, String... arguments) throws IOException {
    String sent = libraries.stream().map(Path::toString).collect(Collectors.joining(","));
    List<String> command = java(sparkClassPath(), "org.apache.spark.deploy.SparkSubmit");
    command.addAll(List.of("--master", url, "--jars", sent));
    command.addAll(List.of("--class", "borecensus.command.Main", jar.toString()));
    command.addAll(List.of(arguments));
    return start(name, command, Map.of());
  }

  /** How many processes a worker has started for the applications on it. */
  long executorsOf(int worker) {
    return workers.get(worker).descendants().count();
  }

  /** Ends a worker and all that runs on it at once, as a machine that loses power does. */
  void kill(int worker) {
    Process process = workers.get(worker);
    List<ProcessHandle> executors = process.descendants().toList();
    process.destroyForcibly();
    executors.forEach(ProcessHandle::destroyForcibly);
  }

  /** Starts another worker in the place of one that was killed. */
  void replace(int worker) throws IOException {
    workers.set(worker, startWorker("worker-" + processes.size()));
  }

  /** What a process has written so far. */
  String log(String name) {
    try {
      Path log = folder.resolve(name + ".log");
      return Files.exists(log) ? Files.readString(log) : "";
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
  }

  /** Waits until something is so; {@code false} when the process has ended before. */
  static boolean waitUntil(BooleanSupplier so, Process whileAlive) {
    long end = System.nanoTime() + PATIENCE.toNanos();
    while (!so.getAsBoolean()) {
      if (!whileAlive.isAlive()) {
        return false;
      }
      if (System.nanoTime() > end) {
        throw new IllegalStateException("waited in vain for " + PATIENCE);
      }
      pause();
    }
    return true;
  }

  /** Ends all processes and takes the links to libraries away. */
  @Override
  public void close() throws IOException {
    List<ProcessHandle> all =
        processes.stream()
            .flatMap(p -> Stream.concat(p.descendants(), Stream.of(p.toHandle())))
            .toList();
    all.forEach(ProcessHandle::destroyForcibly);
    all.forEach(process -> process.onExit().join());
    try (Stream<Path> links = Files.list(folder.resolve("jars"))) {
      for (Path link : (Iterable<Path>) links::iterator) {
        Files.delete(link);
      }
    }
  }

  private Process startWorker(String name) throws IOException {
    String work = Files.createDirectories(folder.resolve(name)).toString();
    return startSpark(
        name,
        "worker.Worker",
        "--host",
        "127.0.0.1",
        "--port",
        "0",
        "--webui-port",
        "0",
        "--cores",
        "1",
        "--memory",
        "1g",
        "--work-dir",
        work,
        url);
  }

  private Process startSpark(String name, String type, String... arguments) throws IOException {
    List<String> command = java(sparkClassPath(), "org.apache.spark.deploy." + type);
    command.addAll(List.of(arguments));
    return start(name, command, Map.of());
  }

  private Process start(String name, List<String> command, Map<String, String> more)
      throws IOException {
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    builder.redirectOutput(folder.resolve(name + ".log").toFile());
    Map<String, String> environment = new TreeMap<>(builder.environment());
    environment.keySet().removeIf(key -> key.startsWith("SPARK_"));
    environment.put("JAVA_HOME", System.getProperty("java.home"));
    environment.put("SPARK_HOME", folder.toString());
    environment.put("SPARK_SCALA_VERSION", "2.13");
    environment.put("SPARK_LOCAL_IP", "127.0.0.1");
    environment.put("SPARK_LOCAL_DIRS", folder.resolve("scratch").toString());
    environment.putAll(more);
    builder.environment().clear();
    builder.environment().putAll(environment);
    Process process = builder.start();
    processes.add(process);
    return process;
  }

  private static List<String> java(String classPath, String main) {
    return new ArrayList<>(
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx1g",
            "-XX:+UseSerialGC",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            classPath,
            main));
  }

  private String sparkClassPath() {
    return folder.resolve("jars").resolve("*").toString();
  }

  private String masterUrl() {
    waitUntil(() -> MASTER_URL.matcher(log("master")).find(), processes.get(0));
    Matcher found = MASTER_URL.matcher(log("master"));
    if (!found.find()) {
      throw new IllegalStateException("the master has not started:\n" + log("master"));
    }
    return found.group();
  }

  private static List<Path> classPath() {
    return Arrays.stream(System.getProperty("java.class.path").split(":")).map(Path::of).toList();
  }

  private static Path placeOf(Class<?> type) {
    try {
      URI place = type.getProtectionDomain().getCodeSource().getLocation().toURI();
      return Path.of(place);
    } catch (URISyntaxException impossible) {
      throw new IllegalStateException(impossible);
    }
  }

  /** Tests run before the jar is made: the same classes, packed here. */
  private static Path jarOf(Path classes, Path target) throws IOException {
    try (OutputStream out = Files.newOutputStream(target);
        JarOutputStream packed = new JarOutputStream(out);
        Stream<Path> files = Files.walk(classes)) {
      for (Path file : (Iterable<Path>) files.filter(Files::isRegularFile)::iterator) {
        packed.putNextEntry(new JarEntry(classes.relativize(file).toString()));
        Files.copy(file, packed);
        packed.closeEntry();
      }
    }
    return target;
  }

  private static void pause() {
    try {
      Thread.sleep(10);
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(interrupted);
    }
  }
}
