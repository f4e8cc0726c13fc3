package borecensus.night;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A browser of this machine, driven from outside: the pages themselves need no script. */
final class Browser {
  private static final long MOST_SECONDS = 180;

  private final Path executable;

  private Browser(Path executable) {
    this.executable = executable;
  }

  /** What a browser made of some pages: one line a page, and what it complained of. */
  record Seen(List<String> lines, List<String> complaints) {}

  /** The first browser of the usual names on the search path. */
  static Optional<Browser> find() {
    List<String> names = List.of("chromium", "chromium-browser", "google-chrome", "chrome");
    return Stream.of(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator))
        .flatMap(folder -> names.stream().map(name -> Path.of(folder, name)))
        .filter(Files::isExecutable)
        .findFirst()
        .map(Browser::new);
  }

  /**
   * Opens pages one after the other in a frame of this width.
   *
   * @return for each page its name and by how many pixels it is wider than the frame
   */
  Seen overflow(Path folder, List<String> pages, int widthPx) throws Exception {
    HttpServer server =
        HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/measure", answer -> send(answer, measuring(pages, widthPx)));
    server.createContext("/report/", answer -> send(answer, page(folder, answer)));
    server.start();
    try {
      return run("http://127.0.0.1:" + server.getAddress().getPort() + "/measure");
    } finally {
      server.stop(0);
    }
  }

  private static byte[] page(Path folder, HttpExchange asked) throws IOException {
    return Files.readAllBytes(
        folder.resolve(asked.getRequestURI().getPath().substring("/report/".length())));
  }

  private static void send(HttpExchange answer, byte[] body) throws IOException {
    answer.getResponseHeaders().set("Content-Type", "text/html; charset=utf-8");
    answer.sendResponseHeaders(200, body.length);
    answer.getResponseBody().write(body);
    answer.close();
  }

  private static byte[] measuring(List<String> pages, int widthPx) {
    String names = pages.stream().map(p -> "'" + p + "'").collect(Collectors.joining(","));
    return """
        <!DOCTYPE html><title>measure</title><link rel="icon" href="data:,">
        <iframe id="frame" width="%d" height="800" frameborder="0"></iframe><pre id="seen"></pre>
        <script>
        const pages = [%s], frame = document.getElementById('frame');
        let next = 0;
        const advance = () => { if (next < pages.length) { frame.src = '/report/' + pages[next++]; } };
        frame.onload = () => {
          const root = frame.contentDocument.documentElement;
          document.getElementById('seen').textContent +=
            '\\nseen ' + pages[next - 1] + ' ' + (root.scrollWidth - root.clientWidth);
          advance();
        };
        advance();
        </script>"""
        .formatted(widthPx, names)
        .getBytes(StandardCharsets.UTF_8);
  }

  private Seen run(String address) throws IOException, InterruptedException {
    Path profile = Files.createTempDirectory("browser");
    Path out = profile.resolve("out.txt");
    Path err = profile.resolve("err.txt");
    Process process =
        new ProcessBuilder(
                executable.toString(),
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                "--disable-background-networking",
                "--user-data-dir=" + profile.resolve("profile"),
                "--enable-logging=stderr",
                "--virtual-time-budget=100000",
                "--dump-dom",
                address)
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    if (!process.waitFor(MOST_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new IOException("the browser did not end");
    }
    return new Seen(
        Files.readString(out).lines().filter(line -> line.matches("seen \\S+ .*")).toList(),
        Files.readString(err).lines().filter(line -> line.contains("CONSOLE")).toList());
  }
}
