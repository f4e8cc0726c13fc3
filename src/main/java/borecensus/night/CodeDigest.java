package borecensus.night;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

/** A digest of this software itself: what one build has handed on means nothing to another. */
final class CodeDigest {
  private CodeDigest() {}

  static String get() {
    try {
      Path code =
          Path.of(CodeDigest.class.getProtectionDomain().getCodeSource().getLocation().toURI());
      MessageDigest digest = FleetFiles.sha256();
      try (Stream<Path> files = Files.walk(code)) {
        List<Path> inOrder = files.filter(Files::isRegularFile).sorted().toList();
        for (Path file : inOrder) {
          digest.update(code.relativize(file).toString().getBytes(StandardCharsets.UTF_8));
          digest.update(Files.readAllBytes(file));
        }
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    } catch (URISyntaxException impossible) {
      throw new IllegalStateException(impossible);
    }
  }
}
